"""One repeat fewer, as planned and one more, side by side: a table of `plan`."""

from halfhank.cli.report.figures import chance, grams_left, number_of, size
from halfhank.model.marks_and_stops.repeat_choices import ROWS, RepeatChoice, RepeatChoices
from halfhank.model.report_tree import Table, TableCells, cells, figures_column, words_column, words_of
from halfhank.model.shawl import Shawl
from halfhank.model.words.catalogue import said, say_one_of
from halfhank.model.words.drawn_words import phrase


def choice_table(choices: RepeatChoices, shawl: Shawl) -> Table:
    """One fewer, as planned and one more, side by side."""
    unit = words_of(say_one_of("choice-unit", choices.unit))
    columns = (
        words_column(""),
        figures_column(said("choice.of", unit=unit, stitch=choices.stitch) if choices.stitch else unit, weight=3),
        figures_column(said("column.rows-in-all"), weight=2),
        figures_column(said("column.size"), weight=4),
        figures_column(said("column.left-over")),
        figures_column(said("column.chance"), weight=5),
        words_column("", weight=1),
    )
    return Table(columns, tuple(_choice(shawl, choices.unit, choice) for choice in choices.choices))


def _choice(shawl: Shawl, unit: str, choice: RepeatChoice) -> TableCells:
    return cells(
        _changed(unit, choice.difference) if choice.difference else said("choice.as-planned"),
        number_of(choice.count, unit),
        number_of(choice.rows, "rows"),
        size(choice.size.wingspan_cm, choice.size.depth_cm, shawl.units),
        grams_left(choice.left_g),
        chance(choice.chance_enough),
        said("choice.from-margin") if 0 <= choice.left_g < shawl.yarn.keep_g else "",
    )


def _changed(unit: str, difference: int) -> str:
    if unit != ROWS:
        return said("choice.one-more" if difference > 0 else "choice.one-fewer")
    return said("choice.more" if difference > 0 else "choice.fewer", rows=phrase("count.row", count=abs(difference)))
