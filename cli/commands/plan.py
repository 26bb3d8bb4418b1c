"""`halfhank plan`: every number of a shawl, for people or for programs."""

import sys

import click
from halfhank.cli import reading, terminal
from halfhank.cli.helping import FileName, helped
from halfhank.cli.trouble import ALL_WELL, MISTAKES


@click.command("plan")
@click.argument("file", type=FileName())
@click.option("--json", "json_wanted", is_flag=True, help="Print the plan as JSON.")
@click.option("--rows", is_flag=True, help="List every row too.")
@helped
def command(file: str, json_wanted: bool, rows: bool) -> int:
    """Print the plan of FILE: its parts, marks, sizes and yarn.

    Among them is the chance that the yarn lasts. With --json the plan is written for other programs, its problems
    included.
    """
    described = reading.describe(file)
    if json_wanted:
        terminal.out(_json(described, rows))
    else:
        reading.tell_problems(described)
    if described.has_mistakes or described.shawl is None:
        return MISTAKES
    if not json_wanted:
        terminal.out(_text(described, rows))
    return ALL_WELL


def _json(described: reading.Described, rows: bool) -> str:
    from halfhank.model.plan_json import plan_json

    return reading.as_json(plan_json(described.shawl, described.problems, rows))


def _text(described: reading.Described, rows: bool) -> str:
    from halfhank.cli.plan_text import plan_text

    assert described.shawl is not None
    room = terminal.columns(sys.stdout)
    return plan_text(described.shawl, rows, room, terminal.wants_colour(sys.stdout))
