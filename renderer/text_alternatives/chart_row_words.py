"""The rows of a stitch chart in words: what is worked, in working order, like stitches counted together."""

from itertools import groupby

from halfhank.grammar.description import Item
from halfhank.model.instructions.abbreviations import key_abbreviation
from halfhank.model.stitch_counts.appearance import Sign
from halfhank.model.stitches.chart import Chart, ChartRow


def row_words(chart: Chart, row: ChartRow) -> str:
    """`Row 1, right side: k; boxed: yo, k2tog; 3 × k`: the squares of one row in the order in which they are worked."""
    signs = {use.sign: use.wrong_side if row.wrong_side else use.right_side for use in chart.uses}
    cells = row.cells if row.wrong_side else row.cells[::-1]
    inside = [row.box is not None and row.box[0] <= cell.column < row.box[1] for cell in cells]
    stretches = []
    for boxed, group in groupby(zip(inside, cells, strict=True), key=lambda pair: pair[0]):
        worked = ", ".join(_counted(signs, [cell.sign for _, cell in group]))
        stretches.append(f"boxed: {worked}" if boxed else worked)
    side = "wrong" if row.wrong_side else "right"
    return f"Row {row.number}, {side} side: {'; '.join(stretches)}"


def _counted(signs: dict[Sign, tuple[Item, ...]], worked: list[Sign]) -> list[str]:
    """Names of stitches, each with how many follow each other."""
    words = []
    for sign, group in groupby(worked):
        name, count = " or ".join(dict.fromkeys(key_abbreviation(item) for item in signs[sign])), len(list(group))
        words.append(name if count == 1 else f"{count} × {name}")
    return words
