"""The marks of a shawl by brute force: every row that could bear one is tried with a whole shawl of its own."""

from tests.pipe.random_shawls.spec import Band, Spec
from tests.pipe.reference.worked import MOST_ROWS, Worked, bind_off_m, budget_m, work


def halfway(worked: Worked) -> int | None:
    """The first row after which half of all the yarn is used."""
    return next((row for row, used in enumerate(worked.used_m) if row and used >= worked.total_m / 2), None)


def falls_last(worked: Worked) -> bool:
    """Whether the last part ends with fewer stitches than it began with."""
    rows = sum(step.part == worked.steps[-1].part for step in worked.steps)
    return worked.stitches[-1] < worked.stitches[-1 - rows]


def last_bind_off(spec: Spec, worked: Worked) -> int | None:
    """The last even row from which the bind-off is paid, going on in the last band's stitch where the end leaves yarn.

    0: not even after row 2. None where the rules leave it open here: a turn, an elongated end, a last part that
    narrows, odd endings.
    """
    steps = list(worked.steps)
    last = spec.parts[-1].bands[-1]
    if spec.turn_back is not None or steps[-1].stitch == "drop" or falls_last(worked) or not isinstance(last, Band):
        return None
    best = 0
    for row in range(2, len(steps) + 1, 2):
        if worked.used_m[row] + bind_off_m(spec, worked.stitches[row], steps[row - 1]) <= budget_m(spec):
            best = row
    if best < len(steps) - 1:
        return best
    return going_on(spec, worked, best)


def going_on(spec: Spec, worked: Worked, best: int) -> int | None:
    """`last_bind_off` beyond the planned end: the last part's last band is made longer until the yarn is out."""
    last, planned = spec.parts[-1], len(worked.steps)
    for more in range(1 + (planned + 1) % 2, MOST_ROWS, 2):
        longer = Band(worked.steps[-1].stitch, (more,), "rows")
        parts = (*spec.parts[:-1], last._replace(bands=(*last.bands, longer)))
        tried = work(spec._replace(parts=parts), worked.allowed or 0)
        if tried is None:
            return None
        assert len(tried.steps) == planned + more
        if tried.total_m > budget_m(spec):
            return best
        best = planned + more
    return best


def last_turn(spec: Spec, worked: Worked) -> int | None:
    """The last even row of the growing half at which the work can turn and still be finished within the skein."""
    out = len(spec.parts) - (1 if spec.turn_back else 0)
    growing = sum(step.part < out for step in worked.steps)
    best = None
    for row in range(2, growing + 1, 2):
        tried = work(spec, worked.allowed or 0, turned_after=row)
        if tried is None or tried.total_m > budget_m(spec):
            break
        best = row
    return best
