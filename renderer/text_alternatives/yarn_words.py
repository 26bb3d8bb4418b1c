"""Half of a shawl's yarn, and the chance that there is enough, in sentences."""

from halfhank.model import number_words
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.measure_words import exact_mass, plain_mass


def chance_words(shawl: Shawl) -> str:
    """The chance of enough yarn, for which the margin may be used."""
    yarn = shawl.yarn
    margin = f" if the margin ({plain_mass(yarn.keep_g, shawl.skein.unit)}) is used too" if yarn.keep_g > 0 else ""
    return f"Chance of enough yarn{margin}: {number_words.chance_words(yarn.chance_enough)}."


def half_words(shawl: Shawl) -> list[str]:
    """The row after which half of this shawl's yarn is used, and what the scale shows there."""
    half = shawl.marks.halfway
    if half is None:
        return []
    on_scale = exact_mass(half.left_g, shawl.skein.unit)
    return [f"Half of this shawl's yarn is used after row {half.row:,}, with {on_scale} on the scale."]
