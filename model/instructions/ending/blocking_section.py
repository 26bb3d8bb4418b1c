"""How the finished piece is blocked, and to which size."""

from collections.abc import Iterator

from halfhank.grammar.description import CM_IN, PinnedStraight
from halfhank.model.instructions.counts import centimetres, inches
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, ReportSection, content
from halfhank.model.words.catalogue import said, say

_ALIKE_CM = CM_IN["in"]
"""Edges are not measured more closely."""


def blocking_section(plan: Plan) -> ReportSection:
    """Washing, laying out, and the size to lay it out to."""
    return ReportSection(said("blocking.heading"), (ListBlock(tuple(map(ListItem, _lines(plan)))),))


def _lines(plan: Plan) -> Iterator[Content]:
    outline = plan.shawl.outline
    wide, deep = _both(outline.size.wingspan_cm, plan), _both(outline.size.depth_cm, plan)
    yield say("blocking.wash")
    pinned = plan.design.pinned
    if outline.pinned and pinned and isinstance(pinned.written.value, PinnedStraight):
        yield say("blocking.straight", wide=wide, deep=deep)
    elif outline.pinned:
        yield say("blocking.pinned", wide=wide, deep=deep)
    elif any(problem.code == "overstretched" for problem in plan.problems):
        yield say("blocking.stretched", wide=wide, deep=deep)
    elif outline.curved:
        yield say("blocking.curved", wide=wide, deep=deep)
    else:
        yield say("blocking.flat", wide=wide, deep=deep)
    spine_cm = outline.size.spine_cm
    if spine_cm is not None and abs(spine_cm - outline.size.depth_cm) > _ALIKE_CM:
        yield say("blocking.spine", length=_both(spine_cm, plan))
    yield say("blocking.dry")


def _both(length_cm: float, plan: Plan) -> Content:
    metric, imperial = centimetres(length_cm), inches(length_cm)
    first, second = (imperial, metric) if plan.shawl.units == "in" else (metric, imperial)
    return content(first, " (", second, ")")
