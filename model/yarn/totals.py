"""A plan's yarn in all, and what bands, parts and stitches take of it."""

from halfhank.model.shawl import BandPlan, Fabric, PartPlan, YarnPlan
from halfhank.model.yarn.ledger import hanging_m
from halfhank.model.yarn.uncertainty import chance_enough, sd_of, weakest
from halfhank.model.yarn.working import Working


def yarn_plan(working: Working) -> YarnPlan:
    """The skein and what the shawl takes of it."""
    gram, supply, yarn = working.supply.metres_per_gram, working.supply, working.design.yarn
    hanging = hanging_m(working.table, working.ledger.by_use())
    sd_g, total_g = sd_of(hanging) / gram, working.total_m / gram
    rows = working.row_count
    return YarnPlan(
        name=yarn.name,
        fibre=yarn.fibre,
        skein_g=supply.skein_g,
        skein_m=supply.skein_g * gram,
        keep_g=supply.margin_g,
        start_g=working.used_m[0] / gram,
        knitting_g=(working.used_m[-1] - working.used_m[0]) / gram,
        bind_off_g=(working.total_m - working.used_m[-1]) / gram,
        total_g=total_g,
        total_m=working.total_m,
        left_g=working.left_over_g,
        last_ridge_g=(working.used_m[-1] - working.used_m[max(0, rows - 2)]) / gram,
        sd_g=sd_g,
        chance_enough=chance_enough(total_g, sd_g, supply.skein_g, supply.sd),
        basis=weakest(hanging),
    )


def band_plans(working: Working) -> list[BandPlan]:
    """All expanded bands in working order."""
    plans, row = [], 0
    for number, part in enumerate(working.parts):
        done = 0
        for run in part.section.runs:
            first, row, done = row + 1, row + run.rows, done + run.rows
            used_g, to_here_g = _used_g(working, first, row)
            plans.append(
                BandPlan(
                    part=number,
                    stitch=run.stitch,
                    wraps=run.wraps,
                    label=run.source.label,
                    first_row=first,
                    last_row=row,
                    stitches_at_end=part.counts[done - 1],
                    height_cm=sum(working.table.measures.heights_cm(run.stitch, run.rows, run.wraps)),
                    used_g=used_g,
                    share=_share(working, used_g),
                    used_to_here_g=to_here_g,
                    left_g=working.left_g[row],
                )
            )
    return plans


def part_plans(working: Working) -> list[PartPlan]:
    """All parts in working order, the mirrored second half included."""
    plans = []
    for part in working.parts:
        used_g, _ = _used_g(working, part.first_row, part.last_row)
        span = (part.first_row, part.last_row, part.end)
        share, left_g = _share(working, used_g), working.left_g[part.last_row]
        plans.append(PartPlan(part.section.name, *span, used_g, share, left_g, part.section.mirrored))
    return plans


def fabrics_used(working: Working) -> tuple[Fabric, ...]:
    """The stitches of the bands in the order of their first use, then those of edges and fill."""
    names = dict.fromkeys(run.stitch for part in working.parts for run in part.section.runs)
    if working.yarn.edges:
        names.setdefault(working.yarn.edge_stitch)
    for stitch in list(names):
        if working.table[stitch].multiple:
            names.setdefault(working.table[stitch].fill)
    return tuple(working.table[name].fabric for name in names)


def _used_g(working: Working, first: int, last: int) -> tuple[float, float]:
    """Yarn used in some rows and up to the last of them, in g."""
    gram = working.supply.metres_per_gram
    return (working.used_m[last] - working.used_m[first - 1]) / gram, working.used_m[last] / gram


def _share(working: Working, used_g: float) -> float:
    total_g = working.total_m / working.supply.metres_per_gram
    return used_g / total_g if total_g else 0.0
