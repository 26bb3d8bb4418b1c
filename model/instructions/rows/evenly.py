"""Increases and decreases spread over a row: in plain rows as the even spacing has them, else between the items of a
pattern, at the places nearest to that."""

from collections.abc import Sequence

from halfhank.grammar.description import Item, Times, Work
from halfhank.model.design.shaping_methods import CAST_ON
from halfhank.model.instructions.rows.even_spacing import Even, crowded_counts, even_decreases, even_increases
from halfhank.model.instructions.rows.forms import INCREASES, as_worked, increased, stitches_gone, together
from halfhank.model.instructions.rows.segments import (
    FIRST_EDGE,
    KNIT,
    LAST_EDGE,
    PURL,
    Line,
    Segment,
    makes,
    shaping,
    stitch_item,
    takes,
)
from halfhank.model.stitch_counts.bare_items import NOWHERE


def increase_evenly(line: Line, method: str, count: int) -> bool:
    """So many increases between the edges, or over all stitches where there is no room; False if there is none."""
    for first, last in _regions(line):
        plain = _plain(line.segments[first:last])
        if plain is None:
            continue
        stitches, kind, wraps = plain
        even = _in_stitches(stitches, count) if method in INCREASES.takes_stitch else even_increases(stitches, count)
        if even and (method in INCREASES.takes_stitch or _framed(line, first, last, even)):
            _replace(line, first, last, _spaced(even, kind, wraps, as_worked(method, kind)))
            return True
    return crowd(line, count) or _among_items(line, method, count)


def decrease_evenly(line: Line, method: str, count: int) -> bool:
    """So many stitches fewer between the edges, or over all; False if there is no room."""
    each = stitches_gone(method)
    for first, last in _regions(line):
        plain = _plain(line.segments[first:last])
        if plain is None:
            continue
        stitches, kind, wraps = plain
        even = even_decreases(stitches, count // each, each + 1) if count % each == 0 else None
        if even:
            _replace(line, first, last, _spaced(even, kind, wraps, as_worked(method, kind)._replace(wraps=wraps)))
            return True
    return crowd(line, -count) or _among_pairs(line, count)


def crowd(line: Line, change: int) -> bool:
    """A plain row on which every stitch has its share of a change; False where the row is not plain, or too short.

    Where its stitches are worked in several manners it is knitted.
    """
    found = [segment for segment in line.segments if not segment.empty]
    stitches = sum(segment.plain for segment in found)
    if any(segment.items for segment in found) or stitches + min(change, 0) < 1:
        return False
    kind, wraps = (PURL if {segment.kind for segment in found} == {PURL} else KNIT), found[0].wraps
    counts = crowded_counts(stitches, change) if change else [1] * stitches
    one = stitch_item(kind, 1, wraps)
    if change < 0:
        items = [together(count, kind, wraps) for count in counts]
    else:
        items = [increased(count, wraps) if count > 1 else one for count in counts]
    _replace(line, 0, len(line.segments), grouped(items))
    return True


def _regions(line: Line) -> list[tuple[int, int]]:
    """Between the edges, then the whole row."""
    return [(line.find(FIRST_EDGE), line.find(LAST_EDGE) + 1), (0, len(line.segments))]


def _framed(line: Line, first: int, last: int, even: Even) -> bool:
    """Whether a stitch lies before the first increase and after the last one."""
    before, after = even.runs[0] or line.has_stitch(first, -1), even.runs[-1] or line.has_stitch(last, 1)
    return bool(before and after)


def _plain(segments: Sequence[Segment]) -> tuple[int, str, int] | None:
    """How many stitches, if all of them are worked alike, and how: None where they are not."""
    found = [segment for segment in segments if not segment.empty]
    looks = {(segment.kind, segment.wraps) for segment in found}
    if any(segment.items for segment in found) or len(looks) > 1:
        return None
    kind, wraps = looks.pop() if looks else (KNIT, 1)
    return sum(segment.plain for segment in found), kind, wraps


def _replace(line: Line, first: int, last: int, items: Sequence[Item]) -> None:
    """The segments of a region as one of items; its places stay beside it."""
    places = [segment for segment in line.segments[first:last] if segment.empty]
    line.segments[first:last] = [*places[:1], shaping(items), *places[1:]]


def _in_stitches(stitches: int, count: int) -> Even | None:
    """Where increases are worked in a stitch each."""
    return even_decreases(stitches, count, 1)


def _spaced(even: Even, kind: str, wraps: int, change: Item) -> list[Item]:
    """The row of an even spacing."""
    runs = [[stitch_item(kind, run, wraps)] if run else [] for run in even.runs]
    inner = [(*run, change) for run in runs[1:-1]]
    return [*runs[0], change, *_repeated(inner), *runs[-1]]


def _repeated(pieces: Sequence[tuple[Item, ...]]) -> list[Item]:
    """Pieces in their order, those that follow one another alike in brackets once."""
    items: list[Item] = []
    place = 0
    while place < len(pieces):
        end = place
        while end < len(pieces) and pieces[end] == pieces[place]:
            end += 1
        items += _times(pieces[place], end - place)
        place = end
    return items


def _times(piece: tuple[Item, ...], times: int) -> list[Item]:
    first = piece[0]
    if len(piece) == 1 and isinstance(first, Work) and first.kind in (KNIT, PURL):
        return [first._replace(count=first.count * times)]
    return list(piece) if times == 1 else [Times(piece, times, NOWHERE)]


def grouped(items: Sequence[Item]) -> list[Item]:
    """Single items, like neighbours put in brackets."""
    return _repeated([(item,) for item in items])


def bracketed(items: Sequence[Item]) -> list[Item]:
    """Items with what is repeated in brackets, at each place that which takes in most."""
    found: list[Item] = []
    place = 0
    while place < len(items):
        length, times = max(_repeats(items, place), key=lambda one: (one[0] * one[1], -one[0]))
        found += _times(tuple(items[place : place + length]), times)
        place += length * times
    return found


_LONGEST = 24
"""Items in the brackets that are looked for."""


def _repeats(items: Sequence[Item], place: int) -> list[tuple[int, int]]:
    """How long what follows is, and how often it is repeated at once: single items at least."""
    found = [(1, 1)]
    for length in range(1, min(_LONGEST, (len(items) - place) // 2) + 1):
        times = 1
        while (
            items[place + length * (times - 1) : place + length * times]
            == (items[place + length * times : place + length * (times + 1)])
        ):
            times += 1
        if times > 1:
            found.append((length, times))
    return found


def _among_items(line: Line, method: str, count: int) -> bool:
    """Increases between the items of a pattern, or cast on at the end where there are too few places."""
    units = _units(line)
    gaps = [n for n in range(1, len(units)) if _stays(units[n - 1]) and _stays(units[n])]
    if method in INCREASES.takes_stitch:
        method = "m1"
    if len(gaps) < count:
        line.insert(len(line.segments), [stitch_item(CAST_ON, count)])
        return True
    chosen = {gaps[(2 * place + 1) * len(gaps) // (2 * count)] for place in range(count)}
    items: list[Item] = []
    for number, unit in enumerate(units):
        if number in chosen:
            items.append(as_worked(method, unit.kind if isinstance(unit, Work) else KNIT))
        items.append(unit)
    _replace(line, 0, len(line.segments), bracketed(items))
    return True


def _among_pairs(line: Line, count: int) -> bool:
    """Decreases of two neighbours among the items of a pattern: of single stitches where there are enough."""
    units = _units(line)
    for most in (1, _MOST_TOGETHER):
        pairs = _pairs(units, most)
        if len(pairs) < count:
            continue
        chosen = {pairs[(2 * number + 1) * len(pairs) // (2 * count)] for number in range(count)}
        items = [
            _together(unit, units[number + 1]) if number in chosen else unit
            for number, unit in enumerate(units)
            if number - 1 not in chosen
        ]
        _replace(line, 0, len(line.segments), bracketed(items))
        return True
    return False


_MOST_TOGETHER = 4


def _stays(unit: Item) -> bool:
    """Whether it is worked into stitches and leaves some."""
    return bool(takes((unit,)) and makes((unit,)))


def _pairs(units: Sequence[Item], most: int) -> list[int]:
    """Where two neighbours can be worked as one, none twice: each leaves one stitch and takes so many at most."""
    found, place = [], 0
    while place + 1 < len(units):
        if _leaves_one(units[place], most) and _leaves_one(units[place + 1], most):
            found.append(place)
            place += 1
        place += 1
    return found


def _leaves_one(unit: Item, most: int) -> bool:
    return isinstance(unit, Work) and unit.count == 1 and makes((unit,)) == 1 <= takes((unit,)) <= most


def _together(unit: Item, other: Item) -> Item:
    kinds = {one.kind[0] for one in (unit, other) if isinstance(one, Work)}
    return together(takes((unit, other)), PURL if kinds == {PURL} else KNIT)


def _units(line: Line) -> list[Item]:
    return [unit for segment in line.segments for item in segment.written for unit in _opened(item)]


def _opened(item: Item) -> list[Item]:
    """An item one stitch at a time, what belongs together left together."""
    if isinstance(item, Times):
        return [unit for one in item.items for unit in _opened(one)] * item.times
    if isinstance(item, Work) and item.count > 1 and makes((item,)) == takes((item,)):
        return [item._replace(count=1, span=NOWHERE)] * item.count
    return [item]
