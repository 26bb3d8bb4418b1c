"""The texts that drawings show of a plan."""

import math

from halfhank.grammar.description import BindOff, CastOn, Description, GarterTab, PinnedTo
from halfhank.model.outline.outline import Outline
from halfhank.model.shawl import Shawl

BIND_OFF_WORDS = {
    "standard": "standard bind-off",
    "elastic": "elastic bind-off",
    "i-cord": "i-cord bind-off",
    "draw through": "last stitches drawn together",
}
DEFAULT_PICOT = (2, 4)


def start_words(start: CastOn | GarterTab) -> str:
    """How the shawl begins."""
    if isinstance(start, GarterTab):
        return f"garter tab of {counted(start.tab_stitches, 'st')} and {counted(start.tab_rows, 'row')}"
    return f"cast on {counted(start.stitches, 'st')}"


def bind_off_words(off: BindOff | None) -> str:
    """How it ends."""
    if off is None:
        return BIND_OFF_WORDS["standard"]
    if off.method == "measured":
        return f"bind-off of {off.times_width:g} times the width"
    if off.method != "picot":
        return BIND_OFF_WORDS[off.method]
    if (off.cast_on, off.bind_off) == DEFAULT_PICOT:
        return "picot bind-off"
    return f"picot bind-off (cast on {off.cast_on}, bind off {off.bind_off})"


def summary(description: Description, outline: Outline) -> str:
    """The line under the title: construction, angle of a half-circle, blocking, bind-off, designer."""
    words = [outline.words]
    if description.shape.name.value == "half-circle" and outline.fan_words:
        words.append(outline.fan_words)
    pinned = description.shape.pinned
    if isinstance(pinned, PinnedTo):
        words.append(
            f"pinned to {_length(pinned.width.value, pinned.width.unit)} by "
            f"{_length(pinned.depth.value, pinned.depth.unit)}"
        )
    elif pinned and outline.pinned:
        words.append("pinned straight")
    words.append(bind_off_words(description.bind_off))
    if description.by:
        words.append(f"by {description.by.value}")
    return ", ".join(words)


def _length(value: float, unit: str) -> str:
    return f"{value:g} {unit}"


def going_on(shawl: Shawl) -> str:
    """The fabric in which rows past the planned end are reckoned: that of the last band."""
    stitch = shawl.bands[-1].stitch
    return "drop stitch" if stitch == "drop" else stitch


def half_up(value: float, digits: int) -> float:
    """The number rounded to so many decimals, a half away from zero however its last bits fall."""
    step = 10.0**digits
    units = abs(value) * step + 0.5 + 1e-6
    return math.copysign(math.floor(units) / step if units < 1e15 else abs(value), value)


def counted(number: int, unit: str, many: str | None = None) -> str:
    """A count with its unit, in the plural where due: `many`, or the unit with an s."""
    return f"{number:,} {unit}" if number == 1 else f"{number:,} {many or unit + 's'}"
