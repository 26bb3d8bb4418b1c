"""`halfhank plan`: every number of a shawl, for people or for programs."""

from typing import TYPE_CHECKING

import click
from halfhank.cli import planned_file, terminal
from halfhank.cli.click_options import FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, CommandError
from halfhank.model.rows.sections import MAX_ROWS

if TYPE_CHECKING:
    from halfhank.model.plan import Plan


@click.command("plan", epilog=example("halfhank plan mine.shawl"))
@click.argument("file", type=FileName())
@click.option("--json", "json_wanted", is_flag=True, help="Print the plan as JSON.")
@click.option("--rows", is_flag=True, help="List every row too.")
@click.option("--checkpoints", is_flag=True, help="Print what the scale should show at each band's end, instead.")
@click.option("--every", metavar="K", type=click.IntRange(1, MAX_ROWS), help="With --checkpoints: every K rows too.")
@helped
def command(file: str, json_wanted: bool, rows: bool, checkpoints: bool, every: int | None) -> int:
    """Print the plan of FILE: its parts, marks, sizes and yarn.

    Among them is the chance of enough yarn. With --json the plan is written for other programs, with its problems.
    """
    if every is not None and not checkpoints:
        raise CommandError("--every needs --checkpoints")
    if checkpoints and (json_wanted or rows):
        raise CommandError("--checkpoints prints another table", "leave out --json and --rows")
    found = planned_file.plan_file(file)
    if json_wanted:
        terminal.out(_json(found, rows))
    else:
        planned_file.print_problems(found)
    if found.plan is None:
        return MISTAKES
    if not json_wanted:
        terminal.out(_checkpoints(found.plan, every) if checkpoints else _text(found.plan, rows))
    return ALL_WELL


def _json(found: planned_file.PlannedFile, rows: bool) -> str:
    from halfhank.cli.report.json_contracts import plan_contract

    return plan_contract(found.plan, found.problems, rows)


def _text(plan: "Plan", rows: bool) -> str:
    from halfhank.cli.report.plan_report import plan_report
    from halfhank.cli.report.terminal_writer import report_text, standard_output

    return report_text(plan_report(plan, rows), standard_output())


def _checkpoints(plan: "Plan", every: int | None) -> str:
    from halfhank.cli.report.checkpoint_report import checkpoint_report
    from halfhank.cli.report.terminal_writer import WIDEST_TABLE, report_text, standard_output

    return report_text(checkpoint_report(plan, every), standard_output(WIDEST_TABLE))
