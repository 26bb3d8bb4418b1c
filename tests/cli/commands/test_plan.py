"""`halfhank plan`: the numbers of the shawl, as text and as JSON."""

import json
import re
from functools import reduce
from pathlib import Path

import pytest
from halfhank.cli.planned_file import plan_file
from halfhank.cli.report.plan_report import plan_report
from halfhank.cli.report.terminal_writer import report_text, text_layout
from halfhank.model.marks_and_stops.repeat_choices import repeat_choices
from halfhank.model.number_words import chance_words
from halfhank.model.plan_json import plan_json
from halfhank.model.rows.shaping_table import shaped
from halfhank.model.shawl import Shawl

from tests.cli.running import GOOD, halfhank, shawl_of
from tests.model.weighings.knits import PLAIN

DEMO = Path(__file__).parents[3] / "gallery_demo"


@pytest.fixture
def shawl(good: Path) -> Shawl:
    return shawl_of(good)


def test_the_text_has_the_numbers_of_the_shawl(good: Path, shawl: Shawl) -> None:
    text = halfhank("plan", good).out.decode()
    yarn, size, end = shawl.yarn, shawl.outline.size, shawl.rows.stitches[-1]
    assert text.startswith(f"{shawl.title}\n{shawl.summary}\n")
    off, spare = 1.645 * yarn.sd_g, round(yarn.left_g, 1) - round(yarn.keep_g, 1)
    for fact in (
        f"yarn used: {yarn.total_g:.1f} g, {yarn.total_m:.0f} m",
        f"left over: {yarn.left_g:.1f} g: margin {yarn.keep_g:.1f} g and spare {spare:.1f} g",
        f"last ridge: {yarn.last_ridge_g:.1f} g, in addition to the bind-off",
        f"size: {size.wingspan_cm:.1f} x {size.depth_cm:.1f} cm",
        f"rows: {shawl.rows.count}; {end} sts at the end, {sum(shawl.rows.stitches[1:]):,} in all",
        f"start: garter tab of 3 sts and 6 rows: {shawl.start.stitches} sts",
        f"chance of enough yarn: {chance_words(yarn.chance_enough)}, estimated from another stitch's swatch "
        f"(90 % range of yarn used {yarn.total_g - off:.1f} to {yarn.total_g + off:.1f} g); if the margin is used too",
    ):
        assert fact in _facts(text)


@pytest.mark.parametrize(
    ("keep", "said"),
    [
        ("keep 0 g", r"[\d.]+ g"),
        ("keep 1.05 g", r"([\d.]+) g: margin 1\.1 g and spare ([\d.]+) g"),
        ("keep 60 g", r"([\d.]+) g, less than the margin of 60\.0 g"),
    ],
)
def test_what_is_left_over_is_margin_and_spare(tmp_path: Path, keep: str, said: str) -> None:
    """The chance is that of the whole skein: the margin counts, where there is one."""
    path = tmp_path / "kept.shawl"
    path.write_text(re.sub(r"keep .*", keep, PLAIN))
    facts = _facts(halfhank("plan", path).out.decode()).splitlines()
    (left,) = [fact.removeprefix("left over: ") for fact in facts if fact.startswith("left over: ")]
    found = re.fullmatch(said, left)
    assert found, left
    if "spare" in said:
        assert float(found[1]) == pytest.approx(1.1 + float(found[2]))
    (chance,) = [fact for fact in facts if fact.startswith("chance of enough yarn: ")]
    assert chance.endswith("; if the margin is used too") == (keep != "keep 0 g")


def test_remarks_are_told(good: Path) -> None:
    good.write_text(
        GOOD.replace('  by "your name"\n', '  by "your name"\n  remark "Block it wet."\n  remark "Pin the tips."\n')
    )
    text = halfhank("plan", good).out.decode()
    assert "remark: Block it wet.\nremark: Pin the tips." in _facts(text)


REPEAT = 'part "body"\n  repeat {}\n    garter 3, 5, 4 ridges\n    stockinette 4 rows\n\n'


def test_what_one_more_repeat_takes(good: Path) -> None:
    """By the plans of the count itself and of one more, each written out as a number."""
    head, _, tail = GOOD.partition('part "body"')
    rest = tail[tail.index("bind off") :]

    def shawl_with(times: str) -> Shawl:
        good.write_text(head + REPEAT.format(times) + rest)
        return shawl_of(good)

    allowed = shawl_with("as yarn allows").allowed
    assert allowed is not None
    text = " ".join(halfhank("plan", good).out.decode().split())
    left, over = (shawl_with(f"{times} times").yarn.left_g for times in (allowed, allowed + 1))
    assert f"as yarn allows: {allowed} repeats" in text
    if over >= 0:
        assert f"with one more repeat {over:.1f} g would be left over, less than the margin" in text
    else:
        assert f"not for one more repeat ({-over:.1f} g short)" in text
    assert left > over


def test_one_fewer_and_one_more_stand_side_by_side(good: Path) -> None:
    """Every figure by the plan with that count written out."""
    head, _, tail = GOOD.partition('part "body"')
    rest = tail[tail.index("bind off") :]

    def shawl_with(times: str) -> Shawl:
        good.write_text(head + REPEAT.format(times) + rest)
        return shawl_of(good)

    allowed = shawl_with("as yarn allows").allowed
    assert allowed is not None
    lines = _lines(halfhank("plan", good).out.decode(), "One more, one fewer")
    for line, name, count in zip(
        lines, ("one fewer", "as planned", "one more"), range(allowed - 1, allowed + 2), strict=True
    ):
        shawl = shawl_with(f"{count} times")
        size, left = shawl.outline.size, shawl.yarn.left_g
        said = re.split(" {2,}", line)
        assert said[:4] == [name, f"{count}", f"{shawl.rows.count}", f"{size.wingspan_cm:.1f} x {size.depth_cm:.1f} cm"]
        assert said[4] == (f"{left:.1f} g" if left >= 0 else f"{-left:.1f} g short")
        likely = 100 * shawl.yarn.chance_enough
        assert said[5:6] == ["over 99 %"] or float(said[5].removesuffix(" %")) == pytest.approx(likely, abs=0.8)


def test_a_planned_end_without_yarn_is_short_in_the_stops(good: Path) -> None:
    good.write_text(GOOD.replace("skein 100 g", "skein 20 g").replace("repeat as yarn allows", "repeat 9 times"))
    text = halfhank("stops", good).out.decode()
    assert f"{-shawl_of(good).yarn.left_g:.1f} g short" in text
    assert not re.search(r"-\d", text)


def test_an_end_by_decreases_is_not_put_down_to_the_yarn() -> None:
    path = DEMO / "lintel.shawl"
    text, shawl = halfhank("plan", path).out.decode(), shawl_of(path)
    assert "spare yarn" not in text and "at the latest" not in text
    used, left = (f"{mass:.1f} g" for mass in (shawl.yarn.total_g, shawl.yarn.left_g))
    assert re.search(rf"\nend of the shawl +{shawl.rows.count} +{used} +{left}\n", text)


def test_every_part_and_band_has_its_line(good: Path, shawl: Shawl) -> None:
    text = halfhank("plan", good).out.decode()
    parts, bands = (_lines(text, title) for title in ("Parts", "Bands"))
    assert len(parts) == len(shawl.parts) and len(bands) == len(shawl.bands)
    for line, part in zip(parts, shawl.parts, strict=True):
        wanted = [part.name, f"{part.first_row}-{part.last_row}", f"{part.stitches_at_end}", f"{part.used_g:.1f} g"]
        assert re.split(" {2,}", line)[:4] == wanted
    for line, band in zip(bands, shawl.bands, strict=True):
        assert f"{band.stitch} " in line and f" {band.first_row}-{band.last_row} " in line
        assert line.endswith(f"{band.left_g:.1f} g")


def test_the_marks_have_their_rows(good: Path, shawl: Shawl) -> None:
    half, by = shawl.marks.halfway, shawl.marks.bind_off_by
    assert half is not None and by is not None
    found = {line.split("  ")[0]: line.split() for line in _lines(halfhank("plan", good).out.decode(), "Marks")}
    halfway, latest = found["half of this shawl's yarn"], found["bind off at the latest"]
    assert str(half.row) in halfway and f"{half.used_g:.1f}" in halfway
    assert str(by.row) in latest and f"{by.left_g:.1f}" in latest


def test_every_row_comes_when_asked(good: Path, shawl: Shawl) -> None:
    assert "\nRows\n" not in halfhank("plan", good).out.decode()
    rows = _lines(halfhank("plan", good, "--rows").out.decode(), "Rows")
    assert len(rows) == shawl.rows.count
    row = shawl.rows.count // 2
    left = shawl.yarn.skein_g - shawl.used_g[row]
    wanted = [str(row), str(shawl.rows.stitches[row]), f"{shawl.used_g[row]:.1f}", "g", f"{left:.1f}", "g"]
    assert rows[row - 1].split() == wanted


def test_inches_lead_where_the_description_wants_them(good: Path) -> None:
    good.write_text(GOOD.replace('  by "your name"\n', '  by "your name"\n  units in\n'))
    text = halfhank("plan", good).out.decode()
    assert re.search(r"size +[\d.]+ x [\d.]+ in \([\d.]+ x [\d.]+ cm\)", text)
    bands, _, stitches = text.partition("Bands")[2].partition("Stitches")
    assert " cm  " not in bands and "over 3.9 in" not in stitches and stitches.count("  10 cm  ") == 2
    assert re.search(r"edges +spine [\d.]+ in \([\d.]+ cm\), top edge [\d.]+ in \([\d.]+ cm\)", text)


def test_the_gauge_is_told_over_the_length_as_written(good: Path) -> None:
    good.write_text(GOOD.replace("28 rows over 10 cm", "28 rows over 4 in"))
    lines = _lines(halfhank("plan", good).out.decode(), "Stitches")
    assert [re.split(" {2,}", line)[2] for line in lines] == ["over", "10 cm", "4 in"][-len(lines) :]


def test_thousands_are_set_off_everywhere(good: Path) -> None:
    large = {"100 g 400 m": "9999 g 40000 m", "garter tab 3 sts 6 rows": "cast on 2001 sts"}
    good.write_text(reduce(lambda text, old: text.replace(old, large[old]), large, GOOD))
    text = halfhank("plan", good).out.decode()
    assert "start: cast on 2,001 sts\n" in _facts(text)
    assert not re.search(r"(?<![\d.,])[0-9]{4,}", text.partition("Stitches")[0])


def test_the_angle_of_a_fan_is_told(good: Path) -> None:
    assert re.search(r"\nangle at the neck +top edges meet at \d+°: ", halfhank("plan", good).out.decode())


@pytest.mark.parametrize(("stitch", "degrees"), [("garter", 195), ("stockinette", 138)])
def test_large_steps_show_what_they_make(stitch: str, degrees: int) -> None:
    counts = {3: 19, 9: 33, 19: 61, 37: 108, 73: 190}
    shaping = "".join(f"  increase evenly to {to} sts from row {row}\n" for row, to in counts.items())
    shape = f"shape half-circle\n  cast on 11 sts\n{shaping}"
    head = GOOD[: GOOD.index("shape triangle")]
    text = f'{head}{shape}part "all"\n  {stitch} 127 rows\n'
    plain = halfhank("plan", "-", stdin=text.encode()).out.decode()
    (told,) = re.findall(r", top edges meet at (\d+)°[:,] ", plain)
    assert int(told) == pytest.approx(degrees, abs=2)
    assert re.search(r"\nstretch +-\d+ % to \+\d+ % along the rows, \+0 % across them at most, by blocking\n", plain)
    pinned = text.replace("part ", "  pinned straight\npart ")
    out = halfhank("plan", "-", stdin=pinned.encode()).out.decode()
    assert f", knits to {told}°; pinned to a straight top edge" in out


def test_rows_of_wraps_past_the_end_are_named_as_such() -> None:
    towpath = (Path(__file__).parents[3] / "gallery_demo/towpath.shawl").read_text(encoding="utf-8")
    found = halfhank("plan", "-", stdin=towpath.replace('part "gate"\n  garter 3 ridges\n', "").encode())
    assert re.search(r" [1-9] more in drop stitch\n", found.out.decode())


@pytest.mark.parametrize("room", [24, 33, 47, 80])
def test_the_text_keeps_to_its_room(good: Path, room: int) -> None:
    plan = plan_file(str(good)).plan
    assert plan is not None
    lines = report_text(plan_report(plan, with_rows=True), text_layout(room)).splitlines()
    assert max(map(len, lines)) <= room
    assert "Bands" in lines and any(line.startswith("body") for line in lines)


def test_json_is_the_plan(good: Path, shawl: Shawl) -> None:
    plan = plan_file(str(good)).plan
    assert plan is not None
    for options, with_rows in (([], False), (["--rows"], True)):
        result = halfhank("plan", good, "--json", *options)
        assert (result.status, result.err) == (0, "")
        expected = plan_json(shawl, (), with_rows, repeat_choices(plan), shaped(plan.parts))
        assert expected["shaping"] and json.loads(result.out) == json.loads(json.dumps(expected))
        assert result.out.isascii()


def test_json_has_the_advice(good: Path) -> None:
    good.write_text(GOOD.replace("gauge 20 sts 40 rows", "gauge 20 sts 60 rows"))
    result = halfhank("plan", good, "--json")
    assert (result.status, result.err) == (0, "")
    (problem,) = json.loads(result.out)["problems"]
    assert (problem["code"], problem["severity"]) == ("odd-gauge", "advice")
    assert "advice [odd-gauge]" in halfhank("plan", good).err


def test_json_of_a_description_with_mistakes_has_them_alone(good: Path) -> None:
    good.write_text(GOOD.replace("garter 4 ridges", "gatrer 4 ridges"))
    result = halfhank("plan", good, "--json")
    assert (result.status, result.err) == (1, "")
    plan = json.loads(result.out)
    assert set(plan) == {"format", "problems"}
    assert [problem["code"] for problem in plan["problems"]] == ["unknown-stitch"]


def _facts(text: str) -> str:
    """The facts of a plan, each on one line behind its name and a colon."""
    joined = re.sub("\n {10,}", " ", text.partition("\nMarks\n")[0])
    return re.sub(r"^(\S+(?: \S+)*?) {2,}", r"\1: ", joined, flags=re.MULTILINE)


def _lines(text: str, title: str) -> list[str]:
    """The lines of one table, its heading left out."""
    return text.partition(f"\n{title}\n")[2].partition("\n\n")[0].strip("\n").split("\n")[1:]


def test_pinning_says_how_far_it_draws_the_fabric_out() -> None:
    path = Path(__file__).parents[3] / "gallery_demo/kite-store.shawl"
    shawl = shawl_of(path)
    assert shawl.outline.stretch is not None
    along, across, _ = (f"{100 * share:+.0f} %" for share in shawl.outline.stretch)
    assert f"stretch: {along} along the rows, {across} across them" in _facts(halfhank("plan", path).out.decode())


def test_a_crescent_says_that_it_is_blocked_to_its_curve() -> None:
    path = Path(__file__).parents[3] / "gallery_demo/third-breakwater.shawl"
    stretch = shawl_of(path).outline.stretch
    assert stretch is not None and stretch.across > 0.05
    out = halfhank("plan", path).out.decode()
    assert "\ncrescent, blocked to a curve, " in out
    assert out.count("without blocking, the same rows lie flat as a triangle with straight edges") == 1
    assert re.search(r"\nsize .*, blocked\n", out)
    across = f"{100 * stretch.across:.0f} %"
    assert re.search(rf"\nstretch +\+0 % along the rows, \+{across} across them at most, by blocking\n", out)


def test_a_last_row_that_is_a_point_has_no_length() -> None:
    out = halfhank("plan", DEMO / "lintel.shawl").out.decode()
    assert "bind-off edge" not in out and "bind-off edge" in halfhank("plan", DEMO / "towpath.shawl").out.decode()


def test_yarn_that_runs_out_is_told_as_short(good: Path) -> None:
    good.write_text(GOOD.replace("skein 100 g", "skein 20 g").replace("repeat as yarn allows", "repeat 9 times"))
    shawl = shawl_of(good)
    assert shawl.yarn.left_g < 0
    text = halfhank("plan", good).out.decode()
    assert f"left over: not enough yarn: {-shawl.yarn.left_g:.1f} g short" in _facts(text)


@pytest.mark.parametrize(("demo", "fabric"), [("hedge-and-ditch", "garter"), ("ratchet", "garter")])
def test_rows_past_the_end_are_said_to_be_in_the_last_fabric(demo: str, fabric: str) -> None:
    text = halfhank("plan", Path(__file__).parents[3] / f"gallery_demo/{demo}.shawl").out.decode()
    assert re.search(rf" [1-9] more in {fabric}\n", text)


def test_stitches_say_what_they_are_used_for_and_what_their_figures_leave_out(tmp_path: Path) -> None:
    """Garter only at the edges, stockinette only as the fill of a pattern, and elongated rows."""
    path = tmp_path / "used.shawl"
    eyelets = (
        "stitch eyelets\n  gauge 19 sts 32 rows over 10 cm\n  multiple of 2 sts\n  row 1: *yo, k2tog*\n  row 2: purl\n"
    )
    text = PLAIN.replace("shape triangle", f"{eyelets}shape triangle\n  edge 2 sts garter")
    path.write_text(re.sub("garter (16|48) ridges", "eyelets 40 rows\n  drop 2 wraps", text))

    def shown() -> tuple[set[str], str]:
        out = halfhank("plan", path).out.decode()
        return {line.split("  ")[0] for line in _lines(out, "Stitches")}, out

    names, out = shown()
    assert names == {"eyelets", "drop stitch (before the extra wraps)", "garter (edges)", "stockinette (fill)"}
    assert out.endswith("\nThe yarn per stitch is that of a swatch without its cast-on and bind-off.\n")
    path.write_text(re.sub("  swatch .*\n", "", PLAIN))
    names, out = shown()
    assert names == {"garter"} and "of a swatch without" not in out


def test_short_is_explained_below_the_choices() -> None:
    ratchet = (Path(__file__).parents[3] / "gallery_demo/ratchet.shawl").read_text(encoding="utf-8")
    note = "Short: more yarn than there is, even if the margin is used."
    assert note in halfhank("plan", "-", stdin=ratchet.encode()).out.decode()
    fewer = ratchet.replace("repeat as yarn allows", "repeat 4 times")
    assert "One more, one fewer" in (out := halfhank("plan", "-", stdin=fewer.encode()).out.decode())
    assert note not in out
