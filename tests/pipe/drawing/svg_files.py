"""What every SVG file of ours must keep, whatever was drawn."""

import math
import re
from functools import cache
from pathlib import Path

from lxml import etree

SVG = "{http://www.w3.org/2000/svg}"
ELEMENTS = {"svg", "title", "desc", "g", "defs", "clipPath", "path", "circle", "rect", "line", "polyline", "text"}
ELEMENTS |= {"style", "tspan"}
DTD = Path("/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd")
NUMBERED = {"d", "x", "y", "width", "height", "cx", "cy", "r", "points", "stroke-width", "font-size"}
NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")


@cache
def svg_11() -> etree.DTD | None:
    """The W3C's DTD of SVG 1.1, where Debian's w3c-sgml-lib is installed."""
    return etree.DTD(str(DTD)) if DTD.exists() else None


def parsed(data: bytes) -> etree._Element:
    parser = etree.XMLParser(resolve_entities=False, no_network=True, load_dtd=False)
    return etree.fromstring(data, parser)


def check(data: bytes) -> None:
    """Everything that holds for all of our files."""
    root = parsed(data)
    check_elements(root)
    check_attributes(root)
    check_numbers(root)
    check_validity(root)


def check_elements(root: etree._Element) -> None:
    names = {str(element.tag).removeprefix(SVG) for element in root.iter()}
    assert names <= ELEMENTS, names - ELEMENTS
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "graphics-document document"
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None and description is not None
    assert root.get("aria-labelledby") == title.get("id") and root.get("aria-describedby") == description.get("id")
    assert re.fullmatch(r"[\d.]+mm", root.get("width", "")) and re.fullmatch(r"[\d.]+mm", root.get("height", ""))


def attributes(element: etree._Element) -> list[tuple[str, str]]:
    return [(str(name), str(value)) for name, value in element.attrib.items()]


def check_attributes(root: etree._Element) -> None:
    seen: set[str] = set()
    for element in root.iter():
        for name, value in attributes(element):
            assert not name.lower().startswith("on"), name
            assert "javascript:" not in value.lower()
            for target in re.findall(r"url\(([^)]*)\)", value):
                assert target.strip("'\"").startswith("#"), value
            if name.endswith("href"):
                assert value.startswith("#"), value
        identifier = element.get("id")
        if identifier is not None:
            assert identifier not in seen, identifier
            seen.add(identifier)
    used = {target for e in root.iter() for _, v in attributes(e) for target in re.findall(r"url\(#([^)]*)\)", v)}
    assert used <= seen, used - seen


def check_numbers(root: etree._Element) -> None:
    left, top, width, height = map(float, root.get("viewBox", "").split())
    assert (left, top) == (0, 0) and width > 0 and height > 0
    for element in root.iter():
        for name, value in attributes(element):
            if name not in NUMBERED:
                continue
            assert "nan" not in value.lower() and "inf" not in value.lower()
            assert all(math.isfinite(float(n)) for n in NUMBER.findall(value))


def check_validity(root: etree._Element) -> None:
    """Valid against the DTD, once attributes that are younger are dropped from it: roles, names, keyboard order."""
    dtd = svg_11()
    if dtd is None:
        return
    for element in root.iter():
        for name in list(element.attrib):
            if str(name) in ("role", "tabindex") or str(name).startswith("aria-"):
                del element.attrib[name]
    assert dtd.validate(root), str(dtd.error_log)[:400]
