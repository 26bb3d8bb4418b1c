"""How wide a stitch and how high its row is once blocked: by its own gauge, by one taken over, or by default."""

import math
from collections.abc import Callable, Iterator
from typing import Any, TypeVar, cast

from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.description import WrittenRow
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design, Gauge, StitchBlock
from halfhank.model.design.resolve import DEFAULT_FILL
from halfhank.model.design.stitch_chain import by_name, chain
from halfhank.model.stitch_counts.loops import has_yarn_overs

T = TypeVar("T")

BUILT_IN = ("garter", "stockinette", "drop")
STOCKINETTE_ROW = 1.5
"""Height of a stockinette row over a garter row of the same yarn and needles: 17 x 22 and 17 x 33 in 10 cm (DROPS
253-28)."""

PLAIN_BLOCKING, OPENWORK_BLOCKING = 1.05, 1.15
"""How much wider blocking leaves a stitch, plain or with yarn overs (common practice)."""


WOOL_DENSITY = 0.5
"""Bulk density of wool yarn in g/cm3 (from memory)."""


class Measure(NamedTuple):
    """Blocked width and height of a stitch, the gauge they come from, and whether it was assumed from another
    stitch's."""

    stitch_cm: float
    row_cm: float
    gauge: tuple[float, float]
    over_cm: float
    assumed: bool
    source: StitchBlock


def wrap_m(design: Design) -> float:
    """Yarn of one extra wrap of the needle, in m: once around needle and yarn, pi times the sum of their diameters.

    The yarn is taken as a cylinder of wool at `WOOL_DENSITY` with the label's mass per length.
    """
    yarn_cm = math.sqrt(4 * design.yarn.skein_g / (100 * design.yarn.skein_m) / (math.pi * WOOL_DENSITY))
    return math.pi * (design.needles_cm + yarn_cm) / 100


class StitchMeasures:
    """The measures of all stitches of a design, and what each takes over from others; worked out when first asked."""

    def __init__(self, design: Design) -> None:
        self.design = design
        self.blocks = by_name(design.stitches)
        self._built_ins = by_name(design.built_ins)
        self._measures: dict[str, Measure] = {}
        self._made: dict[Callable[[StitchMeasures], Any], Any] = {}

    def once(self, make: "Callable[[StitchMeasures], T]") -> T:
        """What `make` makes of these stitches, made at the first call."""
        if make not in self._made:
            self._made[make] = make(self)
        return cast(T, self._made[make])

    def chain(self, name: str) -> Iterator[StitchBlock]:
        """The stitch's block and those that it takes over from, nearest first."""
        return chain(self.blocks, self._built_ins, name)

    def root(self, name: str) -> str:
        """The last name of the chain, which may be a built-in without a block."""
        for block in self.chain(name):
            name = block.base or block.name
        return name

    def rows(self, name: str) -> tuple[WrittenRow, ...]:
        """The written rows, own or taken by `as`, with their places in the text."""
        return next((block.written.value.rows for block in self.chain(name) if block.rows), ())

    def repeat_rows(self, name: str) -> int:
        """Rows of one repeat as written, 0 without."""
        return sum(len(row.numbers) for row in self.rows(name))

    def multiple(self, name: str) -> tuple[int, int] | None:
        """The stitch multiple (stitches, extra), own or taken over."""
        return next((block.multiple for block in self.chain(name) if block.multiple), None)

    def fill(self, name: str) -> str:
        """The stitch of what is short of the multiple, own or taken over."""
        return next((block.fill for block in self.chain(name) if block.fill), DEFAULT_FILL)

    def measure(self, name: str) -> Measure:
        """Blocked measures of a stitch: its own, its base's, or by the defaults for built-ins."""
        if name not in self._measures:
            self._measures[name] = self._measured(name)
        return self._measures[name]

    def _measured(self, name: str) -> Measure:
        for block in self.chain(name):
            if block.gauge:
                return _given(block, block.gauge)
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
        block = next((block for block in given if block.name == "stockinette"), given[0])
        assert block.gauge
        measure = _given(block, block.gauge)._replace(assumed=True)
        if block.name != "stockinette":
            return measure
        stitches, rows = measure.gauge
        return measure._replace(row_cm=measure.row_cm / STOCKINETTE_ROW, gauge=(stitches, rows * STOCKINETTE_ROW))

    def heights_cm(self, name: str, rows: int, wraps: int) -> list[float]:
        """Heights of the rows of one band, in working order.

        Dropped, an extra wrap opens into the two legs of a stitch, each half as long as the wrap. Where drop stitch was
        measured, its gauge holds for the elongated row and the releasing row together.
        """
        measure = self.measure(name)
        row_cm = measure.row_cm
        if name != "drop":
            return [row_cm] * rows
        if measure.assumed:
            pair = [row_cm + (wraps - 1) * wrap_m(self.design) * 100 / 2, row_cm]
        else:
            release_cm = min(row_cm, self.measure("garter").row_cm)
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


def _given(block: StitchBlock, gauge: Gauge) -> Measure:
    return Measure(gauge.stitch_cm, gauge.row_cm, (gauge.stitches, gauge.rows), gauge.over_cm, False, block)
