"""Pictures: from a computed shawl to a scene in mm, and from a scene to SVG, PNG and PDF.

`schematic(shawl, options)` lays the page out; `to_svg`, `to_png` and `to_pdf` write it.
"""

from halfhank.renderer.export import ExportError, to_pdf, to_png
from halfhank.renderer.options import OptionError, Options
from halfhank.renderer.schematic import schematic
from halfhank.renderer.svg import SceneError, to_svg

__all__ = ["ExportError", "OptionError", "Options", "SceneError", "schematic", "to_pdf", "to_png", "to_svg"]
