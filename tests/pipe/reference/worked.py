"""Stitches and yarn worked out slowly and plainly, row by row, to hold the real model against.

Written from the language's and the model's rules alone. Nothing is summed in advance and nothing is clever:
`as yarn allows` tries one count after the other and works the whole shawl for each.
"""

from collections.abc import Iterator
from functools import cache, partial
from typing import NamedTuple

from tests.pipe.random_shawls.spec import AnyBand, Band, Drop, Line, Part, Pattern, Spec, Tab
from tests.pipe.reference.fabrics import fill_of, gram_m, pattern_of, stitch_m, stitch_size, unblocked_width, wrap_m

BIND_OFF_STITCH = 1.12
METHODS = {"standard": BIND_OFF_STITCH, "elastic": 2.0, "i-cord": 3.0, "draw through": 0.3}
MOST_ROWS = MOST_STITCHES = 20_000


class Step(NamedTuple):
    """One row to be worked: `part` is its index among the worked parts, `at` its row in that part."""

    part: int
    at: int
    stitch: str
    wraps: int


class Worked(NamedTuple):
    """What came of it: `stitches` and `used_m` by row from 0, `bind_off_m`, and the count of `as yarn allows`."""

    steps: tuple[Step, ...]
    stitches: tuple[int, ...]
    used_m: tuple[float, ...]
    bind_off_m: float
    allowed: int | None

    @property
    def total_m(self) -> float:
        return self.used_m[-1] + self.bind_off_m


# Bands put out row by row.


def band_rows(spec: Spec, band: Band, count: int) -> int:
    pattern = pattern_of(spec, band.stitch)
    if band.unit == "allowed":
        return count * (len(pattern.rows) if pattern else 2)
    return count * {"rows": 1, "ridges": 2, "repeats": len(pattern.rows) if pattern else 0}[band.unit]


def spread(spec: Spec, bands: tuple[AnyBand, ...], allowed: int, turn: int) -> Iterator[list[tuple[str, int]]]:
    """Each band as the (stitch, wraps) of its rows; `turn` is the pass, from 0, of the innermost repeat."""
    for band in bands:
        if isinstance(band, Drop):
            yield [("drop", band.wraps), ("drop", 1)]
        elif isinstance(band, Band):
            if band.counts:
                rows = band_rows(spec, band, band.counts[turn % len(band.counts)])
            else:
                rows = band_rows(spec, band._replace(unit="allowed"), allowed)
            yield [(band.stitch, 1)] * rows
        else:
            times = allowed if band.times is None else band.times
            for k in range(times):
                yield from spread(spec, band.bands, allowed, k)


PartRows = list[list[tuple[str, int]]]
"""The bands of one part as the (stitch, wraps) of their rows."""


def worked_parts(spec: Spec, allowed: int, turned_after: int | None = None) -> list[PartRows]:
    """The parts in the order in which they are worked, the way back included; with `turned_after`, that many rows of
    the growing half and no more, then the centre and the way back of just these rows."""
    parts = [list(spread(spec, part.bands, allowed, 0)) for part in spec.parts]
    if spec.turn_back is None:
        return parts
    growing, centre = (parts[:-1], parts[-1:]) if spec.turn_back else (parts, [])
    if turned_after is not None:
        growing = first_rows(growing, turned_after)
    return growing + centre + [part[::-1] for part in reversed(growing)]


def first_rows(parts: list[PartRows], rows: int) -> list[PartRows]:
    """The parts cut off after so many rows; later ones are empty."""
    cut: list[PartRows] = []
    for part in parts:
        bands = []
        for band in part:
            bands.append(band[:rows])
            rows -= len(bands[-1])
        cut.append([band for band in bands if band])
    return cut


# Shaping.


def gain(line: Line, live: int) -> int:
    if line.evenly_to is not None:
        return line.evenly_to - live
    both = {"each edge": 2, "spine": 2}
    total = sum(amount * both.get(place, 1) for amount, place in line.places)
    return total if line.action == "increase" else -total


def is_due(line: Line, row: int) -> bool:
    first = line.from_row or 1
    if line.every is None:
        return row == first
    return row >= first and (row - first) % line.every == 0


def is_past(line: Line, live: int) -> bool:
    if line.until is None:
        return False
    return live > line.until if line.action == "increase" else live < line.until


class Shaper:
    """Walks the rows and says what each one gains; remembers which lines have stopped and where each acted."""

    def __init__(self, spec: Spec) -> None:
        self.spec = spec
        self.stopped: set[tuple[int, int]] = set()
        self.acts: dict[tuple[int, int, int], list[tuple[int, int]]] = {}

    def lines_of(self, part: int) -> tuple[int, tuple[Line, ...]]:
        """The lines in force, and whose they are: -1 for the shape's."""
        own: Part = self.spec.parts[part]
        if own.lines or own.even:
            return part, own.lines
        return -1, self.spec.lines

    def forth(self, part: int, at: int, row: int, live: int) -> tuple[int, int]:
        """Live stitches after a row of the way out, and how many were bound off in it."""
        owner, lines = self.lines_of(part)
        bound_off = 0
        for number, line in enumerate(lines):
            key = (owner, number)
            if key in self.stopped or not is_due(line, row if owner < 0 else at):
                continue
            change = gain(line, live)
            if is_past(line, live + change):
                self.stopped.add(key)
                continue
            live += change
            bound_off -= change if line.action == "bind off" else 0
            if line.action != "bind off":
                self.acts.setdefault((part, *key), []).append((at, change))
        return live, bound_off

    def back(self, part: int, rows: int, first_row: int) -> dict[int, int]:
        """What the rows (of the part, from 1) of the way back through `part` gain."""
        gains: dict[int, int] = {}
        _, lines = self.lines_of(part)
        for (acted, _, number), acts in self.acts.items():
            if acted != part:
                continue
            every = lines[number].every or 1
            first = 1 + max(0, rows - acts[-1][0] - every + 1)
            first = on_right_side(first, (len(acts) - 1) * every, rows, first_row)
            for k, (_, change) in enumerate(acts):
                gains[first + k * every] = gains.get(first + k * every, 0) - change
        return gains


def on_right_side(first: int, run: int, rows: int, first_row: int) -> int:
    """The first decrease of a way back, moved on to a right-side row where all of them still fit, else back to one."""
    if (first_row + first - 1) % 2:
        return first
    return first + 1 if first + 1 + run <= rows else max(1, first - 1)


# Yarn.


def runs(spec: Spec, live: int) -> list[int]:
    """The stitches between the edges, by wing where there is a spine (the spine itself not among them)."""
    edge = min(2 * (spec.edge[0] if spec.edge else 0), live)
    spine = spec.spine if spec.spine is not None else (1 if spec.shape == "triangle" else 0)
    inside = live - edge
    if not spine:
        return [inside]
    wings = max(0, inside - spine)
    return [wings // 2, wings - wings // 2]


class Yarns(dict[str, float]):
    """Yarn of one stitch in m, by name; with it the stitch's pattern and what fills up its runs, and whole rows."""

    def __init__(self, spec: Spec) -> None:
        self.spec = spec
        self.pattern = cache(partial(pattern_of, spec))
        self.fill = cache(partial(fill_of, spec))
        self.row = cache(partial(row_m, spec, self))

    def __missing__(self, name: str) -> float:
        self[name] = metres = stitch_m(self.spec, name)
        return metres


def row_m(spec: Spec, yarns: Yarns, stitch: str, wraps: int, live: int) -> float:
    """Yarn of one row's stitches, in m."""
    each = yarns[stitch]
    if wraps > 1:
        return live * (each + (wraps - 1) * wrap_m(spec))
    edges = min(2 * (spec.edge[0] if spec.edge else 0), live)
    edge_stitch = (spec.edge[1] if spec.edge else None) or "garter"
    total = edges * yarns[edge_stitch] + (live - edges) * each
    short = filled(spec, yarns.pattern(stitch), live)
    return total + short * (yarns[yarns.fill(stitch)] - each) if short else total


def filled(spec: Spec, pattern: Pattern | None, live: int) -> int:
    """How many stitches of a row are fill: what is short of the stitch multiple in each run."""
    if pattern is None:
        return 0
    short = 0
    for run in runs(spec, live):
        repeats = (run - pattern.extra) // pattern.multiple
        short += run - (repeats * pattern.multiple + pattern.extra) if repeats > 0 else run
    return short


def start_stitches(spec: Spec) -> int:
    if isinstance(spec.start, Tab):
        return 2 * spec.start.stitches + spec.start.rows // 2
    return spec.start


def start_m(spec: Spec) -> float:
    plain = stitch_m(spec, "garter")
    if isinstance(spec.start, Tab):
        return plain * (spec.start.stitches * spec.start.rows + start_stitches(spec))
    return plain * 1.5 * spec.start


def bind_off_m(spec: Spec, live: int, last: Step) -> float:
    off = spec.bind_off
    if off and off.method == "measured":
        return float(off.width or 0) * live * unblocked_width(spec, last.stitch) / 100
    plain = live * stitch_m(spec, "garter")
    if off and off.method == "picot":
        on, away = off.numbers or (2, 4)
        return plain * (1.5 * on + BIND_OFF_STITCH * away) / (away - on)
    return plain * METHODS[off.method if off else "standard"]


def budget_m(spec: Spec) -> float:
    """The skein (as weighed, where it was) less the margin, in m."""
    start = next((w.mass.g for w in spec.weighed if w.row == 0), spec.skein_mass.g)
    keep = spec.keep or ("10" if spec.turn_back is not None else "5")
    kept = start * float(keep) / 100 if isinstance(keep, str) else keep.g
    return (start - kept) * gram_m(spec)


def row_size(spec: Spec, step: Step) -> tuple[float, float]:
    """Blocked width of a stitch and height of the row, in cm; an extra wrap opens to half its length."""
    width, height = stitch_size(spec, step.stitch)
    return width, height + (step.wraps - 1) * wrap_m(spec) * 100 / 2


# The whole.


def steps_of(parts: list[PartRows]) -> list[Step]:
    return [
        Step(number, at, *row)
        for number, part in enumerate(parts)
        for at, row in enumerate((row for band in part for row in band), 1)
    ]


def work(spec: Spec, allowed: int = 0, turned_after: int | None = None) -> Worked | None:
    """The shawl with that count for `as yarn allows`; None where it cannot be worked."""
    steps = steps_of(worked_parts(spec, allowed, turned_after))
    if not steps or len(steps) > MOST_ROWS:
        return None
    shaper, yarns, out = Shaper(spec), Yarns(spec), len(spec.parts)
    counts, used, gains = [start_stitches(spec)], [start_m(spec)], {}
    for row, step in enumerate(steps, 1):
        if step.part < out:
            live, bound_off = shaper.forth(step.part, step.at, row, counts[-1])
        else:
            if step.at == 1:
                source = out - 1 - (step.part - out) - (1 if spec.turn_back else 0)
                gains = shaper.back(source, sum(s.part == step.part for s in steps), row)
            live, bound_off = counts[-1] + gains.get(step.at, 0), 0
        if not 1 <= live <= MOST_STITCHES:
            return None
        counts.append(live)
        used.append(used[-1] + yarns.row(step.stitch, step.wraps, live) + bound_off * BIND_OFF_STITCH * yarns["garter"])
    return Worked(tuple(steps), tuple(counts), tuple(used), bind_off_m(spec, counts[-1], steps[-1]), None)


def has_allowance(bands: tuple[AnyBand, ...]) -> bool:
    return any(
        (isinstance(b, Band) and not b.counts)
        or (not isinstance(b, Band | Drop) and (b.times is None or has_allowance(b.bands)))
        for b in bands
    )


def reckon(spec: Spec, most: int = MOST_ROWS) -> Worked | None:
    """The shawl as planned. None where it cannot be worked, or not even once within the skein."""
    if not any(has_allowance(part.bands) for part in spec.parts):
        return work(spec)
    best = None
    for count in range(1, most + 1):
        tried = work(spec, count)
        if tried is None or tried.total_m > budget_m(spec):
            break
        best = tried._replace(allowed=count)
    return best
