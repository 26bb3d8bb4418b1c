"""A shawl as plain facts, from which both a description and the reference's numbers are made.

Written quantities keep their figure and unit as text, so that a description can be put down in any of the language's
units; conversions are the definitions of 1959 (inch 2.54 cm, yard 0.9144 m, ounce 28.349523125 g).
"""

from typing import NamedTuple

CM = {"mm": 0.1, "cm": 1.0, "m": 100.0, "in": 2.54, "yd": 91.44}
GRAMS = {"g": 1.0, "oz": 28.349523125}


class Written(NamedTuple):
    """A quantity as put down: `figure` in `unit`."""

    figure: str
    unit: str

    @property
    def cm(self) -> float:
        return float(self.figure) * CM[self.unit]

    @property
    def m(self) -> float:
        return self.cm / 100

    @property
    def g(self) -> float:
        return float(self.figure) * GRAMS[self.unit]

    def __str__(self) -> str:
        return f"{self.figure} {self.unit}"


class Tension(NamedTuple):
    """`stitches` and `rows` over `over`."""

    stitches: str
    rows: str
    over: Written

    @property
    def stitch_cm(self) -> float:
        return self.over.cm / float(self.stitches)

    @property
    def row_cm(self) -> float:
        return self.over.cm / float(self.rows)


class Swatch(NamedTuple):
    """A swatch that weighs or takes `amount`."""

    stitches: int
    rows: int
    amount: Written


class Pattern(NamedTuple):
    """Working notation with what was counted in it by hand.

    `loops`, `made` and `extra_wraps` are sums over one stitch multiple and all rows: loops of yarn formed (a cable's
    by 1.1), stitches made, wraps beyond the first. `openwork`: it has yarn overs or elongated stitches.
    """

    multiple: int
    extra: int
    rows: tuple[str, ...]
    loops: float
    made: int
    extra_wraps: int
    openwork: bool


class Fabric(NamedTuple):
    """A `stitch` block."""

    name: str
    gauge: Tension | None = None
    before: Tension | None = None
    swatch: Swatch | None = None
    pattern: Pattern | None = None
    fill: str | None = None
    base: str | None = None


class Line(NamedTuple):
    """A shaping line: `places` are (amount, place); `every` is None for once; `until` and `evenly_to` as written."""

    action: str
    places: tuple[tuple[int, str], ...]
    every: int | None = None
    from_row: int | None = None
    until: int | None = None
    evenly_to: int | None = None


class Band(NamedTuple):
    """`counts` empty: as yarn allows."""

    stitch: str
    counts: tuple[int, ...]
    unit: str = "rows"
    label: str | None = None


class Drop(NamedTuple):
    """An elongated row and its release."""

    wraps: int
    label: str | None = None


class Repeat(NamedTuple):
    """`times` None: as yarn allows."""

    times: int | None
    bands: tuple["Band | Drop | Repeat", ...]


AnyBand = Band | Drop | Repeat


class Part(NamedTuple):
    """A part; `even` and `lines` exclude each other."""

    name: str
    bands: tuple[AnyBand, ...]
    even: bool = False
    lines: tuple[Line, ...] = ()


class Tab(NamedTuple):
    """A garter tab."""

    stitches: int
    rows: int


class BindOff(NamedTuple):
    """`numbers` are picot's (cast on, bind off), `takes` the X of `takes X times the width` or `takes X sts each`."""

    method: str
    numbers: tuple[int, int] | None = None
    takes: str | None = None


class Weighed(NamedTuple):
    """A weighing: row 0 is before the cast-on."""

    row: int
    mass: Written
    used: bool = False


class Spec(NamedTuple):
    """A whole shawl. `keep` is a mass, a percentage as text with `%`, or None; `turn_back` is the part's name to turn
    around, "" for a plain turn, None for none."""

    shape: str
    skein_mass: Written
    skein_length: Written
    needles: Written
    fabrics: tuple[Fabric, ...]
    start: int | Tab
    parts: tuple[Part, ...]
    title: str = "Piece"
    by: str | None = None
    remarks: tuple[str, ...] = ()
    units: str | None = None
    yarn: str | None = None
    fibre: str | None = None
    keep: Written | str | None = None
    edge: tuple[int, str | None] | None = None
    spine: int | None = None
    lines: tuple[Line, ...] = ()
    pinned: str | None = None
    turn_back: str | None = None
    bind_off: BindOff | None = None
    weighed: tuple[Weighed, ...] = ()
