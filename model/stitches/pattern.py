"""A stitch pattern: rows, and the multiple that they are worked over."""

from collections.abc import Iterator
from math import lcm

from halfhank.grammar.description import BUILT_IN_SPAN, Across, Item, Multiple, Stitch
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import bands_of
from halfhank.model.design.resolve import DEFAULT_FILL
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.stitch_counts.balance import StitchCount, least_multiples, leaves
from halfhank.model.stitch_counts.tally import RowTally, row_tally

_LARGEST_DERIVED = 20_000


class PatternRow(NamedTuple):
    """One row: its `number` from 1, its `items` as worked, their `tally`, and the line of the text."""

    number: int
    items: tuple[Item, ...]
    tally: RowTally
    span: Span

    @property
    def wrong_side(self) -> bool:
        """Whether it is a wrong-side row when row 1 is a right-side one."""
        return self.number % 2 == 0

    @property
    def across(self) -> Across | None:
        """The part between the stars."""
        return next((item for item in self.items if isinstance(item, Across)), None)

    @property
    def is_whole(self) -> bool:
        """Whether the row is `knit` or `purl` throughout."""
        return self.tally.whole is not None


class Pattern(NamedTuple):
    """A stitch's rows in order, over `multiple` (`each` stitches, `extra`); `each` is 0 in a panel that never repeats.

    `written` is the multiple as the description has it, None where it was taken from the rows. `fill` is the stitch
    that is worked where no whole multiple fits. `least`: the smallest number of multiples over which every row
    works a whole one between its stars. `built_in`: the rows are a built-in's, so that their places are in
    nobody's file.
    """

    name: str
    multiple: StitchCount
    written: Multiple | None
    rows: tuple[PatternRow, ...]
    fill: str
    span: Span
    least: int
    built_in: bool = False

    @property
    def is_panel(self) -> bool:
        """Whether the rows work a fixed number of stitches, once."""
        return self.multiple.each == 0


def pattern_of(stitch: Stitch) -> Pattern | None:
    """The pattern of a stitch by its own rows, None without rows."""
    if not stitch.rows:
        return None
    rows = tuple(sorted(_numbered(stitch)))
    fill = stitch.fill.value if stitch.fill else DEFAULT_FILL
    written = stitch.multiple
    multiple = StitchCount(written.stitches, written.extra) if written else derived_multiple(rows)
    least = least_multiples(multiple, [row.tally for row in rows])
    return Pattern(stitch.name.value, multiple, written, rows, fill, stitch.span, least)


def patterns_of(measures: StitchMeasures) -> dict[str, Pattern]:
    """The patterns of the stitches that have rows, or that a band is worked in and that take rows over; by name.

    Built-ins are among them where a band is worked in one, but for those that are only measured (garter …).
    """
    return measures.once(patterns_with)


def patterns_with(measures: StitchMeasures, asked: str | None = None) -> dict[str, Pattern]:
    """The same, with `asked` as one more name to look at."""
    names = [name for name, block in measures.blocks.items() if block.rows]
    names += [band.stitch for band in bands_of(measures.design)] + ([asked] if asked else [])
    found, known = {}, dict[tuple[str, Multiple | None], Pattern]()
    for name in dict.fromkeys(names):
        chain = [block.written.value for block in measures.chain(name)]
        owner = next((block for block in chain if block.rows), None)
        if owner is None:
            continue
        multiple = next((block.multiple for block in chain if block.multiple), None)
        key = (owner.name.value, multiple)
        if key not in known:
            pattern = pattern_of(owner._replace(multiple=multiple))
            assert pattern
            known[key] = pattern._replace(built_in=owner.span == BUILT_IN_SPAN)
        fill = next((block.fill.value for block in chain if block.fill), DEFAULT_FILL)
        found[name] = known[key]._replace(name=name, fill=fill, span=chain[0].span)
    return found


def _numbered(stitch: Stitch) -> Iterator[PatternRow]:
    for line in stitch.rows:
        tally = row_tally(line.items)
        for number in line.numbers:
            yield PatternRow(number, line.items, tally, line.span)


def derived_multiple(rows: tuple[PatternRow, ...]) -> StitchCount:
    """The multiple that rows imply: what the first row with stars takes, or a whole number of it that fits all rows.

    Rows without stars make a panel of as many stitches as the first of them takes; whole rows fit any number.
    """
    starred = [row.tally for row in rows if row.tally.across and row.tally.across.taken]
    if not starred:
        fixed = next((row.tally.before.taken for row in rows if not row.is_whole), None)
        return StitchCount(1, 0) if fixed is None else StitchCount(0, fixed)
    widths = [tally.across.taken for tally in starred if tally.across]
    outside = starred[0].outside.taken
    own = StitchCount(widths[0], outside % widths[0])
    common = lcm(*set(widths[:100]))
    if common == own.each or common > _LARGEST_DERIVED or _fits(rows, own):
        return own
    shared = StitchCount(common, outside % common)
    return shared if _fits(rows, shared) else own


def _fits(rows: tuple[PatternRow, ...], level: StitchCount) -> bool:
    at: StitchCount | None = level
    for row in rows:
        at = leaves(at, row.tally) if at else None
    return at is not None


def built_in_pattern(stitch: Stitch) -> Pattern:
    """The pattern of a built-in stitch."""
    pattern = pattern_of(stitch)
    assert pattern
    return pattern._replace(built_in=True)
