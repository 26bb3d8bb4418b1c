"""How the time of each stage grows with the piece: ten times the rows, as a multiple of the time of the tenth.

About ten is linear. Each ratio is of two measurements in one run, the least of several.
"""

import time
from collections.abc import Callable

from halfhank.grammar.parse import parse
from halfhank.model.planning.planning import plan_parsed
from halfhank.renderer import draw_schematic, to_svg

HEAD = """shawl "Growth"
yarn
  skein {grams} g {metres} m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
  swatch 40 sts 60 rows weighs 10.8 g
shape triangle
  cast on 9 sts
  increase 1 at each edge and 1 at spine every 8 rows
part "body"
"""
TRIES = 3


def description(rows: int | None, grams: float = 100) -> str:
    """A triangle of so many rows, or of as many as a skein of so many grams allows."""
    band = "garter as yarn allows" if rows is None else f"garter {rows} rows"
    return HEAD.format(grams=f"{grams:.0f}", metres=f"{4 * grams:.0f}") + f"  {band}\n"


def seconds(work: Callable[[], object]) -> float:
    """The least processor time of some tries."""
    found = []
    for _ in range(TRIES):
        before = time.process_time()
        work()
        found.append(time.process_time() - before)
    return min(found)


def planned(text: str) -> Callable[[], object]:
    return lambda: plan_parsed(parse(text))


def drawn(text: str) -> Callable[[], object]:
    shawl = plan_parsed(parse(text)).shawl
    assert shawl is not None
    return lambda: to_svg(draw_schematic(shawl))


def main() -> None:
    """Print a line for each stage."""
    junk = [("junk 12,\n" * count) for count in (2_000, 20_000)]
    just_g = _grams_of(9_000)
    stages = [
        ("plan, 1,000 and 10,000 rows", *(planned(description(rows)) for rows in (1_000, 10_000))),
        ("drawing of them", *(drawn(description(rows)) for rows in (1_000, 10_000))),
        ("as yarn allows, against as many rows written", *(planned(description(n, just_g)) for n in (9_000, None))),
        ("2,000 and 20,000 lines of mistakes", *(lambda text=text: parse(text) for text in junk)),
    ]
    for name, small, large in stages:
        print(f"{seconds(large) / seconds(small):6.2f}  {name}")


def _grams_of(rows: int) -> float:
    """The skein that so many rows use up, its margin kept."""
    shawl = plan_parsed(parse(description(rows, 1_000_000))).shawl
    assert shawl is not None
    return shawl.yarn.total_g / 0.95


if __name__ == "__main__":
    main()
