"""`halfhank page`: formats, places, parts and papers."""

from pathlib import Path

import pytest

from tests.cli.report.html.html_checks import faults, parsed, texts
from tests.cli.running import GOOD, halfhank

MAGIC = {"html": b"<!DOCTYPE html>", "pdf": b"%PDF-1.7"}


@pytest.mark.parametrize("extension", ["html", "pdf", "HTML", "Pdf"])
def test_the_extension_decides_the_format(good: Path, extension: str) -> None:
    path = good.parent / f"a.b.{extension}"
    assert halfhank("page", good, "-o", path) == (0, f"{path}\n".encode(), "")
    assert path.read_bytes().startswith(MAGIC[extension.lower()])


def test_without_a_place_the_page_goes_beside_the_description(good: Path) -> None:
    assert halfhank("page", good).status == 0
    assert good.with_suffix(".html").read_bytes().startswith(MAGIC["html"])
    assert len(list(good.parent.iterdir())) == 2


def test_the_same_bytes_wherever_it_goes(good: Path) -> None:
    halfhank("page", good)
    assert halfhank("page", "-", stdin=GOOD.encode()).out == good.with_suffix(".html").read_bytes()
    assert halfhank("page", good, "-o", "-").out == good.with_suffix(".html").read_bytes()


def test_a_description_called_html_is_not_written_over(good: Path) -> None:
    path = good.rename(good.with_suffix(".html"))
    result = halfhank("page", path)
    assert result.status == 2 and "is the description itself" in result.err
    assert path.read_text() == GOOD


def test_other_formats_are_refused(good: Path) -> None:
    result = halfhank("page", good, "-o", good.with_suffix(".svg"))
    assert result.status == 2 and "cannot be written as .svg" in result.err and ".html or .pdf" in result.err


def test_mistakes_write_nothing(good: Path) -> None:
    good.write_text(GOOD.replace("garter", "gartr"))
    result = halfhank("page", good)
    assert result.status == 1 and "gartr" in result.err and not good.with_suffix(".html").exists()


def test_parts_are_left_out_and_asked_for(good: Path) -> None:
    def words(*arguments: str) -> str:
        root = parsed(halfhank("page", good, "-o", "-", *arguments).out)
        assert faults(root) == []
        return texts(root)

    whole = words()
    assert "Other skeins" in whole and "Abbreviations" in whole and "Yarn chart" not in whole
    fewer = words("--without", "skeins", "--without", "abbreviations")
    assert "Other skeins" not in fewer and "Abbreviations" not in fewer and "Schematic" in fewer
    assert "Yarn chart" in words("--with", "yarn-chart")


def test_an_unknown_part_is_refused_with_the_list(good: Path) -> None:
    for option in ("--without", "--with"):
        result = halfhank("page", good, option, "skein")
        assert result.status == 2
        assert "no part 'skein'" in result.err and "checkpoints, skeins, yarn-chart" in result.err
    both = halfhank("page", good, "--with", "skeins", "--without", "skeins")
    assert both.status == 2 and "both asked for and left out" in both.err


def test_paper_print_and_shading_are_chosen(good: Path) -> None:
    pages = {
        arguments: halfhank("page", good, "-o", "-", *arguments).out
        for arguments in ((), ("--paper", "letter"), ("--large-print",), ("--ramp", "haze"))
    }
    assert len(set(pages.values())) == 4
    assert b"size: 210mm 297mm" in pages[()] and b"size: 8.5in 11in" in pages["--paper", "letter"]
    assert b'class="large"' in pages[("--large-print",)] and b'class="large"' not in pages[()]
    assert halfhank("page", good, "--paper", "a3").status == 2


def test_ounces_have_grams_beside_them() -> None:
    demo = Path(__file__).parents[3] / "gallery_demo/quarry-bench.shawl"
    words = texts(parsed(halfhank("page", demo, "-o", "-").out))
    assert "1 skein of 7 oz (198.4 g)" in words and "6.63 oz (188.1 g)" in words and "440 yd (this pattern)" in words
    assert "at least 0.45 oz (12.7 g)" in words and "190.8 to 204.0 g" in words


def test_the_log_is_left_out_when_asked(good: Path) -> None:
    before = halfhank("page", good, "-o", "-").out
    assert halfhank("weigh", good, "0", "101").status == 0
    logged = halfhank("page", good, "-o", "-").out
    assert logged != before and halfhank("page", good, "-o", "-", "--as-planned").out == before
