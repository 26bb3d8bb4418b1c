"""What a technical editor would say of the piece as a whole: a tail, a shape unlike its name, a size no one wears.

All of it is advice. The limits are wide and common practice.
"""

from collections.abc import Callable, Iterator
from itertools import groupby, islice

from halfhank.grammar.description import CM_IN, PinnedStraight
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.number_words import counted, half_up
from halfhank.model.outline.local_outline import BIAS_STRIP
from halfhank.model.outline.outline import Outline
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.shaping import WorkedPart

TAIL_WIDE_CM, TAIL_LONG_CM = 5.0, 60.0
TAIL_TO_WIDEST = 1 / 3
"""A tail is no wider than this share of the widest row; a strip that is narrow all along has none."""

NAMES = {"asymmetric": "asymmetric triangle", "tip-to-tip": "tip-to-tip shawl"}

SAMPLE_CM = 40.0
"""What is smaller in both directions is a sample, whose shape is not judged."""

WIDE_TO_DEEP = {
    "triangle": (0.7, 6.0),
    "crescent": (1.2, 10.0),
    "tip-to-tip": (1.0, 25.0),
    "asymmetric": (0.5, 12.0),
}
"""The least and the most that a shawl of this name is wide for each cm that it is deep."""

FAN_DEGREES = (120.0, 250.0)
"""Between these a half-circle is called one."""

NO_FAN = 10.0
"""Below this the rows of a half-circle hardly turn: it is a strip."""

BLUNT = 0.6
"""The narrow end of a triangle is less than this share of its widest row."""

MOST_CM = 300.0


class Piece(NamedTuple):
    """A worked piece: its design, its parts, its rows, and where they lie."""

    design: Design
    parts: list[WorkedPart]
    rows: Rows
    outline: Outline


def check_shape(piece: Piece) -> list[Problem]:
    """The advice on a piece as a whole: the first that there is on its shape, and that on its size."""
    on_shape = (problem for check in SHAPE_CHECKS for problem in check(piece))
    return [*islice(on_shape, 1), *_very_large(piece)]


def _tail(piece: Piece) -> Iterator[Problem]:
    """The longest stretch of rows that are all narrow, where it is long and the piece has wider rows."""
    rows = piece.rows
    wide = [count * cm for count, cm in zip(rows.stitches, rows.width_cm, strict=True)]
    narrow = min(TAIL_WIDE_CM, TAIL_TO_WIDEST * max(wide))
    runs = groupby(range(1, rows.count + 1), lambda row: wide[row] <= narrow)
    longest = max((list(run) for tail, run in runs if tail), key=lambda run: _height_cm(rows, run), default=[])
    if _height_cm(rows, longest) <= TAIL_LONG_CM:
        return
    first, last = longest[0], longest[-1]
    part = next(part for part in piece.parts if part.last_row >= first)
    stitches = counted(max(rows.stitches[row] for row in longest), "st")
    length = _length(_height_cm(rows, longest), piece.design)
    span = piece.design.parts[part.section.part].span
    yield known.NARROW_TAIL.at(span, first=first, last=last, stitches=stitches, length=length)


def _height_cm(rows: Rows, run: list[int]) -> float:
    return sum(rows.height_cm[row] for row in run)


def _fan(piece: Piece) -> Iterator[Problem]:
    """A half-circle that is far from one. Pinned straight it is one, and the stretch is what is advised on."""
    shape, degrees = piece.design.shape, piece.outline.fan_degrees
    straight = piece.design.pinned and isinstance(piece.design.pinned.written.value, PinnedStraight)
    if shape.name != "half-circle" or degrees is None or straight or _is_sample(piece):
        return
    least, most = FAN_DEGREES
    if degrees < NO_FAN:
        yield known.UNLIKE_SHAPE_NO_FAN.at(shape.span)
    elif degrees < least:
        yield known.UNLIKE_SHAPE_NARROW_FAN.at(shape.span, degrees=degrees)
    elif degrees > most:
        yield known.UNLIKE_SHAPE_WIDE_FAN.at(shape.span, degrees=degrees)


def _proportions(piece: Piece) -> Iterator[Problem]:
    """A piece much wider or deeper than shawls of its name. A strip on the bias is one, and called so."""
    shape, size = piece.design.shape, piece.outline.size
    if shape.name not in WIDE_TO_DEEP or _is_sample(piece) or piece.outline.kind == BIAS_STRIP:
        return
    least, most = WIDE_TO_DEEP[shape.name]
    values: dict[str, object] = {
        "shape": NAMES.get(shape.name, shape.name),
        "wide": _length(size.wingspan_cm, piece.design),
        "deep": _length(size.depth_cm, piece.design),
    }
    if size.wingspan_cm > most * size.depth_cm:
        strip = known.UNLIKE_SHAPE_SIDEWAYS_STRIP if piece.outline.sideways else known.UNLIKE_SHAPE_STRIP
        yield strip.at(shape.span, **values)
    elif size.wingspan_cm < least * size.depth_cm:
        deep = known.UNLIKE_SHAPE_SIDEWAYS_DEEP if piece.outline.sideways else known.UNLIKE_SHAPE_DEEP
        yield deep.at(shape.span, **values)


def _blunt(piece: Piece) -> Iterator[Problem]:
    """A triangle without a point; one without any shaping has an advice of its own."""
    design, counts = piece.design, piece.rows.stitches
    if design.shape.name != "triangle" or design.turns_back or not design.all_lines or _is_sample(piece):
        return
    narrow, most = min(counts[0], counts[-1]), max(counts)
    if narrow >= BLUNT * most:
        yield known.UNLIKE_SHAPE_BLUNT.at(design.shape.span, narrow=counted(narrow, "st"), most=counted(most, "st"))


def _very_large(piece: Piece) -> Iterator[Problem]:
    size = piece.outline.size
    longest, way = max((size.wingspan_cm, "wide"), (size.depth_cm, "deep"))
    if longest > MOST_CM:
        yield known.VERY_LARGE.at(piece.design.shape.span, length=_length(longest, piece.design), way=way)


def _is_sample(piece: Piece) -> bool:
    return max(piece.outline.size.wingspan_cm, piece.outline.size.depth_cm) < SAMPLE_CM


def _length(cm: float, design: Design) -> str:
    return f"{half_up(cm / CM_IN[design.units], 0):,.0f} {design.units}"


SHAPE_CHECKS: tuple[Callable[[Piece], Iterator[Problem]], ...] = (_tail, _fan, _blunt, _proportions)
