"""What the caller may choose about a drawing."""

from halfhank.grammar.record import NamedTuple
from halfhank.renderer.paper.ramp import RAMPS

NARROWEST_MM = 100.0


class OptionError(ValueError):
    """An option that no drawing can follow, worded for the person who gave it."""


class Options(NamedTuple):
    """How to draw. `scale` is N of 1:N, `width_mm` the page's width; without either the largest fitting scale is taken.

    `units` (`cm` or `in`) overrides the description's; `ramp` names one of `RAMPS`; `contours` draws a line every ten
    grams, or every 20, 50, 100 … where those lie too close.
    """

    scale: float | None = None
    width_mm: float | None = None
    units: str | None = None
    ramp: str = "tide"
    contours: bool = False


def check(options: Options) -> None:
    """Raises `OptionError` for options that cannot be followed."""
    if options.ramp not in RAMPS:
        raise OptionError(f"no ramp is called {options.ramp!r}; there are {', '.join(sorted(RAMPS))}")
    if options.units not in (None, "cm", "in"):
        raise OptionError(f"units are cm or in, not {options.units!r}")
    if options.scale is not None and options.width_mm is not None:
        raise OptionError("give a scale or a width, not both")
    if options.scale is not None and not 0.1 <= options.scale <= 1e6:
        raise OptionError(f"a scale of 1:N needs an N from 0.1 to 1,000,000, not {options.scale:g}")
    if options.width_mm is not None and not NARROWEST_MM <= options.width_mm <= 5000:
        raise OptionError(f"a drawing is {NARROWEST_MM:g} to 5,000 mm wide, not {options.width_mm:g}")
