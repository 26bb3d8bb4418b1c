"""What yarn there is, and how much of it may be planned for."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.yarn.corrections import NONE, Corrections

ENOUGH = 1 + 1e-9
"""Rounding that does not make yarn short."""


class YarnSupply(NamedTuple):
    """What there is: the label's, or as weighed before the cast-on; `margin_g` of it is never planned for."""

    skein_g: float
    metres_per_gram: float
    margin_g: float
    weighed: bool

    @property
    def budget_m(self) -> float:
        """What may be planned for."""
        return (self.skein_g - self.margin_g) * self.metres_per_gram

    def pays(self, metres: float) -> bool:
        """Whether so much may be planned for, up to rounding."""
        return metres <= self.budget_m * ENOUGH


def supply_of(design: Design, corrections: Corrections = NONE) -> YarnSupply:
    """The skein and its margin."""
    weighed = design.weighed_start
    skein_g = design.yarn.skein_g if weighed is None else weighed.mass_g
    if corrections.skein_g is not None:
        skein_g = corrections.skein_g
    return YarnSupply(skein_g, design.yarn.metres_per_gram, design.yarn.margin.of(skein_g), weighed is not None)
