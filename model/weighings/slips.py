"""A weighing that cannot be true: how far off is too far, and the slip of the hand that would explain it."""

from halfhank.grammar.description import GRAMS_IN
from halfhank.grammar.record import NamedTuple
from halfhank.model.number_words import mass_digits
from halfhank.model.weighings.log import LoggedWeighing
from halfhank.model.weighings.posterior import Estimate

REFUSED_SDS = 6.0
"""A weighing further than this from the value expected from all the others is refused without `--sure`."""
NEAR_SDS = 2.0
"""A figure this near to what was expected is one that may have been meant."""
LIGHT_G = 30.0
"""What lies beside the yarn by oversight weighs no more: a tag, a ball band, a row counter (common practice)."""


class Slip(NamedTuple):
    """What may have gone wrong: the mass that may have been `meant`, or that it is the yarn `used` or a thing that
    lay on the scale (`on_scale`)."""

    meant: str | None
    used: bool
    on_scale: bool


def is_refused(weighing: LoggedWeighing) -> bool:
    """Whether a weighing is too far off to be taken unasked."""
    return weighing.off_sds > REFUSED_SDS


def likely_slip(figure: str, unit: str, expected: Estimate, other: Estimate | None) -> Slip | None:
    """The slip that explains a figure best; None where no usual one does, or the figure is what was expected.

    `expected` is what the mass was to be, `other` what it was to be were left and used mixed up (None: they cannot be).
    """
    given_g = float(figure) * GRAMS_IN[unit]
    if _near(given_g, expected):
        return None
    if other is not None and _near(given_g, other):
        return Slip(None, True, False)
    meant = _meant_mass(figure, unit, expected)
    if meant:
        return Slip(meant, False, False)
    over_g = given_g - expected.mean
    return Slip(None, False, True) if 0 < over_g <= LIGHT_G else None


def _meant_mass(figure: str, unit: str, expected: Estimate) -> str | None:
    """The likeliest of the masses near to what was expected: the figure in another unit, then with other digits."""
    for another in GRAMS_IN:
        if another != unit and _near(float(figure) * GRAMS_IN[another], expected):
            return f"{figure} {another}"
    finest, grams_in = max(len(figure.partition(".")[2]), mass_digits(unit)), GRAMS_IN[unit]
    for likely in _meant(figure):
        shown = [text for text in likely if text and len(text.partition(".")[2]) <= finest]
        fits = [text for text in shown if _near(float(text) * grams_in, expected)]
        if fits:
            return f"{min(fits, key=lambda text: abs(float(text) * grams_in - expected.mean))} {unit}"
    return None


def _near(grams: float, expected: Estimate) -> bool:
    return abs(grams - expected.mean) <= NEAR_SDS * expected.sd


def _meant(figure: str) -> list[list[str]]:
    """Figures that are easily written for one another, the likeliest first.

    The decimal point moved, two digits swapped, one digit too many.
    """
    whole, _, rest = figure.partition(".")
    digits = whole + rest
    moved = [_pointed(digits, len(whole) + by) for by in (-2, -1, 1, 2)]
    places = range(len(digits) - 1)
    swapped = [digits[:k] + digits[k + 1] + digits[k] + digits[k + 2 :] for k in places]
    fewer = [digits[:k] + digits[k + 1 :] for k in range(len(digits))]
    return [
        moved,
        [_pointed(text, len(whole)) for text in swapped],
        [_pointed(text, len(text) - len(rest)) for text in fewer],
    ]


def _pointed(digits: str, place: int) -> str:
    """Digits with the point after so many of them; empty where there are none."""
    if place < 0 or not digits:
        return ""
    padded = digits.ljust(place, "0")
    whole, rest = padded[:place].lstrip("0") or "0", padded[place:].rstrip("0")
    return f"{whole}.{rest}" if rest else whole
