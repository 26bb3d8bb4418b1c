"""What one stitch measures and takes, each time worked out anew: the reference of gauges, swatches and notation."""

import math

from tests.pipe.random_shawls.spec import Fabric, Pattern, Spec

KW = 4.1  # Munden 1959, wet-relaxed plain knit (from memory)


def fabric(spec: Spec, name: str) -> Fabric:
    """The stitch block of that name, or an empty one for a built-in."""
    return next((f for f in spec.fabrics if f.name == name), Fabric(name))


def stitch_size(spec: Spec, name: str) -> tuple[float, float]:
    """Blocked width and height of a stitch, in cm."""
    own = fabric(spec, name)
    if own.gauge:
        return own.gauge.stitch_cm, own.gauge.row_cm
    if own.base:
        return stitch_size(spec, own.base)
    if name == "stockinette":
        width, height = stitch_size(spec, "garter")
        return width, 1.5 * height
    if name != "garter":
        return stitch_size(spec, "garter")
    stockinette = fabric(spec, "stockinette").gauge
    if stockinette:
        return stockinette.stitch_cm, stockinette.row_cm / 1.5
    given = next(f.gauge for f in spec.fabrics if f.gauge)
    return given.stitch_cm, given.row_cm


def pattern_of(spec: Spec, name: str) -> Pattern | None:
    """The working notation, own or taken by `as`."""
    own = fabric(spec, name)
    return own.pattern or (pattern_of(spec, own.base) if own.base else None)


def pattern_owner(spec: Spec, name: str) -> str | None:
    """The stitch in whose block the notation stands."""
    return next((one for one in [name, *bases(spec, name)] if fabric(spec, one).pattern), None)


def fill_of(spec: Spec, name: str) -> str:
    own = fabric(spec, name)
    return own.fill or (fill_of(spec, own.base) if own.base else "stockinette")


def unblocked_width(spec: Spec, name: str) -> float:
    """Width of a stitch before blocking, in cm."""
    own = fabric(spec, name)
    if own.before:
        return own.before.stitch_cm
    pattern = pattern_of(spec, name)
    openwork = pattern is not None and any("yo" in row for row in pattern.rows)
    return stitch_size(spec, name)[0] / (1.15 if openwork else 1.05)


def gram_m(spec: Spec) -> float:
    """Metres in a gram, by the label."""
    return spec.skein_length.m / spec.skein_mass.g


def wrap_m(spec: Spec) -> float:
    """Yarn of one extra wrap of the needle, in m."""
    room_cm3 = spec.skein_mass.g / 0.15
    yarn_cm = 2 * math.sqrt(room_cm3 / spec.skein_length.cm / math.pi)
    return math.pi * (spec.needles.cm + yarn_cm) / 100


def swatch_m(spec: Spec, own: Fabric) -> float | None:
    """Yarn a stitch by the stitch's own swatch, in m."""
    if not own.swatch:
        return None
    amount = own.swatch.amount
    metres = amount.g * gram_m(spec) if amount.unit in ("g", "oz") else amount.m
    each = metres / own.swatch.stitches
    if own.name == "drop":  # An extra wrap every other row.
        without = each - wrap_m(spec) * own.swatch.rows / 2
        each = without if without > 0 else each
    return each / (own.swatch.rows + 1.5 + 1.12)


def bases(spec: Spec, name: str) -> list[str]:
    """The stitches that one is `as`, nearest first."""
    base = fabric(spec, name).base
    return [base, *bases(spec, base)] if base else []


def measured(spec: Spec, name: str) -> str | None:
    """The swatched stitch that this one is a ratio of: one that it is `as`, else garter, stockinette, any."""
    names = [*bases(spec, name), "garter", "stockinette", *(f.name for f in spec.fabrics)]
    return next((one for one in names if fabric(spec, one).swatch), None)


def follows(spec: Spec, name: str) -> bool:
    """Whether a stitch without notation takes the yarn of a swatched one as it is."""
    chain = [name, *bases(spec, name)]
    if chain[-1] in ("garter", "stockinette", "drop") or any(fabric(spec, one).swatch for one in chain):
        return True
    return name in {fill_of(spec, f.name) for f in spec.fabrics if f.pattern}


def stitch_m(spec: Spec, name: str) -> float:
    """Yarn of one stitch, in m."""
    own = fabric(spec, name)
    metres = swatch_m(spec, own)
    if metres is not None:
        return metres
    parent = measured(spec, name)
    metres = swatch_m(spec, fabric(spec, parent)) if parent else None
    if parent is None or metres is None:
        return KW * unblocked_width(spec, name) / 100
    pattern = pattern_of(spec, name)
    if pattern and pattern_owner(spec, name) == pattern_owner(spec, parent):
        return metres
    loop = loop_m(spec, parent, metres)
    if pattern:
        return (pattern.loops * loop + pattern.extra_wraps * wrap_m(spec)) / pattern.made
    return loop if follows(spec, name) else KW * unblocked_width(spec, name) / 100


def loop_m(spec: Spec, name: str, metres: float) -> float:
    """Yarn of one plain loop in a stitch that takes so much, in m."""
    pattern = pattern_of(spec, name)
    if not pattern:
        return metres
    loop = (metres * pattern.made - pattern.extra_wraps * wrap_m(spec)) / pattern.loops if pattern.loops else 0
    return loop if loop > 0 else metres
