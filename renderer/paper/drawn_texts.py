"""A scene's texts as PNG and PDF draw them: letter after letter from left to right, each in a font that has it.

Their library places one character after the other in one font. So a text with letters beyond the drawing's own fonts is
put into the order in which it is seen, its Arabic letters into the forms that they have beside each other, and cut into
one text for each font.
"""

import math

from halfhank.grammar.record import NamedTuple
from halfhank.renderer.paper.scene import Element, Group, Label, Scene
from halfhank.renderer.paper.scripts.directions import visual, with_isolates
from halfhank.renderer.paper.scripts.fonts import OWN, drawn_width, font_runs, script_of
from halfhank.renderer.paper.scripts.joining import joined
from halfhank.renderer.paper.text_widths import measured


class DrawnTexts(NamedTuple):
    """A scene that can be drawn letter by letter, and the scripts of which no font here has all letters, by name."""

    scene: Scene
    missing: tuple[str, ...]


def drawn_texts(scene: Scene) -> DrawnTexts:
    """The scene with its texts in order and in fonts that have their letters."""
    missing: dict[str, None] = {}
    items = tuple([_item(item, missing) for item in scene.items])
    return DrawnTexts(scene._replace(items=items), tuple(missing))


def _item(item: Element, missing: dict[str, None]) -> Element:
    if isinstance(item, Group):
        return item._replace(items=tuple([_item(inner, missing) for inner in item.items]))
    if isinstance(item, Label) and not measured(item.text, item.face, item.bold):
        return _label(item, missing)
    return item


def _label(label: Label, missing: dict[str, None]) -> Group:
    """One label for each font, in the place where the whole would stand."""
    own = OWN[label.face]
    runs = font_runs(visual(joined(with_isolates(label.text))), label.face, label.bold)
    for run in runs:
        if run.family is None:
            missing.update(dict.fromkeys(script_of(c) for c in run.text if c != " "))
    widths = [drawn_width(run.text, run.family or own, label.bold, label.size) for run in runs]
    at = {"start": 0.0, "middle": -sum(widths) / 2, "end": -sum(widths)}[label.anchor]
    turn = math.radians(label.turn)
    labels = []
    for run, width in zip(runs, widths, strict=True):
        face = label.face if run.family in (None, own) else str(run.family)
        x, y = label.x + at * math.cos(turn), label.y + at * math.sin(turn)
        labels.append(label._replace(x=x, y=y, text=run.text, face=face, anchor="start"))
        at += width
    return Group("text", tuple(labels))
