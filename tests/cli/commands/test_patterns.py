"""`halfhank chart stitch`, `halfhank instructions` and `halfhank stitches`."""

from pathlib import Path

import pytest
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS

from tests.cli.running import halfhank
from tests.model.checks.test_planted import SHAWL


@pytest.fixture
def fern(tmp_path: Path) -> Path:
    path = tmp_path / "sluice.shawl"
    path.write_text(SHAWL, encoding="utf-8")
    return path


def test_a_chart_goes_beside_its_description(fern: Path) -> None:
    result = halfhank("chart", "stitch", fern)
    target = fern.with_name("sluice-fern.svg")
    assert result.status == 0 and result.out.decode().strip() == str(target)
    text = target.read_text(encoding="utf-8")
    assert "fern" in text and "“Sluice”" in text and "19 sts 28 rows over 10 cm" in text


@pytest.mark.parametrize(("name", "start"), [("x.svg", b"<?xml"), ("x.png", b"\x89PNG"), ("x.pdf", b"%PDF")])
def test_its_format_follows_the_extension(fern: Path, name: str, start: bytes) -> None:
    target = fern.with_name(name)
    assert halfhank("chart", "stitch", fern, "fern", "-o", target).status == 0
    assert target.read_bytes().startswith(start)


def test_standard_input_goes_to_standard_output() -> None:
    result = halfhank("chart", "stitch", "-", stdin=SHAWL.encode())
    assert result.status == 0 and result.out.startswith(b"<?xml")


def test_mistakes_in_the_rows_are_told_and_nothing_is_drawn(fern: Path) -> None:
    fern.write_text(SHAWL.replace("ssk, k3*", "ssk, k4*"), encoding="utf-8")
    result = halfhank("chart", "stitch", fern)
    assert result.status == 1 and "row-count" in result.err and not fern.with_name("sluice-fern.svg").exists()


def test_the_description_is_never_the_output(fern: Path) -> None:
    assert halfhank("instructions", fern, "-o", fern).status == 2
    assert fern.read_text(encoding="utf-8") == SHAWL


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("garter-lace",), "no stitch 'garter-lace' with rows"),
        (("-o", "x.gif"), "cannot be written as .gif"),
        (("fern", "-o", "."), "."),
    ],
)
def test_wrong_usage(fern: Path, arguments: tuple[str, ...], said: str) -> None:
    result = halfhank("chart", "stitch", fern, *arguments)
    assert result.status == 2 and said in result.err


def test_a_description_without_rows_has_no_chart(good: Path) -> None:
    result = halfhank("chart", "stitch", good)
    assert result.status == 2 and "no stitch" in result.err


def test_which_chart_has_to_be_said_where_there_are_several(fern: Path) -> None:
    more = "stitch rib\n  rows 1, 2: *k1, p1*\n  multiple of 2 sts\n"
    fern.write_text(SHAWL.replace("shape triangle", more + "shape triangle"), encoding="utf-8")
    assert "fern, rib" in halfhank("chart", "stitch", fern).err
    assert halfhank("chart", "stitch", fern, "rib", "-o", fern.with_name("x.svg")).status == 0


@pytest.mark.parametrize("name", STITCH_PATTERNS)
def test_every_built_in_is_drawn_by_its_name(name: str, tmp_path: Path) -> None:
    assert halfhank("chart", "stitch", name, "-o", tmp_path / "x.svg").status == 0


def test_a_chart_needs_its_kind() -> None:
    assert halfhank("chart").status == 2
    assert halfhank("chart", "yarn-over").status == 2


def test_instructions_go_to_standard_output_or_a_text_file(fern: Path) -> None:
    shown = halfhank("instructions", fern)
    assert (
        shown.status == 0 and "Row 1 (RS): K1, *k1, yo, k1, s2kp, k1, yo, k2; rep from * to end." in shown.out.decode()
    )
    target = fern.with_name("sluice.txt")
    assert halfhank("instructions", fern, "-o", target).status == 0
    assert target.read_bytes() == shown.out
    assert halfhank("instructions", fern, "-o", fern.with_name("sluice.doc")).status == 2


def test_stitch_patterns_are_listed_and_shown() -> None:
    listed = halfhank("stitches").out.decode()
    assert all(f"{name}\n" in listed for name in STITCH_PATTERNS)
    waves = halfhank("stitches", "drop-wave").out.decode()
    assert "On rows 2 and 6, drop the extra wraps of the row before." in waves
    shown = halfhank("stitches", "moss").out.decode()
    assert "wraps" not in shown and "as wide and 1.1 times as high as garter" in listed
    assert "2 rows; before the extra wraps, as wide and as high as garter" in listed and " 1 times" not in listed
    assert "  multiple of 2 sts + 1\n" in shown and "Rows 1 and 2: K1, *p1, k1; rep from * to end.\n" in shown
    assert halfhank("stitches", "velvet").status == 2
    assert halfhank("fabrics", "moss") == halfhank("stitches", "moss")
