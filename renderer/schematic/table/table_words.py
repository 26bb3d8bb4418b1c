"""The lines of the table of parts, as words: start, parts, bind-off, total, and the chance of enough yarn."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.measure_words import MINUS, exact, exact_mass, fixed, percent, yarn_words

START, WEIGHED = "start", "weighed"
RANGE_90 = 1.645
"""Standard deviations from the middle to the ends of a 90 % range, of a normal distribution."""
SOURCES = {
    "swatch": "measured on a swatch",
    "ratio": "estimated from another stitch's swatch",
    "gauge": "estimated from the gauge",
    WEIGHED: "by the weighings",
}


class TableRow(NamedTuple):
    """One line of the table; `number` is None for the start and the bind-off, of whose edge a `sample` is shown, and
    for the `total`."""

    number: int | None
    name: str
    cells: tuple[str, ...]
    sample: str = ""
    total: bool = False

    @property
    def bold(self) -> bool:
        """Whether its name is set in bold."""
        return self.number is not None or self.total

    @property
    def rows_words(self) -> str:
        """Its rows in words: `rows 1–28`, `row 5`, and of the total `130 rows`."""
        cell = self.cells[0]
        return f"{cell} rows" if self.total else f"rows {cell}" if "–" in cell else f"row {cell}"

    def is_bold(self, cell: int) -> bool:
        """Whether a figure is set in bold."""
        return cell == 1 or self.total


def table_lines(shawl: Shawl) -> list[TableRow]:
    """The start, every part, the bind-off: together all of the shawl's yarn."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    start = _edge_line(shawl, shawl.start.words, shawl.start.stitches, yarn.start_g, yarn.skein_g - yarn.start_g)
    lines = [start._replace(sample=START)]
    for number, part in enumerate(shawl.parts, 1):
        rows = f"{part.first_row:,}"
        rows = rows if part.first_row == part.last_row else f"{rows}–{part.last_row:,}"
        figures = (exact(part.used_g, unit), percent(part.share), _on_scale(part.left_g, unit))
        lines.append(TableRow(number, part.name, (rows, f"{part.stitches_at_end:,}", *figures)))
    end = _edge_line(shawl, shawl.bind_off.words, None, yarn.bind_off_g, yarn.left_g)
    return [*lines, end._replace(sample=shawl.bind_off.method)]


def total_line(shawl: Shawl) -> TableRow:
    """All rows and all yarn, by mass and by length."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    cells = (f"{shawl.rows.count:,}", "", exact(yarn.total_g, unit), percent(1.0), _on_scale(yarn.left_g, unit))
    return TableRow(None, f"total, {yarn_words(yarn.total_m, shawl.units)}", cells, total=True)


def chance_words(shawl: Shawl) -> list[str]:
    """How likely the yarn is enough, with what that is known from; how far the yarn used may be off."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    words = [f"Chance of enough yarn: {_chance(yarn.chance_enough)}, {SOURCES[yarn.basis]}"]
    if yarn.sd_g > 0:
        low, high = (yarn.total_g + sign * RANGE_90 * yarn.sd_g for sign in (-1, 1))
        words.append(f"90 % range of the yarn used: {_figure(max(0.0, low), unit)} to {_mass(high, unit)}")
    return words


def _chance(share: float) -> str:
    """`89 %`; near certainty it is no more than a bound: `over 99 %`."""
    return "over 99 %" if share > 0.99 else "under 1 %" if share < 0.01 else f"{fixed(100 * share, 0)} %"


def _figure(value_g: float, unit: str) -> str:
    """A mass as far as an estimate is worth: to a gram or a hundredth of an ounce."""
    return fixed(value_g, 0) if unit == "g" else exact(value_g, unit)


def _mass(value_g: float, unit: str) -> str:
    return f"{fixed(value_g, 0)} g" if unit == "g" else exact_mass(value_g, unit)


def _edge_line(shawl: Shawl, words: str, count: int | None, used_g: float, left_g: float) -> TableRow:
    share = used_g / shawl.yarn.total_g if shawl.yarn.total_g > 0 else 0.0
    unit = shawl.skein.unit
    cells = ("", "" if count is None else f"{count:,}", exact(used_g, unit), percent(share), _on_scale(left_g, unit))
    return TableRow(None, words, cells)


def _on_scale(left_g: float, unit: str) -> str:
    """What the scale shows then, or how much is short."""
    figure = exact(left_g, unit)
    return f"{exact(-left_g, unit)} short" if figure.startswith(MINUS) else figure
