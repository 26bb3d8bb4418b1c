"""Reads the built-in stitches, and finds those that a description uses."""

from collections.abc import Iterator
from functools import cache

from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.description import BUILT_IN_SPAN, Band, Description, Repeat, Stitch
from halfhank.grammar.language import PATTERN_STITCHES
from halfhank.grammar.reading.blocks import find_blocks
from halfhank.grammar.reading.parse_context import ParseContext
from halfhank.grammar.reading.stitch_blocks import Stitches
from halfhank.grammar.source_text.indentation import lay_out


@cache
def built_in_stitch(name: str) -> Stitch:
    """A built-in as the `stitch` block that would describe it. The places of its rows are in nobody's file."""
    text = "\n  ".join((f"stitch {name}", *STITCH_PATTERNS[name].lines)) + "\n"
    context = ParseContext()
    found = Stitches().read(context, find_blocks(context, lay_out(text).roots)).blocks[name]
    assert not context.problems, context.problems
    return found._replace(span=BUILT_IN_SPAN)


def with_built_ins(description: Description) -> Description:
    """The description together with the built-in stitches whose rows it uses.

    A block of a built-in's name replaces it, unless it is `as` the built-in itself.
    """
    bases = {stitch.name.value: stitch.base for stitch in description.stitches}
    used = []
    for name in dict.fromkeys(_names(description)):
        base = bases.get(name)
        if name in PATTERN_STITCHES and (name not in bases or (base and base.value == name)):
            used.append(built_in_stitch(name))
    return description._replace(built_ins=tuple(used)) if used else description


def _names(description: Description) -> Iterator[str]:
    """Every name of a stitch that a description works in or takes from."""
    for stitch in description.stitches:
        yield from (name.value for name in (stitch.fill, stitch.base) if name)
    edge = description.shape.edge
    if edge and edge.stitch:
        yield edge.stitch.value
    waiting = [band for part in description.parts for band in part.bands]
    while waiting:
        band = waiting.pop()
        if isinstance(band, Repeat):
            waiting.extend(band.bands)
        elif isinstance(band, Band):
            yield band.stitch.value
