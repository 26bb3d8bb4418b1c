"""The masses of a page: grams alone, or ounces with grams beside them, for scales that show 0.01 oz are rare."""

from halfhank.cli.report.figures import masses_in
from halfhank.grammar.description import GRAMS_IN
from halfhank.model.number_words import mass_words
from halfhank.model.report_tree import Report, ReportBlock, ReportSection, Value, with_values
from halfhank.model.words.catalogue import said


def page_masses(unit: str, report: Report) -> Report:
    """The report with its masses in the unit of the label; the table of skeins has no room for two units."""
    if unit == "g":
        return report

    def shown(block: ReportBlock) -> Report:
        alone = Report(None, (block,))
        is_narrow = isinstance(block, ReportSection) and block.heading == said("page.skeins")
        return masses_in(unit, alone) if is_narrow else with_values(alone, lambda value: _both(value, unit))

    return report._replace(blocks=tuple(one for block in report.blocks for one in shown(block).blocks))


def _both(value: Value, unit: str) -> Value:
    if value.unit != "g":
        return value
    words = said("page.both-masses", first=mass_words(value.number, unit), second=mass_words(value.number, "g"))
    return Value(words, value.number / GRAMS_IN[unit], unit)
