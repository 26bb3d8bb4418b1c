"""The built-in stitch patterns, as reports: `halfhank stitches`."""

from halfhank.cli.report.figures import rows
from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS, BuiltIn
from halfhank.model.instructions.row_lines import release_lines, row_lines
from halfhank.model.report_tree import Content, ListBlock, ListItem, Report, Value, Verbatim, content
from halfhank.model.stitches.pattern import built_in_pattern
from halfhank.model.yarn.stitch_table import PLAIN_STITCH


def fabric_list() -> Report:
    """All of them, with their measures against garter."""
    return Report(None, (ListBlock(tuple(map(_listed, STITCH_PATTERNS.values()))),))


def _listed(fabric: BuiltIn) -> ListItem:
    pattern = built_in_pattern(built_in_stitch(fabric.name))
    counts = content(f"{pattern.multiple.short_words}, ", rows(len(pattern.rows)), _against_garter(fabric))
    return ListItem((fabric.name,), (ListItem((fabric.words,)), ListItem(counts)))


def _against_garter(fabric: BuiltIn) -> Content:
    """How large a stitch is: of drop stitch, which has any number of wraps, without the extra ones."""
    if fabric.name == PLAIN_STITCH:
        return ()
    wide, high = (
        content(Value(f"{ratio:g}", ratio, "1"), " times as ") if ratio != 1 else ("as ",)
        for ratio in (fabric.stitch_ratio, fabric.row_ratio)
    )
    before = "; before the extra wraps, " if fabric.name == "drop" else "; "
    return content(before, wide, "wide and ", high, "high as garter")


def fabric_report(name: str) -> Report:
    """One of them, as the block that would describe it, and in words."""
    pattern = built_in_pattern(built_in_stitch(name))
    block = Verbatim((f"stitch {name}", *(f"  {line}" for line in STITCH_PATTERNS[name].lines)))
    lines = [*row_lines(pattern), *release_lines(pattern)]
    return Report(None, (block, ListBlock(tuple(ListItem((line,)) for line in lines))))
