"""The gallery shows what the code draws today."""

import io
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageStat

from gallery_demo.rebuild import (
    CHART_FOLDER,
    CHARTS,
    PAGE_FOLDER,
    PAGES,
    README,
    Chart,
    Demo,
    demos,
    page,
    page_path,
    readme,
    same_pdf,
)

# A grey level in 255 that the pictures of two machines may differ by on average: fonts are rasterised differently.
DIFFERENCE = 2.0
MOST_BYTES = 150_000


@pytest.fixture(scope="module", params=demos(), ids=lambda path: path.stem)
def demo(request: pytest.FixtureRequest) -> Demo:
    return Demo(request.param)


def test_there_are_demos() -> None:
    assert len(demos()) >= 3


def test_the_drawing_is_up_to_date(demo: Demo, accept: bool) -> None:
    _compare(demo.path.with_suffix(".svg"), demo.svg(), accept)


def test_the_page_is_up_to_date(accept: bool) -> None:
    _compare(README, readme([Demo(path) for path in demos()]), accept)


def test_the_picture_shows_the_drawing(demo: Demo, accept: bool) -> None:
    _compare_pictures(demo.path.with_suffix(".png"), demo.png(), accept)


@pytest.mark.parametrize("chart", CHARTS, ids=lambda chart: chart.stem)
def test_the_chart_is_up_to_date(chart: Chart, accept: bool) -> None:
    _compare(chart.path(".svg"), chart.data(".svg"), accept)
    _compare_pictures(chart.path(".png"), chart.data(".png"), accept)
    assert len(chart.data(".svg")) < MOST_BYTES


@pytest.mark.parametrize("stem", PAGES)
def test_the_pattern_page_is_up_to_date(stem: str, accept: bool) -> None:
    _compare(page_path(stem, ".html"), page(stem, ".html"), accept)
    path, data = page_path(stem, ".pdf"), page(stem, ".pdf")
    if accept and not (path.exists() and same_pdf(path.read_bytes(), data)):
        path.write_bytes(data)
    assert path.exists() and same_pdf(path.read_bytes(), data), f"{path.name} is out of date"


def test_pdfs_are_compared_by_words_and_looks() -> None:
    first, second = (page(stem, ".pdf") for stem in PAGES)
    assert same_pdf(first, first) and not same_pdf(first, second)


def test_every_pattern_page_is_made() -> None:
    made = {f"{stem}{ending}" for stem in PAGES for ending in (".html", ".pdf")}
    assert {path.name for path in PAGE_FOLDER.iterdir()} == made


def test_every_chart_is_made() -> None:
    made = {f"{chart.stem}{ending}" for chart in CHARTS for ending in (".svg", ".png")}
    assert {path.name for path in CHART_FOLDER.iterdir()} == made


def test_the_drawing_is_small(demo: Demo) -> None:
    assert len(demo.svg()) < MOST_BYTES


def test_every_picture_has_its_description() -> None:
    folder = README.parent
    names = {path.stem for path in demos()}
    assert {path.stem for pattern in ("*.svg", "*.png") for path in folder.glob(pattern)} == names


def _compare(path: Path, data: bytes, accept: bool) -> None:
    if accept:
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
    assert path.exists() and path.read_bytes() == data, f"{path.name} is out of date: pytest --accept writes it anew"


def _compare_pictures(path: Path, data: bytes, accept: bool) -> None:
    if accept and _difference(path, data) > DIFFERENCE:
        path.write_bytes(data)
    assert _difference(path, data) <= DIFFERENCE, f"{path.name} is out of date"


def _difference(path: Path, data: bytes) -> float:
    """The mean difference of two pictures in grey levels; 255 where there is none, or their sizes differ."""
    if not path.exists():
        return 255.0
    new, old = (Image.open(source).convert("L") for source in (io.BytesIO(data), path))
    if new.size != old.size:
        return 255.0
    return float(ImageStat.Stat(ImageChops.difference(new, old)).mean[0])
