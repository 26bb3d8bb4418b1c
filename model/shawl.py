"""The computed shawl: everything that a plan, a drawing or a chart shows. Immutable; computed by
`halfhank.model.planning.planning`."""

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.outline import Outline
from halfhank.model.rows.row_table import Rows


class Fabric(NamedTuple):
    """One stitch as the plan uses it.

    `stitch_cm`, `row_cm`: blocked measures. `gauge`: stitches and rows over `gauge_over_cm` cm (counted from the
    given one where `gauge_assumed`). `yarn_m`: metres of yarn a stitch. `basis`: swatch, ratio or gauge. `texture`:
    plain, openwork or drop, for the drawing. `parent`: the stitch whose measured yarn this one's depends on, None if
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
    """One part; `share` is of the shawl's own yarn, `left_g` what the scale shows after its last row.

    `mirrored`: it is one of the mirrored second half, and its name says so.
    """

    name: str
    first_row: int
    last_row: int
    stitches_at_end: int
    used_g: float
    share: float
    left_g: float
    mirrored: bool = False


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
    out, `chance_enough` has it in. `basis` is the weakest source used. `left_g` is after the
    bind-off; from the last weighing on nothing that is left is more than the scale showed.
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


class SkeinMass(NamedTuple):
    """Where the skein's mass is known from: its label (`label_g`, `label_m`), the weighing before the cast-on
    (`weighed_g`, None without), and weighings after rows (`by_log`).

    `unit` is that of the label's mass, g or oz: masses are shown in it.
    """

    label_g: float
    label_m: float
    weighed_g: float | None = None
    by_log: bool = False
    unit: str = "g"


class Shawl(NamedTuple):
    """The result of a plan, with the texts that drawings show.

    `used_g[i]` is the yarn used after row i, start included, i from 0. `allowed` is the count of `as yarn allows`, None
    without one; `allowance_words` gives it with its unit. `summary` is the drawing's second line in words.
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
    skein: SkeinMass
