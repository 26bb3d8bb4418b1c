"""The bands of the parts: one small function from a line's tree to its record."""

from collections.abc import Callable

from halfhank.grammar.description import Band, Drop, Name, Repeat, Text
from halfhank.grammar.problems import Span
from halfhank.grammar.reading.stitch_blocks import Stitches
from halfhank.grammar.reading.values import Branch, Teller, branch, branches, count, counted, name, text
from lark import Token

AnyBand = Band | Drop | Repeat

_UNITS = {"row": "rows", "ridge": "ridges", "repeat": "repeats"}


class BandContext:
    """What bands are read with: the problem list, the known stitches, and where `as yarn allows` stands already."""

    def __init__(self, teller: Teller, stitches: Stitches) -> None:
        self.teller, self.stitches = teller, stitches
        self._allowance: Span | None = None

    def band(self, tree: Branch, span: Span, in_repeat: bool) -> AnyBand:
        """The band of a line; a repeat without the bands that stand under it."""
        return BAND_BUILDERS[tree.data](self, tree, span, in_repeat)

    def claim_allowance(self, span: Span) -> None:
        """Note an `as yarn allows`; a second one is told."""
        if self._allowance:
            hint = f"line {self._allowance.line} has it already"
            self.teller.tell("second-as-yarn-allows", span, "`as yarn allows` stands once in a description.", hint)
        else:
            self._allowance = span

    def stitch(self, tree: Branch) -> Name:
        """The stitch that a band is worked in; an unknown one is told."""
        stitch = name(self.teller, branch(tree, 0))
        self.stitches.check(self.teller, stitch)
        return stitch

    def label(self, tree: Branch) -> Text | None:
        """The text at the end of a band."""
        found = [part for part in branches(tree) if part.data == "text"]
        return text(self.teller, found[0]) if found else None


def _band(context: BandContext, tree: Branch, span: Span, in_repeat: bool) -> Band:
    label, stitch = context.label(tree), context.stitch(tree)
    numbers = [part for part in branches(tree) if part.data in ("number", "negative")]
    counts = tuple(counted(context.teller, number, listed=in_repeat) for number in numbers)
    token = next(child for child in tree.children if isinstance(child, Token))
    unit = _UNITS.get(token, str(token))
    if len(counts) > 1 and not in_repeat:
        place = Span(span.line, counts[0].span.column, counts[-1].span.end)
        message = "A list takes its values pass by pass, so it stands inside a repeat."
        context.teller.tell("list-outside-repeat", place, message, "indent it under `repeat N times`")
    if unit == "repeats":
        _check_rows(context, stitch, context.teller.span(token))
    return Band(stitch, counts, unit, label, span)


def _check_rows(context: BandContext, stitch: Name, place: Span) -> None:
    if not context.stitches.may_have_rows(stitch.value):
        message = f"`{stitch.value}` has no rows of its own to repeat."
        built_in = context.stitches.is_built_in(stitch.value)
        mend = f"write `as {stitch.value}` in its block, or `rows`" if built_in else "write `rows` or `ridges`"
        context.teller.tell("no-rows", place, message, mend)


def _band_allows(context: BandContext, tree: Branch, span: Span, in_repeat: bool) -> Band:
    label, stitch = context.label(tree), context.stitch(tree)
    context.claim_allowance(span)
    return Band(stitch, (), None, label, span)


def _drop(context: BandContext, tree: Branch, span: Span, in_repeat: bool) -> Drop:
    label = context.label(tree)
    return Drop(count(context.teller, branch(tree, 0)), label, span)


def _drop_band(context: BandContext, tree: Branch, span: Span, in_repeat: bool) -> Drop:
    label = context.label(tree)
    place = Span(span.line, span.column, span.column + len("drop"))
    message = "`drop` is one elongated row and its release, counted in wraps."
    context.teller.tell("drop-as-band", place, message, "write `drop W wraps`")
    return Drop(2, label, span)


def _drop_allows(context: BandContext, tree: Branch, span: Span, in_repeat: bool) -> Drop:
    label = context.label(tree)
    message = "Dropped rows are not counted by what the yarn allows."
    context.teller.tell("drop-as-yarn-allows", span, message, "write `drop W wraps`")
    return Drop(2, label, span)


def _repeat(context: BandContext, tree: Branch, span: Span, in_repeat: bool) -> Repeat:
    return Repeat(counted(context.teller, branch(tree, 0)), (), span)


def _repeat_allows(context: BandContext, tree: Branch, span: Span, in_repeat: bool) -> Repeat:
    context.claim_allowance(span)
    return Repeat(None, (), span)


BAND_BUILDERS: dict[str, Callable[[BandContext, Branch, Span, bool], AnyBand]] = {
    "band": _band,
    "band_allows": _band_allows,
    "drop": _drop,
    "drop_band": _drop_band,
    "drop_allows": _drop_allows,
    "repeat": _repeat,
    "repeat_allows": _repeat_allows,
}
