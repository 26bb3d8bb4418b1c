"""Working notation: a row's items out of its tree."""

import re

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, WholeRow, Work, WrittenRow
from halfhank.grammar.items import ITEMS, WHOLE_ROWS, ItemKind
from halfhank.grammar.lines.synonyms import SYNONYMS
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.problems.spelling import nearest
from halfhank.grammar.reading.parse_context import Branch, ParseContext
from halfhank.grammar.reading.values import MAX_NUMBER, branch, branches, count, word
from lark import Token

MAX_BRACKETS = 50
MAX_ROW_NUMBER = 20_000
MAX_ROWS_WRITTEN = 10 * MAX_ROW_NUMBER
MODIFIERS = ("tbl", "wyif", "twice")
_NUMBERED = {"bound_off": "bind off", "cast_on_here": "cast on"}
_OTHERWISE = {
    "wyib": "remove it: the yarn is at the back where nothing is said",
    "psso": "write `sk2p` for slip 1, knit 2 together, pass over, or `s2kp` for slip 2, knit 1, pass over",
}
_OTHERWISE |= dict.fromkeys(("st", "sts", "stitch", "stitches"), "remove it: the number is of stitches")
_OTHERWISE |= dict.fromkeys(("tog", "together"), "write it without spaces, as in `k2tog`")
_OTHERWISE |= dict.fromkeys(("bo", "bindoff"), "write `bind off` with its number, as in `bind off 3`")
_OTHERWISE |= dict.fromkeys(("co", "caston"), "write `cast on` with its number, as in `cast on 3`")
_OTHERWISE["p2sso"] = _OTHERWISE["psso"]


def written_row(context: ParseContext, tree: Branch, span: Span) -> WrittenRow:
    """One line of a stitch's rows."""
    numbers: list[int] = []
    for entry in branches(tree):
        if entry.data == "rownumber":
            numbers += _numbers(context, entry)
    notation = branch(tree, len(tree.children) - 1)
    return WrittenRow(tuple(numbers), _row(context, notation), span)


def _numbers(context: ParseContext, entry: Branch) -> list[int]:
    ends = list(branches(entry))
    first = count(context, ends[0], listed=True)
    last = count(context, ends[1], listed=True) if len(ends) > 1 else first
    if last > MAX_ROW_NUMBER or context.rows_written > MAX_ROWS_WRITTEN:
        context.report(known.ROW_TOO_HIGH.at(context.span(ends[-1]), most=MAX_ROW_NUMBER))
        return []
    if first > last:
        context.report(known.ROWS_BACKWARDS.at(context.span(entry), first=first, last=last))
        return []
    context.rows_written += last - first + 1
    return list(range(first, last + 1))


def _row(context: ParseContext, notation: Branch) -> tuple[Item, ...]:
    items = list(branches(notation))
    dropped: tuple[Item, ...] = ()
    if items[0].data == "drop_wraps":
        dropped = (_plain("drop wraps", 1, context.span(items.pop(0))),)
    if len(items) == 1 and _is_whole(items[0]):
        return (*dropped, WholeRow(word(items[0], 0), context.span(items[0])))
    reader = _Items(context)
    return (*dropped, *(reader.item(item, 0) for item in items))


def _is_whole(tree: Branch) -> bool:
    return tree.data == "work" and tree.children[0] in WHOLE_ROWS and len(tree.children) == 1


class _Items:
    """Reads the items of one row; `across` is the place of its part worked across."""

    def __init__(self, context: ParseContext) -> None:
        self._context = context
        self._across: Span | None = None

    def item(self, tree: Branch, depth: int) -> Item:
        span = self._context.span(tree)
        if tree.data == "work":
            return self._work(tree, span)
        if tree.data == "cable":
            return self._cable(tree, span)
        if tree.data in _NUMBERED:
            return _plain(_NUMBERED[tree.data], count(self._context, branch(tree, len(tree.children) - 1)), span)
        if tree.data == "drop_wraps":
            self._context.report(known.MISPLACED_ITEM.at(span))
            return _plain("drop wraps", 1, span)
        if depth >= MAX_BRACKETS:
            self._context.report(known.BRACKETS_TOO_DEEP.at(span, most=MAX_BRACKETS))
            return Times((), 1, span)
        if tree.data == "across":
            return self._worked_across(tree, span, depth)
        parts = list(branches(tree))
        inner = tuple(self.item(part, depth + 1) for part in parts[:-1])
        number = count(self._context, parts[-1])
        return InOne(inner, number, span) if tree.data == "in_one" else Times(inner, number, span)

    def _worked_across(self, tree: Branch, span: Span, depth: int) -> Across:
        if depth:
            self._context.report(known.ACROSS_IN_BRACKETS.at(span))
        elif self._across:
            self._context.report(known.SECOND_ACROSS.at(span))
        self._across = span
        return Across(tuple(self.item(part, depth) for part in branches(tree)), span)

    def _cable(self, tree: Branch, span: Span) -> Cable:
        first, second = (int(number) if len(number) < 6 else MAX_NUMBER for number in word(tree, 0).split("/"))
        if not first or not second:
            self._context.report(known.ZERO_NUMBER_IN_CABLE.at(span))
        elif max(first, second) > MAX_ROW_NUMBER:
            self._context.report(known.NUMBER_TOO_LARGE_IN_CABLE.at(span))
        return Cable(first, second, word(tree, 1), span)

    def _work(self, tree: Branch, span: Span) -> Work:
        token = tree.children[0]
        assert isinstance(token, Token)
        before = len(self._context.problems)
        kind, number = self._kind(token)
        work = _plain(kind, number, span)
        if before < len(self._context.problems):
            return work
        for modifier in branches(tree):
            work = self._modified(work, modifier, token)
        return work

    def _kind(self, token: Token) -> tuple[str, int]:
        written, span = str(token), self._context.span(token)
        if written in ITEMS:
            return written, 1
        kind, digits = _counted(written)
        if digits:
            number = int(digits) if len(digits) < 10 else MAX_NUMBER + 1
            if number == 0 or number > MAX_NUMBER:
                fault = known.ZERO_NUMBER_OF_STITCHES if number == 0 else known.NUMBER_TOO_LARGE_OF_STITCHES
                self._context.report(fault.at(span))
            return kind, number
        if written in WHOLE_ROWS:
            self._context.report(known.WHOLE_ROW_WORD.at(span, word=written, item=written[0]))
            return written[0], 1
        if written in MODIFIERS:
            self._context.report(known.MISPLACED_MODIFIER_ALONE.at(span, word=written))
            return "k", 1
        self._context.report(_unknown(written, span))
        return "k", 1

    def _modified(self, work: Work, modifier: Branch, token: Token) -> Work:
        kind, modified = ITEMS[work.kind], modifier.data
        if not _takes(kind, modified):
            shown = "with … wraps" if modified == "wraps" else modified
            item, place = str(token), self._context.span(modifier)
            twice = item if modified == "twice" else None
            self._context.report(known.MISPLACED_MODIFIER.at(place, item=item, modifier=shown, twice=twice))
        if modified == "wraps":
            return work._replace(wraps=count(self._context, branch(modifier, 0)))
        if modified == "tbl":
            return work._replace(tbl=True)
        return work._replace(wyif=True) if modified == "wyif" else work._replace(twice=True)


def _plain(kind: str, number: int, span: Span) -> Work:
    return Work(kind, number, False, False, 1, False, span)


def _counted(written: str) -> tuple[str, str]:
    """The item and the digits of `k5`; no digits where the word is no item with a number."""
    kind = written.rstrip("0123456789")
    return (kind, written[len(kind) :]) if kind in ITEMS and ITEMS[kind].counted else (written, "")


def _takes(kind: ItemKind, modifier: str) -> bool:
    return {"tbl": kind.tbl, "wyif": kind.wyif, "twice": kind.twice, "wraps": kind.wraps}[modifier]


def _unknown(written: str, span: Span) -> Problem:
    """The problem of a word that is no item: a term that the language does not know, or else with what is meant."""
    from halfhank.grammar.lines.unknown_terms import unknown_term

    term = unknown_term(written)
    if term:
        return known.UNKNOWN_ITEM_NOT_KNOWN.at(span, term=term.name, mend=term.instead)
    return known.UNKNOWN_ITEM.at(span, item=written, mend=_item_hint(written))


def _item_hint(written: str) -> str | None:
    lower = written.lower()
    if lower in _OTHERWISE:
        return _OTHERWISE[lower]
    from halfhank.grammar.lines.trade_rows import item_of_trade

    if item_of_trade(lower) != lower:
        return f"write `{item_of_trade(lower)}`"
    if lower in ITEMS or _counted(lower)[1]:
        return f"write `{lower}`"
    through = re.fullmatch("([kp][0-9]*(?:tog)?)-?tbl", lower)
    if through and (through[1] in ITEMS or _counted(through[1])[1]):
        return f"write `{through[1]} tbl`"
    found = re.fullmatch(r"([a-z0-9]*[a-z])([0-9]+)", lower)
    if found and found[1] in ITEMS:
        times = "yo twice" if lower == "yo2" else f"[{found[1]}] {found[2]} times"
        return f"write `{times}`"
    single = [name for name, kind in ITEMS.items() if not kind.numbered]
    near = nearest(lower, (*single, *WHOLE_ROWS, *MODIFIERS))
    meant = (near,) if near else SYNONYMS.get(lower, ())
    return f"write `{meant[0]}`" if len(meant) == 1 else None
