"""A box to tick, as a small drawing: no font has to have a sign for it."""

from halfhank.cli.report.html.elements import Element, svg_element
from halfhank.model.words.catalogue import said

_SIDE = "12"
_BOX = {"x": "1", "y": "1", "width": "10", "height": "10"}
_TICK = "M3 6.2 L5.2 8.5 L9.2 3.4"
_STROKE = {"fill": "none", "stroke": "currentColor", "stroke-width": "1.2"}


def tick_box(ticked: bool) -> Element:
    """The box, with a name for those who do not see it."""
    name = said("page.ticked" if ticked else "page.unticked")
    title = svg_element("title")
    title.text = name
    shapes = [svg_element("rect", {**_BOX, **_STROKE})]
    if ticked:
        shapes.append(svg_element("path", {"d": _TICK, **_STROKE}))
    size = {"viewBox": f"0 0 {_SIDE} {_SIDE}", "width": _SIDE, "height": _SIDE}
    return svg_element("svg", {"class": "tick", **size, "role": "img", "aria-label": name}, [title, *shapes])
