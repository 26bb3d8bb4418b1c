"""`halfhank instructions`: the written instructions of a shawl."""

import os
from typing import TYPE_CHECKING

import click
from halfhank.cli import files, planned_file, terminal
from halfhank.cli.click_options import FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, CommandError

if TYPE_CHECKING:
    from halfhank.model.plan import Plan
    from halfhank.model.stitches.pattern import Pattern


@click.command("instructions", epilog=example("halfhank instructions mine.shawl -o mine.txt"))
@click.argument("file", type=FileName())
@click.option("-o", "--output", metavar="OUT", type=FileName(), help="Where to write: .txt, or - for standard output.")
@click.option("--rows", "every_row", is_flag=True, help="Every row of the shawl, one a line.")
@helped
def command(file: str, output: str | None, every_row: bool) -> int:
    """Write the written instructions of FILE.

    They have the size, the yarn and the gauge, the abbreviations, the stitch patterns, and each part with one row of
    each kind worked out, what to repeat and the stitch counts; then the bind-off, what the scale has to show, and the
    blocking. Every row of a stitch pattern is read back before it is written.
    """
    target = files.STANDARD if output is None else output
    if target != files.STANDARD and os.path.splitext(target)[1].lower() != ".txt":
        raise CommandError(f"{target}: instructions are written as text", "end its name in .txt")
    found = planned_file.plan_file(file)
    planned_file.print_mistakes(found)
    if found.plan is None:
        return MISTAKES
    _check_rows(found.plan)
    from halfhank.cli.report.figures import masses_in
    from halfhank.cli.report.terminal_writer import FILE_LAYOUT, UNBROKEN, report_text
    from halfhank.model.instructions.rows.rows_report import rows_report
    from halfhank.model.instructions.written_instructions import written_instructions

    written = rows_report(found.plan) if every_row else written_instructions(found.plan)
    report = masses_in(found.plan.shawl.skein.unit, written)
    if target == files.STANDARD:
        terminal.out(report_text(report, UNBROKEN))
    else:
        files.write(target, report_text(report, FILE_LAYOUT).encode(), found.source)
        terminal.out(f"{terminal.safe(target)}\n")
    return ALL_WELL


def _check_rows(plan: "Plan") -> None:
    """Raises `InstructionError` if the lines of a pattern do not give its rows again: a fault of the writer."""
    from halfhank.model.stitches.pattern import patterns_of

    for pattern in patterns_of(plan.table.measures).values():
        _check_pattern(pattern)


def _check_pattern(pattern: "Pattern") -> None:
    from halfhank.grammar.reading.instruction_reader import InstructionError, read_lines, same_items
    from halfhank.model.instructions.row_lines import row_lines

    read = {number: row for row in read_lines(row_lines(pattern)) for number in row.numbers}
    for row in pattern.rows:
        back = read.get(row.number)
        if (
            back is None
            or not same_items(back.items, row.items)
            or back.left_at_end not in (None, row.tally.after.taken)
        ):
            raise InstructionError(f"row {row.number} of {pattern.name} does not read back")
