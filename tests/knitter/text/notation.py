"""The working notation: `k3, m1r, [yo, k2tog] 14 times, k3` read into items, with the terms that it uses."""

import re
from collections.abc import Callable, Iterator

from tests.knitter.refusal import RefusedError, needed
from tests.knitter.text.items import (
    COUNTED,
    LIFTED,
    MEANINGS,
    BindOff,
    Cable,
    CastOn,
    DropWraps,
    Group,
    InPlace,
    Item,
    Items,
    Lift,
    Over,
    PassOver,
    Slip,
    SlipBack,
    WholeRow,
    Work,
    WorkIn,
)

NUMBER = r"([1-9]\d*)"
BARE = "|".join(sorted((name for name in MEANINGS if name not in COUNTED), key=len, reverse=True))
Used = set[str]
Builder = Callable[[re.Match[str], Used], Item]


def read_items(text: str, used: Used) -> Items:
    """The items of one line in working order; their terms are added to `used`."""
    items = tuple(_item(part, used) for part in _parts(text))
    others = [item for item in items if not isinstance(item, WholeRow | DropWraps)]
    whole = [item for item in items if isinstance(item, WholeRow)]
    needed(not whole or (len(whole) == 1 and not others), f"`{text}`: a whole row stands alone")
    return items


def _parts(text: str) -> Iterator[str]:
    """What stands between the commas that are outside all brackets."""
    depth, part = 0, ""
    for sign in text:
        depth += {"[": 1, "]": -1}.get(sign, 0)
        needed(depth >= 0, f"a bracket is closed that was not opened: `{text}`")
        if sign == "," and not depth:
            yield part
            part = ""
        else:
            part += sign
    needed(depth == 0, f"a bracket is not closed: `{text}`")
    yield part


def _item(part: str, used: Used) -> Item:
    text = part.strip()
    needed(part in (text, f" {text}"), f"commas are followed by one space: `{part}`")
    bracket = re.fullmatch(rf"\[(.+)\] (?:{NUMBER} (times|time)|in {NUMBER})", text)
    if bracket:
        return _bracket(bracket, used)
    for pattern, build in _FORMS:
        found = re.fullmatch(pattern, text)
        if found:
            return build(found, used)
    raise RefusedError(f"`{text}` is no item")


def _bracket(found: re.Match[str], used: Used) -> Item:
    inner, times, word, stitches = found.groups()
    items = read_items(inner, used)
    needed(not any(isinstance(item, WholeRow) for item in items), f"a whole row in brackets: `{inner}`")
    if times:
        used.add("[ ] N times")
        needed((word == "time") == (times == "1"), f"{times} {word}")
        return Group(items, int(times))
    used.add("[ ] in N")
    needed(all(map(_is_plain, items)), f"only k, p and yo are worked into the same stitches, not `{inner}`")
    return InPlace(items, int(stitches))


def _is_plain(item: Item) -> bool:
    if isinstance(item, Group):
        return all(map(_is_plain, item.items))
    return isinstance(item, Over) or (isinstance(item, Work) and item.name in ("k", "p"))


def _work(found: re.Match[str], used: Used) -> Item:
    name, count, tbl, wraps = found["name"], found["count"], found["tbl"], found["wraps"]
    used.update({name}, {"tbl"} if tbl else (), {"with N wraps"} if wraps else ())
    needed(wraps != "1", "1 wrap is no extra wrap")
    return Work(name, int(count or 1), int(wraps or 1))


def _slip(found: re.Match[str], used: Used) -> Item:
    used.update({"sl"}, {"wyif"} if found[2] else ())
    return Slip(int(found[1]))


def _over(found: re.Match[str], used: Used) -> Item:
    used.update({"yo"}, {"twice"} if found[1] else ())
    return Over(2 if found[1] else 1)


def _lift(found: re.Match[str], used: Used) -> Item:
    used.add(found[0])
    return Lift(found[0])


def _cable(found: re.Match[str], used: Used) -> Item:
    used.add(found[0])
    return Cable(int(found[1]), int(found[2]), found[3])


def _cast_on(found: re.Match[str], used: Used) -> Item:
    used.add("cast on N to the left needle" if found[2] else "cast on N")
    return CastOn(int(found[1]), bool(found[2]))


def _work_in(found: re.Match[str], used: Used) -> Item:
    used.add("work N in NAME")
    return WorkIn(int(found[1]), found[2])


def _term(term: str, build: Callable[[re.Match[str]], Item]) -> Builder:
    def builder(found: re.Match[str], used: Used) -> Item:
        used.add(term)
        return build(found)

    return builder


_TAIL = rf"(?P<tbl> tbl)?(?: with (?P<wraps>{NUMBER}) wraps?)?"
_FORMS: tuple[tuple[str, Builder], ...] = (
    (rf"(?P<name>[kp])(?P<count>{NUMBER}){_TAIL}", _work),
    (rf"(?P<name>{BARE})(?P<count>){_TAIL}", _work),
    (rf"sl{NUMBER}( wyif)?", _slip),
    (rf"sl{NUMBER} back", _term("slN back", lambda found: SlipBack(int(found[1])))),
    (r"yo( twice)?", _over),
    ("|".join(LIFTED), _lift),
    (rf"{NUMBER}/{NUMBER} (rc|lc)", _cable),
    (r"knit|purl", _term("whole row", lambda found: WholeRow(found[0]))),
    (rf"bind off {NUMBER}", _term("bind off N", lambda found: BindOff(int(found[1])))),
    (rf"cast on {NUMBER}( to the left needle)?", _cast_on),
    (r"drop wraps", _term("drop wraps", lambda found: DropWraps())),
    (r"pass over", _term("pass over", lambda found: PassOver())),
    (rf"work {NUMBER} in (\S+)", _work_in),
)
