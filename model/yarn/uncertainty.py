"""How well the plan's yarn is known: independent relative errors, each shared by all that depends on it.

The total is linear in them, so its variance is the sum of the squares of (grams that depend on an error times its
standard deviation).
"""

import math
from collections.abc import Mapping

from halfhank.grammar.record import NamedTuple

SWATCH, RATIO, GAUGE, START, BIND_OFF, SKEIN = "swatch", "ratio", "gauge", "start", "bind off", "skein"
TENSION = "tension"
ROOTS = (SWATCH, GAUGE)
"""What yarn is measured by itself; tension that drifts is part of how far this is off."""


class ErrorSource(NamedTuple):
    """What an error comes from: its `kind` (`SWATCH` … `TENSION`), and the stitch whose swatch or ratio it is.

    A `TENSION` is that of one stretch of the shawl; `stitch` is then the number of the stretch.
    """

    kind: str
    stitch: str = ""


GAUGE_ERROR, START_ERROR, BIND_OFF_ERROR = ErrorSource(GAUGE), ErrorSource(START), ErrorSource(BIND_OFF)
SKEIN_ERROR = ErrorSource(SKEIN)

SD = {SWATCH: 0.07, RATIO: 0.08, GAUGE: 0.12, START: 0.15, BIND_OFF: 0.15}
"""Relative standard deviations: one swatch against a whole shawl, a ratio on top of its parent, a gauge, and the
cast-on and bind-off on top of the plain stitch (common practice)."""

LABEL_SD = 0.02
"""Of the skein's mass by its label, until it is weighed (common practice)."""

HANDLING_SD_G = 0.45
"""Standard deviation of one weighing from handling: a strand on the table, a draught, the needles' own weight taken off
(common practice)."""

BASES = (GAUGE, RATIO, SWATCH)
"""Where yarn is known from, the weakest first."""


def sd_of(hanging: Mapping[ErrorSource, float]) -> float:
    """Standard deviation of a total, from what depends on each error."""
    return math.hypot(*(amount * SD[error.kind] for error, amount in hanging.items()))


def weakest(hanging: Mapping[ErrorSource, float]) -> str:
    """The weakest of the bases that something depends on."""
    kinds = {error.kind for error, amount in hanging.items() if amount}
    return next((basis for basis in BASES if basis in kinds), GAUGE)


def noise_sd_g(step_g: float) -> float:
    """Standard deviation of one weighing: handling, and the scale's last figure, evenly distributed over its step."""
    return math.hypot(HANDLING_SD_G, step_g / math.sqrt(12))


def chance_enough(total_g: float, sd_g: float, skein_g: float, skein_sd: float) -> float:
    """The chance that the total stays within the skein, whose mass has an error of its own: the normal tail."""
    sd = math.hypot(sd_g, skein_sd * skein_g)
    if sd == 0:
        return 1.0 if total_g <= skein_g else 0.0
    return (1 + math.erf((skein_g - total_g) / (sd * math.sqrt(2)))) / 2
