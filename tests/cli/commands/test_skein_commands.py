"""The commands of the skein as people run them: `weigh`, `stops`, `skeins`, `plan --checkpoints`, `chart yarn`."""

import math
import re
import stat
from pathlib import Path

import pytest
from halfhank.model.weighings.forecast import forecast
from lxml import etree

from tests.cli.running import halfhank
from tests.model.texts import text
from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of, shawl_of


@pytest.fixture
def plain(tmp_path: Path) -> Path:
    path = tmp_path / "plain.shawl"
    path.write_bytes(PLAIN.encode())
    return path


@pytest.fixture
def banded(tmp_path: Path) -> Path:
    path = tmp_path / "banded.shawl"
    path.write_bytes(BANDED.encode())
    return path


@pytest.fixture
def small(tmp_path: Path) -> Path:
    path = tmp_path / "small.shawl"
    path.write_text(text("garter 2 rows", shape="rectangle"))
    return path


# weigh


@pytest.mark.parametrize("said", ["78.4", "78.4g", "78.4 g"])
def test_a_weighing_goes_into_the_log_and_is_explained(plain: Path, said: str) -> None:
    result = halfhank("weigh", plain, 64, said)
    assert (result.status, result.err) == (0, "")
    assert plain.read_bytes() == (PLAIN + "\nweighed\n  after row 64 78.4 g left\n").encode()
    told = result.out.decode()
    assert "After row 64: 78.4 g on the scale." in told and "On plan" in told
    assert "Chance of enough yarn: " in told and "Next safe stop: row 128" in told


@pytest.mark.parametrize(("deviations", "safe"), [(1.63, False), (1.66, True)])
def test_a_stop_is_safe_from_a_chance_of_95_per_cent_on(plain: Path, deviations: float, safe: bool) -> None:
    """The normal tail: 94.8 % at 1.63 deviations, 95.2 % at 1.66. The shawl's own and the scale's (0.15 g, 0.1 g)."""
    yarn = shawl_of(PLAIN).yarn
    mass_g = yarn.total_g + deviations * math.hypot(yarn.sd_g, 0.15, 0.1 / math.sqrt(12))
    told = halfhank("weigh", plain, 0, f"{mass_g:.4f}", "--dry-run").out.decode()
    assert ("Next safe stop: row 128, after garter (the planned end)" in told) == safe
    assert ("The last safe row is 12" in told) != safe
    assert "stop: row 32" not in told, "long before 60 % of the skein"


def said_of_stops(path: Path, description: str, row: int, grams: str) -> str:
    """What a weighing says from the chance on, in one line."""
    path.write_text(description)
    result = halfhank("weigh", path, row, grams, "--sure", "--dry-run")
    assert result.status == 0, result.err
    return " ".join(result.out.decode().split()).split("Chance of enough yarn: ")[1]


def smooth_text(rows: int) -> str:
    """A rectangle of one stockinette band, which curls: it looks finished nowhere."""
    return text(f"stockinette {rows} rows", shape="rectangle", start="cast on 60 sts", skein="50 g 200 m")


def test_after_the_last_row_the_shawl_is_done(plain: Path) -> None:
    for left in ("16.0", "1.0"):
        said = said_of_stops(plain, PLAIN, 128, left)
        assert "All rows are worked: bind off." in said and "stop" not in said
    assert "All rows are worked" not in said_of_stops(plain, PLAIN, 126, "18.0")


@pytest.mark.parametrize("row", [0, 20])
def test_a_safe_planned_end_is_a_stop_however_it_looks(plain: Path, row: int) -> None:
    left = f"{forecast(plan_of(smooth_text(60))).rows[row].mean:.1f}"
    said = said_of_stops(plain, smooth_text(60), row, left)
    assert "Next safe stop: row 60, after stockinette (the planned end)" in said
    assert "No safe stop" not in said and "bind off now" not in said


@pytest.mark.parametrize(("row", "keep", "limit"), [(0, "5%", "chance"), (20, "5%", "chance"), (20, "40%", "mark")])
def test_where_the_planned_end_is_not_safe_the_last_safe_row_is_named(
    plain: Path, row: int, keep: str, limit: str
) -> None:
    """The yarn lasts to it with 95 % or more, and not two rows further, or the margin is touched there."""

    def kept(rows: int) -> str:
        return re.sub(r"keep .*", f"keep {keep}", smooth_text(rows))

    left = f"{forecast(plan_of(kept(400))).rows[row].mean:.1f}"
    said = said_of_stops(plain, kept(400), row, left)
    named = int(re.search(r"The last safe row is (\d+), in 1: [\d.]+ g to bind off", said)[1])  # type: ignore[index]
    log = f"after row {row} {left} g left" if row else f"before cast on {left} g"
    mark = plan_of(logged(kept(400), log)).shawl.marks.bind_off_by
    assert mark is not None and (named == mark.row if limit == "mark" else row < named < mark.row)
    safe = [shawl_of(logged(kept(rows), log)).yarn.chance_enough >= 0.95 for rows in (named, named + 2)]
    assert safe == [True, limit == "mark"]
    assert "No safe stop" not in said


def test_nothing_is_bound_off_before_the_cast_on(plain: Path) -> None:
    """A gram of yarn for a shawl of fifty: no row is safe."""
    said = said_of_stops(plain, smooth_text(60), 0, "0.5")
    assert "No safe stop lies ahead." in said and "bind off now" not in said


def test_where_not_even_the_next_rows_are_safe_the_risk_is_named(plain: Path) -> None:
    assert "No safe stop lies ahead: bind off now, or go on at a risk." in said_of_stops(plain, PLAIN, 64, "0.5")


def test_every_other_byte_stays(tmp_path: Path) -> None:
    text = "\ufeff# my knit\r\n" + PLAIN.replace("\n", "\r\n")[:-2] + "  # end"
    path = tmp_path / "crlf.shawl"
    path.write_bytes(text.encode())
    path.chmod(0o640)
    assert halfhank("weigh", path, 0, "101.2").status == 0
    assert halfhank("weigh", path, 64, "4.02oz", "--used").status == 1
    assert halfhank("weigh", path, 64, "0.81oz", "--used").status == 0
    assert halfhank("weigh", path, 20, "96").status == 0
    added = "\r\n\r\nweighed\r\n  before cast on 101.2 g\r\n  after row 20 96 g left\r\n  after row 64 0.81 oz used"
    assert path.read_bytes() == (text + added).encode()
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert [found.name for found in tmp_path.iterdir()] == ["crlf.shawl"]


def test_what_contradicts_is_told_and_not_written(plain: Path) -> None:
    assert halfhank("weigh", plain, 32, "93.7").status == 0
    before = plain.read_bytes()
    for row, grams, code in ((64, "95.0", "log-mass"), (129, "5", "no-such-row"), (64, "300", "log-mass")):
        result = halfhank("weigh", plain, row, grams)
        assert (result.status, result.out) == (1, b"")
        assert f"[{code}]" in result.err and "nothing was written" in result.err
        assert plain.read_bytes() == before


def test_what_is_far_outside_the_band_is_told_and_written(plain: Path) -> None:
    assert halfhank("weigh", plain, 0, "100.0").status == 0
    result = halfhank("weigh", plain, 64, "73.0")
    assert result.status == 0 and "[log-disagrees]" in result.err
    assert "Not on plan" in result.out.decode()
    assert b"after row 64 73.0 g left" in plain.read_bytes()


@pytest.mark.parametrize(
    ("grams", "flags", "asked"),
    [
        ("5.97", (), "Is it 59.7 g?"),
        ("49.7", (), None),
        ("31.1", (), None),
        ("66.2", (), "Is a tag, the ball band or something else on the scale?"),
        ("40.3", (), "Is that what is used? Then add --used."),
        ("59.7", ("--used",), "Is that what is left? Then leave out --used."),
        ("403", ("--used",), "Is it 40.3 g?"),
        ("597", (), "Is it 59.7 g?"),
        ("95.7", (), "Is it 59.7 g?"),
    ],
)
def test_what_cannot_be_is_refused_until_it_is_sure(
    plain: Path, grams: str, flags: tuple[str, ...], asked: str
) -> None:
    """After row 90 there are to be 60 g; the scale's range there is a gram or two."""
    for row, left in ((0, "100.0"), (40, "90.8"), (80, "67.3")):
        assert halfhank("weigh", plain, row, left).status == 0
    before = plain.read_bytes()
    result = halfhank("weigh", plain, 90, grams, *flags)
    assert (result.status, result.out) == (1, b"")
    assert re.search(r"(?i)nothing was written", result.err)
    questions = [line for line in result.err.splitlines() if line.startswith("Is ")]
    assert questions == ([asked] if asked else [])
    assert plain.read_bytes() == before
    if "[log-mass]" not in result.err:
        assert "(90 % range)" in result.err and "add --sure" in result.err
        sure = halfhank("weigh", plain, 90, grams, "--sure", *flags)
        assert sure.status == 0 and "[log-disagrees]" in sure.err
        assert plain.read_bytes() != before
        assert "[log-disagrees]" in halfhank("check", plain).err + halfhank("check", plain).out.decode()


def test_a_dry_run_refuses_too(plain: Path) -> None:
    assert halfhank("weigh", plain, 0, "100.0").status == 0
    result = halfhank("weigh", plain, 64, "7.84", "--dry-run")
    assert (result.status, result.out) == (1, b"") and "Is it 78.4 g?" in result.err


@pytest.mark.parametrize("grams", ["38.2", "9.7", "82"])
def test_a_part_skein_is_never_refused(plain: Path, grams: str) -> None:
    assert halfhank("weigh", plain, 64, "78.4").status == 0
    result = halfhank("weigh", plain, 0, grams)
    assert result.status == 0 or "[log-mass]" in result.err
    assert "--sure" not in result.err
    plain.write_bytes(PLAIN.encode())
    assert halfhank("weigh", plain, 0, grams).status == 0


@pytest.mark.parametrize(
    ("grams", "status", "asked"),
    [("1002", 1, "Is it 100.2 g?"), ("10.02", 0, "Is it 100.2 g?"), ("3.52", 0, "Is it 3.52 oz?"),
     ("98.3", 0, None), ("105", 0, None), ("38.2", 0, None)],
)  # fmt: skip
def test_a_likely_slip_of_the_whole_skein_is_asked_about(
    plain: Path, grams: str, status: int, asked: str | None
) -> None:
    """Its label says 100 g; it may be a part skein."""
    result = halfhank("weigh", plain, 0, grams)
    assert result.status == status
    assert [line for line in result.err.splitlines() if line.startswith("Is ")] == ([asked] if asked else [])


def test_after_a_slip_the_next_weighing_names_what_to_weigh_again(plain: Path) -> None:
    halfhank("weigh", plain, 0, "100.0")
    assert halfhank("weigh", plain, 64, "7.84", "--sure").status == 0
    result = halfhank("weigh", plain, 80, "67.3")
    assert result.status == 1
    assert "Was the weighing of row 64 wrong? Then weigh row 64 again with the right weight." in result.err
    assert halfhank("weigh", plain, 64, "78.4").status == 0
    assert halfhank("weigh", plain, 80, "67.3").status == 0


def test_a_weighing_that_mends_a_slip_is_taken(plain: Path) -> None:
    halfhank("weigh", plain, 0, "100.0")
    assert halfhank("weigh", plain, 64, "7.84", "--sure").status == 0
    mended = halfhank("weigh", plain, 64, "78.4")
    assert mended.status == 0 and "Replaces the earlier weighing" in mended.out.decode()
    assert "log-disagrees" not in mended.err


def test_a_weight_that_goes_up_a_little_is_told(plain: Path) -> None:
    for row, grams in ((0, "100.0"), (62, "79.5")):
        assert halfhank("weigh", plain, row, grams).status == 0
    told = halfhank("weigh", plain, 64, "79.9").out.decode()
    assert "more than on the scale after row 62 (79.5 g)" in told.replace("\n", " ")


def test_a_row_weighed_again_takes_the_first_ones_place(plain: Path) -> None:
    halfhank("weigh", plain, 64, "78.4")
    told = halfhank("weigh", plain, 64, "78.6").out.decode()
    assert "Replaces the earlier weighing: 78.4 g on the scale." in told
    assert plain.read_bytes() == (PLAIN + "\nweighed\n  after row 64 78.6 g left\n").encode()


def test_a_dry_run_writes_nothing(plain: Path) -> None:
    result = halfhank("weigh", "--dry-run", plain, 64, "78.4")
    assert result.status == 0 and result.out.endswith(b"Nothing was written.\n")
    assert plain.read_bytes() == PLAIN.encode()


def test_from_standard_input_the_description_goes_to_standard_output() -> None:
    result = halfhank("weigh", "-", 64, "78.4", stdin=PLAIN.encode())
    assert result.out == (PLAIN + "\nweighed\n  after row 64 78.4 g left\n").encode()
    assert result.status == 0 and "On plan" in result.err


@pytest.mark.parametrize(
    "arguments",
    [("64", "-5"), ("64", "78,4"), ("64", "many"), ("64", "1e3"), ("64", "nan"), ("-1", "78"), ("99999", "78"),
     ("x", "7"), ("0", "100", "--used"), ("64", ".5"), ("64", "5."), ("64", ""), ("64", "9" * 20)],
)  # fmt: skip
def test_what_no_scale_shows_is_wrong_usage(plain: Path, arguments: tuple[str, ...]) -> None:
    result = halfhank("weigh", plain, *arguments)
    assert (result.status, result.out) == (2, b"") and result.err
    assert plain.read_bytes() == PLAIN.encode()


def test_a_description_with_mistakes_is_left_alone(plain: Path) -> None:
    broken = PLAIN.replace("needles 4 mm", "needels 4 mm").encode()
    plain.write_bytes(broken)
    assert halfhank("weigh", plain, 64, "78.4").status == 1
    assert plain.read_bytes() == broken


def test_repeats_are_told(banded: Path) -> None:
    halfhank("weigh", banded, 0, "100.0")
    told = halfhank("weigh", banded, 80, "60.0").out.decode().replace("\n", " ")
    allowed, before = shawl_of(banded.read_text()).allowed, shawl_of(BANDED).allowed
    assert f"The yarn allows {allowed} repeats; before this weighing {before} repeats." in told
    assert re.search(r"Not enough yarn for one more repeat than planned: [\d.]+ g short\.", told)


@pytest.mark.parametrize(
    ("grams", "flags", "told"), [("78.4", (), "78.4 g on the scale."), ("21.6", ("--used",), "21.6 g used.")]
)
def test_a_weighing_is_told_as_it_was_weighed(plain: Path, grams: str, flags: tuple[str, ...], told: str) -> None:
    """Both say the same of a skein of 100 g: the figures before and after the forecast differ by as much."""
    halfhank("weigh", plain, 0, "100.0")
    said = " ".join(halfhank("weigh", plain, 64, grams, *flags).out.decode().split())
    assert f"After row 64: {told}" in said
    low, mean, high = _expected(said)
    assert (mean > 60) == (not flags) and mean == pytest.approx((low + high) / 2, abs=0.11) and low < mean


def _expected(said: str) -> tuple[float, float, float]:
    """The 90 % range of what was expected, with its mean in the middle."""
    found = re.search(r"expected ([\d.]+) g \(90 % range ([\d.]+) to ([\d.]+) g\)", said)
    assert found, said
    mean, low, high = map(float, found.groups())
    return low, mean, high


def test_what_was_expected_is_the_same_left_or_used(plain: Path) -> None:
    halfhank("weigh", plain, 0, "100.0")

    def expected(*arguments: str) -> tuple[float, float, float]:
        return _expected(" ".join(halfhank("weigh", plain, 64, *arguments, "--dry-run").out.decode().split()))

    (low, mean, high), (least, used, most) = expected("70.0"), expected("30.0", "--used")
    assert [low + most, mean + used, high + least] == pytest.approx([100.0] * 3, abs=0.11)


def test_a_shortage_is_said_as_one(plain: Path) -> None:
    said = " ".join(halfhank("weigh", plain, 0, "50.0", "--dry-run").out.decode().split())
    assert re.search(r"Chance of enough yarn: under 1 %; not enough yarn: [\d.]+ g short \(90 % range ", said)
    assert "finished" not in said and "left over" not in said.partition("range")[0]


def test_less_than_expected_is_said_of_the_scale(plain: Path) -> None:
    said = " ".join(halfhank("weigh", plain, 64, "74.5", "--dry-run").out.decode().split())
    _, mean, _ = _expected(said)
    less = re.search(r"; the scale shows ([\d.]+) g less\.", said)
    assert less and float(less[1]) == pytest.approx(mean - 74.5, abs=0.11)


def test_a_skein_too_short_for_a_fixed_plan_is_told_as_short(plain: Path) -> None:
    assert re.search(r"[\d.]+ g short", halfhank("skeins", plain, "60m").out.decode())


# stops, skeins, checkpoints


def test_stops_are_listed(banded: Path) -> None:
    told = halfhank("stops", banded).out.decode()
    groups = ("Bind off early", "The planned end", "With another number of repeats")
    early, end, other = (lines_under(told, heading) for heading in groups)
    assert [re.split(" {2,}", line)[1] for line in end] == ["kerb: garter"]
    assert early and all("without the kerb" in line for line in early)
    assert all(re.match(r"\d+ +body, repeat [67]: ", line) for line in early)
    whole = [line for line in other if "kerb: " in line]
    assert [re.findall(r"with (\d+) repeats; all", line) for line in whole] == [["6"]]
    rest = [line for line in other if line not in whole]
    assert rest and all(re.match(r"\d+ +body, repeat 8: .* without the kerb; ", line) for line in rest)
    assert "margin is included" in told and "One more, one fewer" not in told


def test_a_row_must_be_a_number(plain: Path) -> None:
    result = halfhank("weigh", plain, "sixty", "71")
    assert result.status == 2 and "'sixty' is not a valid row number" in result.err


def lines_under(text: str, heading: str) -> list[str]:
    """The lines of a table without its headings."""
    return text.split(f"\n{heading}\n")[1].split("\n\n")[0].splitlines()[1:]


def test_a_safe_stop_of_another_shawl_names_its_part_and_repeat(banded: Path) -> None:
    """The last one lies in a repeat that the plan does not work, and has no kerb after it."""
    said = said_of_stops(banded, BANDED, 0, "100.0")
    (last,) = re.findall(r"Last safe stop: row (\d+), after (\w+), in (\w+), repeat (\d+), without the kerb: ", said)
    made = plan_of(BANDED)
    assert int(last[0]) > made.shawl.parts[1].last_row and int(last[3]) == made.shawl.allowed + 1
    (first,) = re.findall(r"Next safe stop: row (\d+), ", said)
    assert made.working.left_g[int(first)] < 0.45 * 100
    assert "If you go on in garter after the end: bind off after row " in said


@pytest.mark.parametrize(("stitch", "looks"), [("garter", "finished"), ("stockinette", "unfinished")])
def test_the_planned_end_is_named_however_it_looks(plain: Path, stitch: str, looks: str) -> None:
    plain.write_text(PLAIN.replace("garter 48 ridges", f"{stitch} 96 rows"))
    (end,) = lines_under(halfhank("stops", plain).out.decode(), "The planned end")
    assert re.match(rf"128 .* {looks} +(all parts worked|stockinette curls)$", end)


def test_skeins_are_listed(banded: Path) -> None:
    told = halfhank("skeins", banded, "320m", "350", "437yd", "20m").out.decode().splitlines()
    assert [line.split("  ")[0] for line in told[2:6]] == ["320 m", "350 m", "437 yd", "20 m"]
    assert "not enough yarn" in told[5]
    note = " ".join(told[6:])
    assert "at the same gauge" in note and "after half of the yarn that each shawl uses" in note


def test_a_row_of_skeins(banded: Path) -> None:
    told = halfhank("skeins", banded, "--from", "280", "--to", "420", "--step", "20").out.decode()
    assert [f"{metres} m" in told for metres in range(280, 421, 20)] == [True] * 8


@pytest.mark.parametrize(("last", "lengths"), [("339", [300, 320]), ("340m", [300, 320, 340])])
def test_a_row_of_skeins_goes_by_twenty_metres(small: Path, last: str, lengths: list[int]) -> None:
    told = halfhank("skeins", small, "--from", "300m", "--to", last).out.decode()
    assert re.findall(r"^(\d+) m ", told, re.MULTILINE) == [str(length) for length in lengths]


@pytest.mark.parametrize(("last", "status"), [("339m", 0), ("340m", 2)])
def test_at_most_forty_skeins(small: Path, last: str, status: int) -> None:
    assert halfhank("skeins", small, "--from", "300m", "--to", last, "--step", "1m").status == status


@pytest.mark.parametrize(
    "arguments",
    [(), ("--from", "280"), ("--from", "420", "--to", "280"), ("--from", "1", "--to", "90000", "--step", "1"), ("0m",),
     ("1e308",), ("-5",), ("soft",), ("320m", "-o", "x.gif"), ("999999999m",), tuple(map(str, range(300, 345)))],
)  # fmt: skip
def test_skeins_that_cannot_be_are_wrong_usage(banded: Path, arguments: tuple[str, ...]) -> None:
    result = halfhank("skeins", banded, *arguments)
    assert (result.status, result.out) == (2, b"") and result.err


def test_checkpoints_take_the_plans_place(banded: Path) -> None:
    told = halfhank("plan", "--checkpoints", "--every", 50, banded).out.decode()
    assert told.startswith("Millrace: weighings to expect\n") and "Bands" not in told
    assert "garter tab" in told and " 50 " in told and "[ ]" in told
    assert halfhank("plan", "--every", 50, banded).status == 2
    assert halfhank("plan", "--checkpoints", "--json", banded).status == 2


def test_checkpoints_may_be_at_every_row_and_no_closer(small: Path) -> None:
    told = halfhank("plan", "--checkpoints", "--every", 1, small).out.decode()
    assert re.findall(r"^ *(\d+) ", told, re.MULTILINE)[-2:] == ["1", "2"]
    assert halfhank("plan", "--checkpoints", "--every", 0, small).status == 2


@pytest.mark.parametrize("command", [["stops"], ["skeins"], ["chart", "yarn"], ["plan", "--checkpoints"]])
def test_mistakes_are_told_with_status_1(plain: Path, command: list[str]) -> None:
    plain.write_text(logged(PLAIN, "after row 500 1 g left"))
    result = halfhank(*command, plain, *(["400m"] if command == ["skeins"] else []))
    assert (result.status, result.out) == (1, b"") and "[no-such-row]" in result.err


# drawings


def test_the_yarn_chart_goes_beside_the_description(banded: Path) -> None:
    result = halfhank("chart", "yarn", banded)
    target = banded.with_name("banded-yarn.svg")
    assert (result.status, result.out) == (0, f"{target}\n".encode())
    assert etree.parse(target).getroot().tag.endswith("svg")


def test_charts_and_overlays_go_to_standard_output_alone(banded: Path) -> None:
    chart = halfhank("chart", "yarn", banded, "-o", "-").out
    outlines = halfhank("skeins", banded, "320m", "420m", "-o", "-").out
    assert etree.fromstring(chart).tag == etree.fromstring(outlines).tag == "{http://www.w3.org/2000/svg}svg"


def test_an_overlay_comes_with_its_table(banded: Path, tmp_path: Path) -> None:
    result = halfhank("skeins", banded, "320m", "420m", "-o", tmp_path / "both.pdf")
    assert result.status == 0 and b"length in 100 g" in result.out
    assert (tmp_path / "both.pdf").read_bytes().startswith(b"%PDF")


def test_a_chart_must_be_named() -> None:
    assert halfhank("chart").status == 2
    assert "did you mean yarn" in halfhank("chart", "yearn").err


def test_a_true_weighing_after_a_slip_is_not_asked_about(plain: Path) -> None:
    """The slip's line is named; the right figure gets no other in its place."""
    for row, left in ((0, "100.2"), (48, "88.1"), (96, "6.89")):
        halfhank("weigh", plain, str(row), left, "--sure")
    line = next(k for k, text in enumerate(plain.read_text().splitlines(), 1) if "6.89" in text)
    true = halfhank("weigh", plain, "100", "55.0")
    assert true.status == 1 and f"line {line}, which has 6.89: one of the two is wrong" in true.err
    assert "Is it" not in true.err
    assert "Is it 55 g?" in halfhank("weigh", plain, "100", "550").err


def test_a_digit_or_an_impossible_weight_puts_no_earlier_weighing_in_doubt(plain: Path) -> None:
    for row, left in ((0, "100.0"), (40, "90.8"), (80, "67.3")):
        assert halfhank("weigh", plain, row, left).status == 0
    for grams, asked in (("597", "Is it 59.7 g?"), ("95.7", "Is it 59.7 g?"), ("300", "")):
        said = halfhank("weigh", plain, 90, grams).err
        assert "Was the weighing of row" not in said and asked in said
