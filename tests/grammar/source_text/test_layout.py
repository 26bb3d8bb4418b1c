"""The tree of lines: nothing is lost, comments ride along, and caps hold at the limit and one above."""

import pytest
from halfhank.grammar.parse import parse, parse_bytes
from halfhank.grammar.source_text.indentation import LineNode, lay_out
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.grammar.cases import CASES, reported

TERN = (CASES / "tern-lane.shawl").read_text(encoding="utf-8")


@given(st.text(alphabet='ab \t\r\n#"“é\ufeff\\', max_size=80))
@settings(max_examples=200)
def test_the_lines_make_up_the_text_again(text: str) -> None:
    layout = lay_out(text)
    whole = ("\ufeff" if layout.bom else "") + "".join(line.raw + line.ending for line in layout.lines)
    assert whole == text


@given(st.text(alphabet='ab \t#"“–\u00a0\\', max_size=40))
@settings(max_examples=200)
def test_code_and_comment_keep_the_columns_of_the_line(text: str) -> None:
    for line in lay_out(text).lines:
        assert len(line.code) <= len(line.raw)
        if line.comment is not None:
            assert line.raw[line.comment] == "#"
            assert len(line.code) <= line.comment
        assert not line.code or line.code[line.indent] not in " \t"


def _shape(lines: list[LineNode]) -> list[object]:
    return [(line.source.number, _shape(line.children)) for line in lines]


def test_lines_hang_on_the_nearest_line_that_is_indented_less() -> None:
    text = "a\n  b\n\n  # note\n  repeat 2 times  # said\n      d\n      e\n  f\ng\n"
    layout = lay_out(text)
    assert _shape(layout.roots) == [(1, [(2, []), (5, [(6, []), (7, [])]), (8, [])]), (9, [])]
    assert layout.lines[3].comment == 2
    assert layout.lines[4].comment == 18
    assert layout.problems == ()


def test_a_hash_inside_a_text_starts_no_comment() -> None:
    line = lay_out('part "no. #1 \\" #2"  # yes').lines[0]
    assert line.code == 'part "no. #1 \\" #2"'
    assert line.comment == 21


def test_both_line_endings_and_a_byte_order_mark_read_alike() -> None:
    plain = parse(TERN)
    assert plain.problems == ()
    assert parse(TERN.replace("\n", "\r\n")) == plain
    assert parse("\ufeff" + TERN) == plain
    assert parse_bytes(("\ufeff" + TERN).encode()) == plain
    assert parse(TERN.removesuffix("\n")) == plain


def test_a_lone_carriage_return_is_a_control_character() -> None:
    assert (2, 3, "control-character") in reported(parse('shawl "A"\n  \rby "me"\n').problems)


@pytest.mark.parametrize("char", ["\x00", "\x1b", "\x7f", "\x85", "\u2028", "\ud800", "\ufffe"])
def test_control_characters_are_refused_in_texts_facts_and_comments(char: str) -> None:
    for line, column in [(f'  by "a{char}b"', 8), (f"  units{char} cm", 8), (f"  units cm # a{char}", 15)]:
        text = TERN.replace('  by "the demo workroom"', line)
        assert reported(parse(text).problems) == [(2, column, "control-character")]


def test_a_line_of_4000_characters_is_read_and_one_more_reported() -> None:
    fits = '  by "' + "x" * 3_993 + '"'
    assert len(fits) == 4_000
    assert parse(TERN.replace('  by "the demo workroom"', fits)).problems == ()
    over = TERN.replace('  by "the demo workroom"', fits[:-1] + 'x"')
    assert reported(parse(over).problems) == [(2, 4_001, "line-too-long")]
    assert reported(parse(TERN + "#" * 4_001).problems) == [(44, 4_001, "line-too-long")]


def _nested(depth: int) -> str:
    repeats = "".join(" " * level + "repeat 1 time\n" for level in range(1, depth))
    return TERN.replace("  garter 4 ridges\n", repeats + " " * depth + "garter 4 ridges\n")


def test_50_levels_are_read_and_one_more_reported() -> None:
    assert parse(_nested(50)).problems == ()
    found = reported(parse(_nested(51)).problems)
    assert [code for _, _, code in found] == ["nesting-too-deep"]
    assert [code for _, _, code in reported(parse(_nested(900)).problems)] == ["nesting-too-deep"]


def test_brackets_nest_50_deep_and_no_deeper() -> None:
    def row(depth: int) -> str:
        return TERN.replace("row 2: purl", "row 2: " + "[" * depth + "k1" + "] 2 times" * depth)

    assert parse(row(50)).problems == ()
    assert [p.code for p in parse(row(51)).problems] == ["brackets-too-deep"]
    assert [p.code for p in parse(row(350)).problems] == ["brackets-too-deep"]


def test_one_mib_is_read_and_one_byte_more_reported() -> None:
    line = "# " + "é" * 1000 + "\n"
    rest = 1_048_576 - len(TERN.encode())
    filler = line * (rest // len(line.encode()))
    filler += "#" * (rest - len(filler.encode()) - 1) + "\n" if rest - len(filler.encode()) else ""
    whole = TERN + filler
    assert len(whole.encode()) == 1_048_576
    assert parse_bytes(whole.encode()).problems == ()
    assert reported(parse_bytes(whole.encode() + b"\n").problems) == [(0, 0, "file-too-large")]
    assert reported(parse(whole + "\n").problems) == [(0, 0, "file-too-large")]


def test_bytes_that_are_no_text() -> None:
    assert reported(parse_bytes(b"shawl\n  by \xe9\n").problems) == [(2, 6, "not-utf-8")]
    assert reported(parse_bytes(TERN.encode("utf-16")).problems) == [(0, 0, "not-text")]
    assert reported(parse_bytes(b"\x7fELF\0\0").problems) == [(0, 0, "not-text")]
    assert reported(parse_bytes(b"").problems) == [(0, 0, "empty-description")]
    assert reported(parse_bytes(b"\n  # nothing\n").problems) == [(0, 0, "empty-description")]


def test_after_100_problems_only_their_number() -> None:
    def wrong(lines: int) -> str:
        return TERN.replace("  garter 16 ridges\n", "  garter 0 ridges\n" * lines)

    assert [p.code for p in parse(wrong(100)).problems] == ["zero-number"] * 100
    many = parse(wrong(137)).problems
    assert len(many) == 101
    assert (many[-1].code, many[-1].message) == ("more-problems", "37 more problems are not shown.")
