"""The top level: which lines open which blocks, in which order."""

from collections.abc import Sequence

from halfhank.grammar.language import FACTS, HEADERS, BlockKind
from halfhank.grammar.lines.line_reader import accepted, first_word, guessed_word
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.reading.block_body import parsed
from halfhank.grammar.reading.parse_context import Branch, ParseContext
from halfhank.grammar.record import NamedTuple
from halfhank.grammar.source_text.indentation import LineNode, SourceLine

_GUESSED_BY = 5


class Block(NamedTuple):
    """One block: its kind, the header's line and tree (None: not understood), and its lines."""

    kind: BlockKind
    source: SourceLine
    tree: Branch | None
    lines: list[LineNode]

    @property
    def span(self) -> Span:
        return self.source.span


class Blocks(NamedTuple):
    """All blocks in the order of the file. `unsure`: some line belongs to no known block."""

    all: list[Block]
    unsure: bool

    def of(self, name: str) -> list[Block]:
        """The blocks of one kind, by its name."""
        return [block for block in self.all if block.kind.name == name]


def find_blocks(context: ParseContext, roots: list[LineNode]) -> Blocks:
    """Sort the lines of the top level into blocks; wrong, empty, doubled and misplaced headers are reported."""
    found: list[Block] = []
    unsure = False
    spared: set[int] = set()  # blocks that a line of no known kind may belong to
    kinds: set[str] = set()
    for line in roots:
        if context.should_stop:
            unsure = True
            break
        if _is_misplaced_fact(line, found):
            unsure |= not _take_misplaced(context, line, found)
            continue
        tree = parsed(context, line.source, "header")
        kind = _kind(line, kinds)
        if guessed_word(line.source, "header") is None:
            spared.update(block.source.number for block in found[-1:])
        if kind:
            kinds.add(kind.name)
            found.append(Block(kind, line.source, tree, list(line.children)))
        else:
            unsure = True
    _report_empty(context, [block for block in found if block.source.number not in spared])
    _report_order(context, _without_doubles(context, found))
    return Blocks(found, unsure)


def _kind(line: LineNode, found: set[str]) -> BlockKind | None:
    """The kind of a header, misspelt or not; by the lines under it where the word itself says nothing."""
    word = "bind" if line.source.code.startswith("cast off") else guessed_word(line.source, "header")
    if word is not None:
        return HEADERS[word]
    return _best_fitting(line.children, found) if line.children else None


def _best_fitting(lines: list[LineNode], found: set[str]) -> BlockKind | None:
    """The kind of block that most lines make sense in, rather one that there may still be; None where none do."""
    fitting = {word: _fitting(lines, kind.start) for word, kind in HEADERS.items() if kind.facts}
    best = max(fitting, key=lambda word: (fitting[word], HEADERS[word].many or HEADERS[word].name not in found))
    return HEADERS[best] if fitting[best] else None


def _fitting(lines: list[LineNode], start: str) -> int:
    """How many of the first lines say something in this kind of block."""
    return sum(accepted(line.source, start) for line in lines[:_GUESSED_BY])


def _is_misplaced_fact(line: LineNode, found: list[Block]) -> bool:
    """Whether a line of the top level is a fact of some block."""
    word, source = first_word(line.source), line.source
    if word in HEADERS or source.code.startswith("cast off"):
        return False
    homes = [start for start, facts in FACTS.items() if word in facts]
    if homes and (not line.children or any(accepted(source, start) for start in homes)):
        return True
    return bool(found) and found[-1].kind.name == "part" and accepted(source, "in_part")


def _take_misplaced(context: ParseContext, line: LineNode, found: list[Block]) -> bool:
    """Report a fact that is not indented, and give it to the block above if it belongs there."""
    source = line.source
    if source.number not in context.reported_lines:
        context.reported_lines.add(source.number)
        context.report(_not_indented(source, found))
    if not found or not found[-1].kind.facts:
        return False
    start = found[-1].kind.start
    if not (first_word(source) in FACTS[start] or accepted(source, start)):
        return False
    if first_word(source) == "repeat":
        found[-1].lines.append(line)
    else:
        found[-1].lines.extend([LineNode(source, []), *line.children])
    return True


def _not_indented(source: SourceLine, found: list[Block]) -> Problem:
    """The problem of a fact at the left margin: it belongs to the block above, or to another kind of block."""
    word = first_word(source)
    homes = [kind.name for kind in HEADERS.values() if any(word in fact.words for fact in kind.facts)]
    if not homes or (found and found[-1].kind.name in homes) or "part" in homes:
        return known.NOT_INDENTED.at(source.span, word=word)
    if homes == ["stitch"]:
        return known.NOT_INDENTED_OF_STITCH.at(source.span, word=word)
    return known.NOT_INDENTED_OF_OTHER_BLOCK.at(source.span, word=word, home=homes[0])


def _report_empty(context: ParseContext, found: list[Block]) -> None:
    for block in found:
        known_faulty = block.source.number in context.reported_lines
        if not block.lines and not block.kind.may_be_empty and block.tree is not None and not known_faulty:
            context.report(known.EMPTY_BLOCK.at(block.span, block=block.kind.name))


def _without_doubles(context: ParseContext, found: list[Block]) -> list[Block]:
    """The blocks without second ones, which are reported."""
    first: dict[str, int] = {}
    kept = []
    for block in found:
        name = block.kind.name
        if name in first and not block.kind.many:
            if block.source.number in context.reported_lines:
                continue
            context.report(known.DUPLICATE_BLOCK.at(block.span, block=name, line=first[name]))
        else:
            first.setdefault(name, block.source.number)
            kept.append(block)
    return kept


def _report_order(context: ParseContext, found: list[Block]) -> None:
    """Report the fewest blocks whose move would put all in order."""
    settled = _settled([block.kind for block in found])
    for index, block in enumerate(found):
        if index not in settled:
            context.report(known.MISPLACED_BLOCK.at(block.span, place=block.kind.place.format(block.kind.name)))


def _settled(kinds: Sequence[BlockKind]) -> set[int]:
    """The indices of the weightiest subsequence whose ranks never fall."""
    tops = [(0.0, -1)] * len(HEADERS)  # by rank: weight and last index of the best chain that ends in it
    before: list[int] = []
    for index, kind in enumerate(kinds):
        weight, last = max(tops[: kind.rank + 1])
        before.append(last)
        tops[kind.rank] = (weight + kind.weight, index)
    settled: set[int] = set()
    last = max(tops)[1]
    while last >= 0:
        settled.add(last)
        last = before[last]
    return settled
