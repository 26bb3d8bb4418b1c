"""Colours: even steps of lightness in OKLab (Björn Ottosson, "A perceptual color space for image processing", 2020).

The matrices are those of that article, with its correction of 2021.
"""

from halfhank.grammar.record import NamedTuple

Lab = tuple[float, float, float]


class Ramp(NamedTuple):
    """A straight line in OKLab from `start` (no yarn used) to `end` (all of the shawl's yarn used)."""

    start: Lab
    end: Lab

    def lab(self, share: float) -> Lab:
        """The colour at a share of the yarn, 0 to 1, in OKLab."""
        t = min(max(share, 0.0), 1.0)
        return (
            self.start[0] + t * (self.end[0] - self.start[0]),
            self.start[1] + t * (self.end[1] - self.start[1]),
            self.start[2] + t * (self.end[2] - self.start[2]),
        )

    def colour(self, share: float) -> str:
        """The colour at a share of the yarn, as `#rrggbb`."""
        return hex_colour(self.lab(share))


RAMPS = {
    "tide": Ramp((0.955, 0.004, 0.042), (0.38, -0.046, -0.062)),
    "haze": Ramp((0.985, 0.001, 0.012), (0.74, -0.02, -0.03)),
}
"""`tide` runs from sand to deep sea; `haze` stays light, for printing with little ink."""


def hex_colour(lab: Lab) -> str:
    """sRGB of an OKLab colour, clipped to the gamut, as `#rrggbb`."""
    lightness, a, b = lab
    long = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3
    medium = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3
    short = (lightness - 0.0894841775 * a - 1.2914855480 * b) ** 3
    red = 4.0767416621 * long - 3.3077115913 * medium + 0.2309699292 * short
    green = -1.2684380046 * long + 2.6097574011 * medium - 0.3413193965 * short
    blue = -0.0041960863 * long - 0.7034186147 * medium + 1.7076147010 * short
    return f"#{_byte(red):02x}{_byte(green):02x}{_byte(blue):02x}"


def _byte(linear: float) -> int:
    """The sRGB transfer curve (IEC 61966-2-1), to 0…255."""
    light = min(max(linear, 0.0), 1.0)
    curved = 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055
    return round(255 * curved)


def channels(colour: str) -> tuple[float, float, float]:
    """Linear red, green and blue, 0 to 1, of `#rrggbb`."""
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return red, green, blue


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2, "contrast ratio")."""
    lights = sorted(0.2126 * r + 0.7152 * g + 0.0722 * b for r, g, b in (channels(one), channels(other)))
    return (lights[1] + 0.05) / (lights[0] + 0.05)


def ink_on(lab: Lab, difference: float) -> str:
    """An ink of the fabric's hue, darker on light fabric and lighter on dark, by a difference of lightness in OKLab."""
    lightness, a, b = lab
    if lightness > 0.6:
        return hex_colour((max(lightness - difference, 0.1), a - 0.01, b - 0.02))
    return hex_colour((min(lightness + difference, 0.985), a * 0.4, b * 0.4))
