"""One repeat fewer, as planned and one more, side by side: a table of `plan`."""

from halfhank.cli.report.figures import chance, grams_left, number_of, size
from halfhank.model.marks_and_stops.repeat_choices import ROWS, RepeatChoice, RepeatChoices
from halfhank.model.number_words import counted
from halfhank.model.report_tree import Table, TableCells, cells, figures_column, words_column
from halfhank.model.shawl import Shawl

FROM_MARGIN = "uses part of the margin"
"""Of yarn left over that is less than the margin."""

_ONE = {True: "one more", False: "one fewer"}


def choice_table(choices: RepeatChoices, shawl: Shawl) -> Table:
    """One fewer, as planned and one more, side by side."""
    of = f" of {choices.stitch}" if choices.stitch else ""
    columns = (
        words_column(""),
        figures_column(f"{choices.unit}{of}", weight=3),
        figures_column("rows in all", weight=2),
        figures_column("size", weight=4),
        figures_column("left over"),
        figures_column("chance of enough yarn", weight=5),
        words_column("", weight=1),
    )
    return Table(columns, tuple(_choice(shawl, choices.unit, choice) for choice in choices.choices))


def _choice(shawl: Shawl, unit: str, choice: RepeatChoice) -> TableCells:
    more, count = choice.difference > 0, abs(choice.difference)
    changed = f"{counted(count, 'row')} {'more' if more else 'fewer'}" if unit == ROWS else _ONE[more]
    return cells(
        changed if choice.difference else "as planned",
        number_of(choice.count, unit),
        number_of(choice.rows, "rows"),
        size(choice.size.wingspan_cm, choice.size.depth_cm, shawl.units),
        grams_left(choice.left_g),
        chance(choice.chance_enough),
        FROM_MARGIN if 0 <= choice.left_g < shawl.yarn.keep_g else "",
    )
