"""`halfhank skeins`: one shawl from skeins of other lengths, as a table and as a drawing."""

from typing import TYPE_CHECKING

import click
from halfhank.cli import drawing_files, files, planned_file, terminal
from halfhank.cli.click_options import FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, CommandError
from halfhank.grammar.description import CM_IN

if TYPE_CHECKING:
    from halfhank.model.plan import Plan
    from halfhank.model.planning.skeins import SkeinPlan
    from halfhank.model.shawl import Shawl

MOST_SKEINS = 40
M_IN = {unit: CM_IN[unit] / 100 for unit in ("m", "yd")}
SHORTEST_M, LONGEST_M = 1.0, 100_000.0


class SkeinLength(click.ParamType[tuple[str, float]]):
    """A length of yarn in 100 g: 350m, 380yd; without a unit metres."""

    name = "length"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, float]:
        text = str(value).replace(" ", "")
        unit = "yd" if text.endswith("yd") else "m"
        figure = text.removesuffix(unit)
        if not (figure.isascii() and figure.replace(".", "", 1).isdigit() and len(figure) <= 12):
            self.fail(f"{text!r} is not a length; write it as 350m or 380yd", param, ctx)
        metres = float(figure) * M_IN[unit]
        if not SHORTEST_M <= metres <= LONGEST_M:
            self.fail(f"{text!r}: 100 g of yarn are {SHORTEST_M:g} to {LONGEST_M:,.0f} m long", param, ctx)
        return f"{float(figure):g} {unit}", metres


LENGTH = SkeinLength()


@click.command("skeins", epilog=example("halfhank skeins mine.shawl 320m 350m 420yd"))
@click.argument("file", type=FileName())
@click.argument("lengths", metavar="[LENGTH]...", nargs=-1, type=LENGTH)
@click.option("--from", "first", metavar="LENGTH", type=LENGTH, help="The first of several lengths.")
@click.option("--to", "last", metavar="LENGTH", type=LENGTH, help="The last of them.")
@click.option("--step", metavar="LENGTH", type=LENGTH, help="The step from one to the next; 20m unless given.")
@click.option("-o", "--output", metavar="OUT", type=FileName(), help="Draw the outlines over each other there.")
@helped
def command(
    file: str,
    lengths: tuple[tuple[str, float], ...],
    first: tuple[str, float] | None,
    last: tuple[str, float] | None,
    step: tuple[str, float] | None,
    output: str | None,
) -> int:
    """Work out the shawl of FILE from other skeins.

    LENGTH is the yarn in 100 g: 320m, 350m or 420yd. The gauge and the yarn per stitch stay as they are. With -o the
    outlines of all of them are drawn over each other, to one scale; with -o - the drawing goes to standard output, and
    no table.
    """
    named = [*lengths, *_row(first, last, step)]
    if not 1 <= len(named) <= MOST_SKEINS:
        raise CommandError(f"give 1 to {MOST_SKEINS} lengths, such as 320m 350m 400m, or --from 280m --to 420m")
    format_ = drawing_files.format_of(output) if output is not None else ""
    found = planned_file.plan_file(file)
    planned_file.print_mistakes(found)
    if found.plan is None:
        return MISTAKES
    from halfhank.model.planning.skeins import skein_plans

    skeins = skein_plans(found.plan, [metres for _, metres in named])
    names = [name for name, _ in named]
    if output is not None:
        files.write(output, _drawing(found.plan.shawl, skeins, names, format_), found.source)
    if output != files.STANDARD:
        terminal.out(_table(found.plan, skeins, names))
    return ALL_WELL


def _row(
    first: tuple[str, float] | None, last: tuple[str, float] | None, step: tuple[str, float] | None
) -> list[tuple[str, float]]:
    """The lengths from the first to the last."""
    if first is None and last is None and step is None:
        return []
    if first is None or last is None:
        raise CommandError("--from and --to go together")
    stride = step[1] if step else 20.0
    if last[1] < first[1] or (last[1] - first[1]) / stride >= MOST_SKEINS:
        raise CommandError(f"--from, --to and --step must give 1 to {MOST_SKEINS} lengths")
    unit = first[0].split(" ")[1]
    lengths = [first[1] + k * stride for k in range(int((last[1] - first[1]) / stride + 1e-9) + 1)]
    return [(f"{metres / M_IN[unit]:.6g} {unit}", metres) for metres in lengths]


def _table(plan: "Plan", found: "list[SkeinPlan]", names: list[str]) -> str:
    from halfhank.cli.report.skein_report import skein_report
    from halfhank.cli.report.terminal_writer import WIDEST_TABLE, report_text, standard_output

    return report_text(skein_report(plan, found, names), standard_output(WIDEST_TABLE))


def _drawing(shawl: "Shawl", found: "list[SkeinPlan]", names: list[str], format_: str) -> bytes:
    from halfhank.renderer.charts.skein_overlay import overlay

    worked = [(name, one.shawl) for name, one in zip(names, found, strict=True) if one.shawl is not None]
    if not worked:
        raise CommandError("none of these skeins has enough yarn: nothing was drawn")
    return drawing_files.rendered(lambda: overlay(shawl, worked), format_)
