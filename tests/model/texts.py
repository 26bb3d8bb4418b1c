"""Descriptions for the model's tests: plain garter and one shape unless told otherwise."""

from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import MISTAKE
from halfhank.model.design.design import Design
from halfhank.model.design.resolve import resolve

GARTER = "stitch garter\n  gauge 20 sts 40 rows over 10 cm\n  swatch 40 sts 60 rows weighs 11.2 g"


def text(
    *parts: str,
    shape: str = "triangle",
    start: str = "cast on 9 sts",
    lines: tuple[str, ...] = (),
    skein: str = "100 g 380 m",
    keep: str = "keep 5%",
    stitches: str = GARTER,
    tail: str = "",
) -> str:
    """A description; each of `parts` is a part's lines without its header."""
    head = ['shawl "Check"', "yarn", f"  skein {skein}", f"  {keep}" if keep else "", "needles 4 mm", stitches]
    head += [f"shape {shape}", f"  {start}", *(f"  {line}" for line in lines)]
    for number, part in enumerate(parts, 1):
        head += [f'part "{number}"', *(f"  {line}" for line in part.splitlines())]
    return "\n".join([*(line for line in head if line), tail]) + "\n"


def described(*parts: str, **more: object) -> Design:
    """The design of `text`, which has no mistake of grammar."""
    parsed = parse(text(*parts, **more))  # type: ignore[arg-type]
    wrong = [problem for problem in parsed.problems if problem.severity == MISTAKE]
    assert parsed.description is not None and not wrong, wrong
    return resolve(parsed.description)
