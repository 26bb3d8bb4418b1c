"""A plan's yarn in all: what each error carries, the totals, and what bands and parts take."""

from collections import Counter

from halfhank.model.ends.marks import Progress
from halfhank.model.rows.sections import Run
from halfhank.model.shawl import BandPlan, Fabric, PartPlan, YarnPlan
from halfhank.model.yarn.row_yarn import BIND_OFF_STITCH, PLAIN, RowYarn, start_m, wraps_of_rows
from halfhank.model.yarn.stitch_table import GAUGE, SWATCH
from halfhank.model.yarn.uncertainty import BASES, chance_enough, sd_of


def stitch_metres(at: Progress) -> dict[str, float]:
    """Yarn of the rows by the stitch that it goes into, in m, stitches bound off on the way left out."""
    stitches: Counter[tuple[str, int]] = Counter()
    for part in at.parts:
        done = 0
        for run in part.section.runs:
            for first, end, wraps in wraps_of_rows(run):
                _count(at.yarn, run, wraps, part.counts[done + first : done + end], stitches)
            done += run.rows
    metres: dict[str, float] = {}
    for (stitch, wraps), count in stitches.items():
        metres[stitch] = metres.get(stitch, 0.0) + count * at.yarn.stitch_m(stitch, wraps)
    return metres


def _count(yarn: RowYarn, run: Run, wraps: int, counts: list[int], stitches: Counter[tuple[str, int]]) -> None:
    material = yarn.room[run.stitch]
    if wraps > 1 or (not yarn.edges and material.multiple is None):
        stitches[run.stitch, wraps] += sum(counts)
        return
    for live in counts:
        own, edge, fill = yarn.split(run.stitch, wraps, live)
        stitches[run.stitch, wraps] += own
        if edge:
            stitches[yarn.edge_stitch, 1] += edge
        if fill:
            stitches[material.fill, 1] += fill


def hanging_m(at: Progress) -> dict[str, float]:
    """Metres that hang on each error. The start and bind-offs hang on the plain stitch's errors and on their own."""
    off = at.room.description.bind_off
    plain_m = at.room[PLAIN].fabric.yarn_m
    bound_off = sum(part.bound_off for part in at.parts)
    ends = {"start": start_m(at.room), "bind off": bound_off * BIND_OFF_STITCH * plain_m}
    end_m = at.total_m - at.used_m[-1]
    measured = off is not None and off.method == "measured"
    plain = sum(ends.values()) + (0.0 if measured else end_m)
    ends["bind off"] += end_m
    metres = stitch_metres(at)
    metres[PLAIN] = metres.get(PLAIN, 0.0) + plain
    hanging = dict(ends)
    for stitch, amount in metres.items():
        for error in at.room[stitch].errors if amount else ():
            hanging[error] = hanging.get(error, 0.0) + amount
    return hanging


def _weakest(errors: dict[str, float]) -> str:
    kinds = {error.split()[0] for error, metres in errors.items() if metres}
    return next((basis for basis in BASES if basis in kinds), SWATCH if SWATCH in kinds else GAUGE)


def yarn_plan(at: Progress) -> YarnPlan:
    """The skein and what the shawl takes of it."""
    gram, skein, yarn = at.skein.metres_per_gram, at.skein, at.room.description.yarn
    hanging = hanging_m(at)
    sd_g, total_g = sd_of(hanging) / gram, at.total_m / gram
    rows = len(at.used_m) - 1
    return YarnPlan(
        name=yarn.name.value if yarn.name else None,
        fibre=yarn.fibre.value if yarn.fibre else None,
        skein_g=skein.skein_g,
        skein_m=skein.skein_g * gram,
        keep_g=skein.keep_g,
        start_g=at.used_m[0] / gram,
        knitting_g=(at.used_m[-1] - at.used_m[0]) / gram,
        bind_off_g=(at.total_m - at.used_m[-1]) / gram,
        total_g=total_g,
        total_m=at.total_m,
        left_g=skein.skein_g - total_g,
        last_ridge_g=(at.used_m[-1] - at.used_m[max(0, rows - 2)]) / gram,
        sd_g=sd_g,
        chance_enough=chance_enough(total_g, sd_g, skein.skein_g, skein.weighed),
        basis=_weakest(hanging),
    )


def band_plans(at: Progress) -> list[BandPlan]:
    """All expanded bands in working order."""
    plans, row = [], 0
    for number, part in enumerate(at.parts):
        done = 0
        for run in part.section.runs:
            first, row, done = row + 1, row + run.rows, done + run.rows
            used_g, to_here_g = _used_g(at, first, row)
            plans.append(
                BandPlan(
                    part=number,
                    stitch=run.stitch,
                    wraps=run.wraps,
                    label=run.source.label.value if run.source.label else None,
                    first_row=first,
                    last_row=row,
                    stitches_at_end=part.counts[done - 1],
                    height_cm=sum(at.room.heights_cm(run.stitch, run.rows, run.wraps)),
                    used_g=used_g,
                    share=_share(at, used_g),
                    used_to_here_g=to_here_g,
                    left_g=at.skein.skein_g - to_here_g,
                )
            )
    return plans


def part_plans(at: Progress) -> list[PartPlan]:
    """All parts in working order, the way back included."""
    plans = []
    for part in at.parts:
        used_g, to_here_g = _used_g(at, part.first_row, part.last_row)
        left_g = at.skein.skein_g - to_here_g
        span = (part.first_row, part.last_row, part.end)
        plans.append(PartPlan(part.section.name, *span, used_g, _share(at, used_g), left_g))
    return plans


def fabrics_used(at: Progress) -> tuple[Fabric, ...]:
    """The stitches of the bands in the order of their first use, then those of edges and fill."""
    names = dict.fromkeys(run.stitch for part in at.parts for run in part.section.runs)
    if at.yarn.edges:
        names.setdefault(at.yarn.edge_stitch)
    for stitch in list(names):
        if at.room[stitch].multiple:
            names.setdefault(at.room[stitch].fill)
    return tuple(at.room[name].fabric for name in names)


def _used_g(at: Progress, first: int, last: int) -> tuple[float, float]:
    """Yarn used in some rows and up to the last of them, in g."""
    gram = at.skein.metres_per_gram
    return (at.used_m[last] - at.used_m[first - 1]) / gram, at.used_m[last] / gram


def _share(at: Progress, used_g: float) -> float:
    total_g = at.total_m / at.skein.metres_per_gram
    return used_g / total_g if total_g else 0.0
