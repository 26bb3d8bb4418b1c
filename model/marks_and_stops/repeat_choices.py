"""One repeat fewer, as planned, one more: each calculated exactly."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Band
from halfhank.model.marks_and_stops.variants import counted_piece, planned_count, size_with, with_more
from halfhank.model.outline.outline import Size
from halfhank.model.plan import Plan

REPEATS, ROWS = "repeats", "rows"


class RepeatChoice(NamedTuple):
    """The whole shawl with one `count`, which is `difference` from the planned one.

    `left_g` is left over after the bind-off, less than nothing where yarn is short.
    """

    difference: int
    count: int  # type: ignore[assignment]
    rows: int
    size: Size
    left_g: float
    chance_enough: float

    @property
    def short_g(self) -> float | None:
        """Grams that are missing; None where the skein is enough."""
        return -self.left_g if self.left_g < 0 else None


class RepeatChoices(NamedTuple):
    """The choices in order, the planned one among them. `unit` is what is counted: `repeats`, or `rows` of a band.

    `stitch` is the stitch of a band whose rows or repeats are counted, None for a repeat of bands.
    """

    unit: str
    stitch: str | None
    choices: tuple[RepeatChoice, ...]


def repeat_choices(plan: Plan) -> RepeatChoices | None:
    """The choices for the repeat or band that the yarn counts, else for the last written repeat, worked out once.

    None where there is neither, or nothing can be changed any more. Only two more shawls are worked out.
    """
    return plan.once(_repeat_choices)


def _repeat_choices(plan: Plan) -> RepeatChoices | None:
    piece = counted_piece(plan.design)
    if piece is None:
        return None
    stitch = piece.stitch if isinstance(piece, Band) else None
    by_rows = isinstance(piece, Band) and not plan.table.measures.repeat_rows(piece.stitch)
    each = piece.step_rows if isinstance(piece, Band) and by_rows else 1
    choices = [choice for more in (-1, 0, 1) if (choice := _choice(plan, more, each))]
    return RepeatChoices(ROWS if by_rows else REPEATS, stitch, tuple(choices)) if len(choices) > 1 else None


def _choice(plan: Plan, more: int, each: int) -> RepeatChoice | None:
    count = (planned_count(plan) + more) * each
    if not more:
        yarn, size = plan.shawl.yarn, plan.shawl.outline.size
        return RepeatChoice(0, count, plan.rows.count, size, yarn.left_g, yarn.chance_enough)
    variant, size_then = with_more(plan, more), size_with(plan, more)
    if variant is None or size_then is None:
        return None
    left = variant.left
    return RepeatChoice(more * each, count, variant.rows.count, size_then, left.mean, left.chance_positive)
