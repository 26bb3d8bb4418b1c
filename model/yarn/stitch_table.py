"""Fabrics: what each stitch measures and how much yarn one stitch of it takes, and how well either is known."""

import math
from collections.abc import Iterator
from typing import NamedTuple, TypeVar

from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.description import (
    Band,
    Description,
    Drop,
    Gauge,
    Multiple,
    Part,
    Repeat,
    Stitch,
    Swatch,
    WrittenRow,
)
from halfhank.model.shawl import Fabric
from halfhank.model.stitches.loops import draw, has_long_stitches, has_yarn_overs
from halfhank.model.yarn.corrections import NOTHING, Learned

BUILT_IN = ("garter", "stockinette", "drop")
STOCKINETTE_ROW = 1.5
"""Height of a stockinette row over a garter row of the same yarn and needles: 17 x 22 and 17 x 33 in 10 cm (DROPS
253-28)."""

KW = 4.1
"""Loop length over stitch width, wet-relaxed plain wool (Munden, J. Textile Inst. 50, 1959; from memory)."""

WOOL_DENSITY = 0.5
"""Bulk density of wool yarn in g/cm3 (from memory)."""

PLAIN_BLOCKING, OPENWORK_BLOCKING = 1.05, 1.15
"""How much wider blocking leaves a stitch, plain or with yarn overs (common practice)."""

SWATCH_CAST_ON, SWATCH_BIND_OFF = 1.5, 1.12
"""Cast-on and bind-off of a swatch weighed whole, in rows of it."""

PLAIN, OPENWORK, DROP = "plain", "openwork", "drop"
B = TypeVar("B", Band, Drop)
SWATCH, RATIO, GAUGE, WEIGHED = "swatch", "ratio", "gauge", "weighed"


class Material(NamedTuple):
    """A fabric with what only the arithmetic needs.

    `unblocked_cm`: width of a stitch before blocking. `errors`: the errors that its yarn hangs on (`swatch garter`,
    `ratio mesh`, `gauge`; see `uncertainty`). `repeat_rows`: rows of one repeat as written, 0 without. `fill`: the
    stitch of what is short of the `multiple`. `has_yarn_overs`: blocks wider, and bears more stretch.
    """

    fabric: Fabric
    unblocked_cm: float
    errors: tuple[str, ...]
    repeat_rows: int
    multiple: Multiple | None
    fill: str
    has_yarn_overs: bool


class Measure(NamedTuple):
    """Blocked width and height of a stitch, the gauge they come from, and whether it was assumed from another
    stitch's."""

    stitch_cm: float
    row_cm: float
    gauge: tuple[float, float]
    over_cm: float
    assumed: bool
    source: Stitch


def wrap_cm(description: Description) -> float:
    """Yarn of one extra wrap of the needle: once around needle and yarn, pi times the sum of their diameters.

    The yarn is taken as a cylinder of wool at `WOOL_DENSITY` with the label's mass per length.
    """
    skein = description.yarn.skein
    yarn_cm = math.sqrt(4 * skein.mass.g / skein.length.cm / (math.pi * WOOL_DENSITY))
    return math.pi * (description.needles.cm + yarn_cm)


def metres_per_gram(description: Description) -> float:
    """The yarn count, by the label."""
    skein = description.yarn.skein
    return skein.length.m / skein.mass.g


def swatch_m(description: Description, swatch: Swatch) -> float:
    """Yarn of one stitch of a swatch weighed or unravelled whole, its cast-on and bind-off taken as rows of it."""
    if swatch.mass is not None:
        metres = swatch.mass.g * metres_per_gram(description)
    else:
        metres = swatch.length.m if swatch.length else 0.0
    return metres / (swatch.stitches * (swatch.rows + SWATCH_CAST_ON + SWATCH_BIND_OFF))


class StitchTable:
    """All stitches of a description, each resolved when first asked for; their yarn as `learned` corrects it."""

    def __init__(self, description: Description, learned: Learned = NOTHING) -> None:
        self.description = description
        self.learned = learned
        self.blocks = {stitch.name.value: stitch for stitch in description.stitches}
        self.built_ins = {stitch.name.value: stitch for stitch in description.built_ins}
        self.fills = {_fill(stitch) for stitch in description.stitches if stitch.multiple}
        self.wrap_m = wrap_cm(description) / 100
        self._materials: dict[str, Material] = {}

    def __getitem__(self, name: str) -> Material:
        if name not in self._materials:
            self._materials[name] = self._material(name)
        return self._materials[name]

    def chain(self, name: str) -> Iterator[Stitch]:
        """The stitch's block and those that it is `as`, nearest first; a ring ends where it closes.

        A built-in with rows ends it, where its name has no block or its own block is `as` it.
        """
        seen = set[str]()
        while name in self.blocks and name not in seen:
            seen.add(name)
            yield self.blocks[name]
            base = self.blocks[name].base
            name = base.value if base else ""
        if name in self.built_ins:
            yield self.built_ins[name]

    def root(self, name: str) -> str:
        """The last name of the chain, which may be a built-in without a block."""
        for block in self.chain(name):
            name = block.base.value if block.base else block.name.value
        return name

    def rows(self, name: str) -> tuple[WrittenRow, ...]:
        """The written rows, own or taken by `as`."""
        return next((block.rows for block in self.chain(name) if block.rows), ())

    def repeat_rows(self, name: str) -> int:
        """Rows of one repeat as written, 0 without."""
        return sum(len(row.numbers) for row in self.rows(name))

    def measure(self, name: str) -> Measure:
        """Blocked measures of a stitch: its own, its base's, or by the defaults for built-ins."""
        for block in self.chain(name):
            if block.gauge:
                return _measured(block, block.gauge)
        root = self.root(name)
        if root == "garter":
            return self._default_garter()
        measure = self.measure("garter")._replace(assumed=True)
        if root not in STITCH_PATTERNS or root == "drop":
            return measure
        wide, high = STITCH_PATTERNS[root].stitch_ratio, STITCH_PATTERNS[root].row_ratio
        stitches, rows = measure.gauge
        return measure._replace(
            stitch_cm=measure.stitch_cm * wide, row_cm=measure.row_cm * high, gauge=(stitches / wide, rows / high)
        )

    def _default_garter(self) -> Measure:
        given = [block for block in self.blocks.values() if block.gauge]
        block = next((block for block in given if block.name.value == "stockinette"), given[0])
        assert block.gauge
        measure = _measured(block, block.gauge)._replace(assumed=True)
        if block.name.value != "stockinette":
            return measure
        stitches, rows = measure.gauge
        return measure._replace(row_cm=measure.row_cm / STOCKINETTE_ROW, gauge=(stitches, rows * STOCKINETTE_ROW))

    def heights_cm(self, name: str, rows: int, wraps: int) -> list[float]:
        """Heights of the rows of one band, in working order.

        Dropped, an extra wrap opens into the two legs of a stitch, each half as long as the wrap. Where drop stitch was
        measured, its gauge holds for the elongated row and the releasing row together.
        """
        row_cm = self[name].fabric.row_cm
        if name != "drop":
            return [row_cm] * rows
        if self[name].fabric.gauge_assumed:
            pair = [row_cm + (wraps - 1) * self.wrap_m * 100 / 2, row_cm]
        else:
            release_cm = min(row_cm, self["garter"].fabric.row_cm)
            pair = [2 * row_cm - release_cm, release_cm]
        return pair * (rows // 2) + pair[: rows % 2]

    def unblocked_cm(self, name: str) -> float:
        """Width of a stitch before blocking, where nobody measured it by what blocking usually gives."""
        measure = self.measure(name)
        before = next((block.before_blocking for block in self.chain(name) if block.before_blocking), None)
        if before:
            return before.stitch_cm
        blocked, before = measure.source.gauge, measure.source.before_blocking
        if measure.assumed and before and blocked:
            return before.stitch_cm * measure.stitch_cm / blocked.stitch_cm
        return measure.stitch_cm / (OPENWORK_BLOCKING if has_yarn_overs(self.rows(name)) else PLAIN_BLOCKING)

    def plain_m(self, end: str) -> float:
        """Yarn of one plain stitch as an end takes it: `start` or `bind off`, whose own error adds to garter's."""
        yarn_m, _, _, errors = self._yarn("garter")
        return yarn_m * self.learned.factor((*errors, end))

    def extra_wrap_m(self, name: str) -> float:
        """Yarn of an extra wrap in a stitch."""
        return self.wrap_m * self.learned.factor(self[name].errors)

    def _material(self, name: str) -> Material:
        measure, rows = self.measure(name), self.rows(name)
        yarn_m, basis, parent, errors = self._yarn(name)
        yarn_m *= self.learned.factor(errors)
        if name in self.learned.weighed:
            basis = WEIGHED
        yarn_overs = has_yarn_overs(rows)
        long = name == "drop" or has_long_stitches(rows)
        texture = OPENWORK if yarn_overs else DROP if long else PLAIN
        multiple = next((block.multiple for block in self.chain(name) if block.multiple), None)
        fill = next((block.fill.value for block in self.chain(name) if block.fill), "stockinette")
        fabric = Fabric(name, *measure[:5], yarn_m, basis, parent, texture)
        return Material(fabric, self.unblocked_cm(name), errors, self.repeat_rows(name), multiple, fill, yarn_overs)

    def _yarn(self, name: str) -> tuple[float, str, str | None, tuple[str, ...]]:
        """Yarn of a stitch in m, its basis, the stitch that it is a ratio to, and the errors that it hangs on."""
        own = self.blocks.get(name)
        if own and own.swatch:
            return self._swatched_m(own, own.swatch), SWATCH, None, (f"{SWATCH} {name}",)
        parent = self._swatched(name)
        if parent and parent.swatch:
            ratio = self._ratio(name, parent, self._swatched_m(parent, parent.swatch))
            if ratio is not None:
                origin = parent.name.value
                return ratio, RATIO, origin, (f"{SWATCH} {origin}", f"{RATIO} {name}")
        return KW * self.unblocked_cm(name) / 100, GAUGE, None, (GAUGE,)

    def _swatched_m(self, stitch: Stitch, swatch: Swatch) -> float:
        """Yarn of one stitch by its swatch, of drop stitch without extra wraps.

        A swatch of drop stitch is taken to be elongated rows of two wraps, each with its release: half an extra wrap a
        row, none in cast-on and bind-off. Where it has too little yarn for that all of it is the stitch's.
        """
        own_m = swatch_m(self.description, swatch)
        if stitch.name.value != "drop":
            return own_m
        wraps_m = self.wrap_m / 2 * swatch.rows / (swatch.rows + SWATCH_CAST_ON + SWATCH_BIND_OFF)
        return own_m - wraps_m if own_m > wraps_m else own_m

    def _ratio(self, name: str, parent: Stitch, parent_m: float) -> float | None:
        """Yarn of a stitch by the swatch of another, None where nothing tells their ratio.

        A stitch that takes its rows from the swatched one is worked like it. Else the two are compared by their loops:
        what the swatched stitch draws by its own rows is taken off before.
        """
        rows, origin = self.rows(name), parent.name.value
        if rows and rows == self.rows(origin):
            return parent_m
        loop_m = self._loop_m(origin, parent_m)
        if rows:
            drawn = draw(rows, self._multiple(name))
            return drawn.loops * loop_m + drawn.wraps * self.wrap_m
        based = any(block.swatch for block in self.chain(name))
        return loop_m if based or name in self.fills or self.root(name) in BUILT_IN else None

    def _loop_m(self, name: str, stitch_m: float) -> float:
        """Yarn of one plain loop in a stitch that takes so much; all of it where its wraps leave nothing."""
        drawn = draw(self.rows(name), self._multiple(name))
        loop_m = (stitch_m - drawn.wraps * self.wrap_m) / drawn.loops if drawn.loops else 0.0
        return loop_m if loop_m > 0 else stitch_m

    def _multiple(self, name: str) -> Multiple | None:
        return next((block.multiple for block in self.chain(name) if block.multiple), None)

    def _swatched(self, name: str) -> Stitch | None:
        """The stitch with a swatch that another is a ratio to: one that it is `as`, garter, stockinette, the first."""
        named = [self.blocks[plain] for plain in ("garter", "stockinette") if plain in self.blocks]
        candidates = [*self.chain(name), *named, *self.blocks.values()]
        return next((block for block in candidates if block.swatch), None)


def _fill(stitch: Stitch) -> str:
    return stitch.fill.value if stitch.fill else "stockinette"


def _measured(block: Stitch, gauge: Gauge) -> Measure:
    return Measure(gauge.stitch_cm, gauge.row_cm, (gauge.stitches, gauge.rows), gauge.over.cm, False, block)


def bands_of(parts: tuple[Part, ...], kind: type[B]) -> Iterator[B]:
    """Every band of one kind (`Band` or `Drop`) as written, repeats opened, in the order of the file."""
    waiting = [band for part in reversed(parts) for band in reversed(part.bands)]
    while waiting:
        band = waiting.pop()
        if isinstance(band, Repeat):
            waiting.extend(reversed(band.bands))
        elif isinstance(band, kind):
            yield band
