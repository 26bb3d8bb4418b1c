"""Parts and bands of a plan. Neighbouring bands of one stitch are one line; counts that never change are left out."""

from collections.abc import Iterator
from itertools import groupby

from halfhank.cli.report.figures import grams, grams_left, length, number_of, row_range, share, stitch_words
from halfhank.model.report_tree import Table, TableCells, TableColumn, cells, figures_column, words_column
from halfhank.model.shawl import BandPlan, PartPlan, Shawl
from halfhank.model.words.catalogue import said
from halfhank.model.words.drawn_words import phrase

_SHORT_ROWS = 2
"""Bands of so few rows are no bands to the eye where the next is of the same stitch."""


def same_count(shawl: Shawl) -> bool:
    """Whether every row has as many stitches as the start."""
    return len(set(shawl.rows.stitches)) == 1


def part_table(shawl: Shawl) -> Table:
    """A line for each part."""
    columns = (
        words_column(said("column.part")),
        figures_column(said("column.rows")),
        *_counts_column(shawl),
        figures_column(said("column.yarn-used"), weight=3),
        figures_column(said("column.share"), weight=1),
        figures_column(said("column.on-scale"), weight=4),
    )
    return Table(columns, tuple(_part(shawl, part) for part in shawl.parts))


def _counts_column(shawl: Shawl) -> tuple[TableColumn, ...]:
    return () if same_count(shawl) else (figures_column(said("column.stitches-at-end"), weight=2),)


def _part(shawl: Shawl, part: PartPlan) -> TableCells:
    return cells(
        part.name,
        row_range(part.first_row, part.last_row),
        *(() if same_count(shawl) else (number_of(part.stitches_at_end, "sts"),)),
        grams(part.used_g),
        share(part.share),
        grams_left(part.left_g),
    )


def band_table(shawl: Shawl) -> Table:
    """A line for each band, or for neighbouring bands of one stitch."""
    columns = (
        words_column(said("column.part"), weight=4),
        words_column(said("column.stitch")),
        words_column("", weight=3),
        figures_column(said("column.rows")),
        *_counts_column(shawl),
        figures_column(said("column.height"), weight=1),
        figures_column(said("column.yarn-used"), weight=6),
        figures_column(said("column.on-scale"), weight=5),
    )
    return Table(columns, tuple(_lines(shawl)))


def _lines(shawl: Shawl) -> Iterator[TableCells]:
    part = None
    for bands in folded(shawl.bands):
        opens, part = bands[0].part != part, bands[0].part
        yield _line(shawl, bands, shawl.parts[part].name if opens else "")


def folded(bands: tuple[BandPlan, ...]) -> list[list[BandPlan]]:
    """Bands in their order, neighbours together that are of one part, one stitch and one label."""
    return [list(alike) for _, alike in groupby(bands, lambda one: (one.part, one.stitch, one.wraps, one.label))]


def ends_inside(bands: tuple[BandPlan, ...]) -> frozenset[int]:
    """The last rows of bands of a row or two that the next of the same stitch follows: no eye sees these ends."""
    short = (alike for alike in folded(bands) if max(map(_rows, alike)) <= _SHORT_ROWS)
    return frozenset(band.last_row for alike in short for band in alike[:-1])


def _rows(band: BandPlan) -> int:
    return band.last_row - band.first_row + 1


def _line(shawl: Shawl, bands: list[BandPlan], part: str) -> TableCells:
    first, last = bands[0], bands[-1]
    return cells(
        part,
        stitch_words(first.stitch, first.wraps),
        ", ".join(words for words in (first.label, _bands_words(bands)) if words),
        row_range(first.first_row, last.last_row),
        *(() if same_count(shawl) else (number_of(last.stitches_at_end, "sts"),)),
        length(sum(band.height_cm for band in bands), shawl.units),
        grams(sum(band.used_g for band in bands)),
        grams_left(last.left_g),
    )


def _bands_words(bands: list[BandPlan]) -> str:
    """How many bands one line is of, and of how many rows each, if all have as many."""
    rows = set(map(_rows, bands))
    if len(bands) == 1 or max(rows) <= _SHORT_ROWS:
        return ""
    if len(rows) > 1:
        return said("bands.several", count=len(bands))
    return said("bands.alike", count=len(bands), rows=phrase("count.row", count=max(rows)))
