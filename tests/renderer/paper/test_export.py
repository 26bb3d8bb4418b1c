"""PNG and PDF by CairoSVG."""

import io
import struct
import subprocess
import sys
import time
import zlib

import pytest
from halfhank.renderer import ExportError, draw_schematic, to_pdf, to_png
from halfhank.renderer.paper import export
from halfhank.renderer.paper.scene import Label, Rect, Scene, Style
from PIL import Image

from tests.renderer.pieces import Piece, chevron, shawl_of

RED_SQUARE = Scene(20.0, 10.0, "Title", "Description", (Rect(5, 2, 10, 6, Style(fill="#ff0000")),))


def test_png_has_its_size_and_its_colours() -> None:
    image = Image.open(io.BytesIO(to_png(RED_SQUARE, dpi=254))).convert("RGB")
    assert image.size == (200, 100)
    assert image.getpixel((100, 50)) == (255, 0, 0)
    assert image.getpixel((10, 10)) == (255, 255, 255)
    assert Image.open(io.BytesIO(to_png(RED_SQUARE))).size == (236, 118), "300 to the inch"


@pytest.mark.parametrize("dpi", [150.0, 300.0])
def test_png_is_printed_at_its_size(dpi: float) -> None:
    image = Image.open(io.BytesIO(to_png(RED_SQUARE, dpi)))
    image.load()
    assert image.info["dpi"] == pytest.approx((dpi, dpi), abs=0.02)
    assert image.width / image.info["dpi"][0] * 25.4 == pytest.approx(20, abs=0.1)


def test_png_is_whole() -> None:
    """Chunks follow each other without a gap, the resolution before the picture, and each has its checksum."""
    data, at, kinds = to_png(RED_SQUARE, 100), 8, []
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at : at + 8])
        (crc,) = struct.unpack(">I", data[at + 8 + length : at + 12 + length])
        assert crc == zlib.crc32(data[at + 4 : at + 8 + length])
        kinds.append(kind)
        at += 12 + length
    assert kinds[0] == b"IHDR" and kinds[-1] == b"IEND" and kinds.count(b"pHYs") == 1
    assert kinds.index(b"pHYs") < kinds.index(b"IDAT")


def test_png_of_a_drawing_is_inked_to_its_margins() -> None:
    scene = draw_schematic(shawl_of(Piece([("all", [("garter", 20)])], chevron, spine=True)))
    image = Image.open(io.BytesIO(to_png(scene, dpi=100))).convert("L")
    left, top, right, bottom = image.point(lambda value: 255 if value < 250 else 0).getbbox() or (0, 0, 0, 0)
    mm = 25.4 / 100
    assert left * mm == pytest.approx(10, abs=0.6)
    assert scene.width - right * mm == pytest.approx(10, abs=0.6)
    assert 7 < top * mm < 16 and 7 < scene.height - bottom * mm < 16


def test_too_many_pixels_are_refused() -> None:
    with pytest.raises(ExportError, match="too large"):
        to_png(Scene(3000.0, 3000.0, "t", "d", ()))
    with pytest.raises(ExportError):
        to_png(RED_SQUARE, dpi=1e6)


@pytest.mark.parametrize(("height", "expected"), [(8000.0, NotImplementedError), (8001.0, ExportError)])
def test_sixty_million_pixels_are_drawn_and_one_row_more_is_not(
    height: float, expected: type[Exception], monkeypatch: pytest.MonkeyPatch
) -> None:
    """7,500 by 8,000 pixels, one for each mm: what comes to be drawn ends where cairo would begin."""

    def begun(scene: Scene, as_seen: bool) -> bytes:
        raise NotImplementedError

    monkeypatch.setattr(export, "to_svg", begun)
    with pytest.raises(expected):
        to_png(Scene(7500.0, height, "t", "d", ()), dpi=25.4)


def test_pdf_is_the_same_a_second_later() -> None:
    scene = RED_SQUARE._replace(items=(Label(1, 5, "words", 3, "#000000"),))
    first = to_pdf(scene)
    time.sleep(1.01 - time.time() % 1)
    assert to_pdf(scene) == first
    assert first.startswith(b"%PDF-")


def test_a_pdf_is_tagged_and_says_what_it_is() -> None:
    """Structure elements by their types: the document, and a paragraph for each text."""
    labels = tuple(Label(1, 2.0 * k, f"words {k}", 2, "#000000") for k in range(1, 4))
    data = to_pdf(RED_SQUARE._replace(items=(*RED_SQUARE.items, *labels), description="A red square."))
    assert b"/StructTreeRoot" in data and b"/Marked true" in data
    assert (data.count(b"/S /Document"), data.count(b"/S /P")) == (1, 3)
    assert b"(Title)" in data and b"(A red square.)" in data


def test_missing_cairo_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "cairosvg", None)
    with pytest.raises(ExportError, match="libcairo2"):
        export.to_png(RED_SQUARE)
    with pytest.raises(ExportError, match="libcairo2"):
        export.to_pdf(RED_SQUARE)


def test_cairo_is_imported_only_when_asked_for() -> None:
    code = "import sys, halfhank.renderer; assert not {'cairosvg', 'cairocffi'} & set(sys.modules)"
    subprocess.run([sys.executable, "-c", code], check=True)
