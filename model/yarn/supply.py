"""What yarn there is, and how much of it may be planned for."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.yarn.corrections import NONE, Corrections
from halfhank.model.yarn.uncertainty import LABEL_SD, noise_sd_g

ENOUGH = 1 + 1e-9
"""Rounding that does not make yarn short."""


class YarnSupply(NamedTuple):
    """What there is: the label's, or as weighed before the cast-on; `margin_g` of it is never planned for.

    `sd` is the relative standard deviation of the skein's mass.
    `unit` is that of the label's mass (g, oz), in which masses are said.
    """

    skein_g: float
    metres_per_gram: float
    margin_g: float
    sd: float
    unit: str = "g"

    @property
    def budget_m(self) -> float:
        """What may be planned for."""
        return (self.skein_g - self.margin_g) * self.metres_per_gram

    def pays(self, metres: float) -> bool:
        """Whether so much may be planned for, up to rounding."""
        return metres <= self.budget_m * ENOUGH


def skein_sd(design: Design, skein_g: float) -> float:
    """Relative standard deviation of the skein's mass: of its label, or of the scale where that weighs it better."""
    first = design.weighed_start
    return LABEL_SD if first is None else min(LABEL_SD, noise_sd_g(first.step_g) / skein_g)


def supply_of(design: Design, corrections: Corrections = NONE) -> YarnSupply:
    """The skein and its margin."""
    weighed = design.weighed_start
    skein_g = design.yarn.skein_g if weighed is None else weighed.mass_g
    if corrections.skein_g is not None:
        skein_g = corrections.skein_g
    yarn = design.yarn
    return YarnSupply(skein_g, yarn.metres_per_gram, yarn.margin.of(skein_g), skein_sd(design, skein_g), yarn.mass_unit)
