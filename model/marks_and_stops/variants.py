"""The shawl with more or fewer repeats than planned, each worked out exactly, and once."""

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import leaves, open_piece, total_rows
from halfhank.model.design.design import Band, Design, Repeat
from halfhank.model.outline.laying import outline_of
from halfhank.model.outline.outline import Size
from halfhank.model.plan import Plan
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.sections import MAX_ROWS, Run
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.rows.worked import row_table, work
from halfhank.model.weighings.log import LogPosterior, log_of, log_posterior, model_of
from halfhank.model.weighings.posterior import Estimate
from halfhank.model.weighings.weighing_model import WeighingModel, weighing_model
from halfhank.model.yarn.ledger import ledger_of
from halfhank.model.yarn.row_yarn import RowYarn


class Variant(NamedTuple):
    """The shawl as planned or with another count: its parts, its weighing model, and what its log says of the yarn."""

    parts: list[WorkedPart]
    rows: Rows
    model: WeighingModel
    log: LogPosterior

    @property
    def left(self) -> Estimate:
        """What is left of the skein after the bind-off."""
        return self.log.left_over(self.model)


def as_planned(plan: Plan) -> Variant:
    """The shawl as planned."""
    return Variant(plan.parts, plan.rows, model_of(plan), log_of(plan))


def counted_piece(design: Design) -> Band | Repeat | None:
    """What `as yarn allows` counts, or else the last repeat directly in a part."""
    repeats = [band for part in design.parts for band in part.bands if isinstance(band, Repeat)]
    return open_piece(design) or (repeats[-1] if repeats else None)


def planned_count(plan: Plan) -> int:
    """How often that is worked; 0 without one."""
    piece = counted_piece(plan.design)
    if isinstance(piece, Repeat) and piece.times is not None:
        return piece.times
    return plan.shawl.allowed or 0


def with_more(plan: Plan, more: int) -> Variant | None:
    """The shawl with so many more repeats (fewer, where negative), worked out once.

    None where nothing repeats, the shawl cannot be worked so, or rows that it would change have been weighed.
    """
    return plan.once(Variants).with_more(more)


class Variants:
    """A plan with other counts, each worked out once."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._found: dict[int, Variant | None] = {}
        self._sizes: dict[int, Size | None] = {}

    def with_more(self, more: int) -> Variant | None:
        """The shawl with so many more repeats."""
        if more not in self._found:
            counted = _counted(self._plan.design, self._plan.shawl.allowed or 0, more)
            self._found[more] = self._worked(*counted) if counted else None
        return self._found[more]

    def _worked(self, design: Design, allowed: int) -> Variant | None:
        if total_rows(design, allowed) > MAX_ROWS:
            return None
        parts, problem = work(design, allowed)
        knitted = max((weighing.row for weighing in design.log), default=0)
        if problem or knitted > _common_rows(self._plan.parts, parts):
            return None
        table = self._plan.table
        model = weighing_model(table, ledger_of(RowYarn(table), parts), model_of(self._plan))
        log = log_posterior(model, design.log, log_of(self._plan).screening)
        return Variant(parts, row_table(table.measures, parts), model, log)

    def size(self, more: int) -> Size | None:
        """How large it would be; None where there is no such shawl, or it cannot be laid out."""
        variant = self.with_more(more)
        if more not in self._sizes and variant:
            outline = outline_of(self._plan.table, variant.parts, variant.rows)
            self._sizes[more] = None if isinstance(outline, Problem) else outline.size
        return self._sizes.get(more)


def size_with(plan: Plan, more: int) -> Size | None:
    """The size of `with_more`, laid out once."""
    return plan.once(Variants).size(more)


def _counted(design: Design, allowed: int, more: int) -> tuple[Design, int] | None:
    """The design and its count with so many more; None where less than one is left."""
    piece = counted_piece(design)
    if not isinstance(piece, Repeat) or piece.times is None:
        return (design, allowed + more) if piece and allowed + more > 0 else None
    if piece.times + more < 1:
        return None
    changed = piece._replace(times=piece.times + more)
    parts = (
        part._replace(bands=tuple(changed if band == piece else band for band in part.bands)) for part in design.parts
    )
    return design._replace(parts=tuple(parts)), 0


def _common_rows(one: list[WorkedPart], other: list[WorkedPart]) -> int:
    """How many rows from the start two ways of working have in common."""
    rows = 0
    for (part, run), (other_part, other_run) in zip(_runs(one), _runs(other), strict=False):
        if part != other_part or run._replace(rows=0) != other_run._replace(rows=0):
            return rows
        rows += min(run.rows, other_run.rows)
        if run.rows != other_run.rows:
            return rows
    return rows


def _runs(parts: list[WorkedPart]) -> list[tuple[int, Run]]:
    return [(number, run) for number, part in enumerate(parts) for run in part.section.runs]


def goes_on_after(plan: Plan) -> bool:
    """Whether anything is worked after what is counted."""
    piece = counted_piece(plan.design)
    if piece is None:
        return False
    inside = [leaf.number for leaf in leaves((piece,))]
    return plan.design.turns_back or plan.parts[-1].section.runs[-1].source.number not in inside
