"""Random descriptions with more in them than yarn needs: every kind of shaping, edge, spine and stitch pattern.

Constructions, parts and the writing are those of the random shawls of the whole pipe. What is different: patterns that
change their count, panels, odd numbers of rows, wide edges and spines, named methods. The skein is large, or the yarn
sets the number of rows.
"""

import re
from random import Random

from tests.pipe.random_shawls.fabrics import Stash
from tests.pipe.random_shawls.making import bind_off, parts, with_turn
from tests.pipe.random_shawls.shapes import Construction, construction
from tests.pipe.random_shawls.spec import Fabric, Line, Pattern, Spec, Swatch, Tension, Written
from tests.pipe.random_shawls.writing import write
from tests.pipe.reference.worked import has_allowance

OVER = Written("10", "cm")
GARTER = Fabric("garter", Tension("20", "40", OVER), swatch=Swatch(40, 60, Written("10.6", "g")))


def rows(multiple: int, extra: int, *written: str) -> Pattern:
    """A pattern of which only the rows matter here."""
    return Pattern(multiple, extra, written, 1, 1, 0, True)


PATTERNS = {
    "eyelets": rows(2, 1, "k1, *yo, k2tog*", "purl"),
    "chevron": rows(6, 1, "k1, *yo, ssk, k1, k2tog, yo, k1*", "purl"),
    "arches": rows(8, 1, "k1, *yo, k2, s2kp, k2, yo, k1*", "purl", "k1, *k7, k1*", "p1, *p8*"),
    "fans": rows(4, 1, "k1, *[k1, yo, k1] in 1, k3*", "purl", "*k3tog, k3*, k1", "purl"),
    "closing": rows(3, 0, "*k2tog, k1*", "purl", "*yo, k2*", "purl"),
    "opening": rows(2, 1, "k1, *yo, k2*", "*p2tog, p1*, p1"),
    "three": rows(2, 0, "*k2tog, yo*", "purl", "*yo, ssk*"),
    "slipped": rows(2, 1, "*k1, sl1 wyif*, k1", "purl"),
    "tucks": rows(4, 3, "k3, *sl1, k3*", "p3, *sl1, p3*", "knit", "knit"),
    "waves": rows(4, 0, "*k1 with 3 wraps, k1, k2 with 2 wraps*", "purl", "knit"),
    "long-pairs": rows(2, 0, "*k2tog with 2 wraps, yo*", "knit"),
    "cables": rows(8, 2, "p2, *2/2 lc, k2, p2*", "k2, *p6, k2*", "p2, *k2, 2/2 rc, p2*", "k2, *p6, k2*"),
    "holes": rows(4, 0, "*k2tog, yo twice, ssk*", "*p1, k1, p2*"),
    "both-sides": rows(2, 0, "*yo, k2tog*", "*yo, p2tog*"),
    "twisted": rows(2, 1, "*k1 tbl, p1*, k1 tbl", "*p1 tbl, k1*, p1 tbl"),
    "doubled": rows(3, 0, "*kfb, k2tog*", "purl", "*k2tog, kfb*", "knit"),
    "eights": rows(8, 0, "*[k1, p1] 2 times, [yo, k2tog] 2 times*", "*p4, [k1, p1] 2 times*"),
    "sloped": rows(5, 2, "k1, *sk2p, yo twice, k2*, k1", "purl"),
    "clusters": rows(4, 0, "*[k1, yo, k1] in 1, p3tog*", "purl", "*p3tog, [k1, yo, k1] in 1*", "purl"),
}
PANELS = {
    "column": ("k2, yo, ssk, k1, k2tog, yo, k2", "purl"),
    "rope": ("p1, 2/2 rc, p1", "k1, p4, k1", "p1, k4, p1", "k1, p4, k1"),
}
BUILT_IN = ("moss", "eyelet-row", "scattered-eyelets", "open-mesh", "drop-wave", "small-cable")
INCREASES = ("yo", "m1", "kfb")
DECREASES = ("k2tog", "ssk", "k3tog", "sssk", "s2kp", "sk2p")


def fabric(pick: Random, name: str) -> Fabric:
    """A stitch by its name; now and then without rows."""
    if pick.random() < 0.08:
        return Fabric(name, Tension("19", "36", OVER))
    fill = pick.choice((None, None, "garter", "stockinette"))
    return Fabric(name, None if pick.random() < 0.3 else Tension("19", "30", OVER), pattern=PATTERNS[name], fill=fill)


def lines(pick: Random, plan: Construction) -> tuple[Line, ...]:
    """The construction's lines, now and then with one more of any kind."""
    floor = pick.randint(8, 30)
    places = ("each edge", "upper edge", "lower edge", *(("spine",) if plan.shape == "triangle" else ()))
    place, every, first = pick.choice(places), pick.choice((None, 1, 2, 3, 5, 8)), pick.choice((None, 2, 5, 12))
    if plan.shape == "rectangle" or pick.random() < 0.4:
        return plan.lines
    more = pick.choice(
        (
            Line("increase", ((pick.randint(1, 7), place),), every, first, pick.choice((None, 150))),
            Line("decrease", ((pick.randint(1, 5), place),), every, first, floor),
            Line("increase", ((pick.randint(1, 30), "evenly"),), every and every + 2, first),
            Line("decrease", ((pick.randint(1, 20), "evenly"),), every and every + 2, first, floor),
            Line("increase", (), None, first, None, pick.randint(60, 160)),
            Line("bind off", ((pick.randint(1, 6), pick.choice(places[1:3])),), pick.choice((6, 9, 12)), first, floor),
        )
    )
    return (more,) if pick.random() < 0.3 else (*plan.lines, more)


def spec(pick: Random) -> Spec:
    """One piece."""
    plan = construction(pick)
    blocks = (GARTER, *(fabric(pick, name) for name in pick.sample(sorted(PATTERNS), pick.randint(1, 3))))
    known = (*blocks, *(Fabric(name, pattern=rows(1, 0, "knit")) for name in pick.sample(BUILT_IN, 1)))
    worked = parts(pick, Stash(known, 4.0, Written("4", "mm")), plan)
    bounded = any(has_allowance(part.bands) for part in worked)
    metres = str(pick.randint(200, 900)) if bounded else "40000"
    edge = (pick.choice((1, 2, 3, 3, 4, 5, 6)), pick.choice((None, "garter", "stockinette", "moss", blocks[-1].name)))
    made = Spec(
        plan.shape,
        Written("100", "g"),
        Written(metres, "m"),
        Written("4", "mm"),
        blocks,
        plan.start,
        worked,
        edge=None if pick.random() < 0.25 else edge,
        spine=pick.choice((None, 0, 1, 2, 3, 5, 9)) if plan.shape == "triangle" else None,
        lines=lines(pick, plan),
        bind_off=bind_off(pick),
    )
    return with_turn(pick, made) if pick.random() < 0.25 else made


def with_methods(text: str, pick: Random) -> str:
    """Shaping lines with the increase or the decrease named."""

    def named(line: re.Match[str]) -> str:
        methods = INCREASES if line[1] == "increase" else DECREASES
        return re.sub(r"(\d+) at", lambda found: f"{found[1]} {pick.choice(methods)} at", line[0])

    return re.sub(r"(?m)^ +(increase|decrease) \d.*$", named, text)


def with_panel(text: str, pick: Random) -> str:
    """A panel at the end of the last part."""
    name = pick.choice(sorted(PANELS))
    block = "\n".join(f"  row {number}: {row}" for number, row in enumerate(PANELS[name], 1))
    body, off, tail = text.partition("\n\nbind off")
    body, turn, turned = body.partition("\n\nturn back")
    band = f"\n  {name} {pick.randint(1, 9)} rows"
    return body.replace("\n\nshape ", f"\n\nstitch {name}\n{block}\n\nshape ", 1) + band + turn + turned + off + tail


def piece(number: int) -> tuple[str, str]:
    """The description of that number, and the same with methods named (which may not suit its stitches)."""
    pick = Random(f"piece {number}")
    text = write(spec(pick)).rstrip("\n")
    if pick.random() < 0.1:
        text = with_panel(text, pick)
    return text + "\n", with_methods(text, pick) + "\n" if pick.random() < 0.5 else text + "\n"
