"""Rows of later repeats that are not worked as those of the first: told before the knitter comes to them.

A row of a later repeat is worked as the row at the same place of the same band in the first repeat; where that band was
shorter or lay on the other side, as all its rows of that side and pattern row are. Every other row is told here.
"""

from collections.abc import Sequence

from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.parts.row_kinds import KindLine, WordedRow, kind_lines, numbers_of, place_of
from halfhank.model.instructions.parts.row_phrases import ENDS

_FEW = 0.25
"""The share of the rows of a band and side up to which only those that differ are told."""

Side = tuple[str, bool]
"""The name of a band, and whether it is about its wrong-side rows; bands of one name are told of together."""


class LaterRows(NamedTuple):
    """`lines`: the rows that differ. `others`: for bands and sides that are shaped on other rows, all further rows.

    `elsewhere`: the bands and sides that are shaped on other rows.
    """

    lines: tuple[KindLine, ...]
    others: dict[Side, WordedRow]
    elsewhere: frozenset[Side]


def later_rows(
    first: Sequence[WordedRow],
    later: Sequence[WordedRow],
    names: Sequence[str],
    told_apart: frozenset[Side] = frozenset(),
) -> LaterRows:
    """What has to be said of the later repeats of a block, whose first repeat is told; `names`: its bands' in order.

    `told_apart`: bands and sides that are shaped elsewhere in repeats before these, so that all is said of them.
    """
    lines, others, elsewhere = list[WordedRow](), dict[Side, WordedRow](), set[Side]()
    rows = [_as_kin(row, [*first, *later]) for row in later]
    sides: dict[Side, list[WordedRow]] = {}
    for row in rows:
        sides.setdefault((names[row.task.band[1]], row.task.wrong_side), []).append(row)
    for side, own in sides.items():
        differing = [row for row in own if not _follows(row, first)]
        if side not in told_apart and _are_exceptions(differing, own, first):
            lines += differing
            continue
        elsewhere.add(side)
        told, other = _apart(own)
        lines += told
        if other:
            others[side] = other
    return LaterRows(tuple(kind_lines(sorted(lines, key=lambda row: row.row.row))), others, frozenset(elsewhere))


def _are_exceptions(differing: list[WordedRow], own: list[WordedRow], first: Sequence[WordedRow]) -> bool:
    return len(differing) <= _FEW * len(own) or all(_only_reworded(row, first) for row in differing)


def _follows(row: WordedRow, first: Sequence[WordedRow]) -> bool:
    model = _model(row, first)
    return model is not None and _same(row, model)


def _side(row: WordedRow) -> tuple[int, bool]:
    return row.task.band[1], row.task.wrong_side


def _model(row: WordedRow, first: Sequence[WordedRow]) -> WordedRow | None:
    """The row of the first repeat that it is worked as, if nothing else is said."""
    band = [one for one in first if _side(one) == _side(row)]
    at_place = next((one for one in band if place_of(one) == place_of(row)), None)
    if at_place:
        return at_place
    alike = [one for one in band if one.task.pattern_row == row.task.pattern_row]
    return alike[0] if alike and all(_same(one, alike[0]) for one in alike) else None


def _same(row: WordedRow, model: WordedRow) -> bool:
    return row.words.wording == model.words.wording and numbers_of(row) == numbers_of(model)


def _as_kin(row: WordedRow, all_rows: Sequence[WordedRow]) -> WordedRow:
    """A row whose wing is used up, in the words of others that still hold for it: `k2, ssk, knit to the end`."""
    if any(one.place == "wing" for one in row.row.stretches):
        return row
    kin = (one for one in all_rows if _side(one) == _side(row) and one.words.phrases[-1] in ENDS)
    model = next((one for one in kin if _without_wing(one) == _without_wing(row)), None)
    return row._replace(words=model.words) if model else row


def _without_wing(row: WordedRow) -> list[object]:
    """Its shaping and its items, without a wing that lies before its last edge."""
    *before, last = ((one.place, one.items) for one in row.row.stretches)
    return [row.task.shaping, *(before[:-1] if before and before[-1][0] == "wing" else before), last]


def _only_reworded(row: WordedRow, first: Sequence[WordedRow]) -> bool:
    """Whether the same is done as in the model, or as in all rows of its kind, in other words or numbers."""
    model = _model(row, first)
    if model is not None:
        return model.task.shaping == row.task.shaping
    kin = [one for one in first if _side(one) == _side(row)]
    return all(one.task.shaping == row.task.shaping for one in kin)


def _apart(rows: list[WordedRow]) -> tuple[list[WordedRow], WordedRow | None]:
    """The rows to tell one by one, and one of the others: these are the most that are alike and have no shaping."""
    groups: dict[tuple[object, ...], list[WordedRow]] = {}
    for row in rows:
        if not row.task.shaping:
            groups.setdefault((row.words.wording, numbers_of(row)), []).append(row)
    most = max(groups.values(), key=len, default=[])
    if not most:
        return rows, None
    return [row for row in rows if row not in most], most[0]
