"""The parts: their shaping lines, bands and repeats."""

from halfhank.grammar.description import Band, Drop, Name, Part, Repeat, ShapingLine, Text
from halfhank.grammar.lines.line_reader import guessed_word
from halfhank.grammar.problems import Span
from halfhank.grammar.reading.block_body import parsed
from halfhank.grammar.reading.blocks import Block
from halfhank.grammar.reading.facts import FACT_BUILDERS
from halfhank.grammar.reading.stitch_blocks import Stitches
from halfhank.grammar.reading.values import Branch, Teller, branch, branches, count, counted, name, text
from halfhank.grammar.text.indentation import LineNode
from lark import Token

Piece = Band | Drop | Repeat

_UNITS = {"row": "rows", "ridge": "ridges", "repeat": "repeats"}


class PartReader:
    """Reads the parts of one description; `as yarn allows` is counted over all of them."""

    def __init__(self, teller: Teller, stitches: Stitches) -> None:
        self._teller, self._stitches = teller, stitches
        self._allows: Span | None = None

    def part(self, block: Block) -> Part | None:
        """One part; None where its name was not understood or it has no rows."""
        self._teller.line = block.source.number
        title = None if block.tree is None else text(self._teller, branch(block.tree, 0))
        lines = _PartLines()
        bands = self._pieces(block.lines, lines, 0)
        if block.lines and len(lines.shaping) + (lines.even is not None) == len(block.lines):
            self._teller.tell("no-bands", block.span, "This part is shaped but has no rows.", "add bands to it")
            return None
        if title is None:
            return None
        return Part(title, lines.even, tuple(lines.shaping), bands, block.span)

    def _pieces(self, lines: list[LineNode], part: "_PartLines", depth: int) -> tuple[Piece, ...]:
        pieces = (None if self._teller.spent else self._piece(line, part, depth) for line in lines)
        return tuple(piece for piece in pieces if piece is not None)

    def _piece(self, line: LineNode, part: "_PartLines", depth: int) -> Piece | None:
        before = len(self._teller.problems)
        tree = parsed(self._teller, line.source, "in_part")
        if tree is None:
            part.note_unread(guessed_word(line.source, "in_part"))
            self._pieces(line.children, part, depth + 1)
            return None
        if tree.data in ("even", "shaping", "evenly_to"):
            self._shaping(tree, line, part, depth)
            return None
        part.banded = True
        return self._band(tree, line, part, depth, before)

    def _shaping(self, tree: Branch, line: LineNode, part: "_PartLines", depth: int) -> None:
        teller, span = self._teller, line.source.span
        before = len(teller.problems)
        said = None if tree.data == "even" else FACT_BUILDERS[tree.data](teller, tree, span)
        if depth:
            teller.tell("shaping-in-repeat", span, "Shaping stands at the head of a part, not inside a repeat.")
        elif part.banded:
            teller.tell("late-shaping", span, "Shaping stands at the head of a part, before its bands.")
        elif tree.data == "even":
            self._even(part, span)
        elif part.even_seen:
            teller.tell("even-with-shaping", span, "A part is worked even or has shaping lines, not both.")
        clean = len(teller.problems) == before and line.source.number not in teller.told
        part.shaped = part.shaped or said is not None
        if said is not None and clean:
            part.shaping.append(said)
        part.even = span if tree.data == "even" and clean else part.even

    def _even(self, part: "_PartLines", span: Span) -> None:
        if part.even_seen:
            self._teller.tell("duplicate-fact", span, "A part says `even` only once.")
        elif part.shaped:
            self._teller.tell("even-with-shaping", span, "A part is worked even or has shaping lines, not both.")
        part.even_seen = True

    def _band(self, tree: Branch, line: LineNode, part: "_PartLines", depth: int, before: int) -> Piece | None:
        span = line.source.span
        if tree.data in ("repeat", "repeat_allows"):
            piece: Piece = self._repeat(tree, span)
            if not line.children and line.source.number not in self._teller.told:
                self._teller.tell("empty-block", span, "This repeat is empty.", "indent its bands under it")
        else:
            piece = self._plain(tree, span, depth)
        clean = len(self._teller.problems) == before and line.source.number not in self._teller.told
        inner = self._pieces(line.children, part, depth + 1)
        if not clean:
            return None
        return piece._replace(bands=inner) if isinstance(piece, Repeat) else piece

    def _repeat(self, tree: Branch, span: Span) -> Repeat:
        if tree.data == "repeat_allows":
            self._allow(span)
            return Repeat(None, (), span)
        return Repeat(counted(self._teller, branch(tree, 0)), (), span)

    def _plain(self, tree: Branch, span: Span, depth: int) -> Band | Drop:
        label = self._label(tree)
        if tree.data == "drop":
            return Drop(count(self._teller, branch(tree, 0)), label, span)
        if tree.data in ("drop_band", "drop_allows"):
            return self._wrong_drop(tree, label, span)
        stitch = name(self._teller, branch(tree, 0))
        self._stitches.check(self._teller, stitch)
        if tree.data == "band_allows":
            self._allow(span)
            return Band(stitch, (), None, label, span)
        return self._counted_band(tree, stitch, label, span, depth)

    def _counted_band(self, tree: Branch, stitch: Name, label: Text | None, span: Span, depth: int) -> Band:
        numbers = [part for part in branches(tree) if part.data in ("number", "negative")]
        counts = tuple(counted(self._teller, number, listed=depth > 0) for number in numbers)
        unit = next(child for child in tree.children if isinstance(child, Token))
        if len(counts) > 1 and not depth:
            place = Span(span.line, counts[0].span.column, counts[-1].span.end)
            message = "A list takes its values pass by pass, so it stands inside a repeat."
            self._teller.tell("list-outside-repeat", place, message, "indent it under `repeat N times`")
        if _plural(unit) == "repeats" and not self._stitches.may_have_rows(stitch.value):
            message = f"`{stitch.value}` has no rows of its own to repeat."
            built_in = self._stitches.is_built_in(stitch.value)
            mend = f"write `as {stitch.value}` in its block, or `rows`" if built_in else "write `rows` or `ridges`"
            self._teller.tell("no-rows", self._teller.span(unit), message, mend)
        return Band(stitch, counts, _plural(unit), label, span)

    def _label(self, tree: Branch) -> Text | None:
        found = [part for part in branches(tree) if part.data == "text"]
        return text(self._teller, found[0]) if found else None

    def _wrong_drop(self, tree: Branch, label: Text | None, span: Span) -> Drop:
        start = Span(span.line, span.column, span.column + len("drop"))
        if tree.data == "drop_allows":
            message = "Dropped rows are not counted by what the yarn allows."
            self._teller.tell("drop-as-yarn-allows", span, message, "write `drop W wraps`")
        else:
            message = "`drop` is one elongated row and its release, counted in wraps."
            self._teller.tell("drop-as-band", start, message, "write `drop W wraps`")
        return Drop(2, label, span)

    def _allow(self, span: Span) -> None:
        if self._allows:
            hint = f"line {self._allows.line} has it already"
            self._teller.tell("second-as-yarn-allows", span, "`as yarn allows` stands once in a description.", hint)
        else:
            self._allows = span


def _plural(unit: str) -> str:
    return _UNITS.get(unit, str(unit))


class _PartLines:
    """What one part has said so far."""

    def __init__(self) -> None:
        self.even: Span | None = None
        self.shaping: list[ShapingLine] = []
        self.even_seen = self.shaped = self.banded = False

    def note_unread(self, word: str | None) -> None:
        """Take note of a line that could not be read, by its first word."""
        self.even_seen = self.even_seen or word == "even"
        self.banded = self.banded or word in ("drop", "repeat")
