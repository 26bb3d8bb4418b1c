"""What a shape is laid out from: the rows, and the few facts of the description that decide how they lie."""

from halfhank.grammar.description import PinnedStraight, PinnedTo
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.rows.row_table import Rows


class Layout(NamedTuple):
    """One piece to lay out.

    `shape` is the name in the description, `shape_span` its place. `openwork[row]`: whether row 1…N is worked in a
    fabric with yarn overs or elongated stitches (index 0 is unused), which bears more stretch. `turned_back`: the
    description has `turn back`. `pinned`: how it is blocked, None for as knitted. `spine`: stitches of the spine.
    `gathered`: the last row's stitches are drawn together. `ruffle`: the first row that is too long to lie flat, None
    where there is none.
    """

    shape: str
    shape_span: Span
    rows: Rows
    openwork: tuple[bool, ...]
    turned_back: bool
    pinned: PinnedStraight | PinnedTo | None
    spine: int = 1
    gathered: bool = False
    ruffle: int | None = None

    @property
    def flat_rows(self) -> int:
        """How many rows lie flat: all, or those before the ruffle."""
        return self.rows.count if self.ruffle is None else self.ruffle - 1
