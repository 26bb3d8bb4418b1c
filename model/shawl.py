"""The computed shawl: everything that a plan, a drawing or a chart shows. Immutable; computed by
`halfhank.model.planning.planning`."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple, Protocol

from halfhank.grammar.problems import Problem
from halfhank.model.outline.curve import Curve, Point
from halfhank.model.rows.row_table import Rows


class Size(NamedTuple):
    """What the outline measures as it is drawn: its box and the lengths of its edges, in cm (`area_cm2` in cm2).

    None where a shape has no such edge. `sides_cm` is left (upper) and right (lower).
    """

    wingspan_cm: float
    depth_cm: float
    spine_cm: float | None
    top_cm: float | None
    sides_cm: tuple[float, float] | None
    last_row_cm: float
    area_cm2: float


class Stretch(NamedTuple):
    """How far pinning stretches the fabric, along its rows and across them, at most: 0.1 is 10 % longer."""

    along: float
    across: float


class Outline(Protocol):
    """Where each row lies in the plane, in cm, x to the right, y downwards, the piece's box from (0, 0).

    Boundary 0 is the start, boundary i the end of row i. Where stitches are bound off or cast on at an edge, a
    boundary has two curves: the row before ends at `boundary(i)`, the row after begins at `boundary(i, after=True)`.
    Elsewhere they are the same. Curves run from the left end of a row to its right end; in a piece worked sideways
    (`sideways`) from the upper edge to the lower. `words` names the construction ("triangle from the neck");
    `fan_words` says what the fan angle does to the top edge, or which angle pinning changes; None where there is no
    fan. `problems` are advice.
    """

    words: str
    fan_words: str | None
    sideways: bool
    size: Size
    fan_degrees: float | None
    stretch: Stretch | None
    pinned: bool
    spine: Sequence[Point] | None
    problems: tuple[Problem, ...]

    def boundary(self, row: int, after: bool = False) -> Curve:
        """The curve of one boundary."""
        ...

    def ends(self, row: int, after: bool = False) -> tuple[Point, Point]:
        """The two ends of one boundary, as `boundary` has them, without computing the curve."""
        ...


class Fabric(NamedTuple):
    """One stitch as the plan uses it.

    `stitch_cm`, `row_cm`: blocked measures. `gauge`: stitches and rows over `gauge_over_cm` cm (counted from the
    given one where `gauge_assumed`). `yarn_m`: metres of yarn a stitch. `basis`: swatch, ratio or gauge. `texture`:
    plain, openwork or drop, for the drawing. `parent`: the stitch whose measured yarn this one's hangs on, None where
    its own is measured.
    """

    name: str
    stitch_cm: float
    row_cm: float
    gauge: tuple[float, float]
    gauge_over_cm: float
    gauge_assumed: bool
    yarn_m: float
    basis: str
    parent: str | None
    texture: str


class BandPlan(NamedTuple):
    """One expanded band: `stitch` is the fabric's name (`drop` for elongated rows), `wraps` its wraps (1 elsewhere)."""

    part: int
    stitch: str
    wraps: int
    label: str | None
    first_row: int
    last_row: int
    stitches_at_end: int
    height_cm: float
    used_g: float
    share: float
    used_to_here_g: float
    left_g: float


class PartPlan(NamedTuple):
    """One part; `share` is of the shawl's own yarn, `left_g` what the scale reads after its last row."""

    name: str
    first_row: int
    last_row: int
    stitches_at_end: int
    used_g: float
    share: float
    left_g: float


class Mark(NamedTuple):
    """A row that the drawing marks; `beyond` where it lies past the planned end."""

    row: int
    used_g: float
    left_g: float
    beyond: bool


class Marks(NamedTuple):
    """`halfway`, `turn_back` and `bind_off_by`, each None where there is no such row."""

    halfway: Mark | None
    turn_back: Mark | None
    bind_off_by: Mark | None


class Start(NamedTuple):
    """How the shawl begins: `stitches` that row 1 is worked on, `words` ("garter tab of 3 sts and 6 rows")."""

    stitches: int
    words: str


class BindOffPlan(NamedTuple):
    """How it ends: `method` as in the description, `words` ("picot bind-off"), the live `stitches`, yarn in m."""

    method: str
    words: str
    stitches: int
    yarn_m: float


class YarnPlan(NamedTuple):
    """The skein and what the shawl takes of it.

    `skein_g`, `skein_m`: what there is (the weighed start replaces the label's). `sd_g` leaves the label's own error
    out, `chance_enough` has it in. `basis` is the weakest source used. `left_g` is after the bind-off.
    """

    name: str | None
    fibre: str | None
    skein_g: float
    skein_m: float
    keep_g: float
    start_g: float
    knitting_g: float
    bind_off_g: float
    total_g: float
    total_m: float
    left_g: float
    last_ridge_g: float
    sd_g: float
    chance_enough: float
    basis: str


@dataclass(frozen=True)
class Shawl:
    """The result of a plan, with the texts that drawings show.

    `used_g[i]` is the yarn used after row i, start included, i from 0. `allowed` is the count that `as yarn allows` came
    to, None without one; `allowance_words` says it with its unit. `summary` is the drawing's second line in words.
    `problems` are advice.
    """

    title: str
    summary: str
    remarks: tuple[str, ...]
    shape: str
    units: str
    needles_mm: float
    rows: Rows
    fabrics: tuple[Fabric, ...]
    bands: tuple[BandPlan, ...]
    parts: tuple[PartPlan, ...]
    start: Start
    bind_off: BindOffPlan
    yarn: YarnPlan
    used_g: tuple[float, ...]
    marks: Marks
    outline: Outline
    allowed: int | None
    allowance_words: str
    problems: tuple[Problem, ...]
