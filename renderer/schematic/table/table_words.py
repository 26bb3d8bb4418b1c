"""The lines of the table of parts, as words: start, parts, bind-off, total, and the chance of enough yarn."""

import math

from halfhank.grammar.description import GRAMS_IN
from halfhank.grammar.record import NamedTuple
from halfhank.model.number_words import chance_words, mass_digits
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.renderer.paper.measure_words import MINUS, exact, exact_mass, fixed, row_range, yarn_words

START, WEIGHED = "start", "weighed"
RANGE_90 = 1.645
"""Standard deviations from the middle to the ends of a 90 % range, of a normal distribution."""
NOTHING_G = 1e-6


class TableRow(NamedTuple):
    """One line of the table; `number` is None for the start and the bind-off, of whose edge a `sample` is shown, and
    for the `total`. `name_and_rows` is for a table without a column of rows, where the line has some."""

    number: int | None
    name: str
    cells: tuple[str, ...]
    sample: str = ""
    total: bool = False
    name_and_rows: str = ""

    @property
    def bold(self) -> bool:
        """Whether its name is set in bold."""
        return self.number is not None or self.total

    def is_bold(self, cell: int) -> bool:
        """Whether a figure is set in bold."""
        return cell == 1 or self.total


def table_lines(shawl: Shawl) -> list[TableRow]:
    """The start, every part, the bind-off: together all of the shawl's yarn."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    used = [yarn.start_g, *(part.used_g for part in shawl.parts), yarn.bind_off_g]
    first, *others, last = shares([used_g / yarn.total_g if yarn.total_g > 0 else 0.0 for used_g in used])
    figures = (_used(yarn.start_g, unit), first, _on_scale(yarn.skein_g - yarn.start_g, unit))
    lines = [TableRow(None, shawl.start.words, ("", f"{shawl.start.stitches:,}", *figures), sample=START)]
    for number, (part, share) in enumerate(zip(shawl.parts, others, strict=True), 1):
        rows = f"{part.first_row:,}"
        rows = rows if part.first_row == part.last_row else f"{rows}–{part.last_row:,}"
        figures = (_used(part.used_g, unit), share, _on_scale(part.left_g, unit))
        cells = (rows, f"{part.stitches_at_end:,}", *figures)
        both = phrase("table.name-and-rows", name=part.name, rows=row_range(part.first_row, part.last_row))
        lines.append(TableRow(number, part.name, cells, name_and_rows=both))
    figures = (_used(yarn.bind_off_g, unit), last, _on_scale(yarn.left_g, unit))
    return [*lines, TableRow(None, shawl.bind_off.words, ("", "", *figures), sample=shawl.bind_off.method)]


def shares(parts: list[float]) -> list[str]:
    """Shares of one in per cent: `<1 %` below a hundredth, the others whole, by largest remainders.

    So these add up to what those leave of 100.
    """
    counted = [k for k, share in enumerate(parts) if share >= 0.01]
    whole = {k: math.floor(100 * parts[k] + 1e-9) for k in counted}
    missing = round(100 * sum(parts[k] for k in counted)) - sum(whole.values())
    for k in sorted(counted, key=lambda k: whole[k] - 100 * parts[k])[:missing]:
        whole[k] += 1
    return [f"{whole[k]} %" if k in whole else "<1 %" if share > 0 else "0 %" for k, share in enumerate(parts)]


def _used(used_g: float, unit: str) -> str:
    """A mass; what rounds to nothing and is something as less than the smallest figure: `<0.1`."""
    least = 10.0 ** -mass_digits(unit)
    return f"<{least:g}" if NOTHING_G < used_g < least / 2 * GRAMS_IN[unit] else exact(used_g, unit)


def total_line(shawl: Shawl) -> TableRow:
    """All rows and all yarn, by mass and by length."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    cells = (f"{shawl.rows.count:,}", "", exact(yarn.total_g, unit), "100 %", _on_scale(yarn.left_g, unit))
    length, rows = yarn_words(yarn.total_m, shawl.units), phrase("count.row", count=shawl.rows.count)
    name, both = phrase("table.total", yarn=length), phrase("table.total-and-rows", rows=rows, yarn=length)
    return TableRow(None, name, cells, total=True, name_and_rows=both)


def yarn_sentences(shawl: Shawl) -> list[str]:
    """How likely the yarn is enough, the margin used too; what that is known from, and how far the yarn may be off."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    chance = chance_words(yarn.chance_enough)
    likely = phrase("chance.with-margin" if yarn.keep_g > 0 else "chance.enough", chance=chance)
    if yarn.sd_g <= 0:
        return [likely, phrase_of("source", yarn.basis)]
    low, high = (yarn.total_g + sign * RANGE_90 * yarn.sd_g for sign in (-1, 1))
    ends = _figure(max(0.0, low), unit), _mass(high, unit)
    return [likely, phrase_of("source-range", yarn.basis, low=ends[0], high=ends[1])]


def _figure(value_g: float, unit: str) -> str:
    """A mass as far as an estimate is worth: to a gram or a hundredth of an ounce."""
    return fixed(value_g, 0) if unit == "g" else exact(value_g, unit)


def _mass(value_g: float, unit: str) -> str:
    return phrase("measure.g", number=fixed(value_g, 0)) if unit == "g" else exact_mass(value_g, unit)


def _on_scale(left_g: float, unit: str) -> str:
    """What the scale shows then, or how much is short."""
    figure = exact(left_g, unit)
    return phrase("size.short", mass=exact(-left_g, unit)) if figure.startswith(MINUS) else figure
