"""The texts that reports and drawings show of a plan."""

from itertools import pairwise

from halfhank.grammar.description import PinnedTo
from halfhank.model.design.design import Design
from halfhank.model.outline.local_outline import BIAS_STRIP
from halfhank.model.outline.outline import Outline
from halfhank.model.shawl import Shawl
from halfhank.model.start_and_bind_off.bind_offs import bind_off_words
from halfhank.model.words.drawn_words import phrase, phrase_of


def summary(design: Design, outline: Outline) -> str:
    """The line under the title: construction, angle of a half-circle, blocking, bind-off, designer."""
    words = [outline.words]
    if design.shape.name == "half-circle" and outline.fan_words:
        words.append(outline.fan_words)
    pinned = design.pinned.written.value if design.pinned else None
    if isinstance(pinned, PinnedTo):
        width, depth = (_length(one.value, one.unit) for one in (pinned.width, pinned.depth))
        words.append(phrase("summary.pinned-to", width=width, depth=depth))
    elif pinned and outline.pinned and design.shape.name != "half-circle":
        words.append(phrase("summary.pinned-straight"))
    words.append(bind_off_words(design.bind_off))
    if design.by:
        words.append(phrase("summary.by", designer=design.by))
    return ", ".join(words)


def blocking_words(outline: Outline) -> str:
    """What the piece's size is the size of."""
    if outline.pinned:
        return phrase("blocked.pinned")
    return phrase("blocked.curved" if outline.curved else "blocked.flat")


def _length(value: float, unit: str) -> str:
    return phrase_of("measure", unit, number=f"{value:g}")


def going_on(shawl: Shawl) -> str:
    """The fabric in which rows past the planned end are worked: that of the last band."""
    return stitch_name(shawl.bands[-1].stitch)


def one_more_short(shawl: Shawl) -> str:
    """What there is no yarn for where `as yarn allows` counts repeats: `one more repeat`, or tooth; else nothing.

    A repeat is a tooth where there are as many; the last one may be cut off by the end.
    """
    _, _, unit = shawl.allowance_words.partition(" ")
    if not unit.startswith("repeat") or any(problem.code == "not-by-yarn" for problem in shawl.problems):
        return ""
    teeth = sum(after < before for before, after in pairwise(shawl.rows.stitches))
    if shawl.outline.toothed and teeth in (shawl.allowed, (shawl.allowed or 0) - 1):
        return phrase("more.tooth")
    return phrase("more.unit", unit=unit.replace("repeats", "repeat", 1))


def turning_row(shawl: Shawl) -> int | None:
    """The row after which the plan turns back; None where it does not."""
    turned = sum(part.mirrored for part in shawl.parts)
    return shawl.parts[turned - 1].last_row if turned else None


def turns_as_planned(shawl: Shawl) -> bool:
    """Whether the row to turn back after is the plan's own, and not one before it that the yarn asks for."""
    mark = shawl.marks.turn_back
    return mark is not None and mark.row == turning_row(shawl)


def depth_name(shawl: Shawl) -> str:
    """What the height of the piece's box is called: a strip's is its length or its width, whichever way it lies."""
    size = shawl.outline.size
    if shawl.shape != "rectangle" and shawl.outline.kind != BIAS_STRIP:
        return "depth"
    return "length" if size.depth_cm > size.wingspan_cm else "width"


def stitch_name(stitch: str) -> str:
    """What a stitch is called: by its name in the description, but for the built-in elongated rows."""
    return phrase("stitch.drop") if stitch == "drop" else stitch


def without_words(parts: tuple[str, ...]) -> str:
    """Which parts are not worked: `without the border`; empty where all are."""
    named = [part if part.lower().startswith("the ") else phrase("left-out.the", part=part) for part in parts]
    if len(named) > 1:
        return phrase("left-out.without-both", parts=", ".join(named[:-1]), last=named[-1])
    return phrase("left-out.without", parts=named[0]) if named else ""
