"""The bands of the parts: one small function from a line's tree to its record."""

from collections.abc import Callable

from halfhank.grammar.description import AnyBand, Band, Drop, Name, Repeat, Text
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.reading.parse_context import Branch, ParseContext
from halfhank.grammar.reading.stitch_blocks import Stitches
from halfhank.grammar.reading.values import branch, branches, count, counted, name, text
from lark import Token

_UNITS = {"row": "rows", "ridge": "ridges", "repeat": "repeats"}


class BandReader:
    """What bands are read with: the problem list, the known stitches, and the place of an earlier `as yarn allows`."""

    def __init__(self, context: ParseContext, stitches: Stitches) -> None:
        self.context, self.stitches = context, stitches
        self._allowance: Span | None = None

    def band(self, tree: Branch, span: Span, in_repeat: bool) -> AnyBand:
        """The band of a line; a repeat without the bands under it."""
        return BAND_BUILDERS[tree.data](self, tree, span, in_repeat)

    def claim_allowance(self, span: Span) -> None:
        """Note an `as yarn allows`; a second one is reported."""
        if self._allowance:
            self.context.report(known.SECOND_AS_YARN_ALLOWS.at(span, line=self._allowance.line))
        else:
            self._allowance = span

    def stitch(self, tree: Branch) -> Name:
        """The stitch that a band is worked in; an unknown one is reported."""
        stitch = name(self.context, branch(tree, 0))
        self.stitches.check(self.context, stitch)
        return stitch

    def label(self, tree: Branch) -> Text | None:
        """The text at the end of a band."""
        found = [part for part in branches(tree) if part.data == "text"]
        return text(self.context, found[0]) if found else None


def _band(bands: BandReader, tree: Branch, span: Span, in_repeat: bool) -> Band:
    label, stitch = bands.label(tree), bands.stitch(tree)
    numbers = [part for part in branches(tree) if part.data in ("number", "negative")]
    counts = tuple(counted(bands.context, number, listed=in_repeat) for number in numbers)
    token = next(child for child in tree.children if isinstance(child, Token))
    unit = _UNITS.get(token, str(token))
    if len(counts) > 1 and not in_repeat:
        place = Span(span.line, counts[0].span.column, counts[-1].span.end)
        bands.context.report(known.LIST_OUTSIDE_REPEAT.at(place))
    if unit == "repeats":
        _check_rows(bands, stitch, bands.context.span(token))
    return Band(stitch, counts, unit, label, span)


def _check_rows(bands: BandReader, stitch: Name, place: Span) -> None:
    if not bands.stitches.may_have_rows(stitch.value):
        kind = known.NO_ROWS_OF_BUILT_IN if bands.stitches.is_built_in(stitch.value) else known.NO_ROWS
        bands.context.report(kind.at(place, stitch=stitch.value))


def _band_allows(bands: BandReader, tree: Branch, span: Span, in_repeat: bool) -> Band:
    label, stitch = bands.label(tree), bands.stitch(tree)
    bands.claim_allowance(span)
    return Band(stitch, (), None, label, span)


def _drop(bands: BandReader, tree: Branch, span: Span, in_repeat: bool) -> Drop:
    label = bands.label(tree)
    return Drop(count(bands.context, branch(tree, 0)), label, span)


def _drop_band(bands: BandReader, tree: Branch, span: Span, in_repeat: bool) -> Drop:
    label = bands.label(tree)
    place = Span(span.line, span.column, span.column + len("drop"))
    bands.context.report(known.DROP_AS_BAND_IN_PART.at(place))
    return Drop(2, label, span)


def _drop_allows(bands: BandReader, tree: Branch, span: Span, in_repeat: bool) -> Drop:
    label = bands.label(tree)
    bands.context.report(known.DROP_AS_YARN_ALLOWS.at(span))
    return Drop(2, label, span)


def _repeat(bands: BandReader, tree: Branch, span: Span, in_repeat: bool) -> Repeat:
    return Repeat(counted(bands.context, branch(tree, 0)), (), span)


def _repeat_allows(bands: BandReader, tree: Branch, span: Span, in_repeat: bool) -> Repeat:
    bands.claim_allowance(span)
    return Repeat(None, (), span)


BAND_BUILDERS: dict[str, Callable[[BandReader, Branch, Span, bool], AnyBand]] = {
    "band": _band,
    "band_allows": _band_allows,
    "drop": _drop,
    "drop_band": _drop_band,
    "drop_allows": _drop_allows,
    "repeat": _repeat,
    "repeat_allows": _repeat_allows,
}
