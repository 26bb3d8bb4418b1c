"""What the end of the skein's bar shows, by swatches: the yarn of the bind-off, what is spare, the margin."""

from halfhank.grammar.record import NamedTuple
from halfhank.renderer.paper.house_style import EDGE, INK, LIGHT, PAPER, SMALL, SOFT, THIN
from halfhank.renderer.paper.ramp import Ramp, contrast
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width

BIND_OFF, SPARE, MARGIN_FIELD = "bind-off", "spare", "margin"
SWATCH_WIDTH, SWATCH_HEIGHT = 5.0, 2.8
TO_WORDS, BETWEEN, KEY_PITCH = 1.3, 4.0, 4.4
SLANT, PITCH = 2.4, 1.2
LEAST_CONTRAST = 3.0


class Field(NamedTuple):
    """A stretch of the bar, mm from the page's left, with its height and top."""

    left: float
    right: float
    top: float
    height: float


class KeyEntry(NamedTuple):
    """One entry of the key: which field it is, and its words with the mass, `spare 3.3 g`."""

    kind: str
    words: str


def hatching(field: Field, ramp: Ramp) -> list[Element]:
    """The bind-off: slanted strokes on the ramp's last colour, light where these stand out enough, else dark."""
    left, right, top, height = field
    if right - left < 0.05:
        return []
    bottom, colour = top + height, ramp.colour(1.0)
    box = (("M", (left, top)), ("L", (right, top)), ("L", (right, bottom)), ("L", (left, bottom)), ("Z", ()))
    slant, strokes = SLANT * min(1.0, height / 7.5), []
    x = left - slant
    while x < right:
        strokes += [("M", (x, bottom)), ("L", (x + slant, top))]
        x += PITCH
    ink = LIGHT if contrast(LIGHT, colour) >= LEAST_CONTRAST else INK
    lines = Path(tuple(strokes), Style(stroke=ink, width=0.4 if ink == LIGHT else 0.3))
    return [Rect(left, top, right - left, height, Style(fill=colour)), Group("bind-off-yarn", (lines,), clip=box)]


def margin(field: Field) -> list[Element]:
    """The margin that no plan uses, set apart at the end of the skein."""
    left, right, top, height = field
    border = Path((("M", (left, top)), ("L", (left, top + height))), Style(stroke=SOFT, width=THIN, dash=(1.0, 0.7)))
    return [Rect(left, top, right - left, height, Style(fill=PAPER)), border]


def key_width(entries: list[KeyEntry]) -> float:
    """The room that the key takes in one line, mm."""
    words = sum(SWATCH_WIDTH + TO_WORDS + text_width(entry.words, SMALL) for entry in entries)
    return words + BETWEEN * (len(entries) - 1)


def key_lines(entries: list[KeyEntry], width: float) -> list[list[KeyEntry]]:
    """The entries in lines of so much width, mm, as many on each as there is room for."""
    lines: list[list[KeyEntry]] = []
    for entry in entries:
        if lines and key_width([*lines[-1], entry]) <= width:
            lines[-1].append(entry)
        else:
            lines.append([entry])
    return lines


def key(entries: list[KeyEntry], right: float, baseline: float, ramp: Ramp) -> Group:
    """A swatch and its words for each, in one line that ends at `right`."""
    items: list[Element] = []
    x, top = right - key_width(entries), baseline - SMALL * CAP_HEIGHT / 2 - SWATCH_HEIGHT / 2
    for kind, words in entries:
        field = Field(x, x + SWATCH_WIDTH, top, SWATCH_HEIGHT)
        items += hatching(field, ramp) if kind == BIND_OFF else margin(field) if kind == MARGIN_FIELD else []
        items.append(Rect(x, top, SWATCH_WIDTH, SWATCH_HEIGHT, Style(stroke=SOFT, width=EDGE * 0.8)))
        items.append(Label(x + SWATCH_WIDTH + TO_WORDS, baseline, words, SMALL, SOFT))
        x += SWATCH_WIDTH + TO_WORDS + text_width(words, SMALL) + BETWEEN
    return Group("skein-key", tuple(items))
