"""Formats of drawings, by the extension of the file that they go to."""

import os
from typing import TYPE_CHECKING

from halfhank.cli import files
from halfhank.cli.trouble import CommandError

if TYPE_CHECKING:
    from halfhank.renderer.scene import Scene

FORMATS = (".svg", ".png", ".pdf")


def format_of(target: str) -> str:
    """The format of a drawing; standard output takes SVG. Raises `CommandError` for an extension that none has."""
    if target == files.STANDARD:
        return ".svg"
    extension = os.path.splitext(target)[1]
    if extension.lower() not in FORMATS:
        hint = f"end its name in {', '.join(FORMATS[:-1])} or {FORMATS[-1]}"
        raise CommandError(f"{target}: a drawing cannot be written as {extension or 'that'}", hint)
    return extension.lower()


def written(scene: "Scene", format_: str) -> bytes:
    """A scene in a format. Raises `CommandError` where this machine cannot make it."""
    from halfhank.renderer.export import ExportError, to_pdf, to_png
    from halfhank.renderer.svg import to_svg

    write = {".svg": to_svg, ".png": to_png, ".pdf": to_pdf}[format_]
    try:
        return write(scene)
    except ExportError as error:
        raise CommandError(str(error)) from error
