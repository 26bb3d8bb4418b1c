"""The texts that drawings show of a plan."""

from halfhank.grammar.description import PinnedTo
from halfhank.model.meaning.design import BindOff, Design, Start
from halfhank.model.meaning.resolve import DEFAULT_PICOT
from halfhank.model.number_words import counted
from halfhank.model.outline.outline import Outline
from halfhank.model.shawl import Shawl

BIND_OFF_WORDS = {
    "standard": "standard bind-off",
    "elastic": "elastic bind-off",
    "i-cord": "i-cord bind-off",
    "draw through": "last stitches drawn together",
}


def start_words(start: Start) -> str:
    """How the shawl begins."""
    if start.tab:
        return f"garter tab of {counted(start.tab[0], 'st')} and {counted(start.tab[1], 'row')}"
    return f"cast on {counted(start.stitches, 'st')}"


def bind_off_words(off: BindOff) -> str:
    """How it ends."""
    if off.method == "measured":
        return f"bind-off of {off.times_width:g} times the width"
    if off.method != "picot":
        return BIND_OFF_WORDS[off.method]
    if (off.cast_on, off.bind_off) == DEFAULT_PICOT:
        return "picot bind-off"
    return f"picot bind-off (cast on {off.cast_on}, bind off {off.bind_off})"


def summary(design: Design, outline: Outline) -> str:
    """The line under the title: construction, angle of a half-circle, blocking, bind-off, designer."""
    words = [outline.words]
    if design.shape.name == "half-circle" and outline.fan_words:
        words.append(outline.fan_words)
    pinned = design.pinned.written.value if design.pinned else None
    if isinstance(pinned, PinnedTo):
        words.append(
            f"pinned to {_length(pinned.width.value, pinned.width.unit)} by "
            f"{_length(pinned.depth.value, pinned.depth.unit)}"
        )
    elif pinned and outline.pinned:
        words.append("pinned straight")
    words.append(bind_off_words(design.bind_off))
    if design.by:
        words.append(f"by {design.by}")
    return ", ".join(words)


def _length(value: float, unit: str) -> str:
    return f"{value:g} {unit}"


def going_on(shawl: Shawl) -> str:
    """The fabric in which rows past the planned end are reckoned: that of the last band."""
    stitch = shawl.bands[-1].stitch
    return "drop stitch" if stitch == "drop" else stitch
