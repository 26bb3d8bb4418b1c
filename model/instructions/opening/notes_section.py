"""What has to be known before row 1: how the shawl is made, and what the words mean that the rows use."""

import re
from collections.abc import Iterator

from halfhank.grammar.description import LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.grammar.items import CENTRED
from halfhank.model.design.design import ShapingLine
from halfhank.model.instructions.counts import stitches
from halfhank.model.instructions.rows.events import events
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, ReportSection, content, joined
from halfhank.model.rows.shaping import BIND_OFF, INCREASE
from halfhank.model.words.catalogue import has, said, say, say_one_of

_TERMS = ("garter", "stockinette", "drop", "wing", "marker")
_SIDEWAYS = ("asymmetric-triangle", "bias-strip", "worked-from-tip-to-tip")
_PLACES = re.compile(r"\bat the (?:lower|upper) edge\b")
_CENTRED = re.compile(r"\bs2[kp]p\b")
_UNKNOWN = re.compile(r"\bwork(?: \d+)? in ")
_LETTERS = re.compile(r"^Row [\d,]+: A \d", re.MULTILINE)


def notes_section(plan: Plan, text: str) -> ReportSection:
    """The notes that the instructions' `text` needs."""
    lines = [ListItem(line) for line in _lines(plan, text)]
    return ReportSection(said("notes.heading"), (ListBlock(tuple(lines)),))


def _lines(plan: Plan, text: str) -> Iterator[Content]:
    yield construction(plan)
    if _PLACES.search(text):
        sideways = plan.shawl.outline.kind in _SIDEWAYS
        yield say("notes.sides" if sideways else "notes.sides-named")
    if plan.design.edge.stitches:
        edge = plan.design.edge
        yield say("notes.edge", stitches=stitches(edge.stitches), stitch=edge.stitch)
    for term in _TERMS:
        if re.search(rf"\b{term}s?\b", text):
            yield say_one_of("term", term)
    if _UNKNOWN.search(text):
        yield say("notes.unknown")
    if plan.design.turns_back:
        yield say("notes.mirrored")
    if _LETTERS.search(text):
        yield say("notes.letters")
    if _CENTRED.search(text) and any(one.place == SPINE and one.method in CENTRED for one in events(plan)):
        yield say("notes.centred")
    if any(one.action == INCREASE for one in events(plan)) and not all(map(_is_named, plan.design.all_lines)):
        yield say("notes.other-increase")
    yield from ((remark,) for remark in plan.shawl.remarks)


def _is_named(line: ShapingLine) -> bool:
    """Whether a line says how its increases are made at each of its places."""
    places = zip(line.amounts, line.methods, strict=True)
    return line.action == INCREASE and all(method or not amount for amount, method in places)


def construction(plan: Plan) -> Content:
    """How the shawl is made, in two sentences: the first of its notes."""
    return content(_made(plan), " ", _shaping(plan))


def _made(plan: Plan) -> Content:
    kind = plan.shawl.outline.kind
    return say_one_of("made", kind if has("made", kind) else "other")


def _shaping(plan: Plan) -> Content:
    """Where the piece grows, and where it becomes narrower, before it is turned back."""
    turned = next((part.first_row for part in plan.shawl.parts if part.mirrored), plan.rows.count + 1)
    found = [one for one in events(plan) if one.row < turned]
    growing = _places({one.place for one in found if one.action == INCREASE})
    falling = _places({one.place for one in found if one.action not in (INCREASE, BIND_OFF)})
    teeth = _places({one.place for one in found if one.action == BIND_OFF})
    sentences = [say("notes.grows", places=growing)] if growing else []
    sentences += [say("notes.narrows", places=falling)] if falling else []
    sentences += [say("notes.teeth", places=teeth)] if teeth else []
    return joined(" ", sentences) if sentences else say("notes.level")


def _places(places: set[str]) -> Content:
    if {UPPER_EDGE, LOWER_EDGE} <= places:
        places = {"each edge", *places} - {UPPER_EDGE, LOWER_EDGE}
    return joined(said("shaping.and"), [say_one_of("place", one.replace(" ", "-")) for one in sorted(places)])
