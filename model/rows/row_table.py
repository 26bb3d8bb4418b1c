"""The row table: every row of a shawl after its bands and shaping lines are worked out, before any geometry or yarn."""

from halfhank.grammar.record import NamedTuple


class Rates(NamedTuple):
    """Stitches a row that the repeating lines in force give, by place: the sums of A / K, decreases negative.

    Bind-offs and one-time lines are left out. `spine` is for each side of the spine; `evenly` for the whole row.
    """

    upper: float = 0.0
    lower: float = 0.0
    spine: float = 0.0
    evenly: float = 0.0


NO_RATES = Rates()


class Rows(NamedTuple):
    """Parallel columns, index 0 for the start (cast-on or tab) and 1…N for the rows.

    `stitches`: live stitches after the row. `width_cm`, `height_cm`: blocked width of one stitch and height of the row
    (at index 0 those of row 1, and 0). `upper`, `lower`: stitches gained at each edge, signed, bind-offs included
    (`upper` is the left edge of a piece worked downwards). `spine`: gained on each side of the spine. `evenly`: gained
    across the row. `upper_jump`, `lower_jump`: the part of the gain that the outline draws as a step: bind-offs
    (negative), and increases of at least five at one edge, by a line without `every` or with 6 and more. `rates`: see
    `Rates`. `band`: index of the expanded band (-1 at index 0).
    """

    stitches: tuple[int, ...]
    width_cm: tuple[float, ...]
    height_cm: tuple[float, ...]
    upper: tuple[int, ...]
    lower: tuple[int, ...]
    spine: tuple[int, ...]
    evenly: tuple[int, ...]
    upper_jump: tuple[int, ...]
    lower_jump: tuple[int, ...]
    rates: tuple[Rates, ...]
    band: tuple[int, ...]

    @property
    def count(self) -> int:  # type: ignore[override]
        """N, the number of rows."""
        return len(self.stitches) - 1
