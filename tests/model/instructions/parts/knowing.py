"""Works a shawl from its written instructions as a knitter does, row by row, and gives the words of every row."""

from halfhank.model.plan import Plan
from halfhank.model.stitches.pattern import patterns_of

from tests.model.instructions.parts.reading import Band, Line, Part, changes, parts, worded


class Knitter:
    """A knitter in one part: what was told of which row, and what is done to shape it."""

    def __init__(self, plan: Plan, part: Part) -> None:
        self.part = part
        self.lengths = {name: len(one.rows) for name, one in patterns_of(plan.table.measures).items()}
        self.told: dict[int, Line] = {}
        self.begun: dict[int, int] = {}
        for band in self._bands():
            for line in band.lines:
                for row in line.rows:
                    assert row not in self.told, f"row {row} is told twice"
                    self.told[row] = line
            for row in band.rows:
                self.begun[row] = band.rows[0]
        for line in part.extra:
            for row in line.rows:
                assert row not in self.told, f"row {row} is told twice"
                self.told[row] = line
        for block in part.blocks:
            for turn in block.later:
                for rows in turn:
                    self.begun.update(dict.fromkeys(rows, rows[0]))

    def _bands(self) -> list[Band]:
        return [band for block in self.part.blocks for band in block.bands]

    def shaping(self, row: int) -> list[object]:
        """What is done in a row."""
        return sorted(change for line in self.part.shaping if row in line.rows for change in changes(line))

    def rows(self) -> dict[int, str]:
        """The words of all rows, each once."""
        found: dict[int, str] = {}
        for block in self.part.blocks:
            turns = [[band.rows for band in block.bands], *block.later]
            for turn in turns:
                for band, rows in zip(block.bands, turn, strict=True):
                    for row in rows:
                        assert row not in found
                        found[row] = self._words(band, row)
        return found

    def _words(self, band: Band, row: int) -> str:
        """Those told of the row; else, in a later repeat, those of the row at its place in the first, if it is shaped
        alike; else those that most rows like it have."""
        if row in self.told:
            return worded(self.told[row], row)
        first = band.rows[0] + self._place(row)
        if row not in band.rows and first in band.rows and self._like(first, row):
            return self._words(band, first)
        rows = band.models if row in band.rows else [*self._told_in(band), *band.models]
        models = self._phase(band, [one for one in rows if self._like(one, row)], row)
        words = [worded(self.told[one], one) for one in models]
        assert words, f"row {row} of {band.name} is not told"
        assert row not in band.rows or len(set(words)) == 1, f"row {row} of {band.name} is told in two ways"
        return max(words, key=words.count)

    def _told_in(self, band: Band) -> list[int]:
        return [row for row in self.told if row in band.rows]

    def _like(self, model: int, row: int) -> bool:
        return (model - row) % 2 == 0 and self.shaping(model) == self.shaping(row)

    def _place(self, row: int) -> int:
        return row - self.begun[row]

    def _phase(self, band: Band, models: list[int], row: int) -> list[int]:
        """Those of the same row of the stitch pattern."""
        each = next((length for name, length in self.lengths.items() if band.name.startswith(name)), 1)
        return [one for one in models if (self._place(one) - self._place(row)) % each == 0]


def worked_rows(plan: Plan, text: str) -> dict[int, str]:
    """By its number the words of every row."""
    found: dict[int, str] = {}
    for part in parts(text):
        rows = Knitter(plan, part).rows()
        assert sorted(rows) == list(part.rows)
        found |= rows
    return found
