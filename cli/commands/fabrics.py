"""`halfhank fabrics`: the built-in fabrics, and how each is worked."""

import click
from halfhank.cli import terminal
from halfhank.cli.click_options import helped
from halfhank.cli.errors import ALL_WELL, CommandError


@click.command("fabrics")
@click.argument("name", required=False)
@helped
def command(name: str | None) -> int:
    """List the built-in fabrics.

    With NAME the rows of that one are shown. The measures are those of a stitch and a row against garter in the same
    yarn, where no gauge is given.
    """
    terminal.out(_listed() if name is None else _shown(name))
    return ALL_WELL


def _listed() -> str:
    from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
    from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
    from halfhank.model.number_words import counted
    from halfhank.model.stitches.pattern import built_in_pattern

    lines = []
    for fabric in STITCH_PATTERNS.values():
        pattern = built_in_pattern(built_in_stitch(fabric.name))
        counts = f"{pattern.multiple.short_words}, {counted(len(pattern.rows), 'row')}"
        size = f"{fabric.stitch_ratio:g} x as wide, {fabric.row_ratio:g} x as high as garter"
        lines.append(f"{fabric.name}\n  {fabric.words}\n  {counts}; {size}\n")
    return "".join(lines)


def _shown(name: str) -> str:
    """One fabric as the block that would describe it, and in words."""
    from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
    from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
    from halfhank.model.instructions.row_lines import release_lines, row_lines
    from halfhank.model.stitches.pattern import built_in_pattern

    if name not in STITCH_PATTERNS:
        raise CommandError(f"there is no built-in fabric {name!r}", f"built in are {', '.join(STITCH_PATTERNS)}")
    block = "\n  ".join((f"stitch {name}", *STITCH_PATTERNS[name].lines))
    pattern = built_in_pattern(built_in_stitch(name))
    return "\n".join([block, "", *row_lines(pattern), *release_lines(pattern)]) + "\n"
