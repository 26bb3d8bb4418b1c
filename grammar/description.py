"""The syntax tree: what a description says, with the place of every word that a problem may have to point at.

All records are named tuples (frozen; see `problems`). Spans never leave one line; a block's span is its header's.
Quantities keep the unit they were written in and convert by the definitions of 1959 (inch, yard, ounce).
"""

from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.record import NamedTuple

CM_IN = {"mm": 0.1, "cm": 1.0, "m": 100.0, "in": 2.54, "yd": 91.44}
GRAMS_IN = {"g": 1.0, "oz": 28.349523125}

# The places where a shaping line acts.
EACH_EDGE, UPPER_EDGE, LOWER_EDGE, SPINE, EVENLY = "each edge", "upper edge", "lower edge", "spine", "evenly"

BUILT_IN_SPAN = Span(0, 0, 0)
"""The place of every built-in stitch: none."""


class Text(NamedTuple):
    """A text in double quotes, escapes resolved."""

    value: str
    span: Span


class Name(NamedTuple):
    """A word: the name of a stitch or a shape."""

    value: str
    span: Span


class Count(NamedTuple):
    """A whole number of stitches, rows, times or wraps."""

    value: int
    span: Span


class Length(NamedTuple):
    """A length as written: `value` in `unit` (mm, cm, m, in, yd)."""

    value: float
    unit: str
    span: Span

    @property
    def cm(self) -> float:
        return self.value * CM_IN[self.unit]

    @property
    def m(self) -> float:
        return self.cm / 100


class Mass(NamedTuple):
    """A mass as written: `value` in `unit` (g, oz), `decimals` the figures after its point (a scale's resolution)."""

    value: float
    unit: str
    decimals: int
    span: Span

    @property
    def g(self) -> float:
        return self.value * GRAMS_IN[self.unit]


class Percent(NamedTuple):
    """A share in percent."""

    value: float
    span: Span


class Gauge(NamedTuple):
    """`stitches` and `rows` over the length `over`, in both directions; decimals allowed, as gauges are measured."""

    stitches: float
    rows: float
    over: Length
    span: Span

    @property
    def stitch_cm(self) -> float:
        return self.over.cm / self.stitches

    @property
    def row_cm(self) -> float:
        return self.over.cm / self.rows


class Swatch(NamedTuple):
    """A swatch bound off and weighed (`mass`) or unravelled and measured (`length`): one of the two is given."""

    stitches: int
    rows: int
    mass: Mass | None
    length: Length | None
    span: Span


class Multiple(NamedTuple):
    """The stitch multiple: `stitches` repeated, plus `extra`."""

    stitches: int
    extra: int
    span: Span


# Working notation: one row's items in the order in which the knitter works them.


class Work(NamedTuple):
    """`count` times one basic item of the reference's table (`k`, `yo`, `ssk`, `bind off` …).

    `drop wraps` is a row's first item, with the count 1; a `WholeRow` may follow it.

    `tbl`: through the back loop; `wyif`: slipped with the yarn in front; `wraps`: all wraps of the needle (1: plain);
    `twice`: a yarn over made twice.
    """

    kind: str
    count: int  # type: ignore[assignment]
    tbl: bool
    wyif: bool
    wraps: int
    twice: bool
    span: Span


class Cable(NamedTuple):
    """A cable: `first` stitches crossed over `second`, `turn` is `rc` or `lc`."""

    first: int
    second: int
    turn: str
    span: Span


class WholeRow(NamedTuple):
    """`knit` or `purl` alone, or after `drop wraps`: the whole row."""

    kind: str
    span: Span


class InOne(NamedTuple):
    """`[k1, yo, k1] in N`: the items worked into the same `stitches` stitches."""

    items: tuple["Item", ...]
    stitches: int
    span: Span


class Times(NamedTuple):
    """`[…] N times`: the items a fixed number of times."""

    items: tuple["Item", ...]
    times: int
    span: Span


class Across(NamedTuple):
    """`*…*`: the items worked across the row."""

    items: tuple["Item", ...]
    span: Span


Item = Work | Cable | WholeRow | InOne | Times | Across


class WrittenRow(NamedTuple):
    """One line of working notation: the `numbers` of the rows that it writes, and their items."""

    numbers: tuple[int, ...]
    items: tuple[Item, ...]
    span: Span


class Stitch(NamedTuple):
    """A `stitch` block. `base` is the name after `as`; `rows` are in the order of the file, checked to be 1…R."""

    name: Name
    gauge: Gauge | None
    before_blocking: Gauge | None
    swatch: Swatch | None
    multiple: Multiple | None
    fill: Name | None
    base: Name | None
    rows: tuple[WrittenRow, ...]
    span: Span


class SkeinLabel(NamedTuple):
    """What the label says: mass and length."""

    mass: Mass
    length: Length
    span: Span


class Yarn(NamedTuple):
    """The `yarn` block; `keep` is None where the default holds."""

    name: Text | None
    skein: SkeinLabel
    fibre: Text | None
    keep: Percent | Mass | None
    span: Span


class CastOn(NamedTuple):
    """`cast on N sts`."""

    stitches: int
    span: Span


class GarterTab(NamedTuple):
    """`garter tab A sts B rows`: starts the shawl with 2 A + B / 2 stitches."""

    tab_stitches: int
    tab_rows: int
    span: Span

    @property
    def stitches(self) -> int:
        return 2 * self.tab_stitches + self.tab_rows // 2


class Edge(NamedTuple):
    """`edge N sts [STITCH]` at each edge."""

    stitches: int
    stitch: Name | None
    span: Span


class Placed(NamedTuple):
    """`amount` stitches at `place`: one of `EACH_EDGE` … `EVENLY`; `method` is the item that makes them, if named."""

    amount: int
    place: str
    span: Span
    method: str | None = None


class ShapingLine(NamedTuple):
    """One shaping line.

    `action` is `increase`, `decrease` or `bind off`. `every` is None for a line that acts once; `from_row` is its first
    row (1 where not written; `from_written`: it is written); `until` the live count that it never passes; `evenly_to`
    the total of `increase evenly to N sts` (then `places` is empty).
    """

    action: str
    places: tuple[Placed, ...]
    every: int | None
    from_row: int
    until: int | None
    evenly_to: int | None
    span: Span
    from_written: bool = False


class PinnedStraight(NamedTuple):
    """`pinned straight`."""

    span: Span


class PinnedTo(NamedTuple):
    """`pinned to WIDTH by DEPTH`."""

    width: Length
    depth: Length
    span: Span


class Shape(NamedTuple):
    """The `shape` block; `edge` and `spine` are None where the defaults hold."""

    name: Name
    start: CastOn | GarterTab
    edge: Edge | None
    spine: Count | None
    shaping: tuple[ShapingLine, ...]
    pinned: PinnedStraight | PinnedTo | None
    span: Span


class Band(NamedTuple):
    """`STITCH N rows|ridges|repeats "label"`.

    `counts` has one count, or the list's; it is empty for `as yarn allows`, whose `unit` is then None.
    """

    stitch: Name
    counts: tuple[Count, ...]
    unit: str | None
    label: Text | None
    span: Span

    @property
    def as_yarn_allows(self) -> bool:
        return not self.counts


class Drop(NamedTuple):
    """`drop W wraps`: an elongated row, every stitch wrapped W times in all, and the row that releases it."""

    wraps: int
    label: Text | None
    span: Span


class Repeat(NamedTuple):
    """`repeat N times`; `times` is None for `repeat as yarn allows`."""

    times: Count | None
    bands: tuple["AnyBand", ...]
    span: Span

    @property
    def as_yarn_allows(self) -> bool:
        return self.times is None


AnyBand = Band | Drop | Repeat


class Part(NamedTuple):
    """A `part`. With `even` or own `shaping` lines the shape's lines rest while it lasts."""

    name: Text
    even: Span | None
    shaping: tuple[ShapingLine, ...]
    bands: tuple[AnyBand, ...]
    span: Span


class TurnBack(NamedTuple):
    """`turn back`; `around` names the last part where that one is worked once."""

    around: Text | None
    span: Span


class BindOff(NamedTuple):
    """`bind off METHOD`: `standard`, `elastic`, `picot`, `i-cord`, `draw through`, `measured` or
    `measured each`.

    `cast_on` and `bind_off` are picot's numbers, 0 where none are written; `takes` is the X of `takes X times the
    width` (`measured`) or of `takes X sts each` (`measured each`).
    """

    method: str
    cast_on: int
    bind_off: int
    takes: float | None
    span: Span


class Weighing(NamedTuple):
    """One line of the log. `row` is 0 for `before cast on`; `used`: the mass is what was used since the cast-on."""

    row: int
    mass: Mass
    used: bool
    span: Span


class Description(NamedTuple):
    """A whole description, as far as it was understood; `units` is `cm` or `in`; `log` is in the order of the file.

    `bind_off` is None where none is written (standard); `log_span` is None without a `weighed` block. `built_ins` are
    the built-in stitches whose rows it uses, at `BUILT_IN_SPAN`; the places of their rows are in nobody's file.
    """

    title: Text
    by: Text | None
    remarks: tuple[Text, ...]
    units: str
    yarn: Yarn
    needles: Length
    stitches: tuple[Stitch, ...]
    shape: Shape
    parts: tuple[Part, ...]
    turn_back: TurnBack | None
    bind_off: BindOff | None
    log: tuple[Weighing, ...]
    log_span: Span | None
    built_ins: tuple[Stitch, ...] = ()


class Parsed(NamedTuple):
    """What `parse` gives back: `description` (None where too little was understood), and problems."""

    description: Description | None
    problems: tuple[Problem, ...]
