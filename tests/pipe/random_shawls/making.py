"""Random shawls that can be worked and, for the most part, paid for: the same facts for every draw of the same
numbers.
"""

from functools import cache
from random import Random

from halfhank.model.plan import Planned
from hypothesis import strategies as st

from tests.pipe.random_shawls import fabrics, shapes
from tests.pipe.random_shawls.spec import AnyBand, Band, BindOff, Drop, Part, Repeat, Spec, Weighed, Written
from tests.pipe.random_shawls.writing import write
from tests.pipe.reference.fabrics import gram_m
from tests.pipe.reference.worked import Worked, has_allowance, work
from tests.whole import planned

TEXTS = (
    "Piece",
    "Flut und Ebbe",
    "Приливы",
    "潮の満ち引き",
    "שלום",
    "مد وجزر",
    "a < b & c > d",
    "]]> <script>alert('1')</script>",
    'the "second" one',
    "back \\ slash",
    "à la française – été",
    "🧶🧶🧶",
    "e\u0301a\u0323",
    "M" * 120,
    "one two three four five six seven eight nine ten " * 4,
)
LABELS = (None, None, None, "ditch", "hedge", "дюны", "波", "<b>", "W" * 60)
PARTS = (
    "neck",
    "body",
    "border",
    "край",
    "縁",
    "wing & tip",
    'the "hem"',
    "back \\ side",
    "Mitte",
    "a part with a rather long name, as some have",
    "3",
)


def amount(pick: Random, stash: fabrics.Stash) -> Band:
    """A plain band of a few rows."""
    names = ["garter", "stockinette", *(f.name for f in stash.fabrics if f.name != "drop")]
    name = pick.choice(names)
    pattern = next((f.pattern for f in stash.fabrics if f.name == name), None)
    unit = pick.choice(("rows", "ridges", "repeats") if pattern else ("rows", "ridges", "ridges"))
    most = {"rows": 14, "ridges": 10, "repeats": 4}[unit]
    count = pick.randint(1, most)
    if unit == "rows" and pick.random() < 0.7:
        count += count % 2
    return Band(name, (count,), unit, pick.choice(LABELS))


def listed(pick: Random, band: Band) -> Band:
    """The band with a list of counts, as bands inside a repeat may have."""
    return band._replace(counts=tuple(pick.randint(1, 7) for _ in range(pick.randint(2, 4))))


def bands(pick: Random, stash: fabrics.Stash, depth: int = 0) -> tuple[AnyBand, ...]:
    """A few bands, drops and repeats."""
    found: list[AnyBand] = []
    for _ in range(pick.randint(1, 3)):
        chance = pick.random()
        if chance < 0.15:
            found.append(Drop(pick.randint(2, 4), pick.choice(LABELS)))
        elif chance < 0.35 and depth < 3:
            found.append(Repeat(pick.randint(1, 4), bands(pick, stash, depth + 1)))
        else:
            band = amount(pick, stash)
            found.append(listed(pick, band) if depth and pick.random() < 0.5 else band)
    return tuple(found)


def allowing(pick: Random, found: tuple[AnyBand, ...]) -> tuple[AnyBand, ...]:
    """The bands with one of them, at any depth, made `as yarn allows`."""
    at = pick.randrange(len(found))
    chosen = found[at]
    if isinstance(chosen, Repeat):
        inner = pick.random() < 0.5
        chosen = chosen._replace(bands=allowing(pick, chosen.bands)) if inner else chosen._replace(times=None)
    elif isinstance(chosen, Band):
        chosen = chosen._replace(counts=())
    else:
        chosen = Repeat(None, (chosen,))
    return (*found[:at], chosen, *found[at + 1 :])


def parts(pick: Random, stash: fabrics.Stash, plan: shapes.Construction) -> tuple[Part, ...]:
    names = pick.sample(PARTS, pick.randint(1, 4))
    made = [Part(name, bands(pick, stash)) for name in names]
    for k in range(1, len(made)):
        chance = pick.random()
        if chance < 0.3 and plan.others[0]:
            made[k] = made[k]._replace(lines=pick.choice(plan.others))
        elif chance < 0.4:
            made[k] = made[k]._replace(even=True)
    if pick.random() < 0.35:
        k = pick.randrange(len(made))
        made[k] = made[k]._replace(bands=allowing(pick, made[k].bands))
    return tuple(made)


def bind_off(pick: Random) -> BindOff | None:
    return pick.choice(
        (
            None,
            BindOff("standard"),
            BindOff("elastic"),
            BindOff("i-cord"),
            BindOff("draw through"),
            BindOff("picot"),
            BindOff("picot", (3, 5)),
            BindOff("measured", takes="4.6"),
            BindOff("measured each", takes="2.5"),
        )
    )


def with_turn(pick: Random, spec: Spec) -> Spec:
    """The piece worked back, where it has no saw teeth."""
    if any(line.action == "bind off" for lines in (spec.lines, *(part.lines for part in spec.parts)) for line in lines):
        return spec
    around = len(spec.parts) > 1 and pick.random() < 0.5
    return spec._replace(turn_back=spec.parts[-1].name if around else "")


def paid(pick: Random, spec: Spec, metres_per_gram: float) -> Spec:
    """The piece with a skein that pays for it, now and then with one that does not."""
    allowed = pick.randint(1, 6)
    worked: Worked | None = work(spec, allowed)
    total = worked.total_m if worked else 300.0
    if not any(has_allowance(part.bands) for part in spec.parts) and pick.random() < 0.1:
        total *= 0.8
    metres = max(1.0, total * pick.uniform(1.13, 1.4))
    keep = (
        Written(fabrics.figure(0.04 * metres / metres_per_gram, 2), "g")
        if isinstance(spec.keep, Written)
        else spec.keep
    )
    mass = fabrics.mass(pick, metres / metres_per_gram)
    return spec._replace(skein_mass=mass, skein_length=fabrics.length(pick, metres * 100), keep=keep)


def weighings(pick: Random, spec: Spec) -> tuple[Weighed, ...]:
    """A log that lies near the plan."""
    worked = work(spec, 1)
    start = spec.skein_mass.g * pick.uniform(0.97, 1.05)
    found = [Weighed(0, Written(f"{start:.1f}", "g"))] if pick.random() < 0.7 else []
    if worked is None or pick.random() < 0.3:
        return tuple(found)
    near = pick.uniform(0.9, 1.1)
    for row in sorted(pick.sample(range(1, len(worked.steps) + 1), min(2, len(worked.steps)))):
        used = worked.used_m[row] / gram_m(spec) * near
        if 0.5 < used < start - 0.5:
            taken = row % 2 == 1
            found.append(Weighed(row, Written(f"{used if taken else start - used:.1f}", "g"), taken))
    return tuple(found)


def spec(pick: Random) -> Spec:
    """One shawl."""
    stash, plan = fabrics.stash(pick), shapes.construction(pick)
    provisional = Written(fabrics.figure(100 * stash.metres_per_gram, 1), "m")
    made = Spec(
        plan.shape,
        Written("100", "g"),
        provisional,
        stash.needles,
        stash.fabrics,
        plan.start,
        parts(pick, stash, plan),
        title=pick.choice(TEXTS),
        by=pick.choice((None, *TEXTS)),
        remarks=tuple(pick.choice(TEXTS) for _ in range(pick.choice((0, 0, 1, 2)))),
        units=pick.choice((None, "cm", "in")),
        yarn=pick.choice((None, *TEXTS)),
        fibre=pick.choice((None, *TEXTS)),
        keep=pick.choice((None, "5", "0", "7.5", Written("0.3", "g"))),
        edge=(plan.edge, pick.choice((None, "garter", "stockinette"))) if plan.edge else None,
        spine=plan.spine,
        lines=plan.lines,
        pinned=pick.choice(plan.pinned),
        bind_off=bind_off(pick),
    )
    made = with_turn(pick, made) if pick.random() < 0.3 else made
    made = paid(pick, made, stash.metres_per_gram)
    return made._replace(weighed=weighings(pick, made)) if pick.random() < 0.2 else made


@cache
def seeded(number: int) -> Spec:
    """The shawl of that number: always the same."""
    return spec(Random(number))


@cache
def seeded_plan(number: int) -> Planned:
    """The plan of that number's shawl; a plan cannot change, so all tests look at one."""
    return planned(write(seeded(number)))


def specs() -> st.SearchStrategy[Spec]:
    """Shawls, shrinking to plainer ones."""
    return st.randoms(use_true_random=False).map(spec)


def descriptions() -> st.SearchStrategy[str]:
    """Descriptions in all manner of spacing."""
    return st.builds(write, specs(), st.randoms(use_true_random=False))
