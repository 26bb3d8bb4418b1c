"""The stitches of a description: their blocks, and which names there are."""

import re

from halfhank.grammar.description import Name, Stitch, WrittenRow
from halfhank.grammar.items import WHOLE_ROWS
from halfhank.grammar.language import BUILT_IN_STITCHES, PATTERN_STITCHES, PLAIN_STITCHES, RESERVED
from halfhank.grammar.lines.synonyms import STITCHES_OF_TRADE
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.spelling import nearest
from halfhank.grammar.reading.block_body import BlockBody
from halfhank.grammar.reading.blocks import Block, Blocks
from halfhank.grammar.reading.parse_context import ParseContext
from halfhank.grammar.reading.values import branch, name

_MOST_COMPARED = 200


class Stitches:
    """The `stitch` blocks by name.

    `maybe_gauge`: some block gives a gauge, or has a mistake that may hide one.
    """

    def __init__(self) -> None:
        self.blocks: dict[str, Stitch] = {}
        self.maybe_gauge = False
        self._known: set[str] = set(BUILT_IN_STITCHES)
        self._doubtful: set[str] = set()  # names in headers with a mistake
        self._nameless = False  # some header's name was not understood at all
        self._lines: dict[str, int] = {}
        self._rowed: set[str] = set()
        self._bases: dict[str, str] = {}
        self._may_have_rows: dict[str, bool] = {}

    def read(self, context: ParseContext, blocks: Blocks) -> "Stitches":
        """Read all blocks: their names first, since they may name each other."""
        named = [(block, self._header(context, block)) for block in blocks.of("stitch")]
        for block, stitch in named:
            self._block(context, block, stitch)
        self._check_bases(context)
        return self

    def check(self, context: ParseContext, stitch: Name, drop: bool = False) -> None:
        """Report a name that no stitch has; `drop` is one only where the argument says so."""
        if stitch.value == "drop" and not drop:
            context.report(known.DROP_AS_BAND.at(stitch.span))
        elif stitch.value not in self._known and not self._near(stitch, self._doubtful):
            self._report_unknown(context, stitch)

    def _report_unknown(self, context: ParseContext, stitch: Name) -> None:
        from halfhank.grammar.lines.unknown_terms import unknown_term

        near, lower = self._near(stitch, self._known), stitch.value.lower()
        term = unknown_term(stitch.value.replace("-", " ")) or unknown_term(stitch.value)
        if term:
            context.report(known.UNKNOWN_STITCH_NOT_KNOWN.at(stitch.span, term=term.name, mend=term.instead))
        elif lower in WHOLE_ROWS or lower in ("k", "p"):
            context.report(known.UNKNOWN_STITCH_KNIT.at(stitch.span, stitch=stitch.value))
        elif lower in STITCHES_OF_TRADE and STITCHES_OF_TRADE[lower] in self._known:
            meant, own = STITCHES_OF_TRADE[lower], stitch.value
            context.report(known.UNKNOWN_STITCH_OF_TRADE.at(stitch.span, stitch=stitch.value, near=meant, new=own))
        elif near or not self._nameless:
            new = None if near else stitch.value
            context.report(known.UNKNOWN_STITCH.at(stitch.span, stitch=stitch.value, near=near, new=new))

    def checked(self, context: ParseContext, stitch: Name | None, drop: bool = False) -> Name | None:
        """The name, None where it was reported."""
        before = len(context.problems)
        if stitch:
            self.check(context, stitch, drop)
        return stitch if len(context.problems) == before else None

    def _near(self, stitch: Name, names: set[str]) -> str | None:
        return nearest(stitch.value, tuple(sorted(names))) if 0 < len(names) <= _MOST_COMPARED else None

    def may_have_rows(self, stitch: str) -> bool:
        """Whether a stitch has rows, its own or taken over; of an unknown one nobody knows."""
        met: list[str] = []
        name: str | None = stitch
        while name is not None and name not in self._may_have_rows:
            self._may_have_rows[name] = self._nameless or self._has_rows(name)
            met.append(name)
            name = None if self._may_have_rows[name] else self._bases.get(name)
        found = self._may_have_rows[name or met[-1]]
        self._may_have_rows.update(dict.fromkeys(met, found))
        return found

    def is_built_in(self, name: str) -> bool:
        """Whether a built-in of this name has rows that its block could take."""
        return name in PATTERN_STITCHES

    def _has_rows(self, name: str) -> bool:
        """Whether a stitch has rows of its own, or may have some for all that is known of it."""
        if name in BUILT_IN_STITCHES and name not in self._lines:
            return self.is_built_in(name)
        return name in self._rowed or name not in self._known

    def _header(self, context: ParseContext, block: Block) -> Name | None:
        if block.tree is None:
            self._doubtful.update(re.findall(r"[^\W\d_][\w-]*", block.source.code))
            self._nameless = True
            return None
        context.line = block.source.number
        stitch = name(context, branch(block.tree, 0))
        if block.source.number in context.reported_lines:
            self._doubtful.add(stitch.value)
        if stitch.value in RESERVED and stitch.value != "drop":
            context.report(known.RESERVED_NAME.at(stitch.span, stitch=stitch.value))
        elif stitch.value in self._lines:
            line = self._lines[stitch.value]
            context.report(known.DUPLICATE_NAME_OF_STITCH.at(stitch.span, stitch=stitch.value, line=line))
            return None
        self._lines[stitch.value] = block.source.number
        self._known.add(stitch.value)
        return stitch

    def _block(self, context: ParseContext, block: Block, stitch: Name | None) -> None:
        body = BlockBody(context).read(block.lines, block.kind.start)
        self.maybe_gauge |= not body.lacks("gauge") or not block.lines
        rows = _checked_rows(context, body.all("row"), "row" in body.broken or body.unsure)
        fill = self.checked(context, body.get("fill"))
        base = self.checked(context, body.get("base"), drop=True)
        if stitch is None:
            return
        if "row" in body.seen or body.unsure:
            self._rowed.add(stitch.value)
        if base and base.value == stitch.value and base.value in BUILT_IN_STITCHES:
            if base.value not in PLAIN_STITCHES:
                self._rowed.add(stitch.value)
        elif base:
            self._bases[stitch.value] = base.value
        self.blocks[stitch.value] = Stitch(
            stitch,
            body.get("gauge"),
            body.get("before_blocking"),
            body.get("swatch"),
            body.get("multiple"),
            fill,
            base,
            rows,
            block.span,
        )

    def _check_bases(self, context: ParseContext) -> None:
        """Report each ring of `as` once, at the first of its blocks."""
        done: set[str] = set()
        for start in self._bases:
            path: dict[str, None] = {}
            name: str | None = start
            while name is not None and name not in done and name not in path:
                path[name] = None
                name = self._bases.get(name)
            if name is not None and name in path:
                names = list(path)
                self._report_ring(context, names[names.index(name) :])
            done.update(path)

    def _report_ring(self, context: ParseContext, ring: list[str]) -> None:
        first = min(ring, key=lambda one: self._lines[one])
        base = self.blocks[first].base
        assert base is not None
        if len(ring) > 1:
            context.report(known.CIRCULAR_AS_IN_TURN.at(base.span, stitch=first, base=base.value))
        else:
            context.report(known.CIRCULAR_AS.at(base.span, stitch=first))
        self.blocks[first] = self.blocks[first]._replace(base=None)


def _checked_rows(context: ParseContext, rows: tuple[WrittenRow, ...], some_broken: bool) -> tuple[WrittenRow, ...]:
    """The rows, none where one is written twice, left out, or not understood; the first two are reported."""
    before = len(context.problems)
    written = _written(context, rows)
    gap = next((number for number in range(1, len(written) + 1) if number not in written), None)
    if gap is not None and not some_broken:
        after = written[min(number for number in written if number > gap)]
        context.report(known.ROW_MISSING.at(after.span, row=gap))
    return () if some_broken or len(context.problems) > before else rows


def _written(context: ParseContext, rows: tuple[WrittenRow, ...]) -> dict[int, WrittenRow]:
    written: dict[int, WrittenRow] = {}
    for row in rows:
        double = next((number for number in row.numbers if number in written), None)
        if double is not None:
            context.report(known.ROW_TWICE.at(row.span, row=double))
        elif len(set(row.numbers)) < len(row.numbers):
            context.report(known.ROW_TWICE_IN_LINE.at(row.span))
        written.update(dict.fromkeys(row.numbers, row))
    return written
