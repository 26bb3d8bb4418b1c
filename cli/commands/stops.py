"""`halfhank stops`: where the shawl may end."""

import sys

import click
from halfhank.cli import planned_file, terminal
from halfhank.cli.click_options import FileName, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES


@click.command("stops")
@click.argument("file", type=FileName())
@helped
def command(file: str) -> int:
    """Tell where the shawl of FILE may end.

    Each stop is a band near the yarn's end: its stitches, the yarn of its bind-off, what that leaves, the chance that
    the yarn lasts, and whether it would look finished.
    """
    described = planned_file.describe(file)
    planned_file.tell_problems(described)
    shawl = described.shawl
    if described.has_mistakes or shawl is None:
        return MISTAKES
    from halfhank.cli.report.skein_report import page, stop_table
    from halfhank.model.ends.stops import stops

    notes = ["Bound off at once after the row, without what the plan has after it. Left over counts the margin in."]
    room, colour = terminal.columns(sys.stdout), terminal.wants_colour(sys.stdout)
    terminal.out(page(f"{shawl.title}: where it may end", stop_table(shawl, stops(shawl)), notes, room, colour))
    return ALL_WELL
