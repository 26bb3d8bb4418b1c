"""`halfhank weigh`: a weighing goes into the log, and what it says of the plan is printed."""

import click
from halfhank.cli import files, planned_file, terminal
from halfhank.cli.click_options import FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, CommandError
from halfhank.cli.planned_file import PlannedFile
from halfhank.grammar.description import GRAMS_IN
from halfhank.grammar.problems.problem import Problem
from halfhank.model.plan import Plan
from halfhank.model.rows.sections import MAX_ROWS


def _mass(context: click.Context, parameter: click.Parameter, text: str) -> str:
    """A mass as it is to stand in the log: its figure as given, and its unit."""
    written = text.replace(" ", "")
    unit = next((unit for unit in GRAMS_IN if written.endswith(unit)), "")
    figure = written.removesuffix(unit)
    if "," in figure:
        raise click.BadParameter(f"{text!r} has a comma; write {figure.replace(',', '.')}", context, parameter)
    whole, _, rest = figure.partition(".")
    digits = whole.isascii() and whole.isdigit() and (not rest or (rest.isascii() and rest.isdigit()))
    if not digits or figure.endswith(".") or len(figure) > 12:
        hint = "write what the scale shows, such as 94.7"
        raise click.BadParameter(f"{text!r} is not a weight; {hint}", context, parameter)
    return f"{figure} {unit or 'g'}"


class RowNumber(click.IntRange):
    """A row of the shawl, 0 before the first."""

    name = "row number"


@click.command(
    "weigh",
    context_settings={"ignore_unknown_options": True},
    epilog=example("halfhank weigh mine.shawl 60 80.2"),
)
@click.argument("file", type=FileName())
@click.argument("row", type=RowNumber(0, MAX_ROWS))
@click.argument("grams", callback=_mass)
@click.option("--used", is_flag=True, help="GRAMS is what was used since the cast-on, not what is left.")
@click.option("--dry-run", is_flag=True, help="Show what it means, but leave the file alone.")
@click.option("--sure", is_flag=True, help="Take a weight that is far from what was expected.")
@helped
def command(file: str, row: int, grams: str, used: bool, dry_run: bool, sure: bool) -> int:
    """Log a weighing, and show what it means.

    ROW is the last row worked, 0 for the skein before the cast-on; GRAMS is what the scale shows, 94.7 or 3.34oz. Write
    94.0 if your scale shows tenths. Everything else in the file stays as it is, byte by byte. If FILE is -, the
    description goes to standard output. A weight far from what was expected is not taken without --sure.
    """
    if row == 0 and used:
        raise CommandError("nothing is used before the cast-on", "leave out --used")
    before = planned_file.plan_file(file)
    if before.plan is None:
        planned_file.print_problems(before)
        return MISTAKES
    after = _with_weighing(before.source, before.plan, row, grams, used)
    if after.plan is None:
        planned_file.print_problems(after)
        terminal.err(_question(before.plan, row, grams, used) or _earlier_slip(before.plan, row, grams, used))
        terminal.err("The weighing contradicts the description: nothing was written.\n")
        return MISTAKES
    if row and not sure and (refusal := _refusal(after.plan, row, grams, used)):
        terminal.err(refusal)
        return MISTAKES
    if not dry_run:
        files.write(file, after.source.data)
    _print_new(before, after)
    if row == 0:
        terminal.err(_question(before.plan, row, grams, used))
    from halfhank.cli.report.terminal_writer import report_text, standard_output
    from halfhank.cli.report.weighing_report import weighing_report

    text = report_text(weighing_report(before.plan, after.plan, row, dry_run), standard_output())
    (terminal.err if file == files.STANDARD and not dry_run else terminal.out)(text)
    return ALL_WELL


def _question(before: Plan, row: int, mass: str, used: bool) -> str:
    """A line that asks for the likely slip behind a weighing that cannot be; empty where none is likely."""
    from halfhank.cli.report.weighing_report import slip_question, start_question

    if row == 0:
        return start_question(before.design.yarn.skein_g, mass)
    if row > before.rows.count:
        return ""
    from halfhank.model.weighings.checkpoints import scale_noise_g
    from halfhank.model.weighings.log import log_of, model_of

    left = model_of(before).left([row])[row]
    expected = log_of(before).posterior.estimate(left).noisy(scale_noise_g(before.design))
    return slip_question(before.shawl.yarn.skein_g, expected, mass, used)


def _earlier_slip(before: Plan, row: int, mass: str, used: bool) -> str:
    """How to correct an earlier weighing that a possible weighing contradicts; empty where none does."""
    figure, unit = mass.split(" ")
    grams, earlier = float(figure) * GRAMS_IN[unit], (one for one in before.design.weighed_rows if one.row < row)
    against = [one for one in earlier if one.used == used and (one.mass_g > grams if used else one.mass_g < grams)]
    if not against or grams > before.shawl.yarn.skein_g:
        return ""
    last = against[-1].row
    return f"Was the weighing of row {last:,} wrong? Then weigh row {last:,} again with the right weight.\n"


def _refusal(after: Plan, row: int, mass: str, used: bool) -> str:
    """Why a weighing is not taken unasked; empty where it is."""
    from halfhank.cli.report.weighing_report import refusal_of
    from halfhank.model.weighings.log import log_of
    from halfhank.model.weighings.slips import is_refused

    logged = next(one for one in log_of(after).weighings if one.row == row)
    return refusal_of(after, logged, mass, used) if is_refused(logged) else ""


def _with_weighing(source: files.Source, before: Plan, row: int, mass: str, used: bool) -> PlannedFile:
    """The description with the weighing in its log, read and computed again."""
    from halfhank.grammar.source_text.log_lines import LogLine, with_weighing

    changed = with_weighing(source.data.decode("utf-8"), before.design.written.value, LogLine(row, mass, used))
    return planned_file.planned(source._replace(data=changed.encode("utf-8")))


def _print_new(before: PlannedFile, after: PlannedFile) -> None:
    """Print the problems that the weighing brought; the others are known."""
    known = {_key(problem) for problem in before.problems}
    new = tuple(problem for problem in after.problems if _key(problem) not in known)
    planned_file.print_problems(after, new)


def _key(problem: Problem) -> tuple[str, str]:
    return problem.code, problem.message
