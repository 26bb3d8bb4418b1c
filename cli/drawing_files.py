"""Where a drawing goes and in which format; from a scene to the bytes of its file."""

import os
from collections.abc import Callable
from typing import TYPE_CHECKING

from halfhank.cli import files, terminal
from halfhank.cli.errors import CommandError

if TYPE_CHECKING:
    from halfhank.renderer.paper.scene import Scene

FORMATS = (".svg", ".png", ".pdf")
BOXES = "boxes stand in their place: install such a font, or draw an SVG"


def beside(file: str, ending: str = "") -> str:
    """Where the drawing of a description goes without -o: beside it as NAME.svg, or to standard output."""
    return files.STANDARD if file == files.STANDARD else os.path.splitext(file)[0] + ending + ".svg"


def format_of(target: str) -> str:
    """The format of a drawing by its name's extension. Raises `CommandError` for one that no drawing has."""
    if target == files.STANDARD:
        return ".svg"
    extension = os.path.splitext(target)[1]
    if extension.lower() not in FORMATS:
        hint = f"end its name in {', '.join(FORMATS[:-1])} or {FORMATS[-1]}"
        raise CommandError(f"{target}: a drawing cannot be written as {extension or 'that'}", hint)
    return extension.lower()


def rendered(draw: "Callable[[], Scene]", format_: str, embed: bool = False) -> bytes:
    """The file of what `draw` draws, or to `embed` the element alone. Raises `CommandError` where it cannot be made."""
    from halfhank import renderer

    if embed:
        from halfhank.renderer.inline.inline_svg import to_inline_svg

        check_embedded(format_)
        return made(lambda: to_inline_svg(draw()))
    write = {".svg": renderer.to_svg, ".png": renderer.to_png, ".pdf": renderer.to_pdf}[format_]
    return made(lambda: write(draw()))


def check_embedded(format_: str) -> None:
    """Raises `CommandError` where a drawing that is to stand in a page of HTML would not be SVG."""
    if format_ != ".svg":
        raise CommandError(f"--embed makes an SVG, not a {format_[1:].upper()}", "end its name in .svg")


def made(make: "Callable[[], bytes]") -> bytes:
    """The file that `make` makes; warnings go to standard error. Raises `CommandError` where it cannot be made."""
    import warnings

    from halfhank import renderer
    from halfhank.cli.startup import load_without_unused
    from halfhank.renderer.paper.svg import svgwrite_package

    load_without_unused(svgwrite_package)
    try:
        with warnings.catch_warnings(record=True) as warned:
            warnings.simplefilter("always", renderer.FontWarning)
            data = make()
        for warning in warned:
            terminal.err(f"halfhank: {warning.message}\n  {BOXES}\n")
        return data
    except (renderer.ExportError, renderer.OptionError) as error:
        raise CommandError(str(error)) from error
