"""Works the words of one row on so many stitches: `knit to 2 sts before the marker` becomes the stitches that it is.

Where the markers stand is all that it knows besides the words.
"""

import re

from halfhank.grammar.description import InOne, Item, Times, WholeRow, Work
from halfhank.grammar.items import ITEMS
from halfhank.grammar.reading.instruction_reader import read_lines
from halfhank.model.instructions.rows.segments import takes
from halfhank.model.stitch_counts.bare_items import bare

_END = r"(?:the marker|the end|[\d,]+ sts? before the marker|the last (?:[\d,]+ )?sts?)"
_STARS = re.compile(rf"\*(?P<unit>.*?); rep from \* to (?P<end>{_END})(?:, |$)")
_PLAIN = re.compile(rf"(?P<kind>knit|purl) to (?P<end>{_END})(?:, |$)")
_ITEM = re.compile(r"(?:\[[^\]]*(?:\[[^\]]*\][^\]]*)*\] \w+(?: times)?|\([^)]*\) in next [\w ]+|[^,]+)(?:, |$)")
_LEAD = re.compile(r"(?:dropping the extra wraps of the row before: )?(?:wrapping the yarn (\w+)(?: times)? .*?: )?")


def flat(items: tuple[Item, ...]) -> list[Item]:
    """Items one stitch at a time, repeats written out."""
    found: list[Item] = []
    for item in items:
        if isinstance(item, Times):
            found += flat(item.items) * item.times
        elif isinstance(item, InOne):
            found.append(bare(item._replace(items=tuple(flat(item.items)))))
        elif isinstance(item, Work):
            found += [bare(item._replace(count=1))] * item.count
        else:
            found.append(bare(item))
    return found


class RowWorker:
    """A row being worked: stitches on the left needle at its start, and those before each marker."""

    def __init__(self, stitches: int, markers: list[int]) -> None:
        self.stitches, self.markers = stitches, markers
        self.at, self.done = 0, list[Item]()

    def work(self, words: str) -> list[Item]:
        """All of it, stitch by stitch; `drop wraps` is left out."""
        lead = _LEAD.match(words)
        assert lead
        rest = words[lead.end() :]
        if rest in ("knit", "purl"):
            self._items(f"{rest[0]}{self.stitches}")
            rest = ""
        while rest:
            rest = self._next(rest)
        assert self.at == self.stitches, f"{self.stitches - self.at} stitches are not worked"
        wraps = {"twice": 2, None: 1}.get(lead[1]) or int(lead[1])
        return [_wrapped(item, wraps) for item in self.done]

    def _next(self, rest: str) -> str:
        if stars := _STARS.match(rest):
            unit = takes(_read(stars["unit"]))
            times, over = divmod(self._target(stars["end"]) - self.at, unit)
            assert times >= 1 and not over, stars[0]
            for _ in range(times):
                self._items(stars["unit"])
            return rest[stars.end() :]
        if plain := _PLAIN.match(rest):
            count = self._target(plain["end"]) - self.at
            assert count >= 1, plain[0]
            self._items(f"{plain['kind'][0]}{count}")
            return rest[plain.end() :]
        item = _ITEM.match(rest)
        assert item, rest
        if item[0].startswith("sm"):
            assert self.at in self.markers, f"no marker after {self.at} sts"
        else:
            self._items(item[0].removesuffix(", "))
        return rest[item.end() :]

    def _target(self, end: str) -> int:
        """How many stitches have been worked there."""
        count = int((re.search(r"[\d,]+", end) or ["1"])[0].replace(",", ""))
        if end == "the end":
            return self.stitches
        if end.startswith("the last"):
            return self.stitches - count
        marker = next(one for one in self.markers if one >= self.at)
        return marker if end == "the marker" else marker - count

    def _items(self, words: str) -> None:
        items = _read(words)
        self.at += takes(items)
        self.done += flat(items)


def _read(words: str) -> tuple[Item, ...]:
    (row,) = read_lines([f"Row 1: {words.replace(',', ', ').replace(',  ', ', ')}."])
    return row.items


def _wrapped(item: Item, wraps: int) -> Item:
    if wraps == 1:
        return item
    if not isinstance(item, Work):
        return item
    return item._replace(wraps=wraps) if ITEMS[item.kind].wraps else item


def as_worked(items: tuple[Item, ...], stitches: int) -> list[Item]:
    """The items of a row as the plan has it, in the same form."""
    kept = tuple(item for item in items if not (isinstance(item, Work) and item.kind == "drop wraps"))
    if len(kept) == 1 and isinstance(kept[0], WholeRow):
        return flat(_read(f"{kept[0].kind[0]}{stitches}"))
    return flat(kept)
