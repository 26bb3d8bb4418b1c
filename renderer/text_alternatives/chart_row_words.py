"""The rows of a stitch chart in words: what is worked, in working order, like stitches counted together."""

from itertools import groupby

from halfhank.grammar.description import Item
from halfhank.model.instructions.abbreviations import key_abbreviation
from halfhank.model.stitch_counts.appearance import Sign
from halfhank.model.stitches.chart import Chart, ChartRow
from halfhank.model.words.drawn_words import phrase


def row_words(chart: Chart, row: ChartRow) -> str:
    """`Row 1, right side: k; boxed: yo, k2tog; 3 × k`: the squares of one row in the order in which they are worked."""
    signs = {use.sign: use.wrong_side if row.wrong_side else use.right_side for use in chart.uses}
    cells = row.cells if row.wrong_side else row.cells[::-1]
    inside = [row.box is not None and row.box[0] <= cell.column < row.box[1] for cell in cells]
    stretches = []
    for boxed, group in groupby(zip(inside, cells, strict=True), key=lambda pair: pair[0]):
        worked = ", ".join(_counted(signs, [cell.sign for _, cell in group]))
        stretches.append(phrase("alt.boxed", stitches=worked) if boxed else worked)
    number, stitches = str(row.number), "; ".join(stretches)
    return phrase("alt.wrong-row" if row.wrong_side else "alt.right-row", row=number, stitches=stitches)


def _counted(signs: dict[Sign, tuple[Item, ...]], worked: list[Sign]) -> list[str]:
    """Names of stitches, each with how many follow each other."""
    words = []
    for sign, group in groupby(worked):
        name, *others = dict.fromkeys(key_abbreviation(item) for item in signs[sign])
        for other in others:
            name = phrase("alt.either", one=name, other=other)
        count = len(list(group))
        words.append(name if count == 1 else phrase("alt.times", count=str(count), stitch=name))
    return words
