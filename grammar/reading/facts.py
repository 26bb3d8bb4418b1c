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
from halfhank.grammar.items import CENTRED, ITEMS, METHODS
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

_INSTEAD = {"increase": "yo", "decrease": "k2tog"}

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
    places = tuple(_placed(context, part, action) for part in parts if part.data in ("placed", "spread"))
    _check_places(context, places)
    tail = {part.data: part for part in parts if part.data not in ("placed", "spread")}
    every = 1 if "every_row" in tail else _tail_count(context, tail.get("every"))
    first = _tail_count(context, tail.get("from_row"))
    until = _tail_count(context, tail.get("until"))
    return ShapingLine(action, places, every, first or 1, until, None, span, first is not None)


def _placed(context: ParseContext, tree: Branch, action: str) -> Placed:
    amount = count(context, branch(tree, 0))
    named = maybe(tree, 1)
    place = EVENLY if tree.data == "spread" else _PLACES[branch(tree, 2).data]
    method = _method(context, named, branch(tree, 0), action, place) if named else None
    return Placed(amount, place, context.span(tree), method)


def _method(context: ParseContext, tree: Branch, number: Branch, action: str, place: str) -> str | None:
    """The method that a line names; None, and reported, where its action has another kind or none.

    The number before it counts stitches: with items that decrease two at a time it is even.
    """
    method, span = word(tree, 0), context.span(tree)
    if action not in METHODS:
        context.report(known.WRONG_METHOD_OF_BIND_OFF.at(span, method=method))
        return None
    if method not in METHODS[action]:
        context.report(known.WRONG_METHOD.at(span, method=method, action=action, instead=_INSTEAD[action]))
        return None
    written, each = str(number.children[0]), abs(ITEMS[method].made - ITEMS[method].taken)
    if written.isdigit() and len(written) < 10 and int(written) % each:
        more = 2 if method in CENTRED and place == SPINE else int(written) + 1
        context.report(known.ODD_WITH_METHOD.at(context.span(number), method=method, each=each, more=more))
    return method


def _check_places(context: ParseContext, places: tuple[Placed, ...]) -> None:
    """Report a place that a line with a method has twice: it would not be known which stitches are made by it."""
    if not any(placed.method for placed in places):
        return
    met: set[str] = set()
    for placed in places:
        edges = {UPPER_EDGE, LOWER_EDGE} if placed.place == EACH_EDGE else {placed.place}
        if met & edges:
            context.report(known.PLACE_TWICE.at(placed.span, place=placed.place))
            return
        met |= edges


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
