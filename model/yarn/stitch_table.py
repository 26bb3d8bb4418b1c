"""How much yarn one stitch takes, what that is known from, and how well."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design, StitchBlock, Swatch
from halfhank.model.design.resolve import DEFAULT_FILL
from halfhank.model.design.stitch_measures import BUILT_IN, StitchMeasures, wrap_m
from halfhank.model.shawl import Fabric
from halfhank.model.start_and_bind_off.bind_offs import BIND_OFF_STITCH
from halfhank.model.start_and_bind_off.starts import CAST_ON_STITCH
from halfhank.model.stitch_counts.loops import draw, has_long_stitches, has_yarn_overs
from halfhank.model.yarn.corrections import NONE, Corrections
from halfhank.model.yarn.uncertainty import GAUGE, GAUGE_ERROR, RATIO, SWATCH, ErrorSource

KW = 4.1
"""Loop length over stitch width, wet-relaxed plain wool (Munden, J. Textile Inst. 50, 1959; from memory)."""

SWATCH_CAST_ON, SWATCH_BIND_OFF = CAST_ON_STITCH, BIND_OFF_STITCH
"""Cast-on and bind-off of a swatch weighed whole, in rows of it."""

PLAIN_STITCH = "garter"
"""The stitch that start and bind-off are counted in: one of garter on the same needles is a plain stitch."""

PLAIN, OPENWORK, DROP = "plain", "openwork", "drop"
WEIGHED = "weighed"


class Material(NamedTuple):
    """A fabric with what only the arithmetic needs.

    `unblocked_cm`: width of a stitch before blocking. `errors`: the errors that its yarn depends on. `multiple`: the
    stitch multiple (stitches, extra), whose rest is worked in `fill`. `wrap_m`: yarn of an extra wrap.
    """

    fabric: Fabric
    unblocked_cm: float
    errors: tuple[ErrorSource, ...]
    multiple: tuple[int, int] | None
    fill: str
    wrap_m: float


class StitchYarn(NamedTuple):
    """Yarn of a stitch in m, its basis, the stitch that it is a ratio to, and the errors that it depends on."""

    metres: float
    basis: str
    parent: str | None
    errors: tuple[ErrorSource, ...]


def swatch_m(swatch: Swatch) -> float:
    """Yarn of one stitch of a swatch weighed or unravelled whole, its cast-on and bind-off taken as rows of it."""
    return swatch.metres / (swatch.stitches * (swatch.rows + SWATCH_CAST_ON + SWATCH_BIND_OFF))


class StitchTable:
    """All stitches of a design, each worked out when first asked for; their yarn as `corrections` have it."""

    def __init__(self, design: Design, corrections: Corrections = NONE, measures: StitchMeasures | None = None) -> None:
        self.design = design
        self.corrections = corrections
        self.measures = measures or StitchMeasures(design)
        self.blocks = self.measures.blocks
        self.wrap_m = wrap_m(design)
        self._fills = {block.fill or DEFAULT_FILL for block in design.stitches if block.multiple}
        self._materials: dict[str, Material] = {}

    def __getitem__(self, name: str) -> Material:
        if name not in self._materials:
            self._materials[name] = self._material(name)
        return self._materials[name]

    def corrected(self, corrections: Corrections) -> "StitchTable":
        """The same stitches with their yarn corrected."""
        return StitchTable(self.design, corrections, self.measures)

    def plain_m(self, end: ErrorSource) -> float:
        """Yarn of one plain stitch as an end takes it, whose own error adds to garter's."""
        plain = self._yarn(PLAIN_STITCH)
        return plain.metres * self.corrections.factor((*plain.errors, end))

    def _material(self, name: str) -> Material:
        measure, rows = self.measures.measure(name), self.measures.rows(name)
        yarn = self._yarn(name)
        factor = self.corrections.factor(yarn.errors)
        basis = WEIGHED if name in self.corrections.weighed else yarn.basis
        long = name == "drop" or has_long_stitches(rows)
        texture = OPENWORK if has_yarn_overs(rows) else DROP if long else PLAIN
        fabric = Fabric(name, *measure[:5], yarn.metres * factor, basis, yarn.parent, texture)
        unblocked_cm, multiple = self.measures.unblocked_cm(name), self.measures.multiple(name)
        return Material(fabric, unblocked_cm, yarn.errors, multiple, self.measures.fill(name), self.wrap_m * factor)

    def _yarn(self, name: str) -> StitchYarn:
        own = self.blocks.get(name)
        if own and own.swatch:
            return StitchYarn(self._swatched_m(own, own.swatch), SWATCH, None, (ErrorSource(SWATCH, name),))
        parent = self._swatched(name)
        if parent and parent.swatch:
            metres = self._ratio_m(name, parent, self._swatched_m(parent, parent.swatch))
            if metres is not None:
                errors = (ErrorSource(SWATCH, parent.name), ErrorSource(RATIO, name))
                return StitchYarn(metres, RATIO, parent.name, errors)
        return StitchYarn(KW * self.measures.unblocked_cm(name) / 100, GAUGE, None, (GAUGE_ERROR,))

    def _swatched_m(self, stitch: StitchBlock, swatch: Swatch) -> float:
        """Yarn of one stitch by its swatch, of drop stitch without extra wraps.

        A swatch of drop stitch is taken to be elongated rows of two wraps, each with its release: half an extra wrap a
        row, none in cast-on and bind-off. Where it has too little yarn for that all of it is the stitch's.
        """
        own_m = swatch_m(swatch)
        if stitch.name != "drop":
            return own_m
        wraps_m = self.wrap_m / 2 * swatch.rows / (swatch.rows + SWATCH_CAST_ON + SWATCH_BIND_OFF)
        return own_m - wraps_m if own_m > wraps_m else own_m

    def _ratio_m(self, name: str, parent: StitchBlock, parent_m: float) -> float | None:
        """Yarn of a stitch by the swatch of another, None where nothing gives their ratio.

        A stitch that takes its rows from the swatched one is worked like it. Else the two are compared by their loops:
        what the swatched stitch draws by its own rows is taken off before.
        """
        rows = self.measures.rows(name)
        if rows and rows == self.measures.rows(parent.name):
            return parent_m
        loop_m = self._loop_m(parent.name, parent_m)
        if rows:
            drawn = draw(rows)
            return drawn.loops * loop_m + drawn.wraps * self.wrap_m
        based = any(block.swatch for block in self.measures.chain(name))
        return loop_m if based or name in self._fills or self.measures.root(name) in BUILT_IN else None

    def _loop_m(self, name: str, stitch_m: float) -> float:
        """Yarn of one plain loop in a stitch that takes so much; all of it where its wraps leave nothing."""
        drawn = draw(self.measures.rows(name))
        loop_m = (stitch_m - drawn.wraps * self.wrap_m) / drawn.loops if drawn.loops else 0.0
        return loop_m if loop_m > 0 else stitch_m

    def _swatched(self, name: str) -> StitchBlock | None:
        """The stitch with a swatch that another is a ratio to: one that it is `as`, garter, stockinette, the first."""
        named = [self.blocks[plain] for plain in ("garter", "stockinette") if plain in self.blocks]
        candidates = [*self.measures.chain(name), *named, *self.blocks.values()]
        return next((block for block in candidates if block.swatch), None)
