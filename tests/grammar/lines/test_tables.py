"""The shipped tables are fresh, parse as the grammar's text does, and stay out of the way where they do not fit."""

import json
import random
import subprocess
import sys

import lark
import pytest
from halfhank.grammar.language import STARTS
from halfhank.grammar.lines import tables
from halfhank.grammar.source_text.indentation import lay_out

from tests.grammar.cases import CASES
from tests.grammar.making import make_lines

GRAMMAR = tables.read(tables.GRAMMAR)


def test_the_tables_are_fresh() -> None:
    assert json.loads(tables.read(tables.TABLES)) == json.loads(json.dumps(tables.make_tables(GRAMMAR)))


def test_both_ways_parse_alike() -> None:
    text = "\n".join(line.text for seed in range(5) for line in make_lines(random.Random(seed)))
    text += (CASES / "problems" / "stitches" / "notation.shawl").read_text(encoding="utf-8")
    shipped, built = tables.load_parser(json.loads(tables.read(tables.TABLES))), tables.build_parser(GRAMMAR.decode())
    plain = lark.Lark(GRAMMAR.decode(), parser="lalr", start=list(STARTS), propagate_positions=True)
    read = 0
    for line in lay_out(text).lines:
        for start in STARTS:
            trees = [_parse(parser, line.code, start) for parser in (shipped, built, plain)]
            assert trees[0] == trees[1] == trees[2]
            read += trees[0] is not None
    assert read > 100


def _parse(parser: lark.Lark, code: str, start: str) -> list[object] | None:
    try:
        tree = parser.parse(code, start=start)
    except lark.UnexpectedInput:
        return None
    return [(part.data, part.children, part.meta.column, part.meta.end_column) for part in tree.iter_subtrees()]


@pytest.mark.parametrize("shipped", [b"", b"[]", b'{"key": ["0.0", "x"]}'])
def test_tables_that_do_not_fit_are_not_used(shipped: bytes, tmp_path, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "tables.json").write_bytes(shipped)
    monkeypatch.setattr(tables, "TABLES", str(tmp_path / "tables.json"))
    tables.line_parser.cache_clear()
    try:
        assert tables.line_parser().parse("cast on 9 sts", start="in_shape").data == "cast_on"
    finally:
        tables.line_parser.cache_clear()


def test_no_two_terminals_match_the_same_text_by_chance() -> None:
    pytest.importorskip("interegular")
    lark.Lark(GRAMMAR.decode(), parser="lalr", start=list(STARTS), strict=True)


def test_reading_leaves_slow_modules_alone() -> None:
    """A valid description is read without the modules that only mistakes or the building of tables need."""
    script = (
        "import sys, lark; before = set(sys.modules)\n"
        "from halfhank.grammar.parse import parse_bytes\n"
        f"assert not parse_bytes(open({str(CASES / 'tern-lane.shawl')!r}, 'rb').read()).problems\n"
        "new = set(sys.modules) - before\n"
        "assert not new & {'difflib', 'dataclasses', 'unicodedata', 'numpy', 'inspect'}, new"
    )
    subprocess.run([sys.executable, "-c", script], check=True)
