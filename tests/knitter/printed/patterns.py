"""Whether the patterns are in the printed rows: yarn overs, decreases, cables, as many as their repeats have, and the
faces of plain ones.

Which repeats are laid out where is taken from the model; that the rows have them is counted on the needles.
"""

from collections import Counter
from collections.abc import Iterable

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, WholeRow, Work
from halfhank.model.plan import Plan
from halfhank.model.rows.row_table import Rows
from halfhank.model.stitches.fit import PatternRows, fitted, needle_of
from halfhank.model.stitches.pattern import Pattern, PatternRow
from halfhank.model.stitches.worked_rows import levels_of

from tests.knitter.machine import Knit, KnittedRow
from tests.knitter.printed.comparing import Band, bands, may_be_plain

KINDS = {
    "yo": "yo",
    **dict.fromkeys(("k2tog", "ssk", "p2tog", "ssp"), "two together"),
    **dict.fromkeys(("k3tog", "sssk", "p3tog", "sssp", "s2kp", "s2pp", "sk2p"), "three together"),
    **dict.fromkeys(("kfb", "pfb"), "two in one"),
}
"""What a row is made of, whichever way it leans."""


def check_patterns(knitted: Knit, plan: Plan) -> None:
    """Every row of a pattern has what its repeats have, but for a few stitches where it is shaped."""
    for band in bands(plan):
        if band.pattern and levels_of(band.pattern)[0] == levels_of(band.pattern)[-1]:
            _check_band(band, band.pattern, knitted, plan)


WRONG_FACE = {"stockinette": ("purl", "purl"), "garter": ("purl", "knit"), "drop": ("purl", "knit")}
"""Of plain stitches the face that is not theirs, in right-side and in wrong-side rows."""


def check_faces(knitted: Knit, plan: Plan) -> None:
    """Stockinette shows knit on the right side and garter a ridge every two rows, but at the edges and in shaping."""
    for band in bands(plan):
        if band.stitch not in WRONG_FACE:
            continue
        for row in knitted.rows[band.first - 1 : band.last]:
            wrong = row.faces[WRONG_FACE[band.stitch][(row.number + 1) % 2]]
            room = 2 * plan.design.edge.stitches + 3 * shaped(plan.rows, row.number)
            assert wrong <= room, f"row {row.number} ({band.stitch}): {wrong} sts show the other face"


def _check_band(band: Band, pattern: Pattern, knitted: Knit, plan: Plan) -> None:
    size = len(pattern.rows)
    whole = (band.last - band.first + 1) // size * size
    laid = fitted(
        pattern, PatternRows(band.stitch, band.first, band.last, None), needle_of(plan.design, plan.rows), plan.rows
    )
    for number in range(whole):
        repeat, place = divmod(number, size)
        row = knitted.rows[band.first - 1 + number]
        if may_be_plain(row, plan):
            continue
        multiples = [wing[repeat].multiples for wing in laid.wings]
        expected: Counter[str] = Counter()
        for count in filter(None, multiples):
            expected += in_row(pattern, place, count)
        _check_row(row, expected, shaped(plan.rows, row.number), band.stitch)


def shaped(rows: Rows, row: int) -> int:
    """Stitches increased and decreased in a row, at all places."""
    return abs(rows.upper[row]) + abs(rows.lower[row]) + 2 * abs(rows.spine[row]) + abs(rows.evenly[row])


def _check_row(row: KnittedRow, expected: Counter[str], room: int, stitch: str) -> None:
    found: Counter[str] = Counter()
    for name, count in row.shaping.items():
        found[KINDS.get(name, name)] += count
    found["crossed"] = row.crossed
    for kind in (*KINDS.values(), "crossed"):
        least = expected[kind] - (10 if kind == "crossed" else 2) * room
        assert found[kind] >= least, f"row {row.number} ({stitch}): {kind} {found[kind]} times, not {expected[kind]}"


def in_row(pattern: Pattern, place: int, multiples: int) -> Counter[str]:
    """What one row over so many multiples is made of."""
    row: PatternRow = pattern.rows[place]
    across = row.tally.across
    times = (levels_of(pattern)[place].stitches(multiples) - row.tally.outside.taken) // across.taken if across else 0
    return counted(row.items, times)


def counted(items: Iterable[Item], across: int) -> Counter[str]:
    """The same of some items."""
    found: Counter[str] = Counter()
    for item in items:
        match item:
            case Work():
                found[KINDS.get(item.kind, item.kind)] += item.count * (2 if item.twice else 1)
            case Cable(first, second):
                found["crossed"] += first + second
            case WholeRow():
                pass
            case Times(inner, times):
                found += times_of(counted(inner, across), times)
            case Across(inner):
                found += times_of(counted(inner, across), across)
            case InOne(inner):
                found += counted(inner, across)
    return found


def times_of(found: Counter[str], times: int) -> Counter[str]:
    """So many times as much."""
    return Counter({name: count * times for name, count in found.items()})
