"""Whole plans: two shawls worked by hand, the JSON and its schema, what the plan says in words, and speed."""

import json
import math
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import ADVICE, MISTAKE, Problem, Span
from halfhank.model.plan_json import plan_json, problems_json
from halfhank.model.planning.planning import plan_design, plan_parsed
from halfhank.model.shawl import Mark, Shawl

from tests.model.texts import described, text

CASES = Path(__file__).parents[1] / "cases"
SCHEMA = json.loads((Path(__file__).parents[2] / "model" / "plan.schema.json").read_text())
WINGS = ("increase 1 at each edge and 1 at spine every 2 rows",)
WINGED = ("increase 1 at each edge every row", "increase 1 at spine every 3 rows")


def case(name: str) -> Shawl:
    found = plan_parsed(parse((CASES / f"{name}.shawl").read_text()))
    assert found.shawl is not None, found.problems
    return found.shawl


def shawl(*parts: str, **more: Any) -> Shawl:
    found = plan_design(described(*parts, **more))
    assert found.shawl is not None, found.problems
    return found.shawl


def as_json(found: Shawl, rows: bool = False) -> Any:
    """Through text and back, as another program reads it."""
    return json.loads(json.dumps(plan_json(found, found.problems, rows), allow_nan=False))


def near(value: Any, expected: Any, path: str = "") -> None:
    """Everything that is expected stands there, to as many decimals as it is written with."""
    if isinstance(expected, dict):
        for key, part in expected.items():
            near(value[key], part, f"{path}.{key}")
    elif isinstance(expected, float):
        decimals = len(repr(expected).partition(".")[2])
        assert value == pytest.approx(expected, abs=0.51 * 10**-decimals), path
    else:
        assert value == expected, path


# Worked by hand: counts, and grams by 11.2 g / (40 x 62.62) a stitch.

BY_HAND = {
    "format": 1,
    "title": "Worked by hand",
    "shape": "triangle",
    "counts": {"cast_on": 9, "rows": 128, "final": 265, "stitches": 17792},
    "size": {
        "wingspan_cm": 94.4,
        "depth_cm": 47.2,
        "spine_cm": 45.3,
        "top_cm": 94.4,
        "last_row_cm": 132.5,
        "area_cm2": 2224.0,
        "pinned": False,
    },
    "fan_degrees": 180.0,
    "stretch": None,
    "yarn": {
        "skein_g": 100.0,
        "skein_m": 380.0,
        "keep_g": 5.0,
        "start_g": 0.1207,
        "knitting_g": 79.5554,
        "bind_off_g": 1.3271,
        "total_g": 81.0033,
        "total_m": 307.8,
        "left_g": 18.9967,
        "last_ridge_g": 2.3698,
        "sd_g": 5.6738,
        "chance_enough": 0.9992,
        "basis": "swatch",
    },
    "marks": {
        "halfway": {"row": 90, "used_g": 40.7659, "left_g": 59.2341},
        "turn_back": None,
        "bind_off_by": {"row": 138, "used_g": 92.0620, "left_g": 7.9380},
    },
    "needles_mm": 4.0,
    "problems": [],
}

NECK = {
    "first_row": 1,
    "last_row": 32,
    "stitches_at_end": 73,
    "used_g": 6.1527,
    "share": 0.076,
    "left_g": 93.7266,
}


def test_the_shawl_worked_by_hand() -> None:
    found = as_json(case("worked-by-hand"), rows=True)
    near(found, BY_HAND)
    near(found["parts"][0], {"name": "neck", **NECK})
    band = {"part": "neck", "stitch": "garter", "label": None, "height_cm": 8.0, "used_to_here_g": 6.2734, **NECK}
    near(found["bands"][0], band)
    near(found["stitches"], [{"name": "garter", "gauge": [20, 40, 10], "grams_a_stitch": 0.004471, "basis": "swatch"}])
    assert found["size"]["sides_cm"] == pytest.approx([66.25, 66.25])
    assert len(found["rows"]) == 128 and len(found["parts"]) == len(found["bands"]) == 2
    assert found["rows"][0] == [1, 13, pytest.approx(0.1789, abs=6e-5)]
    assert found["rows"][-1][:2] == [128, 265]


def test_what_the_yarn_allows() -> None:
    """5 passes; one more would take 115.4 g. The elongated rows have 93 + 125 + 165 + 201 + 233 = 817 extra wraps."""
    found = case("as-yarn-allows")
    assert found.allowed == 5
    counts = as_json(found)["counts"]
    assert counts == {"cast_on": 9, "rows": 130, "final": 269, "stitches": 18330}
    assert found.yarn.total_g == pytest.approx(90.2915, abs=0.0005)
    assert found.marks.halfway is not None
    assert (found.marks.halfway.row, found.marks.halfway.used_g) == (94, pytest.approx(45.99, abs=0.005))
    more = (CASES / "as-yarn-allows.shawl").read_text().replace("repeat as yarn allows", "repeat 6 times")
    assert shawl_of(more).yarn.total_g == pytest.approx(115.4, abs=0.05)


def shawl_of(written: str) -> Shawl:
    found = plan_parsed(parse(written))
    assert found.shawl is not None, found.problems
    return found.shawl


# JSON.


@pytest.mark.parametrize(
    "found",
    [
        lambda: case("worked-by-hand"),
        lambda: case("as-yarn-allows"),
        lambda: shawl("garter 10 rows", shape="rectangle", start="cast on 30 sts"),
        lambda: shawl("garter 10 rows", "garter 4 rows", lines=WINGS, tail='turn back around "2"'),
        lambda: shawl("garter 61 rows", lines=(*WINGS, "pinned straight")),
    ],
)
def test_plans_fit_the_schema(found: Any) -> None:
    for rows in (False, True):
        jsonschema.validate(as_json(found(), rows), SCHEMA)


def test_the_schema_refuses_what_is_not_a_plan() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    good = as_json(case("worked-by-hand"))
    for broken in ({**good, "format": 2}, {**good, "extra": 1}, {k: v for k, v in good.items() if k != "yarn"}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(broken, SCHEMA)


def test_a_refused_plan_has_only_its_problems() -> None:
    told = (
        Problem("unknown-stitch", MISTAKE, Span(4, 3, 9), "There is none.", "write another"),
        Problem("odd", ADVICE, None, "Odd."),
    )
    found = plan_json(None, told)
    assert found == {"format": 1, "problems": problems_json(told)}
    assert found["problems"][0] == {
        "code": "unknown-stitch",
        "severity": "mistake",
        "line": 4,
        "column": 3,
        "message": "There is none.",
        "hint": "write another",
    }
    assert (found["problems"][1]["line"], found["problems"][1]["column"]) == (None, None)
    jsonschema.validate(found, SCHEMA)


def test_numbers_are_rounded_and_never_negative_zero() -> None:
    found = case("worked-by-hand")
    odd = found.yarn._replace(left_g=-0.00001, sd_g=math.inf, total_m=1 / 3)
    yarn = plan_json(found._replace(yarn=odd), ())["yarn"]
    assert math.copysign(1, yarn["left_g"]) == 1
    assert (yarn["sd_g"], yarn["total_m"]) == (None, 0.3333)


# Words.


def test_the_summary_says_how_it_is_made() -> None:
    assert case("as-yarn-allows").summary == "triangle from the neck, picot bind-off, by a test"
    lines = (*WINGS, "pinned to 100 cm by 20 in")
    assert shawl("garter 60 rows", lines=lines).summary.endswith(", pinned to 100 cm by 20 in, standard bind-off")


@pytest.mark.parametrize(
    ("start", "words"),
    [("cast on 9 sts", "cast on 9 sts"), ("garter tab 3 sts 6 rows", "garter tab of 3 sts and 6 rows")],
)
def test_the_start_in_words(start: str, words: str) -> None:
    assert shawl("garter 20 rows", start=start, lines=WINGS).start == (9, words)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("i-cord", "i-cord bind-off"),
        ("draw through", "last stitches drawn together"),
        ("picot cast on 1 bind off 3", "picot bind-off (cast on 1, bind off 3)"),
        ("takes 4.5 times the width", "bind-off of 4.5 times the width"),
        ("takes 2.5 sts each", "bind-off of 2.5 sts each"),
    ],
)
def test_the_bind_off_in_words(written: str, words: str) -> None:
    found = shawl("garter 20 rows", lines=WINGS, tail=f"bind off {written}")
    assert found.bind_off.words == words
    assert found.bind_off.yarn_m == pytest.approx(found.yarn.total_m - found.used_g[-1] * 3.8)


# Problems.


def codes(*parts: str, **more: Any) -> list[str]:
    return [problem.code for problem in plan_design(described(*parts, **more)).problems]


RIB = "stitch rib\n  rows 1-2: *k1, p1*"
PLAIN = "stitch garter\n  gauge 20 sts 40 rows over 10 cm"
LEAN = "increase 1 at lower edge every"

TOLD: list[tuple[str, tuple[str, ...], dict[str, Any]]] = [
    ("odd-gauge", ("garter 20 rows",), {"stitches": "stitch garter\n  gauge 20 sts 30 rows over 10 cm"}),
    ("odd-gauge", ("garter 20 rows",), {"stitches": f"{PLAIN}\nstitch stockinette\n  gauge 20 sts 33 rows over 10 cm"}),
    ("odd-swatch", ("garter 20 rows",), {"stitches": f"{PLAIN}\n  swatch 40 sts 60 rows weighs 20 g"}),
    ("assumed-gauge", ("own 20 rows",), {"stitches": f"{PLAIN}\nstitch own\n  swatch 40 sts 60 rows weighs 11.2 g"}),
    (
        "keep-too-large",
        ("garter 20 rows",),
        {"keep": "keep 90 g", "tail": "weighed\n  before cast on 89.5 g"},
    ),
    ("picot-multiple", ("even\ngarter 20 rows",), {"tail": "bind off picot", "start": "cast on 10 sts"}),
    ("place-not-allowed", ("garter 20 rows",), {"shape": "half-circle", "lines": ("increase 1 at spine every row",)}),
    ("more-than-centred", ("garter 4 rows",), {"start": "cast on 41 sts", "lines": ("decrease 4 s2pp at spine",)}),
    ("shaping-not-allowed", ("garter 20 rows",), {"shape": "rectangle", "lines": ("increase 1 evenly every row",)}),
    ("too-many-stitches", ("garter 20 rows",), {"start": "cast on 20001 sts"}),
    ("too-many-stitches", ("increase 20000 at lower edge\ngarter 20 rows",), {}),
    ("too-few-stitches", ("decrease 1 at each edge every row\ngarter 20 rows",), {}),
    ("too-few-stitches", ("decrease 9 at lower edge\ngarter 20 rows",), {}),
    ("wrong-way", ("increase evenly to 5 sts\ngarter 20 rows",), {}),
    ("wrong-way", ("decrease evenly to 15 sts\ngarter 20 rows",), {}),
    ("too-many-rows", ("garter 10001 ridges",), {}),
    ("too-many-rows", ("repeat 1000000000 times\n  garter 2 rows",), {}),
    ("too-many-rows", ("repeat 1000000000 times\n  garter 2 rows", "garter as yarn allows"), {}),
    ("too-many-wraps", ("drop 101 wraps",), {}),
    ("teeth-turn-back", ("bind off 1 at lower edge every 9 rows\ngarter 20 rows",), {"tail": "turn back"}),
    ("wrong-side-start", ("garter 3 rows", "increase 1 at each edge every 2 rows\ngarter 8 rows"), {}),
    ("wrong-side-start", (f"{LEAN} 4 rows\ngarter 9 rows",), {"shape": "tip-to-tip", "tail": "turn back"}),
    ("wrong-side-start", ("garter 3 rows\nrib 8 rows",), {"stitches": f"{PLAIN}\n{RIB}"}),
    ("line-lost", ("garter 4 rows", "even\ngarter 8 rows"), {"lines": ("increase 5 at lower edge from row 6",)}),
    ("idle-line", ("garter 4 rows",), {"lines": ("increase 1 at lower edge from row 6",)}),
    ("wide-edges", ("garter 4 rows",), {"lines": ("edge 5 sts",)}),
    ("wide-edges", ("garter 4 rows",), {"start": "cast on 5 sts", "lines": ("edge 3 sts", *WINGS)}),
    ("narrow-start", ("garter 4 rows",), {"start": "cast on 6 sts", "lines": ("edge 3 sts", *WINGS)}),
    ("uneven-start", ("garter 4 rows",), {"start": "cast on 8 sts", "lines": ("edge 3 sts", *WINGS)}),
    ("no-spine", ("garter 4 rows",), {"shape": "rectangle", "lines": ("spine 1 st",)}),
    ("no-spine", ("garter 4 rows",), {"shape": "tip-to-tip", "lines": ("spine 3 sts",)}),
    ("unshaped", ("garter 4 rows",), {}),
    ("winged-triangle", ("garter 90 rows",), {"lines": WINGED}),
    ("ruffles", ("garter 60 rows", "increase 130 evenly\ngarter 4 rows"), {"lines": WINGS}),
    ("ruffles", ("garter 60 rows", "increase 130 evenly\ngarter 4 rows"), {"shape": "tip-to-tip"}),
    ("overstretched", ("garter 90 rows",), {"shape": "crescent", "lines": ("increase 1 at each edge every row",)}),
    ("yarn-short", ("garter 200 rows",), {"lines": WINGS}),
    ("margin-short", ("garter 140 rows",), {"lines": WINGS}),
]


@pytest.mark.parametrize(("code", "parts", "more"), TOLD)
def test_what_is_told(code: str, parts: tuple[str, ...], more: dict[str, Any]) -> None:
    assert code in codes(*parts, **more)


@pytest.mark.parametrize(("stitch", "usual"), [("garter", range(34, 45)), ("stockinette", range(25, 32))])
def test_a_gauge_is_odd_outside_the_usual_rows(stitch: str, usual: range) -> None:
    """Rows to a stitch: 1.7 to 2.2 in garter, 1.25 to 1.55 in stockinette (common practice)."""
    for rows in (usual.start - 1, usual.start, usual.stop - 1, usual.stop):
        told = codes(f"{stitch} 20 rows", stitches=f"stitch {stitch}\n  gauge 20 sts {rows} rows over 10 cm")
        assert ("odd-gauge" in told) == (rows not in usual)


@pytest.mark.parametrize(
    ("parts", "more"),
    [
        (("garter 128 rows",), {"lines": WINGS}),
        (("garter 20 rows",), {"start": "cast on 11 sts", "tail": "bind off picot"}),
        (("garter 3 rows", "increase 1 at each edge every row\ngarter 8 rows"), {}),
        (("garter 3 rows", "increase 1 at each edge every 2 rows from row 2\ngarter 8 rows"), {}),
        *(
            ((f"{LEAN} {line}",), {"shape": "tip-to-tip", "tail": "turn back"})
            for line in (
                "4 rows\ngarter 8 rows",
                "4 rows\ngarter 10 rows",
                "4 rows\ngarter 11 rows",
                "row\ngarter 9 rows",
                "3 rows\ngarter 9 rows",
                "4 rows from row 2\ngarter 9 rows",
            )
        ),
        (("drop 100 wraps",), {}),
        (("drop 2 wraps",), {"stitches": f"{PLAIN}\nstitch drop\n  swatch 20 sts 10 rows weighs 1 g"}),
        (("garter 4 rows",), {"lines": ("edge 4 sts",)}),
        (("stockinette 4 rows",), {}),
        (("garter 4 rows",), {"start": "cast on 7 sts", "lines": ("edge 3 sts", *WINGS)}),
        (("garter 4 rows",), {"start": "cast on 9 sts", "lines": ("edge 3 sts", "spine 3 sts", *WINGS)}),
        (("garter 4 rows",), {"start": "cast on 8 sts", "lines": ("edge 3 sts", "increase 1 at each edge every row")}),
        (("garter 4 rows",), {"shape": "rectangle", "lines": ("spine 0 sts",)}),
        (("increase 1 at each edge every 2 rows\ngarter 4 rows",), {}),
    ],
)
def test_nothing_is_told_without_need(parts: tuple[str, ...], more: dict[str, Any]) -> None:
    told = codes(*parts, **more)
    needless = {"wrong-side-start", "picot-multiple", "too-many-wraps", "wide-edges", "assumed-gauge", "odd-swatch"}
    needless |= {"narrow-start", "uneven-start", "no-spine"}
    needless |= {"unshaped"} if "increase" in f"{parts} {more}" else set()
    assert not needless & set(told)


def test_a_line_of_a_part_that_never_acts_says_how_rows_are_counted() -> None:
    """Rows 5 to 24 of the shawl are rows 1 to 20 of the second part."""
    found = plan_design(
        described("garter 4 rows", "increase 1 at spine from row 22\ngarter 20 rows", lines=WINGS)
    ).problems
    told = next(problem for problem in found if problem.code == "idle-line")
    assert "20 rows of its part" in told.message and "part's first row" in (told.hint or "")
    assert "idle-line" not in codes("garter 4 rows", "increase 1 at spine from row 20\ngarter 20 rows", lines=WINGS)


def test_a_rectangle_that_is_shaped_is_told_the_shape_of_a_bias_strip() -> None:
    lines = ("increase 1 at upper edge every 2 rows",)
    found = plan_design(described("garter 4 rows", shape="rectangle", lines=lines)).problems
    assert ["`shape asymmetric`" in (problem.hint or "") for problem in found] == [True]


def test_one_stitch_is_told_in_the_singular() -> None:
    lines = ("decrease 1 at each edge every 2 rows",)
    (told,) = (
        p for p in plan_design(described("garter 20 rows", lines=lines)).problems if p.code == "too-few-stitches"
    )
    assert told.message == "Row 9 has only 1 stitch, too few to take 2 away."


def test_at_the_limits_it_works() -> None:
    assert shawl("garter 20000 rows", shape="rectangle", start="cast on 1 st").rows.count == 20_000
    assert shawl("garter 2 rows", shape="rectangle", start="cast on 20000 sts").rows.stitches[-1] == 20_000


def test_a_place_that_is_not_allowed_says_which_are() -> None:
    found = plan_design(described("garter 4 rows", shape="half-circle", lines=("increase 2 at spine every row",)))
    told = next(problem for problem in found.problems if problem.code == "place-not-allowed")
    assert found.shawl is None and told.severity == MISTAKE
    assert "half-circle" in told.message
    assert told.hint == "shape it at `each edge`, at `upper edge`, at `lower edge`, evenly"


def test_mistakes_of_grammar_and_of_value_are_told_in_one_run() -> None:
    lines = ("increase 1 evenly every rwo",)
    written = text("increase 1 at spine every row\ngarter 4 rows", shape="crescent", lines=lines)
    told = plan_parsed(parse(written))
    assert told.shawl is None
    assert {"unknown-word", "place-not-allowed"} <= {problem.code for problem in told.problems}
    spans = [problem.span or Span(0, 0, 0) for problem in told.problems]
    assert spans == sorted(spans)


@pytest.mark.parametrize("path", sorted((CASES / "problems").rglob("*.shawl")), ids=lambda path: path.stem)
def test_descriptions_with_mistakes_are_never_planned(path: Path) -> None:
    parsed = parse(path.read_text())
    found = plan_parsed(parsed)
    if any(problem.severity == MISTAKE for problem in parsed.problems):
        assert found.shawl is None
    assert set(parsed.problems) <= set(found.problems)


# Marks in the plan, and speed.


def test_a_turned_shawl_has_one_mark_the_others_another() -> None:
    turned = shawl("garter 40 rows", lines=WINGS, tail="turn back")
    assert isinstance(turned.marks.turn_back, Mark) and turned.marks.bind_off_by is None
    assert [part.name for part in turned.parts] == ["1", "1, mirrored"]
    straight = shawl("garter 40 rows", lines=WINGS)
    assert straight.marks.turn_back is None and isinstance(straight.marks.bind_off_by, Mark)
