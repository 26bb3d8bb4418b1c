"""Every record points at the words that it was read from."""

import random
import unicodedata
from collections.abc import Iterator

from halfhank.grammar.description import Count, Length, Mass, Name, Percent, Placed, Text, Work
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import Span

from tests.grammar.cases import CASES
from tests.grammar.making import make_lines


def _records(record: object) -> Iterator[tuple[object, Span]]:
    if isinstance(record, tuple) and not isinstance(record, Span):
        span = getattr(record, "span", None)
        if isinstance(span, Span):
            yield record, span
        for part in record:
            yield from _records(part)


def _check(record: object, word: str) -> None:
    assert word == word.strip() != ""
    match record:
        case Text():
            assert word[0] == word[-1] == '"'
            assert record.value == word[1:-1].replace('\\"', '"')
        case Name():
            assert record.value == unicodedata.normalize("NFC", word)
        case Count() | Percent():
            assert float(word) == record.value
        case Length() | Mass():
            assert word.endswith(record.unit)
            assert float(word.removesuffix(record.unit)) == record.value
        case Placed():
            assert word.startswith(str(record.amount))
            assert word.endswith(record.place)
        case Work():
            assert word.startswith(record.kind)
            assert ("tbl" in word, "wyif" in word, "twice" in word) == (record.tbl, record.wyif, record.twice)


def test_spans_give_back_their_words() -> None:
    texts = ["\n".join(line.text for line in make_lines(random.Random(seed))) for seed in range(60)]
    texts.append((CASES / "tern-lane.shawl").read_text(encoding="utf-8"))
    texts.append(texts[-1].replace("mesh", "me\u0301sh").replace('"body"', '"bo\\"dy"'))
    met = set()
    for text in texts:
        lines = text.split("\n")
        for record, span in _records(parse(text).description):
            _check(record, lines[span.line - 1][span.column - 1 : span.end - 1])
            met.add(type(record))
    assert {Text, Name, Count, Percent, Length, Mass, Placed, Work} <= met
