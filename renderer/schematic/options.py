"""What the caller may choose about a drawing."""

from halfhank.grammar.record import NamedTuple
from halfhank.renderer.paper.ramp import RAMPS

NARROWEST_MM, LOWEST_MM, LARGEST_MM = 60.0, 40.0, 5000.0
DRAWING, TABLE, TITLE_AND_TABLE = "drawing", "table", "title and table"


class OptionError(ValueError):
    """An option that no drawing can follow, worded for the person who gave it."""


class Options(NamedTuple):
    """How to draw. `scale` is N of 1:N, `width_mm` the page's width; without either the largest fitting scale is taken.

    `units` (`cm` or `in`) overrides the description's; `ramp` names one of `RAMPS`; `contours` draws a line every ten
    grams (every 0.5 oz where masses are in oz), or in larger steps where those lie too close. `height_mm` is the most
    that the page may be high, and comes before all that is wished of its width. `only` (`drawing`) leaves out title,
    skein, table and remarks. `without` (`table`) leaves out the table of parts, for a page that has it already; a key
    says then what the badges and the edges are; `title and table` leaves out the heading and the remarks too.
    `transparent` leaves out the white sheet under everything.
    """

    scale: float | None = None
    width_mm: float | None = None
    units: str | None = None
    ramp: str = "tide"
    contours: bool = False
    height_mm: float | None = None
    only: str | None = None
    transparent: bool = False
    without: str | None = None


def check(options: Options) -> None:
    """Raises `OptionError` for options that cannot be followed."""
    if options.ramp not in RAMPS:
        raise OptionError(f"no ramp is called {options.ramp!r}; there are {', '.join(sorted(RAMPS))}")
    if options.units not in (None, "cm", "in"):
        raise OptionError(f"units are cm or in, not {options.units!r}")
    if options.only not in (None, DRAWING):
        raise OptionError(f"only the drawing can be asked for, not {options.only!r}")
    if options.without not in (None, TABLE, TITLE_AND_TABLE):
        raise OptionError(f"a drawing can be without its table, not without {options.without!r}")
    _check_sizes(options)


def _check_sizes(options: Options) -> None:
    if options.scale is not None and options.width_mm is not None:
        raise OptionError("give a scale or a width, not both")
    if options.scale is not None and options.height_mm is not None:
        raise OptionError("give a scale or a height, not both")
    if options.scale is not None and not 0.1 <= options.scale <= 1e6:
        raise OptionError(f"a scale of 1:N needs an N from 0.1 to 1,000,000, not {options.scale:g}")
    if options.width_mm is not None and not NARROWEST_MM <= options.width_mm <= LARGEST_MM:
        raise OptionError(f"a drawing is {NARROWEST_MM:g} to {LARGEST_MM:,.0f} mm wide, not {options.width_mm:g}")
    if options.height_mm is not None and not LOWEST_MM <= options.height_mm <= LARGEST_MM:
        raise OptionError(f"a drawing is {LOWEST_MM:g} to {LARGEST_MM:,.0f} mm high, not {options.height_mm:g}")
