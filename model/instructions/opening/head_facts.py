"""What a knitter needs before the first stitch: the finished size, the yarn, the needles and the gauges."""

import re
from collections.abc import Iterator

from halfhank.grammar.description import CM_IN
from halfhank.model.instructions.counts import centimetres, grams, inches, metres
from halfhank.model.instructions.opening.needle_sizes import us_size
from halfhank.model.number_words import half_up
from halfhank.model.phrases import blocking_words, stitch_name
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, Paragraph, Value, content, joined
from halfhank.model.shawl import Fabric
from halfhank.model.words.catalogue import said, say
from halfhank.model.words.drawn_words import phrase_of


def head_facts(plan: Plan) -> tuple[Paragraph, ...]:
    """The facts, each with its lead."""
    return tuple(Paragraph(text, lead) for lead, text in _facts(plan))


def _facts(plan: Plan) -> Iterator[tuple[str, Content]]:
    shawl = plan.shawl
    yield said("head.size"), _size(plan)
    yield said("head.yarn"), _yarn(plan)
    yield said("head.yarn-used"), _used(plan)
    yield said("head.needles"), _needles(shawl.needles_mm)
    gauges = [_gauge(fabric) for fabric in shawl.fabrics if _is_worked(plan, fabric)]
    yield said("head.gauge"), content(joined("; ", gauges), said("head.gauge-blocked"))


def _size(plan: Plan) -> Content:
    size = plan.shawl.outline.size
    wide, deep = size.wingspan_cm, size.depth_cm
    in_cm = say("head.by", wide=_bare(centimetres(wide)), deep=centimetres(deep))
    in_inches = say("head.by", wide=_bare(inches(wide)), deep=inches(deep))
    first, second = (in_inches, in_cm) if plan.shawl.units == "in" else (in_cm, in_inches)
    return content(first, " (", second, "), ", blocking_words(plan.shawl.outline))


def _bare(value: Value) -> Value:
    """A length whose unit stands after the other one."""
    return value._replace(words=f"{half_up(value.number, 0):,.0f}")


def _yarn(plan: Plan) -> Content:
    """The yarn, its fibre, and the skein as its label has it."""
    yarn, skein = plan.shawl.yarn, plan.shawl.skein
    label = say("head.skein", mass=grams(skein.label_g), length=metres(skein.label_m))
    fibre = re.sub(r"(?<=\d)%", " %", yarn.fibre or "")
    named: list[Content] = [(words,) for words in (yarn.name, fibre) if words]
    return joined(", ", [*named, label])


def _used(plan: Plan) -> Content:
    yarn = plan.shawl.yarn
    drawn = plan.design.bind_off.method == "draw through"
    used = say("head.used" if drawn else "head.used-bound-off", mass=grams(yarn.total_g), length=metres(yarn.total_m))
    return content(used, say("head.margin", margin=grams(yarn.keep_g))) if yarn.keep_g else used


def _needles(size_mm: float) -> Content:
    us, millimetres = us_size(size_mm), Value(phrase_of("measure", "mm", number=f"{size_mm:g}"), size_mm, "mm")
    return say("head.needles-us", size=millimetres, us=us) if us else (millimetres,)


def _is_worked(plan: Plan, fabric: Fabric) -> bool:
    """Whether a stitch has a gauge to measure: elongated rows have that of the rows around them."""
    return fabric.name != "drop" and any(band.stitch == fabric.name for band in plan.shawl.bands)


def _gauge(fabric: Fabric) -> Content:
    across, up = fabric.gauge
    over = fabric.gauge_over_cm
    inches_over = over / CM_IN["in"]
    length = Value(phrase_of("measure", "cm", number=f"{over:g}"), over, "cm")
    if len(f"{inches_over:.4g}") < len(f"{over:.4g}"):
        length = Value(phrase_of("measure", "in", number=f"{inches_over:.4g}"), inches_over, "in")
    return say(
        "head.gauge-of",
        stitch=stitch_name(fabric.name),
        stitches=Value(f"{across:.4g}", across, "sts"),
        rows=Value(f"{up:.4g}", up, "rows"),
        length=length,
    )
