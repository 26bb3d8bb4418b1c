"""`halfhank plan`: every number of a shawl, for people or for programs."""

import sys
from typing import TYPE_CHECKING

import click
from halfhank.cli import planned_file, terminal
from halfhank.cli.click_options import FileName, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, CommandError
from halfhank.model.rows.sections import MAX_ROWS

if TYPE_CHECKING:
    from halfhank.model.shawl import Shawl


@click.command("plan")
@click.argument("file", type=FileName())
@click.option("--json", "json_wanted", is_flag=True, help="Print the plan as JSON.")
@click.option("--rows", is_flag=True, help="List every row too.")
@click.option("--checkpoints", is_flag=True, help="Print the scale readings to expect, at each band's end, instead.")
@click.option("--every", metavar="K", type=click.IntRange(1, MAX_ROWS), help="With --checkpoints: every K rows too.")
@helped
def command(file: str, json_wanted: bool, rows: bool, checkpoints: bool, every: int | None) -> int:
    """Print the plan of FILE: its parts, marks, sizes and yarn.

    Among them is the chance that the yarn lasts. With --json the plan is written for other programs, its problems
    included.
    """
    if (every is not None and not checkpoints) or (checkpoints and (json_wanted or rows)):
        raise CommandError("--checkpoints prints a table of its own", "take it with --every alone")
    described = planned_file.describe(file)
    if json_wanted:
        terminal.out(_json(described, rows))
    else:
        planned_file.tell_problems(described)
    if described.has_mistakes or described.shawl is None:
        return MISTAKES
    if not json_wanted:
        terminal.out(_checkpoints(described.shawl, every) if checkpoints else _text(described, rows))
    return ALL_WELL


def _json(described: planned_file.Described, rows: bool) -> str:
    from halfhank.model.plan_json import plan_json

    return planned_file.as_json(plan_json(described.shawl, described.problems, rows))


def _text(described: planned_file.Described, rows: bool) -> str:
    from halfhank.cli.report.plan_report import plan_text

    assert described.shawl is not None
    room = terminal.columns(sys.stdout)
    return plan_text(described.shawl, rows, room, terminal.wants_colour(sys.stdout))


def _checkpoints(shawl: "Shawl", every: int | None) -> str:
    from halfhank.cli.report.skein_report import checkpoint_table, page
    from halfhank.model.scale.checkpoints import checkpoints
    from halfhank.model.scale.forecast import forecast

    table = checkpoint_table(shawl, checkpoints(shawl, forecast(shawl), every))
    notes = ["Nine readings in ten lie between the two; one that does not goes into the log with halfhank weigh."]
    room, colour = terminal.columns(sys.stdout), terminal.wants_colour(sys.stdout)
    return page(f"{shawl.title}: scale readings", table, notes, room, colour)
