"""What a shape is laid out from: the rows, and the few facts of the description that decide how they lie."""

from halfhank.grammar.description import PinnedStraight, PinnedTo
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.rows.row_table import Rows


class Layout(NamedTuple):
    """One piece to lay out.

    `shape` is the name in the description, `shape_span` its place. `openwork[row]`: whether row 1…N is worked in a
    fabric with yarn overs or elongated stitches (index 0 is unused), which bears more stretch. `turned_back`: the
    description has `turn back`. `pinned`: how it is blocked, None for as knitted.
    """

    shape: str
    shape_span: Span
    rows: Rows
    openwork: tuple[bool, ...]
    turned_back: bool
    pinned: PinnedStraight | PinnedTo | None
