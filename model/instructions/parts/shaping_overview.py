"""What shapes a part, as sentences: on which rows, how many stitches, at which place, and how."""

from itertools import groupby

from halfhank.grammar.description import LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.grammar.items import CENTRED
from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.counts import stitches
from halfhank.model.instructions.parts.row_sets import rows_words
from halfhank.model.instructions.rows.events import Event
from halfhank.model.report_tree import Content, content, joined
from halfhank.model.rows.shaping import BIND_OFF, INCREASE
from halfhank.model.words.catalogue import said, say, say_one_of

_EACH_EDGE = "each edge"


def shaping_sentences(events: list[Event]) -> list[Content]:
    """One sentence for all that is done on the same rows, in the order of their first row."""
    rows: dict[PlacedChange, list[int]] = {}
    for row, acts in groupby(sorted(events, key=lambda one: one.row), key=lambda one: one.row):
        for change in _joined_edges(list(acts)):
            rows.setdefault(change, []).append(row)
    together: dict[tuple[int, ...], list[PlacedChange]] = {}
    for change, where in rows.items():
        together.setdefault(tuple(where), []).append(change)
    return [_sentence(changes, list(where)) for where, changes in together.items()]


class PlacedChange(NamedTuple):
    """What is done at one place of a row, or at both edges."""

    action: str
    place: str
    method: str
    stitches: int

    @property
    def gain(self) -> int:
        """Stitches that the row has more."""
        total = self.stitches * (2 if self.place in (_EACH_EDGE, SPINE) else 1)
        return total if self.action == INCREASE else -total


def _joined_edges(acts: list[Event]) -> list[PlacedChange]:
    """The changes of one row, those that both edges have said together; those of several lines at one place are one."""
    totals: dict[tuple[str, str, str], int] = {}
    for event in acts:
        key = (event.action, event.place, _side_by_side(event.method))
        totals[key] = totals.get(key, 0) + event.stitches
    found = [PlacedChange(*key, count) for key, count in totals.items()]
    for one in list(found):
        other = one._replace(place=LOWER_EDGE)
        if one.place == UPPER_EDGE and other in found:
            found.remove(other)
            found[found.index(one)] = one._replace(place=_EACH_EDGE)
    return found


def _side_by_side(method: str) -> str:
    """The method without its side: ssk and k2tog do the same at two edges, and so do both leans of make 1."""
    return {"ssk": "k2tog", "m1l": "m1", "m1r": "m1"}.get(method, method)


def _sentence(changes: list[PlacedChange], rows: list[int]) -> Content:
    by_action: dict[str, list[PlacedChange]] = {}
    for one in changes:
        by_action.setdefault(one.action, []).append(one)
    done = [_done(action, [_at(one, rows) for one in found]) for action, found in by_action.items()]
    total = _total(sum(one.gain for one in changes))
    return content(rows_words(rows), ": ", joined(said("shaping.and"), done), total, ".")


def _done(action: str, places: list[Content]) -> Content:
    return say_one_of("shaped", action.replace(" ", "-"), places=joined(said("shaping.and"), places))


def _at(one: PlacedChange, rows: list[int]) -> Content:
    """So many stitches at a place; for those bound off at the edge at which the row starts, that it then goes on."""
    if one.place == SPINE and one.method in CENTRED:
        return say("shaped.centred", stitches=stitches(2 * one.stitches))
    where = say_one_of("place", one.place.replace(" ", "-"))
    sides = {row % 2 for row in rows}
    count = stitches(one.stitches)
    if one.action != BIND_OFF or one.place not in (LOWER_EDGE, UPPER_EDGE) or len(sides) > 1:
        return say("shaped.at", stitches=count, place=where)
    if (one.place == LOWER_EDGE) == (sides == {1}):
        return say("shaped.at-start", stitches=count, place=where)
    return say("shaped.at-end", stitches=count, place=where)


def _total(gain: int) -> Content:
    if gain == 0:
        return say("shaping.same")
    return say("shaping.more" if gain > 0 else "shaping.fewer", stitches=stitches(abs(gain)))
