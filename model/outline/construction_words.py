"""How a piece is constructed, and what its fan does, in words."""

from halfhank.model.outline.local_outline import STRAIGHT_WITHIN
from halfhank.model.words.drawn_words import phrase, phrase_of


def construction_words(kind: str, toothed: bool, turned_back: bool, curved: bool) -> str:
    """The construction of that kind, with what has to be said of its edge, of its second half and of its blocking."""
    words = phrase_of("construction", kind)
    if toothed:
        words = phrase("constructed.toothed", construction=words)
    if turned_back:
        words = phrase("constructed.turned-back", construction=words)
    return phrase("constructed.curved", construction=words) if curved else words


def fan_words(degrees: float) -> str:
    """The angle between the top edges, and what it does to the tips."""
    if degrees < 180 - STRAIGHT_WITHIN:
        return phrase("fan.below", degrees=f"{degrees:.0f}")
    if degrees > 180 + STRAIGHT_WITHIN:
        return phrase("fan.above", degrees=f"{degrees:.0f}")
    return phrase("fan.straight", degrees=f"{degrees:.0f}")


def circle_words(degrees: float, straight: bool) -> str:
    """The same of a half-circle, or to which angle it knits where it is pinned `straight`."""
    if straight:
        return phrase("fan.pinned", degrees=f"{degrees:.0f}")
    if degrees < 180 - STRAIGHT_WITHIN:
        return phrase("fan.less", degrees=f"{degrees:.0f}")
    if degrees > 180 + STRAIGHT_WITHIN:
        return phrase("fan.more", degrees=f"{degrees:.0f}")
    return fan_words(degrees)


def crescent_words(degrees: float | None, bent: bool, turned_back: bool) -> str | None:
    """Through which angle the rows of a slow growth curve (None: no slow one), and how they lie where nothing bends
    them."""
    words = [] if degrees is None else [phrase("fan.slow", degrees=f"{degrees:.0f}")]
    if bent:
        words.append(phrase("fan.flat-edges" if turned_back else "fan.flat-triangle"))
    return "; ".join(words) or None
