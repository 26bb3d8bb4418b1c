"""Limits and bad numbers: the last allowed is worked, the first that is not gets a message; none goes on for ever."""

import pytest
from halfhank.grammar.parse import parse, parse_bytes
from halfhank.grammar.problems.problem import MISTAKE
from halfhank.model.planning.planning import plan

from tests import whole
from tests.outside.pieces import part, piece
from tests.whole import ending, mistakes, shawl

LARGE_SKEIN = "100000000 g 400000000 m"


def strip(*bands: str, cast_on: int = 10, skein: str = LARGE_SKEIN) -> str:
    return piece(shape="rectangle", start=f"cast on {cast_on} sts", skein=skein, parts=part(*bands))


def codes(text: str) -> list[str]:
    with ending():
        return [problem.code for problem in mistakes(text)]


def test_twenty_thousand_rows_work() -> None:
    with ending():
        assert shawl(strip("garter 20000 rows")).rows.count == 20_000


@pytest.mark.parametrize(
    "bands",
    [
        ("garter 20001 rows",),
        ("garter 10001 ridges",),
        ("garter 20000 rows", "garter 1 row"),
        ("repeat 5000 times", "  garter 2 ridges", "garter 1 row"),
    ],
)
def test_one_row_more_is_told(bands: tuple[str, ...]) -> None:
    assert codes(strip(*bands)) == ["too-many-rows"]


def test_twenty_thousand_stitches_work() -> None:
    with ending():
        assert shawl(strip("garter 2 rows", cast_on=20_000)).rows.stitches[-1] == 20_000


def test_one_stitch_more_is_told() -> None:
    assert codes(strip("garter 2 rows", cast_on=20_001)) == ["too-many-stitches"]


def test_a_row_that_grows_too_wide_is_told() -> None:
    wide = piece(
        shape="crescent",
        start="cast on 19998 sts",
        shaping="increase 1 at each edge every 2 rows",
        skein=LARGE_SKEIN,
        parts=part("garter 2 rows"),
    )
    with ending():
        assert shawl(wide).rows.stitches[-1] == 20_000
    assert codes(wide.replace("garter 2 rows", "garter 3 rows")) == ["too-many-stitches"]


NINES = "repeat 1000000000 times"


@pytest.mark.parametrize(
    "bands",
    [
        (NINES, "  garter 2 rows"),
        (NINES, f"  {NINES}", f"    {NINES}", "      garter 2 rows"),
        ("garter 1000000000000000000000 ridges",),
        ("repeat as yarn allows", f"  {NINES}", "    garter 2 rows"),
        (NINES, "  garter as yarn allows"),
        ("drop 1000000000 wraps",),
        ("garter 99999999999999999999999999999999999999 rows",),
    ],
)
def test_huge_counts_are_told_at_once(bands: tuple[str, ...]) -> None:
    assert codes(strip(*bands))


@pytest.mark.parametrize(
    "change",
    [
        ("20 sts 40 rows over 10 cm", f"{'9' * 309} sts 40 rows over 10 cm"),
        ("20 sts 40 rows over 10 cm", f"20 sts {'9' * 300} rows over 10 cm"),
        ("20 sts 40 rows over 10 cm", f"20 sts 40 rows over 1{'0' * 308} m"),
        ("20 sts 40 rows over 10 cm", f"0.{'0' * 320}1 sts 40 rows over 10 cm"),
        ("20 sts 40 rows over 10 cm", "0 sts 40 rows over 10 cm"),
        ("needles 4 mm", f"needles 1{'0' * 308} mm"),
        ("skein 100 g 400 m", f"skein 1{'0' * 308} g 400 m"),
        ("skein 100 g 400 m", f"skein 100 g 1{'0' * 308} m"),
        ("skein 100 g 400 m", f"skein 0.{'0' * 320}1 g 400 m"),
        ("skein 100 g 400 m", "skein 0 g 0 m"),
        ("cast on 10 sts", f"cast on 1{'0' * 400} sts"),
        ("cast on 10 sts", f"cast on 10 sts\n  increase 1{'0' * 400} evenly every row"),
        ("garter 10 rows", f"garter 10 rows\nbind off takes 1{'0' * 308} times the width"),
        ("garter 10 rows", f"garter 10 rows\nbind off picot cast on 1{'0' * 308} bind off 2{'0' * 308}"),
    ],
)
def test_numbers_out_of_all_measure(change: tuple[str, str]) -> None:
    text = strip("garter 10 rows", skein="100 g 400 m")
    assert change[0] in text
    assert codes(text.replace(*change))


def test_an_endless_skein_stops_at_the_row_limit() -> None:
    """As yarn allows: with yarn for millions of rows the plan ends within the limit, or says why not."""
    text = strip("garter as yarn allows")
    with ending():
        parsed = parse(text)
        assert parsed.description is not None
        made = plan(parsed.description)
        found, problems = made.shawl, made.problems
    if found is None:
        assert [p.code for p in problems if p.severity == MISTAKE] == ["too-many-rows"]
    else:
        assert found.rows.count == 20_000


def test_a_long_allowance_is_worked_out_ending() -> None:
    text = piece(
        shape="triangle",
        start="cast on 3 sts",
        shaping="increase 1 at each edge and 1 at spine every 40 rows",
        skein="4000 g 16000 m",
        parts=part("repeat as yarn allows", "  garter 3, 5 ridges", "  stockinette 3 rows")
        + "\n"
        + part("garter 40 rows", name="b"),
    )
    with ending():
        found = shawl(text)
    assert found.allowed is not None and found.rows.count > 2_000


def test_too_little_yarn_for_one_is_a_mistake() -> None:
    assert codes(strip("garter 50 rows", "repeat as yarn allows", "  garter 50 rows", skein="1 g 4 m"))


@pytest.mark.parametrize("depth", [50, 51, 60, 500])
def test_deep_nesting(depth: int) -> None:
    bands = ["  " * k + "repeat 1 time" for k in range(depth - 1)] + ["  " * (depth - 1) + "garter 2 rows"]
    found = codes(strip(*bands))
    assert bool(found) == (depth > 50), found


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\0",
        b"\xff\xfe\x00",
        b'shawl "\x1b[31m"',
        b"\xf0\x9f",
        b"(" * 100_000,
        b"part\n" * 50_000,
        b'shawl "x"\n' * 10_000,
        'shawl "\u202e"\n'.encode(),
        b"a" * (1 << 20),
        b"a\n" * (1 << 17),
        b" " * (1 << 20),
        b"a" * ((1 << 20) + 1),
    ],
    ids=range(13),
)
def test_any_bytes_are_told_soon(data: bytes) -> None:
    with ending():
        assert any(problem.severity == MISTAKE for problem in parse_bytes(data).problems)


def test_what_goes_on_for_ever_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(whole, "HANGS_AFTER_S", 0.05)
    with pytest.raises(AssertionError, match="no end"), ending():
        while True:
            pass
