"""Works a shawl from its written instructions as a knitter does, row by row, and gives the words of every row."""

from halfhank.model.plan import Plan
from halfhank.model.stitches.pattern import patterns_of

from tests.model.instructions.parts.reading import Band, Block, Line, parts, worded


class Knitter:
    """A knitter in one block of bands: what is told of which row, and where each band begins.

    The numbers of shaped rows at the head of a part are for information: no row is worked by them.
    """

    def __init__(self, plan: Plan, block: Block) -> None:
        self.block = block
        self.lengths = {name: len(one.rows) for name, one in patterns_of(plan.table.measures).items()}
        self.told: dict[int, Line] = {}
        for line in [*(line for band in block.bands for line in band.lines), *block.extra]:
            for row in line.rows:
                assert row not in self.told, f"row {row} is told twice"
                self.told[row] = line

    def rows(self) -> dict[int, str]:
        """The words of all rows, each once."""
        found: dict[int, str] = {}
        for turn in [[band.rows for band in self.block.bands], *self.block.later]:
            for band, rows in zip(self.block.bands, turn, strict=True):
                for row in rows:
                    assert row not in found
                    found[row] = self._words(band, rows[0], row)
        assert {*self.told} <= {*found}
        return found

    def _words(self, band: Band, begun: int, row: int) -> str:
        """Those told of the row, or of all others of its band and side; else those of the row at its place in the first
        repeat; else those that all rows of its band there have that are on its side and of its row of the pattern."""
        if row in self.told:
            return worded(self.told[row], row)
        assert row not in band.rows, f"row {row} of {band.name} is not told"
        others = self.block.others.get(("RS" if row % 2 else "WS", band.name))
        if others:
            return others
        at_place = band.rows[0] + row - begun
        if at_place in band.rows and (at_place - row) % 2 == 0:
            return worded(self.told[at_place], at_place)
        each = self._pattern_rows(band)
        alike = [one for one in band.rows if (one - row) % 2 == 0 and (one - at_place) % each == 0]
        words = {worded(self.told[one], one) for one in alike}
        assert len(words) == 1, f"row {row} of {band.name} is not told, or in two ways: {words}"
        return words.pop()

    def _pattern_rows(self, band: Band) -> int:
        return next((length for name, length in self.lengths.items() if band.name.startswith(name)), 1)


def worked_rows(plan: Plan, text: str) -> dict[int, str]:
    """By its number the words of every row."""
    found: dict[int, str] = {}
    for part in parts(text):
        rows = [row for block in part.blocks for row in Knitter(plan, block).rows().items()]
        assert [row for row, _ in rows] == list(part.rows)
        found |= dict(rows)
    return found


def worked_past(plan: Plan, text: str) -> dict[int, str]:
    """By its number the words of every row past the plan."""
    found: dict[int, str] = {}
    for block in (block for part in parts(text) for block in part.blocks):
        for past in block.past:
            if past.later[0]:
                whole = past._replace(bands=block.bands)
                first = {row for band in block.bands for row in band.rows}
                rows = Knitter(plan, whole).rows()
                found |= {row: words for row, words in rows.items() if row not in first}
            else:
                found |= {row: worded(line, row) for line in past.extra for row in line.rows}
    return found
