"""One row in words that hold for other counts too: `knit to the marker` in place of `k13`.

Numbers stay values, so that rows of one wording are known, and what differs in them.
"""

from collections.abc import Iterable, Iterator, Sequence

from halfhank.grammar.description import InOne, Item, Times, WholeRow, Work
from halfhank.grammar.items import CENTRED
from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.abbreviations import abbreviation
from halfhank.model.instructions.rows.every_row import InstructedRow
from halfhank.model.instructions.rows.segments import WORK, takes
from halfhank.model.report_tree import Content, Value, content, joined, words_of
from halfhank.model.words.catalogue import said, say

NUMBER, REPEATS = "sts", "repeats"
_STRANDS = frozenset({"yo", "m1", "m1l", "m1r", "m1lp", "m1rp", "cast on", "bind off", "drop wraps"})
"""Items that are never wrapped more than once."""
_PLAIN = frozenset({"k", "p"})
ENDS = (say("row.knit-to", end=say("row.the-end")), say("row.purl-to", end=say("row.the-end")))
"""Phrases that take in all that is left of a row, however much that is."""


class Laid(NamedTuple):
    """An item in its row; `wing`: it has stitches of a wing, so that its count may change from row to row."""

    item: Item
    wing: bool


class RowWords(NamedTuple):
    """A row's phrases, and what holds for all its stitches (`lead`, empty for most)."""

    lead: Content
    phrases: tuple[Content, ...]

    @property
    def wording(self) -> tuple[object, ...]:
        """The same for all rows that are told alike but for their numbers."""
        return tuple(
            tuple(one if isinstance(one, str) else one.unit for one in text) for text in (self.lead, *self.phrases)
        )

    @property
    def numbers(self) -> tuple[Value, ...]:
        """Its numbers, in the order of the words."""
        return tuple(one for text in (self.lead, *self.phrases) for one in text if isinstance(one, Value))


def row_words(row: InstructedRow, literal: bool = False) -> RowWords:
    """The row; `literal`: with all its numbers, for rows shaped evenly."""
    items = [item for item in row.items if not _dropping(item)]
    wraps = _wraps(items)
    told = [_unwrapped(item, wraps) for item in items]
    lead = _lead(row, wraps)
    if len(told) == 1 and (isinstance(told[0], WholeRow) or _is_plain(told[0])):
        return RowWords(lead, (_whole(told[0]),))
    if literal:
        return RowWords(lead, tuple(map(_phrase, told)))
    return RowWords(lead, tuple(_told(row, wraps)))


def _whole(item: Item) -> Content:
    kind = getattr(item, "kind", "")
    return say("row.knit") if kind in ("knit", "k") else say("row.purl")


def _wraps(items: Sequence[Item]) -> int:
    """The wraps of a row in which all stitches have as many; 1 where they differ, so that each item says its own.

    What is worked into one stitch to increase is not wrapped.
    """
    inside = [item for item in items if isinstance(item, InOne)]
    found = {item.wraps for item in _works(items) if item.kind not in _STRANDS}
    wrapped_inside = any(item.wraps > 1 for one in inside for item in _works(one.items))
    return found.pop() if len(found) == 1 and not wrapped_inside else 1


def _works(items: Iterable[Item]) -> Iterator[Work]:
    for item in items:
        if isinstance(item, Work):
            yield item
        elif isinstance(item, Times):
            yield from _works(item.items)


def _unwrapped(item: Item, wraps: int) -> Item:
    """The item without the wraps that the row's lead has said of all."""
    if wraps == 1 or not isinstance(item, Work | Times):
        return item
    if isinstance(item, Work):
        return item._replace(wraps=1)
    return item._replace(items=tuple(_unwrapped(one, wraps) for one in item.items))


def _lead(row: InstructedRow, wraps: int) -> Content:
    dropping = say("row.dropping") if row.drops else ()
    if wraps == 1:
        return content(dropping)
    times = Value(_times(wraps), wraps, "1")
    increased = any(isinstance(item, InOne) for item in row.items)
    if increased or any(item.kind in _STRANDS for item in _works(row.items)):
        return content(dropping, say("row.wrapping-shaped", times=times))
    return content(dropping, say("row.wrapping", times=times))


def _told(row: InstructedRow, wraps: int) -> Iterable[Content]:
    stretches = [(one.place, [_unwrapped(item, wraps) for item in one.items]) for one in row.stretches]
    centred = [place for place, one in enumerate(stretches) if _is_centred(stretches, place)]
    if len(centred) == 1:
        at = centred[0]
        yield from _segment(_merged(stretches[:at]), to_marker=True, beyond=1)
        yield from map(_phrase, stretches[at][1])
        yield from _segment(_merged(stretches[at + 1 :]), to_marker=False)
        return
    spine = [place for place, (name, items) in enumerate(stretches) if name == "spine" and items]
    if len(spine) != 1 or not _needs_markers(stretches, spine[0]):
        yield from _segment(_merged(stretches), to_marker=False)
        return
    at = spine[0]
    yield from _segment(_merged(stretches[:at]), to_marker=True)
    yield say("row.slip-marker")
    yield from (_phrase(one.item) for one in _merged([stretches[at]]))
    yield say("row.slip-marker")
    yield from _segment(_merged(stretches[at + 1 :]), to_marker=False)


def _dropping(item: Item) -> bool:
    return isinstance(item, Work) and item.kind == "drop wraps"


Stretches = Sequence[tuple[str, list[Item]]]


def _is_centred(stretches: Stretches, place: int) -> bool:
    """Whether it is a decrease over the spine and a stitch on each side of it."""
    name, items = stretches[place]
    item = items[0] if len(items) == 1 else None
    between = 0 < place < len(stretches) - 1 and not any(one[0] == "spine" and one[1] for one in stretches)
    return name == "shaping" and between and isinstance(item, Work) and item.kind in CENTRED


def _needs_markers(stretches: Stretches, spine: int) -> bool:
    """Whether anything beside plain stitches lies next to the spine, or a wing has more than them."""
    beside = [stretches[at][0] for at in (spine - 1, spine + 1) if 0 <= at < len(stretches)]
    return "shaping" in beside or any(
        not _is_plain(item) for place, items in stretches if place == "wing" for item in items
    )


def _is_plain(item: Item) -> bool:
    return isinstance(item, Work) and item.kind in _PLAIN and not item.tbl and item.wraps == 1


def _merged(stretches: Stretches) -> list[Laid]:
    found = list[Laid]()
    for place, items in stretches:
        for item in items:
            before = found[-1] if found else None
            wing = place in ("wing", "spine")
            if before and _is_plain(item) and _alike(before.item, item):
                assert isinstance(item, Work) and isinstance(before.item, Work)
                found[-1] = Laid(item._replace(count=item.count + before.item.count), wing or before.wing)
            else:
                found.append(Laid(item, wing))
    return found


def _alike(one: Item, other: Item) -> bool:
    return (
        isinstance(one, Work)
        and isinstance(other, Work)
        and (one.kind, one.tbl, one.wraps) == (other.kind, other.tbl, other.wraps)
    )


def _segment(items: list[Laid], to_marker: bool, beyond: int = 0) -> Iterable[Content]:
    """Items up to a marker or the end of the row, one of them told by where it ends.

    `beyond`: stitches before the marker that the next item takes.
    """
    at = _flexible(items)
    for place, one in enumerate(items):
        if place == at:
            after = beyond + sum(takes([later.item]) for later in items[at + 1 :])
            yield _up_to(one.item, _end(after, to_marker))
        else:
            yield _phrase(one.item)


def _flexible(items: list[Laid]) -> int | None:
    """The item that takes up what other counts have more or less: the largest repeat, else the longest plain run."""
    wing = [place for place, one in enumerate(items) if one.wing]
    repeats = [place for place in wing if isinstance(items[place].item, Times)]
    plain = [place for place in wing if _is_plain(items[place].item) or _is_unknown(items[place].item)]
    return max(repeats or plain, key=lambda place: takes([items[place].item]), default=None)


def _is_unknown(item: Item) -> bool:
    """Stitches of a pattern of which the description has no rows."""
    return isinstance(item, Work) and item.kind.startswith(f"{WORK} ")


def _end(after: int, to_marker: bool) -> Content:
    if not after:
        return say("row.the-marker") if to_marker else say("row.the-end")
    count = Value(f"{after:,}", after, NUMBER)
    return say("row.before-marker", count=count) if to_marker else say("row.the-last", count=count)


def _up_to(item: Item, end: Content) -> Content:
    if isinstance(item, Times):
        times = Value(_times(item.times), item.times, REPEATS)
        return say("row.repeat-to", items=_listed(item.items), end=end, times=times)
    assert isinstance(item, Work)
    if _is_unknown(item):
        return say("row.work-to", stitch=item.kind.removeprefix(f"{WORK} "), end=end)
    return say("row.knit-to", end=end) if item.kind == "k" else say("row.purl-to", end=end)


def _listed(items: tuple[Item, ...]) -> Content:
    """What is repeated, whose counts do not change from row to row."""
    return (words_of(joined(", ", list(map(_phrase, items)))),)


def _times(count: int) -> str:
    """How often; a comma would be read as the end of an item."""
    return said("count.twice") if count == 2 else said("count.times", count=Value(f"{count}", count, "1"))


def _phrase(item: Item) -> Content:
    """One item, its count as a value."""
    if isinstance(item, Times):
        times = Value(_times(item.times), item.times, "1")
        return say("row.repeat", items=_listed(item.items), times=times)
    if isinstance(item, Work) and _is_unknown(item):
        count = Value(f"{item.count:,}", item.count, NUMBER)
        return say("row.work", count=count, stitch=item.kind.removeprefix(f"{WORK} "))
    if isinstance(item, Work) and item.kind in (*_PLAIN, "sl", "bind off", "cast on"):
        one = abbreviation(item._replace(count=1))
        words, _, rest = one.partition("1")
        return content(words, Value(f"{item.count}", item.count, NUMBER), rest)
    return (abbreviation(item),)
