"""Whatever bytes come in: a documented status, in bounded time, and nothing raw on the terminal."""

import json

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.cli.running import GOOD, halfhank

LINES = GOOD.encode().split(b"\n")
TIMES = settings(max_examples=60)
piece = st.one_of(
    st.binary(max_size=12),
    st.sampled_from(
        [b"\x1b[31m", "\u202e".encode(), b"\r", b"\t", b'"', b"#", b"  ", b"99999999999", b"0", b"1e308", b"-1"]
    ),
)


@st.composite
def mangled(draw: st.DrawFn) -> bytes:
    """A good description with a few places changed."""
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        line = lines[at]
        cut = draw(st.integers(0, len(line)))
        rest = draw(st.sampled_from([line[cut:], line[cut + 1 :], b""]))
        lines[at] = line[:cut] + draw(piece) + rest
    return b"\n".join(lines)


def _is_sound(data: bytes) -> None:
    statuses = set()
    for arguments in (["check", "-"], ["draw", "-"], ["plan", "-"], ["plan", "-", "--json"]):
        result = halfhank(*arguments, stdin=data)
        statuses.add(result.status)
        drawing = arguments[0] == "draw"  # a file, which holds the texts as they are, and nothing for a terminal
        text = result.err if drawing else result.out.decode() + result.err
        assert all(c == "\n" or c.isprintable() for c in text)
    assert statuses in ({0}, {1})
    json.loads(result.out)


@TIMES
@given(st.binary(max_size=300))
def test_any_bytes(data: bytes) -> None:
    _is_sound(data)


@TIMES
@given(mangled())
def test_a_mangled_description(data: bytes) -> None:
    _is_sound(data)


@TIMES
@given(st.lists(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=8), max_size=5))
def test_any_arguments(arguments: list[str]) -> None:
    if "-o" in arguments or any(argument.startswith(("-o", "--o")) for argument in arguments):
        return
    result = halfhank(*arguments)
    assert result.status in (0, 2)
    assert all(c == "\n" or c.isprintable() for c in result.out.decode() + result.err)
