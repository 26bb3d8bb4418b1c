"""The lines inside one block, read into facts by key."""

from typing import Any

from halfhank.grammar.language import FACT_OF_RULE, FACTS, FactKind
from halfhank.grammar.lines.line_reader import first_word, guessed_word, read_line, row_problem
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.reading.facts import FACT_BUILDERS
from halfhank.grammar.reading.parse_context import Branch, ParseContext
from halfhank.grammar.source_text.indentation import MAX_LINE, LineNode, SourceLine


def parsed(context: ParseContext, source: SourceLine, start: str) -> Branch | None:
    """The tree of a line, corrected if a correction is known; its mistake of grammar is reported, one for each line."""
    context.line = source.number
    if len(source.raw) > MAX_LINE:
        return None
    tree, problem = read_line(source, start, context.shape)
    if problem and source.number not in context.reported_lines:
        context.reported_lines.add(source.number)
        context.problems.append(problem)
    return tree


_MOST_LOOKED_AT = 20


class BlockBody:
    """The facts of one block.

    `found` has the records of the lines without mistakes, `seen` the keys of all lines, `broken` those of lines with
    mistakes. `unsure`: nobody knows which fact a line was to be, so that none may be called missing.
    """

    def __init__(self, context: ParseContext) -> None:
        self.found: dict[str, list[Any]] = {}
        self.seen: dict[str, Span] = {}
        self.broken: set[str] = set()
        self.unsure = False
        self._context = context

    def get(self, key: str) -> Any:
        """The one record of a key, None without."""
        return self.found.get(key, [None])[0]

    def all(self, key: str) -> tuple[Any, ...]:
        """All records of a key in the order of the file."""
        return tuple(self.found.get(key, ()))

    def lacks(self, key: str) -> bool:
        """Whether a fact is missing, and no mistake explains it, here or in another block."""
        misplaced = self._context.misplaced_words
        elsewhere = {facts[word].key for word in misplaced for facts in FACTS.values() if word in facts}
        return key not in self.seen and key not in elsewhere and not self.unsure

    def read(self, lines: list[LineNode], start: str) -> "BlockBody":
        """Read all lines by the start rule of the block."""
        for line in lines:
            if self._context.should_stop:
                self.unsure = True
                break
            self._read(line.source, start)
        return self

    def _read(self, source: SourceLine, start: str) -> None:
        tree = parsed(self._context, source, start)
        if tree is None:
            word = guessed_word(source, start)
            self._context.misplaced_words.add(first_word(source))
            self.fail(FACTS[start][word].key if word else None, source.span)
            return
        fact = FACT_OF_RULE[tree.data]
        before = len(self._context.problems)
        record = FACT_BUILDERS[tree.data](self._context, tree, source.span)
        if tree.data == "row":
            self._say_as_one(source, before)
        if self.claim(fact, source) and self._context.is_clean(before):
            self.found.setdefault(fact.key, []).append(record)
        else:
            self.broken.add(fact.key)

    def _say_as_one(self, source: SourceLine, before: int) -> None:
        """One problem in place of several unknown items, where the row is known as the trade writes it."""
        problems = self._context.problems
        if len(problems) - before > 1:
            problem = row_problem(source) or self._term(source, problems[before : before + _MOST_LOOKED_AT])
            problems[before:] = [problem] if problem else problems[before:]

    def _term(self, source: SourceLine, problems: list[Problem]) -> Problem | None:
        """The problem of a term in several words that stands at the place of a problem, None without."""
        from halfhank.grammar.lines.unknown_terms import term_at

        found = (term_at(source.code, problem.span.column) for problem in problems if problem.span)
        for term, first, last in filter(None, found):
            span = Span(source.number, first + 1, last + 1)
            return known.UNKNOWN_ITEM_NOT_KNOWN.at(span, term=term.name, mend=term.instead)
        return None

    def fail(self, key: str | None, span: Span) -> None:
        """Note a line that could not be read."""
        if key is None:
            self.unsure = True
        else:
            self.broken.add(key)
            self.seen.setdefault(key, span)

    def claim(self, fact: FactKind, source: SourceLine) -> bool:
        """Note a fact; one that comes a second time is reported."""
        if fact.key in self.seen and not fact.many:
            kind = known.DUPLICATE_FACT_OF_START if fact.key == "start" else known.DUPLICATE_FACT
            self._context.report(kind.at(source.span, line=self.seen[fact.key].line))
            return False
        self.seen.setdefault(fact.key, source.span)
        return True
