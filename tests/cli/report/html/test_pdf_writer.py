"""Pages as PDF: text stays text, with its fonts, tagged, and the same bytes at each run."""

import io
import sys
from functools import cache
from pathlib import Path

import pypdf
import pypdfium2
import pytest
from halfhank.cli.errors import CommandError
from halfhank.cli.report.html.pdf_writer import pdf_bytes
from halfhank.cli.report.page.pattern_page import PageOptions, pattern_page
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject

from tests.cli.report.page.pages import DEMOS, FIRST, LARGE, WHOLE, plan_of
from tests.cli.running import process

MM_POINT = 72 / 25.4
TABLE_LINES = ("part ", "repeat ")
"""How the headings of the tables among the instructions begin."""


@cache
def written(options: PageOptions) -> bytes:
    return pdf_bytes(pattern_page(plan_of(FIRST), options))


@pytest.fixture(params=[WHOLE, LARGE], ids=["standard", "large"])
def options(request: pytest.FixtureRequest) -> PageOptions:
    found: PageOptions = request.param
    return found


@pytest.fixture
def reader(options: PageOptions) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(written(options)))


def structure(reader: pypdf.PdfReader) -> list[DictionaryObject]:
    """The elements of the structure tree, in their order."""
    found: list[DictionaryObject] = []

    def walk(node: object) -> None:
        node = node.get_object() if isinstance(node, IndirectObject) else node
        if isinstance(node, ArrayObject):
            for one in node:
                walk(one)
        elif isinstance(node, DictionaryObject):
            found.append(node)
            walk(node.get("/K"))

    walk(reader.root_object["/StructTreeRoot"]["/K"])  # type: ignore[index]
    return found


def test_text_stays_text(reader: pypdf.PdfReader) -> None:
    text = " ".join(" ".join(page.extract_text() for page in reader.pages).split())
    for words in (
        "Hedge and Ditch",
        "by the sample room",
        "92.7 g",
        "*yo, k2tog; rep from *",
        "113 cm (44 in)",
        "470 m",
    ):
        assert words in text
    for heading in ("Notes", "Schematic", "Instructions", "Stitch patterns", "Weighings to expect", "Yarn chart"):
        assert heading in text


def test_the_paper_is_kept(options: PageOptions, reader: pypdf.PdfReader) -> None:
    wide, high = (215.9, 279.4) if options is LARGE else (210, 297)
    for page in reader.pages:
        assert float(page.mediabox.width) == pytest.approx(wide * MM_POINT, abs=0.5)
        assert float(page.mediabox.height) == pytest.approx(high * MM_POINT, abs=0.5)


def test_all_fonts_are_embedded(reader: pypdf.PdfReader) -> None:
    resources = [page["/Resources"].get("/Font", {}) for page in reader.pages]  # type: ignore[attr-defined]
    fonts = [font.get_object() for one in resources for font in one.values()]
    assert fonts
    for font in fonts:
        inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
        assert any("FontFile" in key for key in inner["/FontDescriptor"].get_object()), font["/BaseFont"]


def test_it_is_tagged_and_says_its_language_and_names(reader: pypdf.PdfReader) -> None:
    root = reader.root_object
    assert root["/MarkInfo"]["/Marked"] and root["/Lang"] == "en"  # type: ignore[index]
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author) == ("Hedge and Ditch", "the sample room")
    elements = structure(reader)
    kinds = [str(one.get("/S")) for one in elements]
    assert {"/H1", "/H2", "/H3", "/P", "/L", "/Table", "/TH", "/TD", "/Figure", "/Caption"} <= set(kinds)
    alternatives = [str(one.get("/Alt", "")) for one in elements if one.get("/S") == "/Figure"]
    assert all(alternatives), "each drawing has a text in its place"
    schematic = next(words for words in alternatives if words.startswith("Hedge and Ditch. Triangle from the neck"))
    assert "113 cm (44 in) wide" in schematic and "after row 93" in schematic and "92.7 g" in schematic


def test_it_has_no_date(options: PageOptions, reader: pypdf.PdfReader) -> None:
    assert reader.metadata is not None
    assert not {"/CreationDate", "/ModDate"} & set(reader.metadata)
    assert b"CreateDate" not in written(options) and b"ModifyDate" not in written(options)


def test_two_runs_give_the_same_bytes(tmp_path: Path) -> None:
    """In processes of their own, with another seed of hashes, time zone and folder."""
    environments = [{"PYTHONHASHSEED": "1", "TZ": "UTC"}, {"PYTHONHASHSEED": "2", "TZ": "Asia/Tokyo"}]
    runs = []
    for place, env in enumerate(environments):
        path = tmp_path / str(place) / "page.pdf"
        path.parent.mkdir()
        assert process("page", FIRST, "-o", path, env=env, cwd=path.parent).status == 0
        runs.append(path.read_bytes())
    assert runs[0] == runs[1] and runs[0].startswith(b"%PDF-1.7")


def test_nothing_lies_outside_the_column(options: PageOptions) -> None:
    """Ink between the margins alone, on each page: nothing is cut at its edge."""
    side, paper = (31.95, 215.9) if options is LARGE else (29.0, 210.0)
    for page in pypdfium2.PdfDocument(written(options)):
        picture = page.render(scale=2).to_pil().convert("L")
        inked = picture.point(lambda grey: 255 * (grey < 200)).getbbox()
        assert inked is not None
        left, right = inked[0] / picture.width * paper, inked[2] / picture.width * paper
        assert side - 0.5 <= left and right <= paper - side + 0.5


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_the_schematic_stands_on_the_first_page(path: Path) -> None:
    """Below facts and notes; on the next one where its piece would be under 75 mm there."""
    parts = frozenset({"size", "yarn", "needles", "gauge", "notes", "construction", "schematic"})
    pages = pypdf.PdfReader(io.BytesIO(pdf_bytes(pattern_page(plan_of(path), PageOptions(parts))))).pages
    assert len(pages) == (2 if path.stem in ("hedge-and-ditch", "quarry-bench") else 1)


def test_lines_are_no_longer_than_the_eye_follows() -> None:
    """About 85 characters, in notes, instructions and abbreviations."""
    page = written(PageOptions(frozenset({"notes", "construction", "instructions", "abbreviations"})))
    lines = [line for one in pypdf.PdfReader(io.BytesIO(page)).pages for line in one.extract_text().split("\n")]
    lines = [line for line in lines if not line.startswith(TABLE_LINES)]
    assert len(lines) > 60 and max(map(len, lines)) > 80
    assert [line for line in lines if len(line) > 98] == []


def test_a_missing_library_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    page = pattern_page(plan_of(FIRST), PageOptions(frozenset()))
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(CommandError, match="needs WeasyPrint") as error:
        pdf_bytes(page)
    assert "halfhank[pdf]" in str(error.value.hint)


def test_a_missing_pango_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    class Broken:
        """WeasyPrint loads its libraries when it is imported, and raises where one is missing."""

        def find_spec(self, name: str, *_: object) -> None:
            if name == "weasyprint":
                raise OSError("cannot load library 'libpango-1.0-0'")

    page = pattern_page(plan_of(FIRST), PageOptions(frozenset()))
    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Broken(), *sys.meta_path])
    with pytest.raises(CommandError, match="needs the Pango library") as error:
        pdf_bytes(page)
    assert "libpango-1.0-0" in str(error.value.hint)
