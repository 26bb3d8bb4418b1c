"""`halfhank chart yarn`: what is on the scale after each row, with the weighings and the forecast."""

import click
from halfhank.cli import drawing_files, files, planned_file, terminal
from halfhank.cli.click_options import EMBED, FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES


@click.command("yarn", epilog=example("halfhank chart yarn mine.shawl -o yarn.svg"))
@click.argument("file", type=FileName())
@click.option("-o", "--output", metavar="OUT", type=FileName(), help="Where to draw: .svg, .png, .pdf, or - for SVG.")
@click.option("--embed", is_flag=True, help=EMBED)
@helped
def command(file: str, output: str | None, embed: bool) -> int:
    """Draw what is on the scale after each row.

    The chart of FILE has the 90 % range (in 9 of 10 shawls the weight is in this range), the marks, and the weighings
    of its log with the forecast from them.
    Without -o the chart goes beside the description as NAME-yarn.svg, or to standard output if FILE is -.
    """
    target = output if output is not None else drawing_files.beside(file, "-yarn")
    format_ = drawing_files.format_of(target)
    found = planned_file.plan_file(file)
    planned_file.print_mistakes(found)
    plan = found.plan
    if plan is None:
        return MISTAKES
    from halfhank.model.weighings.forecast import forecast
    from halfhank.renderer.charts.yarn_chart import yarn_chart

    data = drawing_files.rendered(lambda: yarn_chart(plan.shawl, forecast(plan)), format_, embed)
    files.write(target, data, found.source)
    if target != files.STANDARD:
        terminal.out(f"{terminal.safe(target)}\n")
    return ALL_WELL
