"""Numbers, quantities, texts and names out of a line's tree, with every mistake of value reported.

A value with a mistake is replaced by a harmless one: its line is reported and left out of the description.
"""

import re
from collections.abc import Iterator

from halfhank.grammar.description import GRAMS_IN, Count, Length, Mass, Name, Text
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.reading.parse_context import Branch, ParseContext
from lark import Token, Tree

MAX_NUMBER = 1_000_000_000
MIN_MEASURE = 0.001


def branches(tree: Branch) -> Iterator[Branch]:
    """The children of a tree that are trees."""
    return (child for child in tree.children if isinstance(child, Tree))


def branch(tree: Branch, index: int) -> Branch:
    """The child at `index`, which the grammar says is a tree."""
    child = tree.children[index]
    assert isinstance(child, Tree)
    return child


def maybe(tree: Branch, index: int) -> Branch | None:
    """The child at `index`, which the grammar says is a tree or left out."""
    child = tree.children[index]
    assert child is None or isinstance(child, Tree)
    return child


def word(tree: Branch, index: int) -> str:
    """The keyword at `index`."""
    return str(tree.children[index])


def count(context: ParseContext, tree: Branch, least: int = 1, listed: bool = False) -> int:
    """A whole number of at least `least` (0 or 1); `listed`: it may be in a list."""
    value = _number(context, tree, listed, whole=True)
    if value is None:
        return 1
    span, written = context.span(tree), str(tree.children[0])
    if "." in written:
        context.report(known.NOT_WHOLE.at(span, number=written, whole=max(least, round(value))))
        return 1
    if value < least:
        context.report(known.ZERO_NUMBER.at(span))
        return 1
    return int(written)


def counted(context: ParseContext, tree: Branch, listed: bool = False) -> Count:
    """A whole number of one or more, with its place."""
    return Count(count(context, tree, 1, listed), context.span(tree))


def decimal(context: ParseContext, tree: Branch, zero: bool = False) -> float:
    """A number that may have decimals: more than nothing, unless `zero`."""
    value = _number(context, tree)
    if value is None:
        return 1.0
    if value == 0 and not zero:
        context.report(known.ZERO_NUMBER_OF_MEASURE.at(context.span(tree)))
        return 1.0
    if 0 < value < MIN_MEASURE:
        context.report(known.NUMBER_TOO_SMALL.at(context.span(tree), number=_short(str(tree.children[0]))))
        return 1.0
    return value


def _number(context: ParseContext, tree: Branch, listed: bool = False, whole: bool = False) -> float | None:
    token = tree.children[0]
    assert isinstance(token, Token)
    span = context.span(tree)
    if tree.data == "negative":
        context.report(known.NEGATIVE_NUMBER.at(span, number=_short(token)))
        return None
    if token.type == "MISNUMBER":
        _misnumber(context, str(token), span, listed, whole)
        return None
    if float(token) > MAX_NUMBER:
        context.report(known.NUMBER_TOO_LARGE.at(span, most=MAX_NUMBER))
        return None
    return float(token)


def _misnumber(context: ParseContext, written: str, span: Span, listed: bool, whole: bool) -> None:
    if "," in written:
        context.report(known.COMMA_NUMBER.at(span, numbers=_comma_mends(written, listed, whole)))
    elif "e" in written.lower():
        context.report(known.EXPONENT_NUMBER.at(span, number=_written_out(written, whole)))
    elif written.startswith("."):
        context.report(known.BARE_POINT_AT_START.at(span, number=None if whole else _short(written)))
    elif written.endswith("."):
        context.report(known.BARE_POINT_AT_END.at(span, number=_short(written[:-1])))
    else:
        context.report(known.BARE_POINT_TWICE.at(span, number=_short(written)))


def _comma_mends(written: str, listed: bool, whole: bool) -> str | None:
    groups = written.split(",")
    thousands = all(re.fullmatch(r"[0-9]{3}(\.[0-9]+)?", group) for group in groups[1:])
    mends = []
    if listed:
        mends.append(", ".join(groups))
    elif len(groups) == 2 and "." not in written and not whole:
        mends.append(".".join(groups))
    if thousands:
        mends.append("".join(groups))
    return " or ".join(f"`{_short(mend)}`" for mend in mends) or None


def _written_out(written: str, whole: bool) -> str | None:
    base, _, power = written.lower().partition("e")
    shift = int(power) if len(power) < 4 else 100
    value = float(base) * 10.0**shift if -6 < shift < 7 and len(base) < 10 else None
    if value is None or value >= MAX_NUMBER or (whole and value % 1):
        return None
    return f"{value:.12g}"


def _short(written: str) -> str:
    return written if len(written) <= 20 else written[:19] + "…"


def measure(context: ParseContext, tree: Branch, zero: bool = False) -> Length | Mass:
    """A number with its unit."""
    number, unit = branch(tree, 0), word(tree, 1)
    value = decimal(context, number, zero)
    span = context.span(tree)
    if unit in GRAMS_IN:
        return Mass(value, unit, len(str(number.children[0]).partition(".")[2]), span)
    return Length(value, unit, span)


def length(context: ParseContext, tree: Branch) -> Length:
    """A length; a mass is reported."""
    found = measure(context, tree)
    if isinstance(found, Length):
        return found
    context.report(known.WRONG_UNIT_FOR_LENGTH.at(found.span))
    return Length(1.0, "cm", found.span)


def mass(context: ParseContext, tree: Branch, zero: bool = False) -> Mass:
    """A mass; a length is reported."""
    found = measure(context, tree, zero)
    if isinstance(found, Mass):
        return found
    context.report(known.WRONG_UNIT_FOR_MASS.at(found.span))
    return Mass(1.0, "g", 0, found.span)


def text(context: ParseContext, tree: Branch) -> Text:
    """A text in quotes, escapes resolved."""
    token = tree.children[0]
    assert isinstance(token, Token)
    span, written = context.span(token), str(token)
    if token.type == "UNCLOSED":
        context.report(known.UNCLOSED_TEXT.at(span))
        return Text(written[1:], span)
    value = written[1:-1] if "\\" not in written else _resolved(context, written, span)
    if not value.strip():
        context.report(known.EMPTY_TEXT.at(span))
    return Text(value, span)


def _resolved(context: ParseContext, written: str, span: Span) -> str:
    for escape in re.finditer(r"\\(.)", written):
        if escape[1] not in '"\\':
            place = Span(span.line, span.column + escape.start(), span.column + escape.end())
            context.report(known.UNKNOWN_ESCAPE.at(place, escape=escape[0]))
    return re.sub(r"\\(.)", r"\1", written[1:-1])


def name(context: ParseContext, tree: Branch) -> Name:
    """A name: letters, digits and hyphens."""
    token = tree.children[0]
    assert isinstance(token, Token)
    span, written = context.span(token), str(token)
    if written.isascii():
        return Name(written, span)
    from unicodedata import category, normalize

    for offset, char in enumerate(written):
        if char != "-" and category(char)[0] not in "LM" and category(char) != "Nd":
            place = Span(span.line, span.column + offset, span.column + offset + 1)
            context.report(known.ODD_NAME.at(place, char=char))
            break
    return Name(normalize("NFC", written), span)
