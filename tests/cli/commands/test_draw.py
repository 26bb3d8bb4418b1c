"""`halfhank draw`: formats, places and options."""

from pathlib import Path

import pytest
from halfhank import draw as halfhank_draw
from halfhank import plan
from halfhank.cli.commands.draw import RAMPS
from halfhank.renderer import OptionError
from halfhank.renderer.paper.ramp import RAMPS as DRAWN
from halfhank.renderer.paper.scripts import fonts
from lxml import etree

from tests.cli.running import GOOD, halfhank

MAGIC = {"svg": b"<?xml", "png": b"\x89PNG\r\n\x1a\n", "pdf": b"%PDF-"}


@pytest.mark.parametrize("extension", ["svg", "png", "pdf", "SVG", "Png"])
def test_the_extension_decides_the_format(good: Path, extension: str) -> None:
    path = good.parent / f"a.b.{extension}"
    result = halfhank("draw", good, "-o", path)
    assert result == (0, f"{path}\n".encode(), "")
    assert path.read_bytes().startswith(MAGIC[extension.lower()])


def test_without_a_place_the_drawing_goes_beside_the_description(good: Path) -> None:
    assert halfhank("draw", good).status == 0
    assert good.with_suffix(".svg").read_bytes().startswith(MAGIC["svg"])
    assert len(list(good.parent.iterdir())) == 2


def test_a_description_called_svg_is_not_drawn_over(good: Path) -> None:
    path = good.rename(good.with_suffix(".svg"))
    result = halfhank("draw", path)
    assert result.status == 2 and "is the description itself" in result.err
    assert path.read_text() == GOOD


def test_the_same_bytes_wherever_it_goes(good: Path) -> None:
    halfhank("draw", good)
    assert halfhank("draw", "-", stdin=GOOD.encode()).out == good.with_suffix(".svg").read_bytes()


def test_a_scale_is_kept(good: Path) -> None:
    for scale in ("1:10", "1:12.5"):
        assert scale in "".join(_root("--scale", scale, good=good).itertext())


def test_a_width_may_say_its_unit(good: Path) -> None:
    assert _root("--width", "150mm", good=good).get("width") == _root("--width", "150", good=good).get("width")
    refused = halfhank("draw", good, "--width", "10cm")
    assert refused.status == 2 and "'10cm' is not a number of mm" in refused.err


def test_a_width_is_kept(good: Path) -> None:
    width = _root("--width", "150", good=good).get("width", "")
    assert width.endswith("mm")
    assert float(width.removesuffix("mm")) == pytest.approx(150, abs=0.5)


def test_a_height_is_kept_or_refused_with_what_is_needed(good: Path) -> None:
    options = ("--width", "100", "--height", "90", "--only", "drawing")
    assert float(_root(*options, good=good).get("height", "").removesuffix("mm")) <= 90
    refused = halfhank("draw", good, *options[:4])
    assert refused.status == 2 and "the page needs about" in refused.err and "--only drawing" in refused.err


def test_the_sheet_is_left_out_when_asked(good: Path) -> None:
    path = {"svg": "http://www.w3.org/2000/svg"}
    assert _root(good=good).findall("svg:rect[@fill='#ffffff']", path)
    assert not _root("--transparent", good=good).findall("svg:rect", path)
    assert halfhank_draw(GOOD, transparent=True) == halfhank("draw", good, "-o", "-", "--transparent").out


def test_the_table_alone_is_left_out_when_asked(good: Path) -> None:
    words = "".join(_root("--without", "table", good=good).itertext())
    assert "sts at end" not in words and "The skein" in words
    assert halfhank_draw(GOOD, without="table") == halfhank("draw", good, "-o", "-", "--without", "table").out


def test_to_embed_it_is_the_element_alone(good: Path) -> None:
    out = halfhank("draw", good, "-o", "-", "--embed", "--transparent").out
    assert out.startswith(b"<svg ") and out == halfhank_draw(GOOD, embed=True, transparent=True)
    for command in (("draw",), ("chart", "yarn")):
        refused = halfhank(*command, good, "--embed", "-o", good.with_suffix(".png"))
        assert refused.status == 2 and "--embed makes an SVG, not a PNG" in refused.err
    with pytest.raises(OptionError, match="to embed is svg"):
        halfhank_draw(GOOD, embed=True, format="pdf")


def test_charts_can_be_embedded_too(good: Path) -> None:
    for command in (("chart", "yarn", good), ("chart", "stitch", "moss")):
        element = halfhank(*command, "-o", "-", "--embed").out
        assert element.startswith(b"<svg ") and b' id="' not in element
        texts = [etree.fromstring(data).xpath("string()") for data in (element, halfhank(*command, "-o", "-").out)]
        assert texts[0] == texts[1]


def test_units_lead_as_asked(good: Path) -> None:
    text = "".join(_root("--units", "in", good=good).itertext())
    assert text != "".join(_root("--units", "cm", good=good).itertext())


def test_every_ramp_can_be_asked_for(good: Path) -> None:
    assert set(RAMPS) == set(DRAWN)
    assert len({halfhank("draw", "-", "--ramp", ramp, stdin=GOOD.encode()).out for ramp in RAMPS}) == len(RAMPS)


def test_contours_are_drawn_when_asked(good: Path) -> None:
    plain, contoured = _root(good=good), _root("--contours", good=good)
    assert len(list(contoured.iter())) > len(list(plain.iter()))


def test_advice_is_told_and_the_drawing_stands(good: Path) -> None:
    good.write_text(GOOD.replace("gauge 20 sts 40 rows", "gauge 20 sts 60 rows"))
    result = halfhank("draw", good)
    assert result.status == 0
    assert "advice [odd-gauge]" in result.err
    assert good.with_suffix(".svg").exists()


def _root(*options: str, good: Path) -> etree._Element:
    result = halfhank("draw", good, "-o", "-", *options)
    assert result.status == 0, result
    return etree.fromstring(result.out)


LOGGED = GOOD + "\nweighed\n  before cast on 99 g\n  after row 40 70 g left\n"


def test_the_plan_before_any_weighing_is_drawn_when_asked(good: Path) -> None:
    plain = halfhank("draw", good, "-o", "-").out
    good.write_text(LOGGED)
    told, planned = (halfhank("draw", good, "-o", "-", *options) for options in ([], ["--as-planned"]))
    assert told.status == planned.status == 0
    assert "log-disagrees" in told.err and planned.err == ""
    assert planned.out == plain != told.out
    assert halfhank_draw(LOGGED, as_planned=True) == halfhank_draw(GOOD) == plain
    assert halfhank_draw(plan(LOGGED).plan or "", as_planned=True) == plain


def test_without_a_log_the_plan_is_what_is_drawn_anyway() -> None:
    assert halfhank_draw(GOOD, as_planned=True) == halfhank_draw(GOOD)


def test_a_log_with_a_mistake_is_a_mistake_all_the_same(good: Path) -> None:
    good.write_text(LOGGED.replace("after row 40", "after row 9999"))
    assert halfhank("draw", good, "--as-planned").status == 1


def test_letters_without_a_font_are_warned_of_by_the_name_of_their_script(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The drawing is made all the same; an SVG needs no font here."""
    monkeypatch.setattr(
        fonts, "_family_with", lambda character, face, bold: "Helvetica" if character.isascii() else None
    )
    source = tmp_path / "x.shawl"
    source.write_text(GOOD.replace('"My triangle"', '"\u7f8a\u6bdb"'), encoding="utf-8")
    found = halfhank("draw", source, "-o", tmp_path / "x.png")
    assert found.status == 0 and (tmp_path / "x.png").stat().st_size > 0
    assert "no font on this machine has the Han letters of this drawing" in found.err
    assert "Han" not in halfhank("draw", source, "-o", tmp_path / "x.svg").err
