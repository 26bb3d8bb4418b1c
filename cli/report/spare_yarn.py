"""What could be knitted on top of the plan, in words."""

from halfhank.cli.report.figures import grams, rows
from halfhank.model.ends.allowance_words import unit_words
from halfhank.model.ends.stops import one_more
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, content, joined
from halfhank.model.shawl import Shawl


def spare_yarn(plan: Plan) -> Content:
    """How many rows more could be paid for, and what one more repeat takes; empty where neither is known."""
    return joined("; ", [text for text in (_more_rows(plan.shawl), _more_repeats(plan)) if text])


def _more_rows(shawl: Shawl) -> Content:
    mark = shawl.marks.bind_off_by
    if mark is None or mark.row < shawl.rows.count:
        return ()
    more, spare_g = mark.row - shawl.rows.count, shawl.yarn.left_g - shawl.yarn.keep_g
    if not more and spare_g > shawl.yarn.last_ridge_g:
        return ()  # Its decreases end the piece, not the yarn.
    return content("the yarn pays for ", rows(more) if more else "no row", " past the end")


def _more_repeats(plan: Plan) -> Content:
    more, shawl = one_more(plan), plan.shawl
    if more is None:
        return ()
    takes = content(unit_words(plan.table.measures), " would take ", grams(shawl.yarn.left_g - more.mean))
    if more.mean >= shawl.yarn.keep_g:
        return content(takes, ", and ", grams(more.mean), " would be left")
    if more.mean >= 0:
        return content(takes, ", which goes into the margin")
    return content(takes, ", ", grams(-more.mean), " more than there is")
