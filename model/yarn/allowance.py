"""`as yarn allows`: the largest count with enough yarn, for which every smaller one can be worked with enough yarn.

Each count tried is calculated exactly, but most are skipped. From one count to the next the live stitches of a row,
compared at the same place of the work, change by no more than the lines can add in the added rows. While the rest of
the skein is enough for what that can add, the counts between need not be tried. If the lines give no such bound, every
count is tried.
"""

from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import count_rows, has_allowance, open_piece, total_rows
from halfhank.model.design.design import AnyBand, Band, Elongated, ShapingLine
from halfhank.model.number_words import mass_words
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.sections import MAX_ROWS
from halfhank.model.rows.shaping import BIND_OFF, INCREASE, MAX_STITCHES, ActiveLines, active_lines, change_of, due
from halfhank.model.start_and_bind_off.bind_offs import BIND_OFF_STITCH
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.supply import YarnSupply
from halfhank.model.yarn.trials import Trial, Trials
from halfhank.model.yarn.uncertainty import BIND_OFF_ERROR

BACK_ACTS = 3
"""By how many uses of a line a row of the second half may differ between counts, counted from the part's end."""


class Increment(NamedTuple):
    """What one more count can change at most.

    `rows`: rows added. `up`, `down`: live stitches of any row (`down` 0 where no line takes any away). `jitter_up`,
    `jitter_down`: those of rows after the growing part besides, however many counts. `off`: stitches bound off on the
    way. `swing_up`, `swing_down`: stitches that all lines on one row add, or take away. `sure`: whether all this holds.
    """

    rows: int
    up: int
    down: int
    jitter_up: int
    jitter_down: int
    off: int
    swing_up: int
    swing_down: int
    sure: bool


def allowance(yarn: RowYarn, supply: YarnSupply) -> tuple[int, list[Problem]]:
    """The count of `as yarn allows`, and the problems found on the way.

    That is a mistake where the count is 0, advice where something else than the yarn ends it.
    """
    piece = open_piece(yarn.table.design)
    assert piece is not None
    cap, span = _most_within_rows(yarn), piece.span
    over = known.TOO_MANY_ROWS_AS_YARN_ALLOWS.at(span, most=MAX_ROWS)
    if cap == 0:
        return 0, [over]
    trials = Trials(yarn)
    count = 0
    while count < cap:
        trial = trials.try_count(count + 1)
        if isinstance(trial, Problem):
            return count, [_not_by_yarn(trial, count, span)]
        if not supply.pays(trial.total_m):
            return count, [] if count else [_too_dear(trial, supply, span)]
        count += 1
        count += _stride(trials, trial, supply, count, cap)
    return count, [_not_by_yarn(over, count, span)]


def _too_dear(trial: Trial, supply: YarnSupply, span: Span) -> Problem:
    needed = mass_words(trial.total_m / supply.metres_per_gram, supply.unit)
    there = mass_words(supply.skein_g - supply.margin_g, supply.unit)
    return known.YARN_TOO_SHORT.at(span, needed=needed, there=there)


def _not_by_yarn(problem: Problem, count: int, span: Span) -> Problem:
    """The problem itself where not even one can be worked, else advice that it sets the count."""
    if count == 0:
        return problem
    return known.NOT_BY_YARN.at(span, count=count, reason=problem.message)


def _most_within_rows(yarn: RowYarn) -> int:
    """The largest count within the row cap."""
    low, high = 0, MAX_ROWS
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if total_rows(yarn.table.design, middle) <= MAX_ROWS else (low, middle - 1)
    return low


# Passing counts over.


def _stride(trials: Trials, at: Trial, supply: YarnSupply, count: int, cap: int) -> int:
    """How many counts after this one can certainly be worked with enough yarn."""
    step = step_of(trials, count)
    if not step.sure:
        return 0
    left_m = supply.budget_m - at.total_m
    low, high = 0, cap - count
    while low < high:
        middle = (low + high + 1) // 2
        safe = _most_added_m(trials, step, at, middle) <= left_m and _stays_workable(step, at, middle)
        low, high = (middle, high) if safe else (low, middle - 1)
    while low and trials.grown(count + low)[1]:
        low //= 2
    return low


def _most_added_m(trials: Trials, step: Increment, at: Trial, more: int) -> float:
    """The most yarn that so many more counts can add."""
    dearest_m, filled_m, last_m = trials.dearest()
    rise = step.up * more
    refilled = at.rows if step.up or step.down else at.rows_after if step.jitter_up else 0
    shifted_m = (at.rows * rise + at.rows_after * step.jitter_up) * dearest_m + refilled * filled_m
    added_m = more * step.rows * (at.most_grown + rise + step.jitter_up) * dearest_m
    off_m = more * step.off * BIND_OFF_STITCH * trials.table.plain_m(BIND_OFF_ERROR)
    return shifted_m + added_m + off_m + (rise + step.jitter_up) * last_m


def _stays_workable(step: Increment, at: Trial, more: int) -> bool:
    """Whether no row can leave the bounds, even between two lines that act on it."""
    rise, fall = step.up * more + step.jitter_up, step.down * more + step.jitter_down
    if rise > at.above or fall > at.below:
        return False
    fits = at.most + rise + step.swing_up <= MAX_STITCHES
    return fits and (fall == 0 or at.least - fall - step.swing_down >= 1)


def step_of(trials: Trials, count: int) -> Increment:
    """What one more can change at most, now and for every count after this one.

    Rows are compared at the same place of the work, in the mirrored second half counted from the end of the part. Lines
    that continue are used at most once more for every K rows added. If the shape's lines continue after a part with
    its own, that part may have one use more or less. In the second half a line's uses move by up to K + 1 rows.
    """
    design = trials.design
    active = [active_lines(design, part) for part in design.parts[trials.index :]]
    rows = _rows_added(trials.part.bands)
    again = sum(not later.own and any(one.own for one in active[:k]) for k, later in enumerate(active))
    up = down = off = 0
    growing = set(active[0].lines) - trials.stopped_lines(count)
    for line in {line: None for force in active for line in force.lines}:
        acts = -(-rows // line.every) if line.every else 1
        gain = _size(line) * acts if line in growing else 0
        loose = _size(line) * (acts + 1) * again if line in design.lines else 0
        up += loose + (gain if line.action == INCREASE else 0)
        down += loose + (gain if line.action != INCREASE else 0)
        off += loose + gain if line.action == BIND_OFF else 0
    lines = [line for force in active for line in force.lines]
    swing_up = sum(_size(line) for line in lines if line.action == INCREASE)
    swing_down = sum(_size(line) for line in lines if line.action != INCREASE)
    stopping = _stopping(trials, active, again > 0)
    jitter = stopping + _turning(trials)
    times = 2 if trials.index < design.turned_parts else 1
    falls = any(line.action != INCREASE for part in design.parts for line in active_lines(design, part).lines)
    down, jitter_down = (down, jitter) if falls else (0, 0)
    sure = _is_sure(trials, active, again > 0, trials.still_rows(count))
    return Increment(rows * times, up, down, jitter, jitter_down, off, swing_up, swing_down, sure)


def _size(line: ShapingLine) -> int:
    """The most stitches that one act of a line moves."""
    if line.evenly_to is None:
        return abs(change_of(line, 0))
    return line.evenly_to if line.action == INCREASE else MAX_STITCHES


def _stopping(trials: Trials, active: list[ActiveLines], again: bool) -> int:
    """Stitches that lines with `until` in later parts give or do not give, by where the count before leaves them."""
    total = 0
    for section, force in zip(trials.after, active[1:], strict=True):
        for line in force.lines:
            if line.until is not None and (force.own or again):
                most = section.rows // (line.every or section.rows) + 1
                total += _size(line) * (len(due(line, 0, section.rows)) if force.own else most)
    return total


def _turning(trials: Trials) -> int:
    """Stitches by which rows of the mirrored second half may differ."""
    design = trials.design
    if not design.turns_back:
        return 0
    lines = [line for part in design.parts for line in active_lines(design, part).lines]
    return BACK_ACTS * sum(_size(line) for line in lines)


def _is_sure(trials: Trials, active: list[ActiveLines], again: bool, still: int) -> bool:
    """Whether every `evenly to` is done before rows are added, or is in a later part's own lines."""
    for later, force in enumerate(active):
        before = 0 if force.own else trials.state.rows
        for line in force.lines:
            if line.evenly_to is not None and not (force.own and later) and line.from_row > before + still:
                return False
            if line.evenly_to is not None and not force.own and again:
                return False
    return True


def _rows_added(bands: tuple[AnyBand, ...]) -> int:
    """The most rows that one more count adds to its part."""
    total = 0
    for band in bands:
        if isinstance(band, Elongated) or not has_allowance((band,)):
            continue
        if isinstance(band, Band):
            total += band.step_rows
        elif band.times is None:
            total += _most_rows(band.bands)
        else:
            total += band.times * _rows_added(band.bands)
    return total


def _most_rows(bands: tuple[AnyBand, ...]) -> int:
    """The most rows of one pass through bands, lists at their largest value."""
    return sum(max(band.rows) if isinstance(band, Band) else count_rows((band,), 0) for band in bands)
