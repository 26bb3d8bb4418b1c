"""The parts: their shaping lines, bands and repeats."""

from halfhank.grammar.description import AnyBand, Part, Repeat, ShapingLine
from halfhank.grammar.lines.line_reader import guessed_word
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.reading.band_builders import BandReader
from halfhank.grammar.reading.block_body import parsed
from halfhank.grammar.reading.blocks import Block
from halfhank.grammar.reading.facts import FACT_BUILDERS
from halfhank.grammar.reading.parse_context import Branch, ParseContext
from halfhank.grammar.reading.stitch_blocks import Stitches
from halfhank.grammar.reading.values import branch, text
from halfhank.grammar.source_text.indentation import LineNode


class PartReader:
    """Reads the parts of one description; `as yarn allows` is counted over all of them."""

    def __init__(self, context: ParseContext, stitches: Stitches) -> None:
        self._context, self._bands = context, BandReader(context, stitches)

    def part(self, block: Block) -> Part | None:
        """One part; None where its name was not understood or it has no rows."""
        self._context.line = block.source.number
        title = None if block.tree is None else text(self._context, branch(block.tree, 0))
        lines = _PartLines()
        bands = self._read_bands(block.lines, lines, 0)
        if block.lines and len(lines.shaping) + (lines.even is not None) == len(block.lines):
            self._context.report(known.NO_BANDS.at(block.span))
            return None
        if title is None:
            return None
        return Part(title, lines.even, tuple(lines.shaping), bands, block.span)

    def _read_bands(self, lines: list[LineNode], part: "_PartLines", depth: int) -> tuple[AnyBand, ...]:
        bands = (None if self._context.should_stop else self._line(line, part, depth) for line in lines)
        return tuple(band for band in bands if band is not None)

    def _line(self, line: LineNode, part: "_PartLines", depth: int) -> AnyBand | None:
        before = len(self._context.problems)
        tree = parsed(self._context, line.source, "in_part")
        if tree is None:
            part.note_unread(guessed_word(line.source, "in_part"))
            self._read_bands(line.children, part, depth + 1)
            return None
        if tree.data in ("even", "shaping", "evenly_to"):
            self._shaping(tree, line, part, depth)
            return None
        part.banded = True
        return self._band(tree, line, part, depth, before)

    def _shaping(self, tree: Branch, line: LineNode, part: "_PartLines", depth: int) -> None:
        context, span = self._context, line.source.span
        before = len(context.problems)
        shaping = None if tree.data == "even" else FACT_BUILDERS[tree.data](context, tree, span)
        if depth:
            context.report(known.SHAPING_IN_REPEAT.at(span))
        elif part.banded:
            context.report(known.LATE_SHAPING.at(span))
        elif tree.data == "even":
            self._even(part, span)
        elif part.even_seen:
            context.report(known.EVEN_WITH_SHAPING.at(span))
        clean = context.is_clean(before)
        part.shaped = part.shaped or shaping is not None
        if shaping is not None and clean:
            part.shaping.append(shaping)
        part.even = span if tree.data == "even" and clean else part.even

    def _even(self, part: "_PartLines", span: Span) -> None:
        if part.even_seen:
            self._context.report(known.DUPLICATE_FACT_OF_EVEN.at(span))
        elif part.shaped:
            self._context.report(known.EVEN_WITH_SHAPING.at(span))
        part.even_seen = True

    def _band(self, tree: Branch, line: LineNode, part: "_PartLines", depth: int, before: int) -> AnyBand | None:
        span = line.source.span
        band = self._bands.band(tree, span, in_repeat=depth > 0)
        if isinstance(band, Repeat) and not line.children and line.source.number not in self._context.reported_lines:
            self._context.report(known.EMPTY_BLOCK_OF_REPEAT.at(span))
        clean = self._context.is_clean(before)
        inner = self._read_bands(line.children, part, depth + 1)
        if not clean:
            return None
        return band._replace(bands=inner) if isinstance(band, Repeat) else band


class _PartLines:
    """What has been read of one part so far."""

    def __init__(self) -> None:
        self.even: Span | None = None
        self.shaping: list[ShapingLine] = []
        self.even_seen = self.shaped = self.banded = False

    def note_unread(self, word: str | None) -> None:
        """Take note of a line that could not be read, by its first word."""
        self.even_seen = self.even_seen or word == "even"
        self.banded = self.banded or word in ("drop", "repeat")
