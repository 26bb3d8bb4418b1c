"""How many more rows and repeats there is yarn for, in words."""

from halfhank.cli.report.figures import grams
from halfhank.model.marks_and_stops.allowance_words import unit_words
from halfhank.model.marks_and_stops.stops import one_more
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, Value, content, joined
from halfhank.model.shawl import Shawl


def spare_yarn(plan: Plan) -> Content:
    """Whether there is enough for more rows and for one more repeat; empty where neither is known."""
    rows, more, shawl = _more_rows(plan.shawl), one_more(plan), plan.shawl
    for_rows = () if rows is None else _for_rows(rows)
    if more is None:
        return for_rows
    unit, left_g = unit_words(plan.table.measures), more.left.mean
    if left_g < 0:
        negative = "not enough for " if rows is None else ", not for " if rows else ", nor for "
        return content(for_rows, negative, unit, " (", grams(-left_g), " short)")
    if left_g < shawl.yarn.keep_g:
        from_margin = content("with ", unit, " ", grams(left_g), " would be left over, less than the margin")
        return joined("; ", [text for text in (for_rows, from_margin) if text])
    enough = content(for_rows, " and for ") if rows else ("enough for ",)
    return content(enough, unit, " (", grams(left_g), " left over)")


def _more_rows(shawl: Shawl) -> int | None:
    """How many more rows there is yarn for; None where that is not known, or not the yarn ends the piece."""
    mark = shawl.marks.bind_off_by
    if mark is None or mark.row < shawl.rows.count or ends_itself(shawl):
        return None
    return mark.row - shawl.rows.count


def ends_itself(shawl: Shawl) -> bool:
    """Whether the last row is the last that can be worked, though there is yarn for more: decreases end the piece."""
    mark = shawl.marks.bind_off_by
    spare_g = shawl.yarn.left_g - shawl.yarn.keep_g
    return mark is not None and mark.row == shawl.rows.count and spare_g > shawl.yarn.last_ridge_g


def _for_rows(rows: int) -> Content:
    if not rows:
        return ("not enough for one more row unless the margin is used",)
    return content("enough for ", Value(f"{rows:,}", rows, "rows"), " more ", "row" if rows == 1 else "rows")
