"""Sets of rows in words: `Row 1 and every RS row to row 27`, in place of a list of fourteen."""

from collections.abc import Sequence
from itertools import pairwise

from halfhank.grammar.record import NamedTuple
from halfhank.model.report_tree import Content, content, joined, row_number
from halfhank.model.words.catalogue import ordinal, said, say

_LEAST, _LEAST_TOGETHER = 4, 3
"""Rows at equal distances, and neighbouring rows, from so many on are said by the first and the last of them."""
_MOST_GROUPS, _FEW = 3, 0.4
"""A series with gaps is said as the whole of it without these, if it would be more groups and its gaps are few."""


class Progression(NamedTuple):
    """Rows from `first` to `last`, every `step` of them; a single row has the step 0."""

    first: int
    step: int
    last: int


def progressions(rows: Sequence[int]) -> list[Progression]:
    """Ascending rows as few progressions, in order; what is in none stands alone."""
    found, at = list[Progression](), 0
    while at < len(rows):
        end = at + 1
        step = rows[end] - rows[at] if end < len(rows) else 0
        while end < len(rows) and rows[end] - rows[end - 1] == step:
            end += 1
        if end - at >= (_LEAST_TOGETHER if step == 1 else _LEAST):
            found.append(Progression(rows[at], step, rows[end - 1]))
            at = end
        else:
            found.append(Progression(rows[at], 0, rows[at]))
            at += 1
    return found


def rows_words(rows: Sequence[int], inside: bool = False) -> Content:
    """The rows in words that begin a sentence, or stand `inside` one; before, the side is named if they have one."""
    left_out = _left_out(rows)
    if left_out:
        whole = sorted({*rows, *left_out})
        return say("rows.but", rows=rows_words(whole, inside), others=rows_words(left_out, inside=True))
    groups = list[list[Progression]]()
    for one in progressions(rows):
        if groups and not one.step and not groups[-1][0].step:
            groups[-1].append(one)
        else:
            groups.append([one])
    told = [_group(group, rows, inside) for group in groups]
    first, *others = told
    return joined(", ", [first if inside else _capital(first), *others])


def _left_out(rows: Sequence[int]) -> list[int]:
    """The rows that a long series at equal distances does not have, if these are few beside it."""
    if len(progressions(rows)) <= _MOST_GROUPS:
        return []
    step = min(after - before for before, after in pairwise(rows))
    missing = sorted({*range(rows[0], rows[-1] + 1, step)} - {*rows})
    whole = len(rows) + len(missing) == len(range(rows[0], rows[-1] + 1, step))
    return missing if whole and len(missing) <= len(rows) * _FEW else []


def _group(group: list[Progression], rows: Sequence[int], inside: bool) -> Content:
    one = group[0]
    if one.step == 0:
        return content(_singles([single.first for single in group]), "" if inside else _side(rows))
    first, last = row_number(one.first), row_number(one.last)
    if one.step == 1:
        return say("rows.from-to", first=first, last=last)
    if one.step == 2:
        return say("rows.every-right" if one.first % 2 else "rows.every-wrong", first=first, last=last)
    return content(say("rows.every", first=first, last=last, ordinal=ordinal(one.step)))


def _singles(rows: Sequence[int]) -> Content:
    numbers = [(row_number(row),) for row in rows]
    if len(rows) == 1:
        return say("rows.one", row=numbers[0])
    return say("rows.listed", rows=joined(", ", numbers[:-1]), last=numbers[-1])


def _side(rows: Sequence[int]) -> str:
    sides = {row % 2 for row in rows}
    if len(sides) > 1:
        return ""
    return " " + said("rows.right-side" if sides == {1} else "rows.wrong-side")


def _capital(text: Content) -> Content:
    first, *rest = text
    return (first[:1].upper() + first[1:], *rest) if isinstance(first, str) else text
