"""Mistakes that show only when several facts are held against each other."""

from halfhank.grammar.description import Mass, Percent, SkeinLabel, TurnBack, Weighing
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.reading.blocks import Blocks
from halfhank.grammar.reading.parse_context import ParseContext
from halfhank.grammar.reading.values import branch, text

# A label may be off, but not by a quarter: that is a slip of the pen.
_MOST_OVER_LABEL = 1.25
# Two readings of the same yarn may differ by this much on a kitchen scale.
_SCALE_NOISE_G = 1.0


def check_keep(context: ParseContext, keep: Percent | Mass | None, skein: SkeinLabel) -> Percent | Mass | None:
    """The margin, None where it is the whole skein."""
    if isinstance(keep, Mass) and keep.g >= skein.mass.g:
        context.report(known.KEEP_TOO_LARGE.at(keep.span))
        return None
    return keep


def check_turn_back(context: ParseContext, turn_back: TurnBack | None, blocks: Blocks) -> TurnBack | None:
    """The mirrored second half; None, and reported, if it is around a part that is not the last."""
    parts = blocks.of("part")
    if turn_back is None or turn_back.around is None or not parts:
        return turn_back
    tree, lines = parts[-1].tree, (parts[-1].source.number, turn_back.span.line)
    if tree is None or any(problem.span and problem.span.line in lines for problem in context.problems):
        return None
    last = branch(tree, 0)
    if text(ParseContext(), last).value != turn_back.around.value:
        context.report(known.NOT_LAST_PART.at(turn_back.around.span, part=str(last.children[0])))
        return None
    return turn_back


def check_log(context: ParseContext, log: tuple[Weighing, ...], skein: SkeinLabel | None) -> tuple[Weighing, ...]:
    """The log without the weighings that cannot be: rows that do not rise, more yarn than there is or was."""
    kept: list[Weighing] = []
    for weighing in log:
        before = len(context.problems)
        _check_row(context, weighing, kept)
        _check_mass(context, weighing, kept, skein)
        if len(context.problems) == before:
            kept.append(weighing)
    return tuple(kept)


def _check_row(context: ParseContext, weighing: Weighing, kept: list[Weighing]) -> None:
    if kept and weighing.row <= kept[-1].row:
        kind = known.LOG_ORDER_OF_CAST_ON if weighing.row == 0 else known.LOG_ORDER
        context.report(kind.at(weighing.span, line=kept[-1].span.line))


def _check_mass(context: ParseContext, weighing: Weighing, kept: list[Weighing], skein: SkeinLabel | None) -> None:
    weighed = kept[0].mass.g + _SCALE_NOISE_G if kept and kept[0].row == 0 else None
    most = weighed if weighed else _MOST_OVER_LABEL * skein.mass.g if skein else None
    if most is not None and weighing.mass.g > most:
        context.report(known.LOG_MASS.at(weighing.mass.span))
        return
    earlier = next((one for one in reversed(kept) if one.used == weighing.used and one.row), None)
    if earlier is None:
        return
    gain = earlier.mass.g - weighing.mass.g if weighing.used else weighing.mass.g - earlier.mass.g
    if gain > _SCALE_NOISE_G:
        kind = known.LOG_MASS_BACK_OF_USED if weighing.used else known.LOG_MASS_BACK
        context.report(kind.at(weighing.mass.span, line=earlier.span.line, mass=earlier.mass.value))
