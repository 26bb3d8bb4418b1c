"""A scene as an `svg` element that stands inline in a page of HTML, as often as is wanted and beside any other.

Nothing of it has an id, so nothing can be there twice; nothing is a style rule, so nothing reaches the page.
"""

from typing import Any

from halfhank.renderer.inline.cut_strokes import cut_strokes
from halfhank.renderer.inline.page_inks import page_inks
from halfhank.renderer.paper.scene import PathData, Scene
from halfhank.renderer.paper.svg import SvgWriter, path_text

CLASS = "halfhank"
PLAIN = {
    "direction": "ltr",
    "font-stretch": "normal",
    "font-style": "normal",
    "font-variant": "normal",
    "font-weight": "normal",
    "letter-spacing": "normal",
    "stroke": "none",
    "text-anchor": "start",
    "word-spacing": "normal",
    "writing-mode": "lr-tb",
}
"""What a drawing would inherit from the page around it, as its texts were measured."""


def to_inline_svg(scene: Scene) -> bytes:
    """The scene as one `svg` element in UTF-8, without declaration; the same scene gives the same bytes.

    It is as wide as the page lets it be. Without its sheet it takes the page's colour of text where it lies on the page
    itself. Raises `SceneError` as `to_svg` does.
    """
    return _InlineWriter(as_seen=False).element(cut_strokes(scene if scene.sheet else page_inks(scene)))


class _InlineWriter(SvgWriter):
    """A title and a description name their parent as they are (SVG Accessibility API Mappings 1.0, 5.1 and 5.2)."""

    def size(self, width: str, height: str) -> dict[str, str]:
        return {"width": "100%", "class": CLASS, **PLAIN}

    def finish(self, drawing: Any) -> None:
        del drawing.attribs["height"]

    def clip(self, group: Any, name: str, data: PathData) -> None:
        """By a shape of CSS in the view box's own units (CSS Masking 1), which needs no element to refer to.

        What does not know it shows a little more of an edge at a thin tip.
        """
        group["clip-path"] = f"path('{path_text(data)}') view-box"
