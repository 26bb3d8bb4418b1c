"""Elements of a page's tree."""

from collections.abc import Iterable, Mapping

from lxml import etree

Element = etree._Element
SVG_NAMESPACE = "http://www.w3.org/2000/svg"
_NOTHING: Mapping[str, str] = {}


def new_element(
    tag: str, text: str | None = None, children: Iterable[Element] = (), attributes: Mapping[str, str] = _NOTHING
) -> Element:
    """An element of HTML with its text, then its children."""
    made = etree.Element(tag, dict(attributes))
    made.text = text
    made.extend(list(children))
    return made


def svg_element(tag: str, attributes: Mapping[str, str] = _NOTHING, children: Iterable[Element] = ()) -> Element:
    """An element of a drawing."""
    made = etree.Element(f"{{{SVG_NAMESPACE}}}{tag}", dict(attributes), nsmap={None: SVG_NAMESPACE})  # type: ignore[dict-item]
    made.extend(list(children))
    return made
