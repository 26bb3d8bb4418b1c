"""What a description means: names resolved, values for all defaults, bands counted in rows, lengths in cm, yarn in m.

Two descriptions that mean the same resolve to equal designs, however they are written. The place of a value in
the text, and its words, are in an `Aside` for problems and sentences; asides are all equal.
"""

from typing import Generic, TypeVar

from halfhank.grammar import description as written
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.record import NamedTuple

T = TypeVar("T")


class Aside(Generic[T]):
    """Something carried along that is no part of the meaning: any aside equals any other."""

    __slots__ = ("value",)

    def __init__(self, value: T) -> None:
        self.value = value

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Aside)

    def __hash__(self) -> int:
        return 0

    def __repr__(self) -> str:
        return "…"


class Gauge(NamedTuple):
    """`stitches` and `rows` over `over_cm` cm, both ways."""

    stitches: float
    rows: float
    over_cm: float

    @property
    def stitch_cm(self) -> float:
        """Width of one stitch."""
        return self.over_cm / self.stitches

    @property
    def row_cm(self) -> float:
        """Height of one row."""
        return self.over_cm / self.rows


class Swatch(NamedTuple):
    """A swatch with its cast-on and bind-off: `metres` of yarn, weighed (by the label's yarn count) or measured."""

    stitches: int
    rows: int
    metres: float
    at: Aside[Span]


class BareRow(NamedTuple):
    """One line of written rows: the rows that it writes, and their items without their places."""

    numbers: tuple[int, ...]
    items: tuple[written.Item, ...]


class StitchBlock(NamedTuple):
    """One stitch as the description, or the built-in of its name, gives it; what it does not say is None or empty.

    `multiple` is (stitches, extra). `base` is the stitch after `as`. `gauge_at`: the place of the gauge.
    """

    name: str
    gauge: Gauge | None
    before_blocking: Gauge | None
    swatch: Swatch | None
    multiple: tuple[int, int] | None
    fill: str | None
    base: str | None
    rows: tuple[BareRow, ...]
    written: Aside[written.Stitch]


class Margin(NamedTuple):
    """What of the skein no plan uses: a share in per cent, or grams; one of the two is None."""

    percent: float | None
    grams: float | None
    at: Aside[Span | None]

    def of(self, skein_g: float) -> float:
        """In grams of a skein of that mass."""
        if self.percent is not None:
            return skein_g * self.percent / 100
        return self.grams or 0.0


class Yarn(NamedTuple):
    """One yarn: what the label says of a skein, its mass in `mass_unit` (g or oz), and the margin."""

    name: str | None
    fibre: str | None
    skein_g: float
    skein_m: float
    margin: Margin
    skein_at: Aside[Span]
    mass_unit: str

    @property
    def metres_per_gram(self) -> float:
        """The yarn count, by the label."""
        return self.skein_m / self.skein_g


class Start(NamedTuple):
    """`stitches` that row 1 is worked on; `tab` is a garter tab's (stitches, rows), None for a cast-on."""

    stitches: int
    tab: tuple[int, int] | None
    at: Aside[Span]


class Edge(NamedTuple):
    """`stitches` in `stitch` at each edge; none where nothing is written."""

    stitches: int
    stitch: str
    at: Aside[Span | None]


class Spine(NamedTuple):
    """Stitches of the spine, by the shape where nothing is written."""

    stitches: int
    at: Aside[Span | None]


class Gains(NamedTuple):
    """Stitches by place: at the upper and the lower edge, on each side of the spine, evenly across the row."""

    upper: int = 0
    lower: int = 0
    spine: int = 0
    evenly: int = 0

    @property
    def total(self) -> int:
        """Stitches of the whole row."""
        return self.upper + self.lower + 2 * self.spine + self.evenly


class Methods(NamedTuple):
    """How the stitches are made at each place: an item of the notation (`yo`, `k2tog` …), None where none is named."""

    upper: str | None = None
    lower: str | None = None
    spine: str | None = None
    evenly: str | None = None


class ShapingLine(NamedTuple):
    """One shaping line; `number` is its place among all lines of the design, from 0.

    `action` is `increase`, `decrease` or `bind off`; `amounts` are never negative; `methods` say how they are made.
    `every` is None for a line that acts once; `until` the live count that it never passes; `evenly_to` the total of
    `increase evenly to N sts`, with no `amounts`.
    """

    number: int
    action: str
    amounts: Gains
    methods: Methods
    every: int | None
    from_row: int
    until: int | None
    evenly_to: int | None
    written: Aside[written.ShapingLine]

    @property
    def span(self) -> Span:
        """Its place in the text."""
        return self.written.value.span


class Band(NamedTuple):
    """A band of one stitch; `number` is its place among all bands and repeats of the design, from 0.

    `rows` has its rows, or in turn those of each time through the repeat around it. It is empty for `as yarn allows`,
    whose steps are `step_rows`.
    """

    number: int
    stitch: str
    rows: tuple[int, ...]
    step_rows: int
    label: str | None
    written: Aside[written.Band]

    @property
    def span(self) -> Span:
        """Its place in the text."""
        return self.written.value.span

    @property
    def as_yarn_allows(self) -> bool:
        """Whether the yarn sets its rows."""
        return not self.rows


class Elongated(NamedTuple):
    """An elongated row of `wraps` wraps and the row that releases it (`drop W wraps`); `number` as in `Band`."""

    number: int
    wraps: int
    label: str | None
    at: Aside[Span]

    @property
    def span(self) -> Span:
        """Its place in the text."""
        return self.at.value


class Repeat(NamedTuple):
    """Bands worked `times` times, None for `as yarn allows`; `number` as in `Band`."""

    number: int
    times: int | None
    bands: tuple["AnyBand", ...]
    at: Aside[Span]

    @property
    def span(self) -> Span:
        """Its place in the text."""
        return self.at.value

    @property
    def as_yarn_allows(self) -> bool:
        """Whether the yarn sets how often it is worked."""
        return self.times is None


AnyBand = Band | Elongated | Repeat


class Part(NamedTuple):
    """One part; `lines` are its own shaping lines, empty where it is worked even, None where the shape's go on."""

    name: str
    lines: tuple[ShapingLine, ...] | None
    bands: tuple[AnyBand, ...]
    at: Aside[Span]

    @property
    def span(self) -> Span:
        """Its place in the text."""
        return self.at.value


class Pinned(NamedTuple):
    """How it is pinned out: to a box in cm, or (None) with its top edge straight."""

    box_cm: tuple[float, float] | None
    written: Aside[written.PinnedStraight | written.PinnedTo]


class BindOff(NamedTuple):
    """`method` is `standard`, `elastic`, `picot`, `i-cord`, `draw through`, `measured` or
    `measured each`.

    `cast_on` and `bind_off` are picot's numbers, 0 elsewhere; `takes` the yarn of a measured one, in
    widths of the last row or in plain stitches for each live stitch.
    """

    method: str
    cast_on: int
    bind_off: int
    takes: float | None
    at: Aside[Span | None]


class Weighing(NamedTuple):
    """One line of the log: after `row` (0: before the cast-on) the scale shows `mass_g`, in steps of `step_g`.

    `used`: the mass is what was used since the cast-on, not what is left.
    """

    row: int
    mass_g: float
    step_g: float
    used: bool
    written: Aside[written.Weighing]

    @property
    def span(self) -> Span:
        """Its place in the text."""
        return self.written.value.span


class Shape(NamedTuple):
    """The shape's name and its place in the text."""

    name: str
    at: Aside[Span]

    @property
    def span(self) -> Span:
        """Its place in the text."""
        return self.at.value


class Design(NamedTuple):
    """A whole shawl as meant. `lines` are the shape's; `built_ins` the built-in stitches that are worked, by name.

    `turns_back`: worked back the same way after the last part, the first `turned_parts` parts of it.
    """

    title: str
    by: str | None
    remarks: tuple[str, ...]
    units: str
    yarn: Yarn
    needles_cm: float
    stitches: tuple[StitchBlock, ...]
    built_ins: tuple[StitchBlock, ...]
    shape: Shape
    start: Start
    edge: Edge
    spine: Spine
    lines: tuple[ShapingLine, ...]
    pinned: Pinned | None
    parts: tuple[Part, ...]
    turns_back: bool
    turned_parts: int
    bind_off: BindOff
    log: tuple[Weighing, ...]
    written: Aside[written.Description]

    @property
    def all_lines(self) -> tuple[ShapingLine, ...]:
        """Every shaping line, by number."""
        return (*self.lines, *(line for part in self.parts for line in part.lines or ()))

    @property
    def weighed_rows(self) -> tuple[Weighing, ...]:
        """The weighings after rows, without the one before the cast-on."""
        return tuple(weighing for weighing in self.log if weighing.row)

    @property
    def weighed_start(self) -> Weighing | None:
        """The weighing before the cast-on."""
        return next((weighing for weighing in self.log if weighing.row == 0), None)

    def lines_in(self, part: Part) -> tuple[ShapingLine, ...]:
        """The lines in force in a part."""
        return self.lines if part.lines is None else part.lines
