"""Random shawls that aim at single terms of the bound by which `as yarn allows` passes counts over.

Each family has a growing part that changes little, beside parts in which one row more moves many stitches, or comes
near a bound of live stitches.
"""

from collections.abc import Callable
from random import Random

from halfhank.model.design.design import Design
from halfhank.model.rows.shaping import MAX_STITCHES

from tests.model.texts import GARTER, described

MESH = "stitch mesh\n  multiple of {} sts + {}\n  gauge 20 sts 30 rows over 10 cm\n  swatch 20 sts 40 rows takes 9 m"
DEAR = "stitch dear\n  gauge 20 sts 30 rows over 10 cm\n  swatch 20 sts 40 rows takes 60 m"
EVERY = (1, 1, 2, 2, 3, 4, 5, 7)


def line(action: str, amount: int, every: int, first: int = 1, until: int = 0) -> str:
    """A shaping line of stitches taken evenly over the row."""
    tail = f" until {until} sts" if until else ""
    return f"{action} {amount} evenly every {every} rows from row {first}{tail}".replace("every 1 rows", "every row")


def rows(number: int, stitch: str = "garter") -> str:
    return f"{stitch} {number} {'row' if number == 1 else 'rows'}"


def grows(number: int = 1) -> str:
    return f"repeat as yarn allows\n  {rows(number)}"


def turned(pick: Random) -> Design:
    """A shaped part worked back after a centre of an odd or an even number of rows."""
    amount, times = pick.choice((1, 5, 30)), pick.randint(2, 12)
    every = pick.choice(EVERY)
    shaping = [line("increase", amount, every, pick.randint(1, 20))]
    if pick.random() < 0.5:
        shaping = [line("increase", amount, every, 1, 40 + amount * times)]
        shaping.append(line("decrease", amount, pick.choice((every, *EVERY)), every * times + 1, 40))
    whole = pick.random() < 0.3
    centre = f"even\n{grows()}"
    parts = ["\n".join([*([] if whole else shaping), rows(pick.randint(4, 60))]), centre]
    tail = 'turn back around "2"'
    if pick.random() < 0.3:
        parts, tail = [parts[1], parts[0]], "turn back"
    return described(*parts, start="cast on 40 sts", lines=tuple(shaping) if whole else (), tail=tail)


def taken_up_again(pick: Random) -> Design:
    """Lines of the shape that rest in parts with their own, and shift against the later parts as more is worked."""
    every = pick.choice((*EVERY, 12, 40))
    action = pick.choice(("increase", "increase", "decrease"))
    lines = (line(action, pick.choice((5, 60)), every, pick.randint(1, 120)),)
    parts = [pick.choice(("even\n", "even\n", "increase 1 evenly every 3 rows\n", "")) + grows(pick.choice((1, 2, 3)))]
    for _ in range(pick.choice((1, 2, 3))):
        parts += [rows(pick.choice((1, 2, 5, 20))), f"even\n{rows(pick.choice((1, 2, 5)))}"]
    parts.append(rows(pick.choice((1, 5))))
    parts.append(f"even\n{rows(pick.choice((1, 100, 200)))}")
    return described(*parts, start="cast on 3000 sts", lines=lines)


def swinging(pick: Random) -> Design:
    """Two lines on the same row, the one taking away what the other gives, near the most or the fewest stitches.

    At the fewest a third line may make up, by the end of the row, for what the part begins with.
    """
    up, made_up = pick.random() < 0.5, pick.random() < 0.5
    amount, every, first = pick.choice((50, 500, 900)), pick.choice((1, 2, 3)), 1 if made_up else pick.randint(2, 9)
    give, take = line("increase", amount, every, first), line("decrease", amount, every, first)
    room = pick.randint(5, 60)
    live = MAX_STITCHES - amount - room if up else amount + room
    growing = line("increase" if up else "decrease", 1, pick.choice((1, 2)))
    lines = [give, take] if up else [take, give, *([line("increase", 3, 2)] if made_up else [])]
    parts = [f"{growing}\n{grows(pick.choice((1, 2)))}", "\n".join([*lines, rows(first + pick.randint(0, 5))])]
    return described(*parts, start=f"cast on {live} sts")


def refilled(pick: Random) -> Design:
    """A stitch with a large multiple, filled with one that takes far more yarn, on ever fewer stitches."""
    multiple, extra = pick.choice(((150, 0), (40, 1), (7, 3), (90, 2)))
    live = pick.choice((1, 2, 4)) * multiple + extra + pick.randint(0, 30)
    growing = line("decrease", pick.choice((1, 2)), pick.choice((1, 2)))
    parts = [f"{growing}\n{grows()}", f"even\n{rows(pick.choice((1, 10, 200)), 'mesh')}"]
    stitches = f"{GARTER}\n{DEAR}\n{MESH.format(multiple, extra)}\n  fill {pick.choice(('dear', 'garter'))}"
    return described(*parts, shape="crescent", start=f"cast on {live} sts", stitches=stitches)


def stopped(pick: Random) -> Design:
    """A line with `until` after the growing part, which gives an act more or less by where that part leaves it."""
    amount, every, times = pick.choice((30, 80)), pick.choice(EVERY), pick.randint(1, 20)
    up = pick.random() < 0.6
    live, sign = 5000, 1 if up else -1
    until = live + sign * (amount * times + pick.randrange(amount))
    own = line("increase" if up else "decrease", amount, every, 1, until)
    growing = line("increase" if pick.random() < 0.5 else "decrease", 1, pick.choice((1, 2, 6)))
    parts = [f"{growing}\n{grows()}", f"{own}\n{rows(60)}", f"even\n{rows(pick.choice((1, 100, 200)))}"]
    return described(*parts, start=f"cast on {live} sts")


def dear_ends(pick: Random) -> Design:
    """Stitches bound off on the way, and a bind-off that takes far more yarn than a row."""
    amount, every = pick.choice((5, 30)), pick.choice((1, 2, 3))
    given = line("increase", amount, every)
    bound_off = f"bind off {amount} at upper edge every {every} rows".replace("every 1 rows", "every row")
    takes, growing = pick.choice((("0.001", bound_off), ("900", given)))
    parts = [f"{growing}\n{grows(pick.choice((1, 2)))}"]
    if pick.random() < 0.5:
        parts.append(f"even\n{rows(pick.choice((1, 3)))}")
    return described(*parts, start="cast on 2000 sts", tail=f"bind off takes {takes} times the width")


FAMILIES: tuple[Callable[[Random], Design], ...] = (turned, taken_up_again, swinging, refilled, stopped, dear_ends)
