"""Random patterns through everything: whatever is written, nothing fails, and what has no mistake really comes out."""

from itertools import pairwise

from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import MISTAKE
from halfhank.grammar.reading.instruction_reader import read_lines
from halfhank.model.checks.technical_edit import edit
from halfhank.model.design.resolve import resolve
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.instructions.row_lines import row_lines
from halfhank.model.planning.planning import plan
from halfhank.model.stitches.chart import chart_of
from halfhank.model.stitches.mirror import mirrored
from halfhank.model.stitches.pattern import patterns_of
from halfhank.model.stitches.row_checks import check_pattern
from halfhank.model.stitches.worked_rows import too_large, worked_rows
from halfhank.renderer.charts.stitch_chart import Captions, stitch_chart
from halfhank.renderer.paper.svg import to_svg
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.model.stitches.writing import HEAD

WORDS = st.sampled_from(
    [
        "k1",
        "k2",
        "p3",
        "yo",
        "yo twice",
        "k2tog",
        "ssk",
        "s2kp",
        "sl1",
        "kfb",
        "2/2 rc",
        "[k1, yo, k1] in 1",
        "k1 with 2 wraps",
        "bind off 2",
        "cast on 1",
        "m1lp",
        "s2pp",
    ]
)
RUN = st.lists(WORDS, max_size=4).map(", ".join)
STARS = st.lists(WORDS, min_size=1, max_size=5).map(lambda words: f"*{', '.join(words)}*")
ROW = st.one_of(
    st.sampled_from(["knit", "purl"]),
    st.tuples(RUN, STARS, RUN).map(lambda parts: ", ".join(part for part in parts if part)),
    RUN.filter(bool),
)
# A row that keeps its count over 4 + 1, so that many patterns have no mistakes.
KEPT = st.sampled_from(
    [
        "*k4*, k1",
        "k1, *yo, ssk, k2*",
        "*k1, k2tog, yo, k1*, k1",
        "knit",
        "purl",
        "*p4*, p1",
        "drop wraps, *k1, m1lp, sssp, pfb*, k1",
        "*k1, cast on 2, k1, bind off 2*, k1",
        "drop wraps, purl",
        "*k1, 1/2 lc*, k1",
        "k2tog, yo, *k4*, k3",
    ]
)
SHAPE = """shape {shape}
  cast on {stitches} sts
  edge 2 sts
{lines}
part "one"
  garter {before} ridges
  lace {rows} rows
"""
LINES = st.sampled_from(
    [
        "",
        "  increase 1 at each edge every 2 rows\n",
        "  increase 2 at each edge every 3 rows\n",
        "  increase 7 evenly every 6 rows\n",
    ]
)


def text(rows: list[str], multiple: str, stitches: int, lines: str, before: int, count: int) -> str:
    shape = "crescent" if lines else "rectangle"
    block = "".join(f"  row {number}: {row}\n" for number, row in enumerate(rows, 1))
    tail = SHAPE.format(shape=shape, stitches=stitches, lines=lines.rstrip("\n"), before=before, rows=count)
    return f"{HEAD}stitch lace\n{multiple}{block}" + tail.replace("\n\n", "\n")


@settings(max_examples=120)
@given(
    st.one_of(st.lists(ROW, min_size=1, max_size=5), st.lists(KEPT, min_size=1, max_size=6)),
    st.sampled_from(["", "  multiple of 4 sts + 1\n", "  multiple of 6 sts\n"]),
    st.integers(5, 90),
    LINES,
    st.integers(1, 20),
    st.integers(1, 60),
)
def test_random_patterns(rows: list[str], multiple: str, stitches: int, lines: str, before: int, count: int) -> None:
    parsed = parse(text(rows, multiple, stitches, lines, before, count))
    assert parsed.description
    plan(parsed.description)
    pattern = patterns_of(StitchMeasures(resolve(parsed.description)))["lace"]
    if any(one.severity == MISTAKE for one in check_pattern(pattern)):
        return
    edit(pattern)
    assert too_large(pattern) is None
    for one in (pattern, mirrored(pattern)):
        read_lines(row_lines(one))
    for worked, level in zip(
        worked_rows(pattern, pattern.least + 2), worked_rows(pattern, pattern.least + 2)[1:], strict=False
    ):
        assert worked.made == sum(step.taken for step in level.steps)
    chart = chart_of(pattern)
    for row in chart.rows:
        ends = [(cell.column, cell.column + cell.sign.width) for cell in row.cells]
        assert all(a[1] <= b[0] for a, b in pairwise(ends))
        assert not ends or (ends[0][0] >= 0 and ends[-1][1] <= chart.columns)
        assert row.box is None or 0 <= row.box[0] <= row.box[1] <= chart.columns
    to_svg(stitch_chart(chart, Captions("lace", (), 0.7)))
