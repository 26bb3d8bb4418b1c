"""`halfhank stops`: where the shawl may end."""

import click
from halfhank.cli import planned_file, terminal
from halfhank.cli.click_options import FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES


@click.command("stops", epilog=example("halfhank stops mine.shawl"))
@click.argument("file", type=FileName())
@helped
def command(file: str) -> int:
    """List where the shawl of FILE may end.

    Each stop is a row near the end of the yarn: its stitches, the yarn for the bind-off, what is left over, the chance
    of enough yarn, and whether it would look finished. Stops in the rows of the plan come first, then the planned end,
    then those of the shawl with another number of repeats.
    """
    found = planned_file.plan_file(file)
    planned_file.print_mistakes(found)
    if found.plan is None:
        return MISTAKES
    from halfhank.cli.report.stop_report import stop_report
    from halfhank.cli.report.terminal_writer import WIDEST_TABLE, report_text, standard_output

    terminal.out(report_text(stop_report(found.plan), standard_output(WIDEST_TABLE)))
    return ALL_WELL
