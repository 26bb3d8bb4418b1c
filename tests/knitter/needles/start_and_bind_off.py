"""The start, from the cast-on to the first row, and the bind-off, to the empty needle."""

import re

from tests.knitter.needles.needle import Needles, Stitch
from tests.knitter.needles.working import RowWorker, Worked
from tests.knitter.refusal import RefusedError, at, needed, sts
from tests.knitter.text.items import KNIT
from tests.knitter.text.reading import SideRow

Lines = tuple["str | SideRow", ...]
NUMBER = r"([1-9]\d*)"
CAST_ON = re.compile(rf"Cast on {NUMBER} sts?\.")
TAB_ROWS = re.compile(rf"Knit {NUMBER} rows?\.")
TURN = re.compile(
    r"Turn the work 90° clockwise; pick up and knit 1 st in "
    rf"(?:each of the {NUMBER} ridges|the (?:1 )?ridge), "
    rf"then {NUMBER} sts? from the cast-on edge \({NUMBER} sts?\)\."
)
DRAW = re.compile(rf"Cut the yarn and draw it through the last (?:st|{NUMBER} sts)\.")


def read_line(pattern: re.Pattern[str], line: str | SideRow) -> re.Match[str]:
    """The line's match; refuses another line."""
    found = pattern.fullmatch(line) if isinstance(line, str) else None
    if found is None:
        raise RefusedError(f"cannot be read here: `{line if isinstance(line, str) else line.name}`")
    return found


def work_start(lines: Lines, needles: Needles) -> int:
    """Casts on, and works the garter tab where there is one. Gives the loops drawn."""
    with at("Start"):
        needed(len(lines) in (1, 4), "a cast-on, or a cast-on with a garter tab of three lines more")
        count = int(read_line(CAST_ON, lines[0])[1])
        _pick_up(count, needles)
        needles.turn()
        loops = count
        return loops + _tab(lines[1:], count, needles) if len(lines) > 1 else loops


def _pick_up(count: int, needles: Needles) -> None:
    for _ in range(count):
        needles.place(Stitch(0, KNIT))


def _tab(lines: Lines, cast_on: int, needles: Needles) -> int:
    """Knits the rows, picks up along the side and the cast-on edge, and works the set-up row."""
    rows = int(read_line(TAB_ROWS, lines[0])[1])
    needed(rows % 2 == 0, f"{rows} rows are no whole ridges")
    for row in range(rows):
        for _ in needles.take(cast_on, "knit"):
            needles.place(Stitch(0, KNIT))
        if row < rows - 1:
            needles.turn()
    picked = _turned(read_line(TURN, lines[1]), rows // 2, cast_on, needles)
    needles.turn()
    return cast_on * rows + picked + _set_up(lines[2], needles)


def _turned(found: re.Match[str], ridges: int, cast_on: int, needles: Needles) -> int:
    """Picks up a stitch in each ridge, then those of the cast-on edge."""
    along, edge, total = int(found[1] or 1), int(found[2]), int(found[3])
    needed(along == ridges, f"the tab has {ridges} ridges, not {along}")
    needed(edge <= cast_on, f"the cast-on edge has {cast_on} sts, not {edge}")
    _pick_up(along + edge, needles)
    needed(len(needles) == total, f"{sts(len(needles))} on the needle, not {total}")
    return along + edge


def _set_up(row: str | SideRow, needles: Needles) -> int:
    needed(isinstance(row, SideRow) and row.name == "Set-up row" and row.side == "WS", "a set-up row (WS) is due")
    assert isinstance(row, SideRow)
    with at("Set-up row"):
        worked = RowWorker(needles, 0, wrong_side=True).work(row.items)
        needed(len(needles.right) == row.stitches, f"{sts(len(needles.right))} on the needle, not {row.stitches}")
        needles.turn()
        return worked.loops


def work_bind_off(lines: Lines, needles: Needles, row: int) -> Worked:
    """Binds off in that row, and draws the yarn through what is left. The needle is empty then."""
    with at("Bind off"):
        needed(len(lines) in (1, 2), "a bind-off row, or none, and then the yarn is cut")
        worked = _bind_off_row(lines[0], needles, row) if len(lines) == 2 else Worked()
        last = int(read_line(DRAW, lines[-1])[1] or 1)
        needed(len(needles) == last, f"{sts(len(needles))} on the needle, and the yarn is drawn through {last}")
        needles.left.clear()
        needles.right.clear()
        return worked


def _bind_off_row(line: str | SideRow, needles: Needles, row: int) -> Worked:
    side = "RS" if row % 2 else "WS"
    needed(isinstance(line, SideRow) and line.name == "Bind-off row", f"a bind-off row is due, not `{line}`")
    assert isinstance(line, SideRow)
    with at(f"Bind-off row ({line.side})"):
        needed(line.side == side, f"this is a {side} row")
        worked = RowWorker(needles, row, side == "WS", bind_off=True).work(line.items)
        needed(len(needles) == line.stitches, f"{sts(len(needles))} on the needle, not {line.stitches}")
        return worked
