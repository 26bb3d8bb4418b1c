"""What a hint says to write, written in place of what it is said of, mends the line."""

import re

import pytest
from halfhank.grammar.items import METHODS
from halfhank.grammar.language import SHAPES
from halfhank.grammar.lines.trade_phrases import US_NEEDLES_MM, suggestions_at
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import Problem
from halfhank.model.design.shape_kinds import SHAPES as SHAPE_KINDS

TEXT = """\
shawl "Skerry"
yarn
  skein 100 g 380 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch mesh
  multiple of 6 sts + 1
  row 1: *k2, p4*, k1
shape triangle
  cast on 9 sts
  increase 1 at spine every 2 rows
part "body"
  garter 4 rows
bind off elastic
weighed
  before cast on 101 g
"""

# A line of the text, what is written for it, and what the hint says to write.
MENDS = [
    ("  increase 1 at spine every 2 rows", "  increase 1 at spine every RS row", "every 2 rows"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at spine every right-side row", "every 2 rows"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at spine on every RS row until 60 sts", "every 2 rows"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at spine on RS rows", "every 2 rows"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at spine every WS row", "every 2 rows from row 2"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at spine every wrong side row", "every 2 rows from row 2"),
    ("  increase 1 at spine every 2 rows", "  cast off 6 at lower edge every 12 rows", "bind off"),
    ("  garter 4 rows", "  st st 4 rows", "stockinette"),
    ("  garter 4 rows", "  stocking stitch 4 rows", "stockinette"),
    ("  garter 4 rows", "  Garter stitch 4 rows", "garter"),
    ("  garter 4 rows", "  garter until end of yarn", "as yarn allows"),
    ("  garter 4 rows", "  garter until yarn runs out", "as yarn allows"),
    ("  garter 4 rows", '  garter until the yarn is used up "end"', "as yarn allows"),
    ("needles 4 mm", "needles US 6", "4 mm"),
    ("needles 4 mm", "needles us size 10.5", "6.5 mm"),
    ("needles 4 mm", "needles US7", "4.5 mm"),
    ("needles 4 mm", "needles 3½ mm", "3.5"),
    ("needles 4 mm", "needles 3 3/4 mm", "3.75"),
    ("  skein 100 g 380 m", "  skein 3½ oz 380 m", "3.5"),
    ("  gauge 20 sts 40 rows over 10 cm", '  gauge 20 sts 40 rows over 4"', "4 in"),
    ("  gauge 20 sts 40 rows over 10 cm", "  gauge 22½ sts 40 rows over 10 cm", "22.5"),
    ("shape triangle", "shape half circle", "half-circle"),
    ("shape triangle", "shape tip to tip", "tip-to-tip"),
    ("bind off elastic", "cast off elastic", "bind off"),
    ("  skein 100 g 380 m", "  skein 100 g / 420 m", "100 g 420 m"),
    ("  skein 100 g 380 m", "  skein 100g/420m", "100g 420m"),
    ("  skein 100 g 380 m", "  skein 100 g, 420 m", "100 g 420 m"),
    ("  skein 100 g 380 m", "  skein 420 yd per 3.5 oz", "420 yd 3.5 oz"),
    ("  garter 4 rows", "  10 rows garter", "garter 10 rows"),
    ("  garter 4 rows", "  5 ridges of garter stitch", "garter 5 ridges"),
    ("  garter 4 rows", '  10 rows stockinette "plain"', "stockinette 10 rows"),
    ("  garter 4 rows", "  seed stitch 4 rows", "moss"),
    ("  garter 4 rows", "  inc 1 at spine every 2 rows\n  garter 4 rows", "increase"),
    ("  increase 1 at spine every 2 rows", "  inc 1 at each edge every 2 rows", "increase"),
    ("  increase 1 at spine every 2 rows", "  dec 1 at spine from row 9", "decrease"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at each end every 2 rows", "each edge"),
    ("shape triangle", "shape stole", "rectangle"),
    ("shape triangle", "shape Scarf", "rectangle"),
    ("shape triangle", "shape semicircle", "half-circle"),
    ("  row 1: *k2, p4*, k1", "  row 1: k1, sl1-k2tog-psso, k1", "sk2p"),
    ("bind off elastic", "bind off loosely", "bind off elastic"),
    ("bind off elastic", "bind off all sts", "bind off standard"),
    ("bind off elastic", "cast off", "bind off standard"),
    ("bind off elastic", "BO", "bind off standard"),
    ("  before cast on 101 g", "  row 60 17 g", "after row 60 17 g left"),
    ("  before cast on 101 g", "  row 60 17 g left", "after row 60 17 g left"),
    ("  before cast on 101 g", "  row 60: 17 g used", "after row 60 17 g used"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at each side of the spine every 2 rows", "at spine"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at both sides of the spine every 2 rows", "at spine"),
    ("  increase 1 at spine every 2 rows", "  increase 1 at each edge of the spine every 2 rows", "at spine"),
    ("  increase 1 at spine every 2 rows", "  increase 1 on either side of the centre stitch every 2 rows", "at spine"),
    ("  increase 1 at spine every 2 rows", "  increase 1 each side of spine every 2 rows", "at spine"),
    (
        "  increase 1 at spine every 2 rows",
        "  increase 1 at each edge and each side of the spine every 2 rows",
        "increase 1 at each edge and 1 at spine",
    ),
    ("  row 1: *k2, p4*, k1", "  row 1: (yo, k2tog) x 3", "[yo, k2tog] 3 times"),
    ("  row 1: *k2, p4*, k1", "  row 1: [yo, k2tog] x3", "[yo, k2tog] 3 times"),
    ("  row 1: *k2, p4*, k1", "  row 1: (yo, k2tog) × 3", "[yo, k2tog] 3 times"),
    ("  row 1: *k2, p4*, k1", "  row 1: *k1tbl*", "k1 tbl"),
    ("  row 1: *k2, p4*, k1", "  row 1: *p1tbl*", "p1 tbl"),
    ("  row 1: *k2, p4*, k1", "  row 1: *k2tog-tbl*", "k2tog tbl"),
    ("  before cast on 101 g", "  cast on 100 g", "before cast on 100 g"),
    ("  before cast on 101 g", "  cast-on 100 g", "before cast on 100 g"),
    ("  before cast on 101 g", "  at cast on 100 g", "before cast on 100 g"),
    ("  before cast on 101 g", "  row 0 100 g", "before cast on 100 g"),
    ("  before cast on 101 g", "  before cast-on 100 g", "before cast on 100 g"),
]


def _problems(line: str, written: str) -> tuple[Problem, ...]:
    assert line + "\n" in TEXT
    return parse(TEXT.replace(line + "\n", written + "\n")).problems


@pytest.mark.parametrize(("line", "written", "mend"), MENDS, ids=[written.strip() for _, written, _ in MENDS])
def test_the_mend_is_reported_and_mends(line: str, written: str, mend: str) -> None:
    (problem,) = _problems(line, written)
    other = " or `bind off elastic`" if mend == "bind off standard" else ""
    assert problem.hint == f"write `{mend}`{other}" and problem.span
    mended = written[: problem.span.column - 1] + mend + written[problem.span.end - 1 :]
    assert {p.code for p in _problems(line, mended)} <= {"unknown-stitch"}


@pytest.mark.parametrize(
    ("line", "written", "hint"),
    [
        ("shape triangle", "shape: triangle", "remove `:`"),
        ("  garter 4 rows", "  garter 4 rows // plain", "start a comment with `#`"),
        ("  row 1: *k2, p4*, k1", "  row 1 (rs): *k2, p4*, k1", "remove `(rs)`"),
        (
            "  gauge 20 sts 40 rows over 10 cm",
            "  gauge 20 sts 40 rows",
            "add `over 10 cm`, or the length over which you counted",
        ),
        (
            "bind off elastic",
            "bind off elastic takes 4.5 times the width",
            "write the method or `takes …`, not both",
        ),
        (
            "bind off elastic",
            "bind off",
            "write `bind off standard`, or name another: `elastic`, `picot`, `i-cord`, `draw through`",
        ),
        (
            "needles 4 mm",
            "needles 4 mm\ntension 20 sts 40 rows over 10 cm",
            "write `gauge 20 sts 40 rows over 10 cm` there, indented",
        ),
        ("  garter 4 rows", "  10 rows", "name the stitch first, as in `garter 10 rows`"),
        ("  garter 4 rows", "  repeat 3 times\n    garter 4 2  3 ridges", "write `garter 4, 2, 3 ridges`"),
        ("needles 4 mm", "needles 4", "write `4 mm`, or `3.5 mm` for US 4"),
        ("needles 4 mm", "needles size 6", "write their size in `mm`"),
        ("needles 4 mm", "needles US 99", "write their size in `mm`"),
        ("  skein 100 g 380 m", "  skein 100 g", "add the length, as in `400 m`"),
        ("  skein 100 g 380 m", "  skein 400 m", "add the mass, as in `100 g`"),
    ],
)
def test_other_hints(line: str, written: str, hint: str) -> None:
    assert [problem.hint for problem in _problems(line, written)] == [hint]


@pytest.mark.parametrize(
    ("line", "written", "units"),
    [
        ("needles 4 mm", "needles 12", "`mm`"),
        ("  gauge 20 sts 40 rows over 10 cm", "  gauge 20 sts 40 rows over 10", "`cm`, `in`, `m`, `mm` or `yd`"),
        ("  skein 100 g 380 m", "  skein 100 x 400 m", "`g`, `m`, `oz` or `yd`"),
        ("  before cast on 101 g", "  before cast on 101", "`g` or `oz`"),
        ("  before cast on 101 g", "  after row 60 17 left", "`g` or `oz`"),
        ("  cast on 9 sts", "  cast on 9 sts\n  pinned to 160 x 55 cm", "`cm`, `in`, `m`, `mm` or `yd`"),
    ],
)
def test_the_units_that_fit_are_listed(line: str, written: str, units: str) -> None:
    (problem,) = _problems(line, written)
    assert problem.message.endswith(f"; expected {units}.") and problem.hint is None


STITCH_GAUGE = "stitch garter\n  gauge 20 sts 40 rows over 10 cm"


def test_a_gauge_at_the_top_level_is_put_under_a_stitch() -> None:
    for written in ("", "needles 4 mm\n"):
        text = TEXT.replace(STITCH_GAUGE, written + STITCH_GAUGE.partition("\n  ")[2])
        (problem,) = parse(text.replace("needles 4 mm\n", "", bool(written))).problems
        assert (problem.code, problem.message.split()[0]) == ("not-indented", "`gauge`")
        assert problem.hint == "write it under `stitch garter`, or another stitch, indented by two spaces"
    assert parse(TEXT).problems == ()


def test_a_fact_at_the_top_level_is_put_under_its_block() -> None:
    for line, home in (("skein 100 g 380 m", "yarn"), ("edge 3 sts", "shape"), ('by "me"', "shawl")):
        (problem,) = [one for one in _problems("needles 4 mm", f"needles 4 mm\n{line}") if one.code == "not-indented"]
        assert problem.hint == f"write it under `{home}`, indented by two spaces"


# By shape: the places that its stitches usually have, and the sides that each stands for.
SIDES = {"each edge": 2, "spine": 2, "evenly": 1, "lower edge": 1, "upper edge": 1}
OFTENS = {"": None, " every 2 rows": 2, " every RS row": 2, " every other row": 2, " every 4th row": 4, " each row": 1}
OFTENS |= {" every third row": 3, " every other RS row": 4, " on WS rows": 2}


@pytest.mark.parametrize("shape", [*SHAPES, "blanket"])
@pytest.mark.parametrize(("action", "number"), [("increase", 4), ("decrease", 6), ("inc", 8), ("dec", 5), ("inc", 1)])
@pytest.mark.parametrize("often", OFTENS)
def test_shaping_without_a_place_is_given_those_of_the_shape(shape: str, action: str, number: int, often: str) -> None:
    """Each line that the hint has reads, stands where the shape may be shaped, and gives as many stitches."""
    line = "  increase 1 at spine every 2 rows"
    text = TEXT.replace("shape triangle", f"shape {shape}").replace(line, f"  {action} {number}{often}")
    problem = next(one for one in parse(text).problems if one.code == "unknown-word")
    mends = re.findall("`(.*?)`", problem.hint or "")
    assert bool(mends) == (shape != "rectangle")
    for mend in mends:
        described = parse(TEXT.replace("shape triangle", f"shape {shape}").replace(line, f"  {mend}"))
        assert {one.code for one in described.problems} <= {"unknown-shape"}
        if described.description:
            (shaping,) = described.description.shape.shaping
            assert {placed.place for placed in shaping.places} <= set(SHAPE_KINDS[shape].places)
            made = sum(placed.amount * SIDES[placed.place] for placed in shaping.places)
            assert made == number or (number == 1 and made == 2)
            assert shaping.every == OFTENS[often]


@pytest.mark.parametrize(
    "written", ["Row 1 (RS): K3, yo, k3", "row 2: k3, p", "Rows 3-4: knit", "row 5 knit", "1st row: knit", "RS: knit"]
)
def test_rows_in_a_part_belong_in_a_stitch(written: str) -> None:
    (problem,) = _problems("  garter 4 rows", f"  {written}")
    hint = "rows belong in a `stitch` block; a part says which stitch and how long, as in `garter 4 rows`"
    assert problem.hint == hint and problem.span == (14, 3, 3 + len(written))


@pytest.mark.parametrize("method", [*METHODS["increase"], *METHODS["decrease"]])
def test_a_method_goes_with_its_action(method: str) -> None:
    for action, methods in METHODS.items():
        found = _problems("  increase 1 at spine every 2 rows", f"  {action} 2 {method} at spine every 2 rows")
        assert [one.code for one in found] == ([] if method in methods else ["wrong-method"])
        assert all(one.hint == f"write `{methods[0]}`, or no method" for one in found)


@pytest.mark.parametrize(
    ("written", "method"),
    [
        ("yarn over", "yo"),
        ("yarn overs", "yo"),
        ("make 1", "m1"),
        ("make one left", "m1"),
        ("M1", "m1"),
        ("m1l", "m1"),
        ("knit front and back", "kfb"),
        ("KFB", "kfb"),
        ("k2 tog", "k2tog"),
        ("knit 2 together", "k2tog"),
        ("K3tog", "k3tog"),
        ("p2 tog", "p2tog"),
        ("purl 3 together", "p3tog"),
        ("skp", "ssk"),
        ("slip slip knit", "ssk"),
        ("cdd", "s2kp"),
        ("k2tgo", "k2tog"),
    ],
)
def test_a_method_in_the_trades_words(written: str, method: str) -> None:
    action = "increase" if method in METHODS["increase"] else "decrease"
    line = f"  {action} 2 {written} at spine every 2 rows"
    (problem,) = _problems("  increase 1 at spine every 2 rows", line)
    place = (problem.span.column, problem.span.end) if problem.span else None
    assert (problem.code, problem.hint) == ("unknown-word", f"write `{method}`")
    assert place == (14, 14 + len(written))


@pytest.mark.parametrize(
    ("written", "line"),
    [
        ("increase 1 at spine every 2 rows with yo", "increase 1 yo at spine every 2 rows"),
        ("increase 1 at spine (m1) every 2 rows", "increase 1 m1 at spine every 2 rows"),
        ("decrease 8 evenly every 8 rows, using k2tog", "decrease 8 k2tog evenly every 8 rows"),
        ("increase 2 sts at each edge by a kfb every 4 rows", "increase 2 kfb at each edge every 4 rows"),
        ("inc 1 at each edge and 1 yo at spine every 2 rows", "increase 1 at each edge and 1 yo at spine every 2 rows"),
        ("ssk at each end of every other row", "decrease 1 ssk at each edge every 2 rows"),
        ("M1L at spine every RS row", "increase 1 m1 at spine every 2 rows"),
    ],
)
def test_a_method_that_stands_elsewhere_goes_behind_its_number(written: str, line: str) -> None:
    (problem,) = _problems("  increase 1 at spine every 2 rows", f"  {written}")
    mended = written.replace("inc ", "increase ", 1) if problem.hint == "write `increase`" else line
    assert problem.hint in (f"write `{line}`", "write `increase`") and mended == line


def test_words_that_fit_are_few_all_the_same() -> None:
    (problem,) = _problems("  increase 1 at spine every 2 rows", "  increase 1 frob at spine every 2 rows")
    assert problem.message == "`frob` does not fit here; expected `at` or `evenly`."


def test_stitches_may_be_called_as_methods_are() -> None:
    text = TEXT.replace("stitch mesh\n", "stitch yo\n").replace("  garter 4 rows\n", "  yo 4 rows\n")
    assert "  yo 4 rows" in text and "unknown-word" not in {one.code for one in parse(text).problems}


def test_a_stitch_may_be_called_row() -> None:
    assert [one.code for one in _problems("  garter 4 rows", "  row 4 rows")] == ["unknown-stitch"]
    hints = [one.hint for one in _problems("  garter 4 rows", "  row 4 rows wide")]
    assert "remove `wide`" in hints


def test_one_stitch_without_a_place() -> None:
    for written in ("increase 1", "inc 1"):
        (problem,) = _problems("  increase 1 at spine every 2 rows", f"  {written}")
        assert problem.hint == "write `increase 1 at spine`, or `increase 1 at each edge`"


@pytest.mark.parametrize(
    ("said", "edge", "where"),
    [
        ("left edge", "upper edge", "end"),
        ("left", "upper edge", "end"),
        ("the end of the row", "upper edge", "end"),
        ("right edge", "lower edge", "begin"),
        ("right-hand side", "lower edge", "begin"),
        ("beginning", "lower edge", "begin"),
    ],
)
def test_sides_of_the_work_are_edges(said: str, edge: str, where: str) -> None:
    """With the right side in front, right-side rows are worked from right to left (common practice)."""
    line = "  increase 1 at {} every 2 rows"
    (problem,) = _problems("  increase 1 at spine every 2 rows", line.format(said))
    assert problem.hint == f"write `{edge}`: right-side rows {where} there"
    assert problem.span and line.format(said)[problem.span.column - 1 : problem.span.end - 1] == said
    assert _problems("  increase 1 at spine every 2 rows", line.format(edge)) == ()


def test_knit_alone_is_garter_or_stockinette() -> None:
    for word in ("knit", "purl", "Knit"):
        (problem,) = _problems("  garter 4 rows", f"  {word} 10 rows")
        assert problem.code == "unknown-stitch"
        assert re.findall("`(.*?)`", problem.hint or "") == ["garter", "stockinette"]


@pytest.mark.parametrize(("name", "meant"), [("seed", "moss"), ("lace", "open-mesh"), ("eyelets", "eyelet-row")])
def test_a_stitch_of_the_trade_has_a_built_in(name: str, meant: str) -> None:
    (problem,) = _problems("  garter 4 rows", f"  {name} 10 rows")
    assert problem.hint == f"write `{meant}`, or describe your own in a block `stitch {name}`"
    assert _problems("  garter 4 rows", f"  {meant} 10 rows") == ()
    text = TEXT.replace("stitch mesh", f"stitch {name}")
    assert parse(text.replace("garter 4 rows", f"{name} 4 rows")).problems == ()


def test_mesh_is_a_built_in_unless_it_is_described() -> None:
    undefined = TEXT.replace("stitch mesh", "stitch fern").replace("garter 4 rows", "mesh 4 rows")
    (problem,) = parse(undefined).problems
    assert problem.hint == "write `open-mesh`, or describe your own in a block `stitch mesh`"
    assert _problems("  garter 4 rows", "  mesh 4 rows") == ()


def test_rows_without_numbers_are_to_be_named() -> None:
    written = "  row 1: *k2, p4*, k1\n  even rows: purl"
    assert [p.hint for p in _problems("  row 1: *k2, p4*, k1", written)] == ["name each row, as in `rows 2, 4: purl`"]


def test_a_prime_after_a_figure_stands_for_inches() -> None:
    (problem,) = _problems("  gauge 20 sts 40 rows over 10 cm", "  gauge 20 sts 40 rows over 4″")
    assert (problem.code, problem.hint) == ("curly-quote", "write `in`")


def test_a_second_start_is_reported_as_one() -> None:
    (problem,) = _problems("  cast on 9 sts", "  cast on 9 sts\n  garter tab 3 sts 6 rows")
    assert problem.message == "A shape has only one start."


def test_turning_back_after_the_bind_off_is_what_is_misplaced() -> None:
    (problem,) = _problems("bind off elastic", "bind off elastic\nturn back")
    assert (problem.span and problem.span.line, problem.code) == (16, "misplaced-block")


def test_passed_over_stitches_have_abbreviations() -> None:
    (problem,) = _problems("  row 1: *k2, p4*, k1", "  row 1: sl1, k2tog, psso")
    assert re.findall("`(.*?)`", problem.hint or "") == ["sk2p", "s2kp"]


def test_a_phrase_counts_only_where_reading_stopped() -> None:
    line = '  garter 4 rows "cast off, st st, every RS row" wide'
    assert list(suggestions_at(line, line.index("wide") + 1, "in_part")) == []
    assert [one.put for one in suggestions_at("cast off", 1, "header")] == ["bind off standard", "bind off"]


def test_a_mended_line_keeps_the_columns_of_its_other_mistakes() -> None:
    found = _problems("  increase 1 at spine every 2 rows", "  increase 1 at spine every RS row until 0 sts")
    assert [(p.code, p.span and p.span.column) for p in found] == [("unknown-word", 23), ("zero-number", 42)]


def test_needle_sizes_rise() -> None:
    sizes = [US_NEEDLES_MM[size] for size in sorted(US_NEEDLES_MM, key=float)]
    assert sizes == sorted(sizes) and len(set(sizes)) == len(sizes)


def test_a_decrease_written_with_spaces() -> None:
    (problem,) = _problems("  row 1: *k2, p4*, k1", "  row 1: *k1, k2 tog, yo*")
    assert problem.hint == "write it without spaces, as in `k2tog`"
