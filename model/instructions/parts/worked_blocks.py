"""The bands of a part where they are worked: alone, or as the repeats of a block, each with its rows."""

from collections.abc import Iterator

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Band, Repeat
from halfhank.model.plan import Plan
from halfhank.model.rows.sections import Run, runs_of
from halfhank.model.rows.shaping import WorkedPart


class PlacedRun(NamedTuple):
    """One band as worked, from its first row to its last."""

    run: Run
    first_row: int
    last_row: int

    @property
    def rows(self) -> range:
        """Its rows."""
        return range(self.first_row, self.last_row + 1)


class Turn(NamedTuple):
    """Once through a block."""

    runs: tuple[PlacedRun, ...]

    @property
    def first_row(self) -> int:
        """Its first row."""
        return self.runs[0].first_row

    @property
    def last_row(self) -> int:
        """Its last row."""
        return self.runs[-1].last_row


class BandBlock(NamedTuple):
    """A repeat with all its turns, or a band alone, which has one.

    `number`: its place among the design's bands and repeats. `by_yarn`: the yarn sets how much is worked. `back`: it is
    one of the mirrored second half.
    """

    number: int
    repeated: bool
    by_yarn: bool
    back: bool
    turns: tuple[Turn, ...]


def blocks_of(plan: Plan, part: WorkedPart) -> list[BandBlock]:
    """All of a part in working order; in a mirrored one the last turn is worked first."""
    blocks, row = list[BandBlock](), part.first_row
    for number, repeated, by_yarn, turns in _written(plan, part):
        placed = list[Turn]()
        for runs in turns:
            found = list[PlacedRun]()
            for run in runs:
                found.append(PlacedRun(run, row, row + run.rows - 1))
                row += run.rows
            placed.append(Turn(tuple(found)))
        blocks.append(BandBlock(number, repeated, by_yarn, part.section.mirrored, tuple(placed)))
    return blocks


def _written(plan: Plan, part: WorkedPart) -> Iterator[tuple[int, bool, bool, list[list[Run]]]]:
    """The number of each, whether it is repeated, whether the yarn sets its rows, and the runs of each turn.

    Those without rows are left out.
    """
    allowed, step = plan.shawl.allowed or 0, -1 if part.section.mirrored else 1
    for band in plan.design.parts[part.section.part].bands[::step]:
        times = 1
        if isinstance(band, Repeat):
            times = allowed if band.times is None else band.times
        pieces = band.bands if isinstance(band, Repeat) else (band,)
        turns = [[run for run in runs_of(pieces, allowed, turn) if run.rows][::step] for turn in range(times)][::step]
        turns = [turn for turn in turns if turn]
        by_yarn = isinstance(band, Band | Repeat) and band.as_yarn_allows
        if turns:
            yield band.number, isinstance(band, Repeat), by_yarn, turns
