"""What holds of every page: it is valid HTML, and nothing in it runs or loads."""

import re
from collections import Counter
from collections.abc import Iterator

import html5lib
from lxml import etree

RUNNING = {"script", "iframe", "object", "embed", "link", "base", "form", "img", "image", "use", "a", "foreignObject"}
"""Elements that run something, load something, or lead elsewhere: a page has none of them."""
_REFERENCE = re.compile(r"(?i)https?:|javascript:|data:|@import|url\((?!#)")
_NAMES = {"http://www.w3.org/1999/xhtml", "http://www.w3.org/2000/svg"}


def parsed(page: bytes) -> etree._Element:
    """The tree as a strict parser of HTML sees it. Raises its `ParseError` for what is no valid HTML."""
    parser = html5lib.HTMLParser(html5lib.treebuilders.getTreeBuilder("lxml"), strict=True)
    tree: etree._ElementTree = parser.parse(page, transport_encoding="utf-8")
    return tree.getroot()


def name_of(element: etree._Element) -> str:
    """An element's name without its namespace; empty for what is no element."""
    return etree.QName(element).localname if isinstance(element.tag, str) else ""


def faults(root: etree._Element) -> list[str]:
    """What a page must not have: elements that run, event attributes, references outside, ids that occur twice."""
    return [*_forbidden(root), *_dangling(root)]


def _forbidden(root: etree._Element) -> Iterator[str]:
    for element in root.iter(etree.Element):
        if name_of(element) in RUNNING or etree.QName(element).namespace not in _NAMES:
            yield f"<{element.tag}>"
        for key, value in element.attrib.items():
            if str(key).startswith("on") or str(key) in ("href", "src", "srcset", "action", "style"):
                yield f"{element.tag} {key!r}"
            if _REFERENCE.search(str(value)) and value not in _NAMES:
                yield f"{key!r} is {value!r}"
    styles = [style.text or "" for style in root.iter() if name_of(style) == "style"]
    yield from (f"style: {found}" for style in styles for found in _REFERENCE.findall(style))


def _dangling(root: etree._Element) -> Iterator[str]:
    ids = Counter(str(one) for one in root.xpath("//@id"))
    yield from (f"id {one} {count} times" for one, count in ids.items() if count > 1)
    named = [one for value in root.xpath("//@aria-labelledby | //@aria-describedby") for one in str(value).split()]
    named += [found for value in root.xpath("//@*") for found in re.findall(r"url\(#([^)]+)\)", str(value))]
    yield from (f"no id {one}" for one in named if one not in ids)


def texts(root: etree._Element) -> str:
    """All words of the body, white space as it is read: in one space."""
    (body,) = (element for element in root if name_of(element) == "body")
    return " ".join(" ".join(body.itertext()).split())
