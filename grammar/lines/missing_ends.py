"""What a line that ends too early lacks: a unit, the partner of a sign, or more.

Loaded only once a line has a mistake of grammar.
"""

import re

from halfhank.grammar.lines.trade_phrases import US_NEEDLES_MM

_LENGTHS, _MASSES = ("cm", "in", "m", "mm", "yd"), ("g", "oz")
# The units that fit behind the last of these words in a line.
_UNITS_BEHIND: dict[str, tuple[str, ...]] = {
    "needles": ("mm",),
    "skein": ("g", "m", "oz", "yd"),
    "keep": ("%", *_MASSES),
    "over": _LENGTHS,
    "to": _LENGTHS,
    "by": _LENGTHS,
    "takes": _LENGTHS,
    "weighs": _MASSES,
    "on": _MASSES,
    "row": _MASSES,
}


def units_behind(code: str, accepted: set[str]) -> list[str]:
    """The units that fit after the beginning of a line, of those that the grammar would take."""
    for word in reversed(re.findall(r"[a-z]+", code)):
        if word in _UNITS_BEHIND:
            return sorted(set(_UNITS_BEHIND[word]) & accepted)
    return sorted(accepted)


def unpaired(code: str) -> int | None:
    """Where a star or an opening bracket of a written row has no partner (from 0), None if all have one.

    Of several stars too many the last is meant; a bracket opened inside the stars is closed before them.
    """
    if not code.lstrip().startswith("row") or ":" not in code:
        return None
    stars, open_ = [], []
    for place, sign in enumerate(code):
        if sign == "*":
            stars.append(place)
        elif sign == "[":
            open_.append(place)
        elif sign == "]" and open_:
            open_.pop()
    return open_[-1] if open_ else stars[-1] if len(stars) % 2 else None


def missing_end(code: str) -> str | None:
    """The hint for a line that ends too early, if it can be more exact than a list of what fits."""
    size = re.fullmatch(r" *needles +([0-9.]+) *", code)
    if size and size[1] in US_NEEDLES_MM:
        return f"write `{size[1]} mm`, or `{US_NEEDLES_MM[size[1]]:g} mm` for US {size[1]}"
    if size and "." in size[1]:
        return "add `mm`"
    if re.fullmatch(r"bind +off *", code):
        return "write `bind off standard`, or name another: `elastic`, `picot`, `i-cord`, `draw through`"
    if re.fullmatch(r" *(?:before +blocking|gauge) +[0-9.]+ *sts? +[0-9.]+ *rows? *", code):
        return "add `over 10 cm`, or the length over which you counted"
    if re.fullmatch(r" *skein +[0-9.]+ *(?:g|oz) *", code):
        return "add the length, as in `400 m`"
    if re.fullmatch(r" *skein +[0-9.]+ *(?:m|yd) *", code):
        return "add the mass, as in `100 g`"
    return None
