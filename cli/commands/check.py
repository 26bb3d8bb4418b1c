"""`halfhank check`: mistakes and advice, of any number of descriptions."""

import sys

import click
from halfhank.cli import planned_file, terminal
from halfhank.cli.click_options import FileName, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, USAGE, CommandError
from halfhank.cli.files import STANDARD


@click.command("check")
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=FileName())
@click.option("--json", "json_wanted", is_flag=True, help="Print a list of files with their problems.")
@click.option("--strict", is_flag=True, help="Let advice count as a mistake.")
@helped
def command(files: tuple[str, ...], json_wanted: bool, strict: bool) -> int:
    """Check descriptions: tell every mistake and all advice.

    The exit statuses are listed by halfhank --help; with --strict advice gives the one of mistakes.
    """
    if files.count(STANDARD) > 1:
        raise CommandError("standard input can be read only once", "give `-` a single time")
    described, unread = _read_all(files)
    if json_wanted:
        terminal.out(planned_file.as_json([_entry(one) for one in described]))
    else:
        for one in described:
            terminal.out(_report(one))
    if unread:
        return USAGE
    return MISTAKES if any(one.has_mistakes or (strict and one.problems) for one in described) else ALL_WELL


def _read_all(names: tuple[str, ...]) -> tuple[list[planned_file.Described], bool]:
    """All that can be read; the others are told on the way."""
    described, unread = [], False
    for name in names:
        try:
            described.append(planned_file.describe(name))
        except CommandError as error:
            terminal.err(f"halfhank: {terminal.safe(error.message)}\n")
            unread = True
    return described, unread


def _entry(one: planned_file.Described) -> dict[str, object]:
    from halfhank.model.plan_json import problems_json

    return {"file": one.source.path, "problems": problems_json(one.problems)}


def _report(one: planned_file.Described) -> str:
    name = terminal.safe(one.source.name)
    if not one.problems:
        return f"{name}: all well\n"
    return f"{planned_file.shown_problems(one, sys.stdout)}{name}: {planned_file.counted(one.problems)}\n"
