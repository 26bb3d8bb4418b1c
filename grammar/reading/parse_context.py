"""What all readers of one description share: the problems found so far, and the line that is being read."""

from halfhank.grammar.problems.problem import MOST_COUNTED, Problem, Span
from lark import Token, Tree

Branch = Tree[Token]


class ParseContext:
    """Collects the problems of one description; `line` is the number of the line that is being read.

    `reported_lines` are the numbers of the lines whose one mistake of grammar (or layout) is reported. `rows_written`
    counts the rows of working notation, so that their number stays bounded. `misplaced_words` are the first words of
    facts that stand in the wrong block. `shape` is that of the shawl, None where it is not known.
    """

    def __init__(self) -> None:
        self.line = 0
        self.rows_written = 0
        self.problems: list[Problem] = []
        self.reported_lines: set[int] = set()
        self.misplaced_words: set[str] = set()
        self.shape: str | None = None

    @property
    def should_stop(self) -> bool:
        """Whether so much is wrong that reading on would only cost time."""
        return len(self.problems) >= MOST_COUNTED

    def is_clean(self, before: int) -> bool:
        """Whether the line that is being read has no mistake; `before`: the number of problems when it was begun."""
        return len(self.problems) == before and self.line not in self.reported_lines

    def span(self, branch: Branch | Token) -> Span:
        """Where a token or a tree with at least one token stands."""
        place = branch if isinstance(branch, Token) else branch.meta
        return Span(self.line, place.column or 1, place.end_column or 2)

    def report(self, problem: Problem) -> None:
        """Add one to the problems."""
        self.problems.append(problem)
