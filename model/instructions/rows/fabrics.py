"""How the stitches of a row are worked before it is shaped: its edges, wings and spine, band by band."""

from collections.abc import Iterator

from halfhank.grammar.description import Across, Item, Times, Work
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.instructions.rows.segments import (
    AFTER_SPINE,
    BEFORE_SPINE,
    EDGE,
    FIRST_EDGE,
    KNIT,
    LAST_EDGE,
    PURL,
    SPINE,
    WING,
    WORK,
    Line,
    Segment,
    stitch_item,
)
from halfhank.model.plan import Plan
from halfhank.model.stitch_counts.balance import StitchCount, passes
from halfhank.model.stitch_counts.bare_items import NOWHERE
from halfhank.model.stitches.fit import (
    Fit,
    LaidRepeat,
    Needle,
    PatternRows,
    fitted,
    in_pattern,
    needle_of,
    whole_multiples,
)
from halfhank.model.stitches.mirror import mirrored
from halfhank.model.stitches.pattern import Pattern, PatternRow, patterns_of, patterns_with
from halfhank.model.stitches.worked_rows import levels_of

DROP_WRAPS = "drop wraps"
_PLAIN_ROOTS = {"garter": (KNIT, KNIT), "stockinette": (KNIT, PURL)}


class Worked(NamedTuple):
    """One of a band's rows: its `line`, and by how many stitches the pattern differs from its first row's count
    after it."""

    line: Line
    beyond: int


class RowFabrics:
    """The lines of a plan's rows, without shaping."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.measures: StitchMeasures = plan.table.measures
        self.needle: Needle = needle_of(plan.design, plan.rows)
        self.patterns = self.measures.once(_layers)

    def band_rows(self, stitch: str, wraps: int, first_row: int, rows: int) -> Iterator[Worked]:
        """The rows of one band in working order."""
        if stitch == "drop":
            for number in range(rows):
                yield Worked(self._plain(first_row + number, KNIT, KNIT, wraps if number % 2 == 0 else 1), 0)
            return
        layers = self.patterns.get(stitch)
        if layers is None or layers.is_plain or not layers.keeps_count:
            for number in range(rows):
                row = first_row + number
                yield Worked(self._unpatterned(stitch, row, number), 0)
            return
        yield from self._patterned(layers, first_row, rows)

    def plain_kind(self, stitch: str, row: int, number: int) -> str | None:
        """How every stitch of a row is worked in a stitch without stars: knit or purl; None for other stitches.

        `number` is the row's among those of its band, from 0.
        """
        layers = self.patterns.get(stitch)
        if layers:
            return layers.pattern.rows[number % len(layers.pattern.rows)].tally.whole if layers.is_plain else None
        sides = _PLAIN_ROOTS.get(self.measures.root(stitch))
        return sides[(row + 1) % 2] if sides else None

    def _unpatterned(self, stitch: str, row: int, number: int) -> Line:
        kind = self.plain_kind(stitch, row, number)
        if kind:
            return self._plain(row, kind, kind)
        fill = self._fill_kind(self.measures.fill(stitch), row, number)
        return self._line(row, [_unknown(stitch, self._first(row))], fill, 1, [_unknown(stitch, self._last(row))])

    def _plain(self, row: int, kind: str, spine: str, wraps: int = 1) -> Line:
        first, last = (Segment(WING, count, kind, wraps) for count in (self._first(row), self._last(row)))
        return self._line(row, [first], spine, wraps, [last])

    def _fill_kind(self, fill: str, row: int, number: int) -> str:
        """Fill stitches are plain; those of a stitch with stars are worked in stockinette."""
        return self.plain_kind(fill, row, number) or (KNIT, PURL)[(row + 1) % 2]

    def _wings(self, row: int) -> tuple[int, int]:
        """Stitches of the right and the left wing before a row."""
        return self.needle.right[row - 1], self.needle.left[row - 1] if self.needle.left else 0

    def _first(self, row: int) -> int:
        """Stitches of the wing that is worked first."""
        right, left = self._wings(row)
        return left if row % 2 == 0 and self.needle.left else right

    def _last(self, row: int) -> int:
        right, left = self._wings(row)
        return right if row % 2 == 0 and self.needle.left else left

    def _line(self, row: int, first: list[Segment], spine: str, wraps: int, last: list[Segment]) -> Line:
        live = self.plan.rows.stitches[row - 1]
        edges, middle = self._edges_and_spine(live)
        begin, end = (
            self._edge(row, count, wraps, at_start) for count, at_start in zip(edges, (True, False), strict=True)
        )
        between = [Segment(BEFORE_SPINE), Segment(SPINE, middle, spine, wraps), Segment(AFTER_SPINE)]
        if not middle:
            del between[1]
        return Line([begin, Segment(FIRST_EDGE), *first, *between, *last, Segment(LAST_EDGE), end])

    def _edges_and_spine(self, live: int) -> tuple[tuple[int, int], int]:
        edge, spine = self.needle.edge, self.needle.spine
        if live >= 2 * edge:
            return (edge, edge), min(spine, live - 2 * edge)
        return (live - live // 2, live // 2), 0

    def _edge(self, row: int, count: int, wraps: int, at_start: bool) -> Segment:
        stitch = self.plan.design.edge.stitch
        layers = self.patterns.get(stitch)
        if layers and not layers.is_plain and wraps == 1:
            items = layers.edge_items(row, count, at_start != (row % 2 == 0))
            if items:
                return Segment(EDGE, items=items)
        kind = KNIT if wraps > 1 else self.plain_kind(stitch, row, row - 1) or KNIT
        return Segment(EDGE, count, kind, wraps)

    def _patterned(self, layers: "Layers", first_row: int, rows: int) -> Iterator[Worked]:
        pattern, length = layers.pattern, len(layers.pattern.rows)
        whole = rows - rows % length
        last = whole + layers.kept(rows % length)
        fit = fitted(
            pattern,
            PatternRows(pattern.name, first_row, first_row + max(rows, 1) - 1, None),
            self.needle,
            self.plan.rows,
        )
        for number in range(rows):
            row = first_row + number
            fill = self._fill_kind(pattern.fill, row, number)
            if number >= last:
                yield Worked(self._plain(row, fill, fill), 0)
                continue
            yield self._patterned_row(layers, fit, number, row, fill)

    def _patterned_row(self, layers: "Layers", fit: Fit, number: int, row: int, fill: str) -> Worked:
        repeat, place = divmod(number, len(layers.pattern.rows))
        right, left = self._wings(row)
        reverse = row % 2 == 0
        panel, beyond = self._panel(layers, fit.right[repeat], place, row, right, fill, False, reverse)
        if not fit.left:
            return Worked(self._line(row, panel, fill, 1, []), beyond)
        other, more = self._panel(layers, fit.left[repeat], place, row, left, fill, True, reverse)
        first, last = (other, panel) if reverse else (panel, other)
        return Worked(self._line(row, first, fill, 1, last), beyond + more)

    def _panel(
        self,
        layers: "Layers",
        laid: LaidRepeat,
        place: int,
        row: int,
        stitches: int,
        fill: str,
        second: bool,
        reverse: bool,
    ) -> tuple[list[Segment], int]:
        """One wing's segments in working order, and the stitches of its pattern beyond the first row's count."""
        if not laid.multiples:
            return [Segment(WING, stitches, fill)], 0
        column = self.plan.rows.spine if self.needle.left else self.plan.rows.upper
        at_spine = laid.at_spine + sum(column[laid.row : row])
        at_edge = stitches - at_spine - in_pattern(layers.pattern, laid.multiples)
        items, beyond = layers.items(place, laid.multiples, second)
        # The edge lies first in the wing that a right-side row begins with, the spine first in the other one.
        outer, inner = Segment(WING, at_edge, fill), Segment(WING, at_spine, fill)
        before, after = (inner, outer) if second != reverse else (outer, inner)
        return [before, *layers.segments(place, laid.multiples, items), after], beyond


def _unknown(stitch: str, count: int) -> Segment:
    """Stitches of a pattern that the description gives no rows for."""
    return Segment(WING, count, f"{WORK} {stitch}")


class Layers:
    """A pattern with its mirror image, and the counts that its rows find."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.levels: tuple[StitchCount, ...] = levels_of(pattern)
        self._mirrored = mirrored(pattern)

    @property
    def is_plain(self) -> bool:
        """Whether every row is knit or purl throughout."""
        return all(row.is_whole for row in self.pattern.rows)

    @property
    def keeps_count(self) -> bool:
        """Whether a repeat leaves as many stitches as it found."""
        return self.levels[0] == self.levels[-1]

    def kept(self, rows: int) -> int:
        """The most rows, of so many of a repeat, after which the count is that of its beginning."""
        return max(number for number in range(rows + 1) if self.levels[number] == self.levels[0])

    def items(self, place: int, multiples: int, second: bool) -> tuple[tuple[Item, ...], int]:
        """A row over so many multiples as it is worked, and what it leaves beyond the first row's count."""
        row = (self._mirrored if second else self.pattern).rows[place]
        level, after = self.levels[place], self.levels[place + 1]
        beyond = after.stitches(multiples) - self.levels[0].stitches(multiples)
        return row_items(row, level, multiples), beyond

    def segments(self, place: int, multiples: int, items: tuple[Item, ...]) -> list[Segment]:
        """The row as segments: a whole row is plain."""
        whole = self.pattern.rows[place].tally.whole
        if whole:
            return [Segment(WING, self.levels[place].stitches(multiples), whole)]
        return [Segment(WING, items=items)]

    def edge_items(self, row: int, count: int, left: bool) -> tuple[Item, ...]:
        """The row of the shawl over so many edge stitches; nothing where the pattern does not fit on them."""
        multiples = whole_multiples(self.pattern, count)
        if not multiples or in_pattern(self.pattern, multiples) != count or len(set(self.levels)) > 1:
            return ()
        return self.items((row - 1) % len(self.pattern.rows), multiples, left)[0]


def row_items(row: PatternRow, level: StitchCount, multiples: int) -> tuple[Item, ...]:
    """A pattern's row written out over so many multiples; that wraps are dropped is said of the row as a whole."""
    if row.tally.whole:
        return (stitch_item(row.tally.whole, level.stitches(multiples)),)
    items: list[Item] = []
    for item in row.items:
        if isinstance(item, Across):
            times = max(0, passes(level, row.tally, multiples))
            items += item.items if times == 1 else [Times(item.items, times, NOWHERE)] if times else []
        elif not (isinstance(item, Work) and item.kind == DROP_WRAPS):
            items.append(item)
    return tuple(items)


def _layers(measures: StitchMeasures) -> dict[str, Layers]:
    """All patterns by name, those of the edge and of fill stitches among them."""
    found = patterns_of(measures)
    for name in dict.fromkeys((measures.design.edge.stitch, *(pattern.fill for pattern in found.values()))):
        found = patterns_with(measures, name) | found
    return {name: Layers(pattern) for name, pattern in found.items()}
