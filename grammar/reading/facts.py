"""The facts inside the blocks (bands aside): one small function from a line's tree to its record."""

from collections.abc import Callable
from typing import Any

from halfhank.grammar.description import (
    EACH_EDGE,
    EVENLY,
    LOWER_EDGE,
    SPINE,
    UPPER_EDGE,
    CastOn,
    Count,
    Edge,
    GarterTab,
    Gauge,
    Length,
    Mass,
    Multiple,
    Name,
    Percent,
    PinnedStraight,
    PinnedTo,
    Placed,
    ShapingLine,
    SkeinLabel,
    Swatch,
    Text,
    Weighing,
)
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.reading.notation import written_row
from halfhank.grammar.reading.parse_context import Branch, ParseContext
from halfhank.grammar.reading.values import (
    branch,
    branches,
    count,
    decimal,
    length,
    mass,
    maybe,
    measure,
    name,
    text,
    word,
)
from lark import Token

_PLACES = {"each_edge": EACH_EDGE, "upper_edge": UPPER_EDGE, "lower_edge": LOWER_EDGE, "spine_place": SPINE}

Fact = Callable[[ParseContext, Branch, Span], Any]


def _text(context: ParseContext, tree: Branch, span: Span) -> Text:
    return text(context, branch(tree, 0))


def _units(context: ParseContext, tree: Branch, span: Span) -> str:
    return word(tree, 0)


def _skein(context: ParseContext, tree: Branch, span: Span) -> SkeinLabel:
    found = [measure(context, part) for part in branches(tree)]
    masses = [part for part in found if isinstance(part, Mass)]
    lengths = [part for part in found if isinstance(part, Length)]
    if not lengths:
        context.report(known.WRONG_UNIT_SECOND_MASS.at(found[1].span))
        lengths = [Length(1.0, "m", span)]
    if not masses:
        context.report(known.WRONG_UNIT_SECOND_LENGTH.at(found[1].span))
        masses = [Mass(1.0, "g", 0, span)]
    return SkeinLabel(masses[0], lengths[0], span)


def _keep_share(context: ParseContext, tree: Branch, span: Span) -> Percent:
    value = decimal(context, branch(tree, 0), zero=True)
    place = context.span(branch(tree, 0))
    if value >= 100:
        context.report(known.KEEP_TOO_LARGE.at(place))
    return Percent(value, place)


def _keep_mass(context: ParseContext, tree: Branch, span: Span) -> Mass:
    return mass(context, branch(tree, 0), zero=True)


def _gauge(context: ParseContext, tree: Branch, span: Span) -> Gauge:
    stitches, rows, over = branches(branch(tree, 0))
    return Gauge(decimal(context, stitches), decimal(context, rows), length(context, over), span)


def _swatch(context: ParseContext, tree: Branch, span: Span) -> Swatch:
    stitches, rows = count(context, branch(tree, 0)), count(context, branch(tree, 1))
    if word(tree, 2) == "weighs":
        return Swatch(stitches, rows, mass(context, branch(tree, 3)), None, span)
    return Swatch(stitches, rows, None, length(context, branch(tree, 3)), span)


def _multiple(context: ParseContext, tree: Branch, span: Span) -> Multiple:
    extra = maybe(tree, 1)
    return Multiple(count(context, branch(tree, 0)), 0 if extra is None else count(context, extra, 0), span)


def _name(context: ParseContext, tree: Branch, span: Span) -> Name:
    return name(context, branch(tree, 0))


def _cast_on(context: ParseContext, tree: Branch, span: Span) -> CastOn:
    return CastOn(count(context, branch(tree, 0)), span)


def _garter_tab(context: ParseContext, tree: Branch, span: Span) -> GarterTab:
    rows = count(context, branch(tree, 1))
    if rows % 2:
        place = context.span(branch(tree, 1))
        context.report(known.ODD_TAB_ROWS.at(place, rows=rows + 1))
    return GarterTab(count(context, branch(tree, 0)), rows, span)


def _edge(context: ParseContext, tree: Branch, span: Span) -> Edge:
    stitch = maybe(tree, 1)
    return Edge(count(context, branch(tree, 0), 0), None if stitch is None else name(context, stitch), span)


def _spine(context: ParseContext, tree: Branch, span: Span) -> Count:
    number = branch(tree, 0)
    return Count(count(context, number, 0), context.span(number))


def _pinned_straight(context: ParseContext, tree: Branch, span: Span) -> PinnedStraight:
    return PinnedStraight(span)


def _pinned_to(context: ParseContext, tree: Branch, span: Span) -> PinnedTo:
    return PinnedTo(length(context, branch(tree, 0)), length(context, branch(tree, 1)), span)


def _shaping(context: ParseContext, tree: Branch, span: Span) -> ShapingLine:
    action = {"bind": "bind off"}.get(word(tree, 0), word(tree, 0))
    parts = list(branches(tree))
    places = tuple(_placed(context, part) for part in parts if part.data in ("placed", "spread"))
    tail = {part.data: part for part in parts if part.data not in ("placed", "spread")}
    every = 1 if "every_row" in tail else _tail_count(context, tail.get("every"))
    first = _tail_count(context, tail.get("from_row"))
    until = _tail_count(context, tail.get("until"))
    return ShapingLine(action, places, every, first or 1, until, None, span, first is not None)


def _placed(context: ParseContext, tree: Branch) -> Placed:
    amount = count(context, branch(tree, 0))
    place = EVENLY if tree.data == "spread" else _PLACES[branch(tree, 1).data]
    return Placed(amount, place, context.span(tree))


def _tail_count(context: ParseContext, tree: Branch | None) -> int | None:
    return None if tree is None else count(context, branch(tree, 0))


def _evenly_to(context: ParseContext, tree: Branch, span: Span) -> ShapingLine:
    first = _tail_count(context, maybe(tree, 2))
    total = count(context, branch(tree, 1))
    return ShapingLine(word(tree, 0), (), None, first or 1, None, total, span, first is not None)


def _before_cast_on(context: ParseContext, tree: Branch, span: Span) -> Weighing:
    mark = tree.children[-1]
    if isinstance(mark, Token):
        place = context.span(mark)
        context.report(known.USED_BEFORE_CAST_ON.at(place, word=str(mark)))
    return Weighing(0, mass(context, branch(tree, 0)), False, span)


def _after_row(context: ParseContext, tree: Branch, span: Span) -> Weighing:
    used = word(tree, 2) == "used"
    return Weighing(count(context, branch(tree, 0)), mass(context, branch(tree, 1), zero=not used), used, span)


FACT_BUILDERS: dict[str, Fact] = {
    "by": _text,
    "remark": _text,
    "units": _units,
    "skein": _skein,
    "fibre": _text,
    "keep_share": _keep_share,
    "keep_mass": _keep_mass,
    "gauge": _gauge,
    "before_blocking": _gauge,
    "swatch": _swatch,
    "multiple": _multiple,
    "fill": _name,
    "base": _name,
    "row": written_row,
    "cast_on": _cast_on,
    "garter_tab": _garter_tab,
    "edge": _edge,
    "spine": _spine,
    "pinned_straight": _pinned_straight,
    "pinned_to": _pinned_to,
    "shaping": _shaping,
    "evenly_to": _evenly_to,
    "before_cast_on": _before_cast_on,
    "after_row": _after_row,
}
