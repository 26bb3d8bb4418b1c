"""Pictures: from a computed shawl to a scene in mm, and from a scene to SVG, PNG and PDF.

`draw_schematic(shawl, options)` lays the page out; `to_svg`, `to_png` and `to_pdf` write it.
"""

from halfhank.renderer.paper.export import ExportError, FontWarning, to_pdf, to_png
from halfhank.renderer.paper.svg import SceneError, to_svg
from halfhank.renderer.schematic.options import OptionError, Options
from halfhank.renderer.schematic.page import draw_schematic

__all__ = [
    "ExportError",
    "FontWarning",
    "OptionError",
    "Options",
    "SceneError",
    "draw_schematic",
    "to_pdf",
    "to_png",
    "to_svg",
]
