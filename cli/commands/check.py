"""`halfhank check`: mistakes and advice, of any number of descriptions."""

import click
from halfhank.cli import planned_file, terminal
from halfhank.cli.click_options import FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, USAGE, CommandError
from halfhank.cli.files import STANDARD
from halfhank.cli.planned_file import PlannedFile


@click.command("check", epilog=example("halfhank check --strict mine.shawl"))
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=FileName())
@click.option("--json", "json_wanted", is_flag=True, help="Print a list of files with their problems.")
@click.option("--strict", is_flag=True, help="Count advice as a mistake.")
@helped
def command(files: tuple[str, ...], json_wanted: bool, strict: bool) -> int:
    """Check descriptions, and list their problems.

    Problems are mistakes and advice, each with its place and how to fix it. The exit statuses are listed by halfhank
    --help; with --strict advice counts as a mistake.
    """
    if files.count(STANDARD) > 1:
        raise CommandError("standard input can be read only once", "give `-` only once")
    found, unread = _read_all(files)
    (_print_json if json_wanted else _print_text)(found)
    if unread:
        return USAGE
    return MISTAKES if any(one.planned.has_mistakes or (strict and one.problems) for one in found) else ALL_WELL


def _read_all(names: tuple[str, ...]) -> tuple[list[PlannedFile], bool]:
    """All that can be read, and whether there are others; an error is printed for each of those."""
    found, unread = [], False
    for name in names:
        try:
            found.append(planned_file.plan_file(name))
        except CommandError as error:
            terminal.err(f"halfhank: {terminal.safe(error.message)}\n")
            unread = True
    return found, unread


def _print_json(found: list[PlannedFile]) -> None:
    from halfhank.cli.report.json_contracts import check_contract

    terminal.out(check_contract((one.source.path, one.problems) for one in found))


def _print_text(found: list[PlannedFile]) -> None:
    from halfhank.cli.report.problem_report import problem_report
    from halfhank.cli.report.terminal_writer import UNBROKEN, report_text, standard_output

    layout = UNBROKEN._replace(emphasis=standard_output().emphasis)
    for one in found:
        terminal.out(report_text(problem_report(one.source.name, one.text, one.problems), layout))
