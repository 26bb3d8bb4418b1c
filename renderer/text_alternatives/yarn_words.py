"""Half of a shawl's yarn, and the chance that there is enough, in sentences."""

from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.measure_words import exact_mass, plain_mass


def chance_words(shawl: Shawl) -> str:
    """The chance of enough yarn, and the margin."""
    keep = f" Margin: {plain_mass(shawl.yarn.keep_g, shawl.skein.unit)}." if shawl.yarn.keep_g > 0 else ""
    return f"Chance of enough yarn: {chance_percent(shawl.yarn.chance_enough)}.{keep}"


def chance_percent(chance: float) -> str:
    """A chance in whole per cent, never a certainty that nobody has."""
    if chance > 0.99:
        return "over 99 %"
    return "under 1 %" if chance < 0.01 else f"{100 * chance:.0f} %"


def half_words(shawl: Shawl) -> list[str]:
    """The row after which half of this shawl's yarn is used, and what the scale shows there."""
    half = shawl.marks.halfway
    if half is None:
        return []
    on_scale = exact_mass(half.left_g, shawl.skein.unit)
    return [f"Half of this shawl's yarn is used after row {half.row:,}, with {on_scale} on the scale."]
