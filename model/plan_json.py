"""The plan for other programs, as a dict that `json` writes; `plan.schema.json` beside this module describes it."""

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from halfhank.grammar.problems.problem import Problem
from halfhank.model.shawl import BandPlan, Fabric, Mark, PartPlan, Shawl

if TYPE_CHECKING:
    from halfhank.model.marks_and_stops.repeat_choices import RepeatChoices
    from halfhank.model.rows.shaping_table import Shaped

FORMAT = 1
DECIMALS, STITCH_DECIMALS = 4, 6
"""Decimals of all numbers, and of the grams in one stitch, which are small."""

Json = dict[str, Any]


def plan_json(
    shawl: Shawl | None,
    problems: Iterable[Problem],
    with_rows: bool = False,
    choices: "RepeatChoices | None" = None,
    shaping: Iterable["Shaped"] = (),
) -> Json:
    """The plan, its problems among it; only those where mistakes kept it from being computed.

    `choices` of the count that the yarn sets, or of the last repeat, where there are any. `shaping` of all parts.
    """
    listed = problems_json(problems)
    if shawl is None:
        return {"format": FORMAT, "problems": listed}
    plan = {
        "format": FORMAT,
        "title": shawl.title,
        "shape": shawl.shape,
        "counts": _counts(shawl),
        "size": _size(shawl),
        "fan_degrees": _rounded(shawl.outline.fan_degrees),
        "stretch": _stretch(shawl),
        "yarn": _yarn(shawl),
        "marks": {name: _mark(mark) for name, mark in shawl.marks._asdict().items()},
        "parts": [_part(part, _part_name(shawl, place)) for place, part in enumerate(shawl.parts)],
        "stitches": [_stitch(fabric, shawl) for fabric in shawl.fabrics],
        "needles_mm": _rounded(shawl.needles_mm),
        "bands": [_band(band, shawl) for band in shawl.bands],
        "shaping": [_shaped(one, shawl) for one in shaping],
        "repeat_choices": _choices(choices) if choices else None,
    }
    if with_rows:
        plan["rows"] = _rows(shawl)
    plan["problems"] = listed
    return plan


def problems_json(problems: Iterable[Problem]) -> list[Json]:
    """Problems in their order; `line` and `column` are null for one of the description as a whole."""
    return [
        {
            "code": problem.code,
            "severity": problem.severity,
            "line": problem.span.line if problem.span else None,
            "column": problem.span.column if problem.span else None,
            "message": problem.message,
            "hint": problem.hint,
        }
        for problem in problems
    ]


def _rounded(number: float | None, decimals: int = DECIMALS) -> float | None:
    """Rounded, never negative zero; null for what is no finite number."""
    if number is None or not math.isfinite(number):
        return None
    return round(number, decimals) + 0.0


def _counts(shawl: Shawl) -> Json:
    live = shawl.rows.stitches
    return {"cast_on": live[0], "rows": shawl.rows.count, "final": live[-1], "stitches": sum(live[1:])}


def _size(shawl: Shawl) -> Json:
    size = shawl.outline.size
    sides = [_rounded(side) for side in size.sides_cm] if size.sides_cm else None
    measures: Json = {name: _rounded(size_cm) for name, size_cm in size._asdict().items() if name != "sides_cm"}
    return {
        "wingspan_cm": measures["wingspan_cm"],
        "depth_cm": measures["depth_cm"],
        "spine_cm": measures["spine_cm"],
        "top_cm": measures["top_cm"],
        "sides_cm": sides,
        "last_row_cm": measures["last_row_cm"],
        "area_cm2": measures["area_cm2"],
        "pinned": shawl.outline.pinned,
    }


def _stretch(shawl: Shawl) -> Json | None:
    stretch = shawl.outline.stretch
    return {name: _rounded(part) for name, part in stretch._asdict().items()} if stretch else None


def _yarn(shawl: Shawl) -> Json:
    yarn = shawl.yarn._asdict()
    numbers = {name: _rounded(part) for name, part in yarn.items() if name not in ("name", "fibre", "basis")}
    return {**numbers, "basis": shawl.yarn.basis}


def _mark(mark: Mark | None) -> Json | None:
    return {"row": mark.row, "used_g": _rounded(mark.used_g), "left_g": _rounded(mark.left_g)} if mark else None


def _part_name(shawl: Shawl, place: int) -> str:
    """A part's name; those of the mirrored second half are called `NAME, back` here, as they always were."""
    if not shawl.parts[place].mirrored:
        return shawl.parts[place].name
    return f"{shawl.parts[len(shawl.parts) - 1 - place].name}, back"


def _part(part: PartPlan, name: str) -> Json:
    return {
        "name": name,
        "first_row": part.first_row,
        "last_row": part.last_row,
        "stitches_at_end": part.stitches_at_end,
        "used_g": _rounded(part.used_g),
        "share": _rounded(part.share),
        "left_g": _rounded(part.left_g),
    }


def _stitch(fabric: Fabric, shawl: Shawl) -> Json:
    grams = fabric.yarn_m * shawl.yarn.skein_g / shawl.yarn.skein_m
    return {
        "name": fabric.name,
        "gauge": [_rounded(fabric.gauge[0]), _rounded(fabric.gauge[1]), _rounded(fabric.gauge_over_cm)],
        "grams_a_stitch": _rounded(grams, STITCH_DECIMALS),
        "basis": fabric.basis,
    }


def _band(band: BandPlan, shawl: Shawl) -> Json:
    return {
        "part": _part_name(shawl, band.part),
        "stitch": band.stitch,
        "label": band.label,
        "first_row": band.first_row,
        "last_row": band.last_row,
        "stitches_at_end": band.stitches_at_end,
        "height_cm": _rounded(band.height_cm),
        "used_g": _rounded(band.used_g),
        "share": _rounded(band.share),
        "used_to_here_g": _rounded(band.used_to_here_g),
        "left_g": _rounded(band.left_g),
    }


def _shaped(shaped: "Shaped", shawl: Shawl) -> Json:
    part = _part_name(shawl, shaped.part)
    return {**shaped._asdict(), "part": part, "rows": list(shaped.rows)}


def _choices(choices: "RepeatChoices") -> Json:
    listed = [
        {
            "difference": choice.difference,
            "count": choice.count,
            "rows": choice.rows,
            "wingspan_cm": _rounded(choice.size.wingspan_cm),
            "depth_cm": _rounded(choice.size.depth_cm),
            "left_g": _rounded(choice.left_g),
            "chance_enough": _rounded(choice.chance_enough),
            "short_g": _rounded(choice.short_g),
        }
        for choice in choices.choices
    ]
    return {"unit": choices.unit, "stitch": choices.stitch, "choices": listed}


def _rows(shawl: Shawl) -> list[list[float | None]]:
    """Row, stitches, grams used to here."""
    return [
        [row, live, _rounded(used_g)]
        for row, (live, used_g) in enumerate(zip(shawl.rows.stitches, shawl.used_g, strict=True))
        if row
    ]
