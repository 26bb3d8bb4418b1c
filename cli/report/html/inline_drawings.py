"""Drawings as parts of a page: the SVG's own tree, at a size of the page's, with ids that no other drawing has."""

import re

from halfhank.cli.report.html.elements import Element
from halfhank.cli.report.html.html_text import curled
from halfhank.grammar.record import NamedTuple
from halfhank.renderer.paper.scene import Scene
from halfhank.renderer.paper.svg import number, to_svg
from lxml import etree

WIDE_MM = 140.0
"""A drawing of more than this is as wide as the page on a screen."""
_ID_LISTS = ("aria-labelledby", "aria-describedby")
_URL = re.compile(r"url\(#([^)]+)\)")


class PlacedScene(NamedTuple):
    """A drawing as a page shows it: without `trim` mm of its own at each side, enlarged by `zoom`."""

    scene: Scene
    trim: float
    zoom: float

    @property
    def height_mm(self) -> float:
        """Its height on the page."""
        return self.zoom * (self.scene.height - 2 * self.trim)


class InlineDrawings:
    """Makes elements of scenes for one page, and keeps the ids that are taken."""

    def __init__(self) -> None:
        self._taken = set[str]()

    def element(self, placed: PlacedScene) -> Element:
        """The drawing as an element of the page."""
        scene, trim, zoom = placed
        root = _tree(to_svg(scene._replace(sheet=False)))
        width, height = scene.width - 2 * trim, scene.height - 2 * trim
        _curl(root)
        root.set("class", "drawing wide" if zoom * width > WIDE_MM else "drawing")
        root.set("viewBox", " ".join(map(number, (trim, trim, width, height))))
        root.set("width", f"{number(zoom * width)}mm")
        root.set("height", f"{number(zoom * height)}mm")
        self._make_distinct(root)
        return root

    def _make_distinct(self, root: Element) -> None:
        """A second drawing of the same content has the same ids: they get a number."""
        found = [element.get("id", "") for element in root.iter() if element.get("id")]
        if not self._taken.isdisjoint(found):
            number_ = next(k for k in range(2, len(self._taken) + 3) if f"{found[0]}-n{k}" not in self._taken)
            names = {name: f"{name}-n{number_}" for name in found}
            for element in root.iter():
                _rename(element, names)
            found = list(names.values())
        self._taken.update(found)


def _tree(svg: bytes) -> Element:
    return etree.fromstring(svg, etree.XMLParser(resolve_entities=False, no_network=True))


def _curl(root: Element) -> None:
    """Its words have the apostrophes of the page's."""
    for element in root.iter(etree.Element):
        if element.text:
            element.text = curled(element.text)


def _rename(element: Element, names: dict[str, str]) -> None:
    for key, value in ((str(key), str(value)) for key, value in element.attrib.items()):
        if key == "id":
            element.set(key, names[value])
        elif key in _ID_LISTS:
            element.set(key, " ".join(names[one] for one in value.split()))
        elif "url(#" in value:
            element.set(key, _URL.sub(lambda found: f"url(#{names[found[1]]})", value))
