"""A scene as SVG 1.1: the one module that knows svgwrite, and the one that checks what goes into a file.

svgwrite is used without its own checks (they are slow and let NaN and control characters through); instead every
number and text passes `number` and `checked` here.
"""

from typing import Any
from zlib import adler32, crc32

from halfhank.grammar.record import NamedTuple
from halfhank.model.words.drawn_words import phrase_of
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, PathData, Rect, Scene, Style
from halfhank.renderer.paper.scripts.directions import with_isolates

SANS = "Helvetica, Arial, 'Liberation Sans', sans-serif"
SERIF = "Times, 'Times New Roman', 'Liberation Serif', serif"
SHEET = "#ffffff"
_DROPPED = ("xmlns:ev", "xmlns:xlink", "baseProfile")


class SceneError(ValueError):
    """A scene that cannot be written: a number that is not finite, or a text with characters that XML forbids."""


def to_svg(scene: Scene, as_seen: bool = False) -> bytes:
    """The scene as a whole SVG file in UTF-8; the same scene gives the same bytes.

    Words from right to left are isolated in each text, unless texts are in the order in which they are seen already
    (`as_seen`). Raises `SceneError` for numbers that are not finite and for control characters.
    """
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + SvgWriter(as_seen).element(scene)


def svgwrite_package() -> Any:
    """svgwrite, which is imported when the first drawing is written: its import takes longer than all of the
    renderer's own."""
    import svgwrite

    return svgwrite


def number(value: float) -> str:
    """A number to 0.01, without trailing zeros, never `-0`."""
    text = f"{value:.2f}"
    if text[-1] == "0":
        text = text[:-3] if text[-2] == "0" else text[:-1]
    elif text[-1] > "9":
        raise SceneError(f"a drawing cannot hold the number {value!r}")
    return "0" if text == "-0" else text


def checked(text: str) -> str:
    """The text itself, if XML 1.0 can hold it and it has no control characters."""
    if text.isprintable():  # most are, and then they hold none of those below
        return text
    for character in text:
        code = ord(character)
        if code < 0x20 or 0x7F <= code < 0xA0 or 0xD800 <= code < 0xE000 or code & 0xFFFE == 0xFFFE:
            raise SceneError(f"a drawing cannot hold the character U+{code:04X}")
    return text


def path_text(data: PathData) -> str:
    """The `d` attribute of a path; a command's letter is left out where it would only repeat."""
    parts = []
    last = ""
    for letter, numbers in data:
        joint = " " if letter == last and letter not in "MZ" else letter
        parts.append(joint + " ".join([number(value) for value in numbers]))
        last = letter
    return "".join(parts)


ROLE = "graphics-document document"
NAMES, DESCRIBED_BY = ("title", "description"), ("aria-labelledby", "aria-describedby")
SPOKEN = frozenset({"heading", "drawing", "skein", "parts", "legend", "facts", "axes", "marks", "weighings", "names"})
SPOKEN |= {"notes", "key", "lane", "reading"}
"""Groups at the top of a page that are called something for those who do not see them."""
LISTS = frozenset({"fabric", "symbols", "outlines"})
"""Groups whose titled members can be reached one after the other by keyboard, where the picture is part of a page."""
UNREAD = frozenset({"badges", "ruler-badges", "ticks", "grid", "row-numbers"})
"""Groups of figures that only say with what is around them what they are."""


class _Named(NamedTuple):
    """An element that gets an id once the prefix is known, and the one that refers to it by a clip path."""

    element: Any
    name: str
    clipped: Any


class SvgWriter:
    """Builds svgwrite's tree; takes a digest of everything written, which becomes the prefix of all ids."""

    def __init__(self, as_seen: bool) -> None:
        self._svgwrite = svgwrite_package()
        self._as_seen = as_seen
        self._factory: Any = None
        self._named: list[_Named] = []
        self._written: list[str] = []

    def element(self, scene: Scene) -> bytes:
        """The scene as one `svg` element and the end of its line, in UTF-8."""
        from xml.etree import ElementTree

        xml = self.drawing(scene).get_xml()
        for name in _DROPPED:
            xml.attrib.pop(name, None)
        return ElementTree.tostring(xml, "unicode").encode() + b"\n"

    def drawing(self, scene: Scene) -> Any:
        """The whole scene as svgwrite's drawing."""
        width, height = number(scene.width), number(scene.height)
        drawing = self._svgwrite.Drawing(debug=False)
        self._factory = drawing
        drawing.update({"viewBox": f"0 0 {width} {height}", "role": ROLE, "font-family": SANS, "fill": "none"})
        drawing.update({"stroke-linejoin": "round"} | self.size(width, height))
        drawing.elements.clear()  # an empty defs
        drawing.set_desc(self._text(scene.title), self._text(scene.description))
        if scene.sheet:
            drawing.add(self._item(Rect(0, 0, scene.width, scene.height, Style(fill=SHEET))))
        for item in scene.items:
            drawing.add(self._item(item))
        self.finish(drawing)
        return drawing

    def size(self, width: str, height: str) -> dict[str, str]:
        """The attributes of the root that give its size on the page."""
        return {"width": f"{width}mm", "height": f"{height}mm"}

    def finish(self, drawing: Any) -> None:
        """Gives ids to all that have a name, and refers to those of the title and the description."""
        prefix = self._give_ids()
        for name, element, attribute in zip(NAMES, drawing.elements[:2], DESCRIBED_BY, strict=True):
            element.xml.set("id", f"{prefix}-{name}")
            drawing[attribute] = f"{prefix}-{name}"

    def clip(self, group: Any, name: str, data: PathData) -> None:
        """Confines a group to a closed path, by an element that gets an id."""
        clip = self._svgwrite.masking.ClipPath(factory=self._factory)
        clip.add(self._path(Path(data, Style())))
        group.add(clip)
        self._named.append(_Named(clip, f"{name}-clip", group))

    def _text(self, text: str) -> str:
        self._written.append(checked(text))
        return text

    def _give_ids(self) -> str:
        """Ids for everything that waits for one; their prefix."""
        content = "\n".join(self._written).encode()
        prefix = f"h{crc32(content):08x}{adler32(content):08x}"
        taken = dict.fromkeys(NAMES, 1)
        for element, name, clipped in self._named:
            taken[name] = count = taken.get(name, 0) + 1
            identifier = f"{prefix}-{name}" if count == 1 else f"{prefix}-{name}-{count}"
            element["id"] = identifier
            if clipped is not None:
                clipped["clip-path"] = f"url(#{identifier})"
        return prefix

    def _item(self, item: Element) -> Any:
        match item:
            case Path():
                return self._path(item)
            case Group():
                return self._group(item)
            case Label():
                return self._label(item)
            case Circle():
                place = {"cx": number(item.x), "cy": number(item.y), "r": number(item.radius)}
                return self._shape(self._svgwrite.shapes.Circle, place, item.style)
            case Rect():
                place = {"x": number(item.x), "y": number(item.y)}
                size = {"width": number(item.width), "height": number(item.height)}
                return self._shape(self._svgwrite.shapes.Rect, place | size, item.style)

    def _shape(self, kind: Any, place: dict[str, str], style: Style) -> Any:
        attributes = place | _paint(style)
        self._written.extend(attributes.values())
        element = kind(factory=self._factory)
        element.attribs = attributes
        return element

    def _path(self, item: Path) -> Any:
        data = path_text(item.data)
        attributes = _paint(item.style)
        self._written.append(data)
        self._written.extend(attributes.values())
        element = self._svgwrite.path.Path(d=data, factory=self._factory)
        element.attribs.update(attributes)
        if item.title is not None:
            element.set_desc(self._text(item.title))
        return element

    def _label(self, item: Label) -> Any:
        attributes = {"x": number(item.x), "y": number(item.y), "font-size": number(item.size), "fill": item.fill}
        if item.face != "sans":
            attributes["font-family"] = SERIF if item.face == "serif" else item.face
        if item.bold:
            attributes["font-weight"] = "bold"
        if item.anchor != "start":
            attributes["text-anchor"] = item.anchor
        if item.turn:
            attributes["transform"] = f"rotate({number(item.turn)} {attributes['x']} {attributes['y']})"
        text = item.text if self._as_seen else with_isolates(item.text)
        element = self._svgwrite.text.Text(self._text(text), factory=self._factory)
        element.attribs = attributes
        self._written.extend(attributes.values())
        return element

    def _group(self, item: Group) -> Any:
        group = self._svgwrite.container.Group(factory=self._factory)
        if item.title is not None:
            group.set_desc(self._text(item.title))
        if item.clip is not None:
            self.clip(group, item.name, item.clip)
        self._named.append(_Named(group, item.name, None))
        group.attribs.update(_spoken(item))
        for child in item.items:
            added = self._item(child)
            if item.name in LISTS and isinstance(child, Group) and child.title is not None:
                added.attribs |= {"role": "listitem", "tabindex": "0"}
            group.add(added)
        return group


def _spoken(group: Group) -> dict[str, str]:
    """Attributes for those who do not see the picture: what the group is and what it is called (WAI-ARIA 1.2).

    A title is a name already.
    """
    if group.name in UNREAD:
        return {"aria-hidden": "true"}
    if group.name in LISTS:
        return {"role": "list", "aria-label": phrase_of("list", group.name)}
    if group.title is not None:
        return {"role": "img"}
    if group.name in SPOKEN:
        return {"role": "group", "aria-label": phrase_of("group", group.name)}
    return {}


def _paint(style: Style) -> dict[str, str]:
    """Presentation attributes; what the root already has (no fill, round joins) is left out."""
    attributes = {}
    if style.fill is not None:
        attributes["fill"] = style.fill
    if style.stroke is not None:
        attributes["stroke"] = style.stroke
        attributes["stroke-width"] = number(style.width)
        if style.dash:
            attributes["stroke-dasharray"] = " ".join([number(length) for length in style.dash])
        if style.cap != "butt":
            attributes["stroke-linecap"] = style.cap
        if style.join != "round":
            attributes["stroke-linejoin"] = style.join
    return attributes
