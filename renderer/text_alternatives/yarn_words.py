"""Half of a shawl's yarn, and the chance that there is enough, in sentences."""

from halfhank.model import number_words
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.measure_words import exact_mass, plain_mass


def chance_words(shawl: Shawl) -> str:
    """The chance of enough yarn, for which the margin may be used."""
    yarn = shawl.yarn
    chance = number_words.chance_words(yarn.chance_enough)
    if yarn.keep_g <= 0:
        return phrase("chance.enough", chance=chance)
    return phrase("chance.with-margin-of", margin=plain_mass(yarn.keep_g, shawl.skein.unit), chance=chance)


def half_words(shawl: Shawl) -> list[str]:
    """The row after which half of this shawl's yarn is used, and what the scale shows there."""
    half = shawl.marks.halfway
    if half is None:
        return []
    return [phrase("alt.half", row=half.row, mass=exact_mass(half.left_g, shawl.skein.unit))]
