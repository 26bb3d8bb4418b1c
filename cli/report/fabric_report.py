"""The built-in stitch patterns, as reports: `halfhank stitches`."""

from halfhank.cli.report.figures import rows
from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS, BuiltIn
from halfhank.model.instructions.row_lines import release_lines, row_lines
from halfhank.model.report_tree import ListBlock, ListItem, Report, Value, Verbatim, content
from halfhank.model.stitches.pattern import built_in_pattern


def fabric_list() -> Report:
    """All of them, with their measures against garter."""
    return Report(None, (ListBlock(tuple(map(_listed, STITCH_PATTERNS.values()))),))


def _listed(fabric: BuiltIn) -> ListItem:
    pattern = built_in_pattern(built_in_stitch(fabric.name))
    wide, high = (Value(f"{ratio:g}", ratio, "1") for ratio in (fabric.stitch_ratio, fabric.row_ratio))
    size = content(wide, " times as wide and ", high, " times as high as garter")
    counts = content(f"{pattern.multiple.short_words}, ", rows(len(pattern.rows)), "; ", size)
    return ListItem((fabric.name,), (ListItem((fabric.words,)), ListItem(counts)))


def fabric_report(name: str) -> Report:
    """One of them, as the block that would describe it, and in words."""
    pattern = built_in_pattern(built_in_stitch(name))
    block = Verbatim((f"stitch {name}", *(f"  {line}" for line in STITCH_PATTERNS[name].lines)))
    lines = [*row_lines(pattern), *release_lines(pattern)]
    return Report(None, (block, ListBlock(tuple(ListItem((line,)) for line in lines))))
