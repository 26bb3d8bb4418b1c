"""PNG and PDF by way of CairoSVG, which is imported only here and only when one of them is asked for."""

import io
from typing import Any

from halfhank.renderer.paper.drawn_texts import drawn_texts
from halfhank.renderer.paper.scene import Scene
from halfhank.renderer.paper.svg import to_svg

MM_PER_INCH = 25.4
PNG_DPI = 300.0
MOST_PIXELS = 60_000_000
"""The largest PNG, in pixels; each takes four bytes while it is drawn."""
HEADER_BYTES = 33
"""A PNG's signature and its first chunk, `IHDR`."""
_TAGS = {"svg": "Document", "text": "P"}
"""Structure of a PDF by elements (PDF 1.7, 14.8.4): each text is a paragraph of the document, in the page's order."""
_DATE = "2000-01-01T00:00:00Z"


class ExportError(RuntimeError):
    """A picture that cannot be made: too many pixels, or no cairo library on this machine."""


class FontWarning(UserWarning):
    """A PNG or PDF with letters for which this machine has no font; boxes stand in their place."""


def to_png(scene: Scene, dpi: float = PNG_DPI) -> bytes:
    """The scene as a PNG, on white or transparent, that gives its resolution, so that it is printed at its size.

    Raises `ExportError` where it would have more than 60 million pixels, or where the cairo library is missing. Warns
    with `FontWarning` where no font of the machine has the letters of a script.
    """
    width, height = round(scene.width * dpi / MM_PER_INCH), round(scene.height * dpi / MM_PER_INCH)
    if not 1 <= width * height <= MOST_PIXELS:
        raise ExportError(
            f"a PNG of {width:,} by {height:,} pixels is too large; draw it at a smaller scale, or as SVG or PDF"
        )
    picture = _cairosvg().svg2png(bytestring=_plain_svg(scene), output_width=width, output_height=height, unsafe=False)
    return _with_resolution(bytes(picture), dpi)


def _with_resolution(png: bytes, dpi: float) -> bytes:
    """The PNG with a `pHYs` chunk (PNG specification, 11.3.5.3: pixels a metre, each way) behind its header."""
    import zlib

    pixels_a_metre = round(dpi * 1000 / MM_PER_INCH).to_bytes(4, "big")
    body = b"pHYs" + 2 * pixels_a_metre + b"\x01"
    chunk = (len(body) - 4).to_bytes(4, "big") + body + zlib.crc32(body).to_bytes(4, "big")
    return png[:HEADER_BYTES] + chunk + png[HEADER_BYTES:]


def to_pdf(scene: Scene) -> bytes:
    """The scene as a tagged PDF of one page of its size. Its date is a fixed one: the same scene gives the same bytes.

    Raises `ExportError` where the cairo library is missing. Warns with `FontWarning` as `to_png` does.
    """
    plain_surface: Any = _cairosvg().surface.PDFSurface

    class DatedSurface(plain_surface):  # type: ignore[misc]
        """A PDF surface with a date of its own, in place of the clock's, with what it shows, and with tags."""

        def _create_surface(self, width: float, height: float) -> tuple[Any, float, float]:
            import cairocffi

            surface, width, height = super()._create_surface(width, height)
            surface.set_metadata(cairocffi.PDF_METADATA_CREATE_DATE, _DATE)
            surface.set_metadata(cairocffi.PDF_METADATA_TITLE, scene.title)
            surface.set_metadata(cairocffi.PDF_METADATA_SUBJECT, scene.description)
            return surface, width, height

        def draw(self, node: Any) -> None:
            tag = _TAGS.get(node.tag)
            if tag is None:
                super().draw(node)
                return
            self.context.tag_begin(tag)
            super().draw(node)
            self.context.tag_end(tag)

    output = io.BytesIO()
    DatedSurface.convert(bytestring=_plain_svg(scene), write_to=output, unsafe=False)
    return output.getvalue()


def _plain_svg(scene: Scene) -> bytes:
    """The scene as SVG whose texts need neither another font nor another order."""
    drawn = drawn_texts(scene)
    if drawn.missing:
        import warnings

        names = " or ".join([", ".join(drawn.missing[:-1]), drawn.missing[-1]] if drawn.missing[1:] else drawn.missing)
        warnings.warn(f"no font on this machine has the {names} letters of this drawing", FontWarning, stacklevel=3)
    return to_svg(drawn.scene, as_seen=True)


def _cairosvg() -> Any:
    try:
        import cairosvg
    except (ImportError, OSError) as error:  # cairocffi raises OSError where the library itself is missing
        raise ExportError(
            "PNG and PDF need the cairo library, which is not installed: "
            "apt install libcairo2, dnf install cairo or brew install cairo"
        ) from error
    return cairosvg
