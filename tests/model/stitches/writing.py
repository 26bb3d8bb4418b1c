"""Patterns for the tests, read from the description language."""

from halfhank.grammar.description import Description, Item, Stitch
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import MISTAKE

HEAD = """shawl "Pattern under test"
yarn
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
"""
TAIL = """shape rectangle
  cast on 60 sts
part "one"
  garter 2 ridges
"""


def described(block: str, tail: str = TAIL) -> Description:
    """A description with the given stitch blocks, which must be free of mistakes of grammar."""
    parsed = parse(HEAD + block.strip("\n") + "\n" + tail)
    assert parsed.description is not None and all(p.severity != MISTAKE for p in parsed.problems), parsed.problems
    return parsed.description


def stitch(rows: str, multiple: str = "", name: str = "lace") -> Stitch:
    """A stitch from its rows, one a line (`row 1: …`), and its multiple (`8 sts + 1`)."""
    lines = [f"  multiple of {multiple}"] if multiple else []
    lines += [f"  {line.strip()}" for line in rows.strip().splitlines()]
    found = described("\n".join([f"stitch {name}", *lines]))
    return next(one for one in found.stitches if one.name.value == name)


def items(notation: str) -> tuple[Item, ...]:
    """The items of one row."""
    return stitch(f"row 1: {notation}").rows[0].items


def grown(rows: str, multiple: str, shape: str, parts: str, head: str = "") -> Description:
    """A shawl in the pattern `lace`: the lines of its shape block and of its parts."""
    block = ["stitch lace", f"  multiple of {multiple}", *[f"  {line.strip()}" for line in rows.strip().splitlines()]]
    return described("\n".join(block) + "\n" + head, shape.strip("\n") + "\n" + parts.strip("\n") + "\n")
