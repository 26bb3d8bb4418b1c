"""Reports of real shawls, and random ones."""

from collections.abc import Iterator
from pathlib import Path

from halfhank.cli.planned_file import plan_file
from halfhank.cli.report.checkpoint_report import checkpoint_report
from halfhank.cli.report.fabric_report import fabric_list, fabric_report
from halfhank.cli.report.plan_report import plan_report
from halfhank.cli.report.problem_report import problem_report
from halfhank.cli.report.skein_report import skein_report
from halfhank.cli.report.stop_report import stop_report
from halfhank.cli.report.weighing_report import weighing_report
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.problems.problem import ADVICE, MISTAKE, Problem, Span
from halfhank.model.instructions.written_instructions import written_instructions
from halfhank.model.planning.skeins import skein_plans
from halfhank.model.report_tree import (
    Content,
    Figure,
    ListBlock,
    ListItem,
    Paragraph,
    ProblemNote,
    Report,
    ReportBlock,
    ReportSection,
    Table,
    TableColumn,
    Value,
    Verbatim,
)
from hypothesis import strategies as st

DEMOS = sorted((Path(__file__).parents[3] / "gallery_demo").glob("*.shawl"))


def reports_of(path: Path) -> Iterator[Report]:
    """Every report that the commands make of one description."""
    found = plan_file(str(path))
    plan = found.plan
    assert plan is not None
    yield plan_report(plan, with_rows=True)
    yield checkpoint_report(plan, 10)
    yield stop_report(plan)
    lengths = [100.0, 400.0]
    yield skein_report(plan, skein_plans(plan, lengths), [f"{metres:g} m" for metres in lengths])
    yield written_instructions(plan)
    yield problem_report(str(path), found.text, [*found.problems, Problem("x", ADVICE, Span(1, 1, 2), "Advice.")])
    for weighing in plan.design.log:
        yield weighing_report(plan, plan, weighing.row, dry_run=True)


def fabric_reports() -> list[Report]:
    """The reports that hang on no description."""
    return [fabric_list(), *map(fabric_report, STITCH_PATTERNS)]


def values_in(part: object) -> Iterator[Value]:
    """Every value of a report, or of a part of it."""
    if isinstance(part, Value):
        yield part
    elif isinstance(part, tuple):
        for one in part:
            yield from values_in(one)


_WORDS = st.text(max_size=12)
_NUMBERS = st.integers(-(10**9), 10**9) | st.floats(allow_nan=False, allow_infinity=False)
_VALUES = st.builds(Value, _WORDS, _NUMBERS, st.sampled_from(("g", "m", "sts", "1")))
_CONTENTS: st.SearchStrategy[Content] = st.lists(_WORDS | _VALUES, max_size=4).map(tuple)
_LEADS = st.none() | _WORDS
_ITEMS = st.recursive(
    st.builds(ListItem, _CONTENTS, st.just(()), _LEADS),
    lambda below: st.builds(ListItem, _CONTENTS, st.lists(below, max_size=3).map(tuple), _LEADS),
    max_leaves=5,
)
_COLUMNS = st.builds(
    TableColumn,
    _WORDS,
    st.sampled_from(("words", "figures", "ticks")),
    st.sampled_from(("left", "right")),
    st.none() | st.integers(0, 9),
)


@st.composite
def _tables(draw: st.DrawFn) -> Table:
    columns = draw(st.lists(_COLUMNS, min_size=1, max_size=4))
    row = st.tuples(*[_CONTENTS] * len(columns))
    return Table(tuple(columns), tuple(draw(st.lists(row, max_size=3))), draw(_CONTENTS))


_SPANS = st.builds(Span, st.integers(1, 9), st.integers(1, 9), st.integers(1, 9))
_PROBLEMS = st.builds(
    Problem,
    st.sampled_from(("odd-gauge", "not-flat")),
    st.sampled_from((ADVICE, MISTAKE)),
    st.none() | _SPANS,
    _WORDS,
    st.none() | _WORDS,
    st.integers(1, 5),
)
_BLOCKS: st.SearchStrategy[ReportBlock] = (
    st.builds(Paragraph, _CONTENTS, _LEADS)
    | st.builds(ListBlock, st.lists(_ITEMS, max_size=3).map(tuple))
    | _tables()
    | st.builds(Figure, _WORDS, _CONTENTS)
    | st.builds(Verbatim, st.lists(_WORDS, max_size=3).map(tuple))
    | st.builds(ProblemNote, _PROBLEMS, _WORDS, st.none() | _WORDS)
)
_NESTED = st.recursive(
    _BLOCKS, lambda blocks: st.builds(ReportSection, _WORDS, st.lists(blocks, max_size=3).map(tuple)), max_leaves=6
)
REPORTS = st.builds(Report, st.none() | _WORDS, st.lists(_NESTED, max_size=4).map(tuple))
"""Any report at all, its texts as wild as a file's."""
