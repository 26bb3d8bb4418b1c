"""`halfhank chart`: the charts, one file for each."""

import click
from halfhank.cli.click_options import example, helped
from halfhank.cli.lazy_group import LazyGroup

# Name, and the module whose `command` it is.
CHARTS = {"yarn": "halfhank.cli.commands.charts.chart_yarn", "stitch": "halfhank.cli.commands.charts.chart_stitch"}


class Charts(LazyGroup):
    """The charts by name, loaded one by one."""

    listed = CHARTS


@click.group("chart", cls=Charts, no_args_is_help=False, epilog=example("halfhank chart yarn mine.shawl -o yarn.svg"))
@helped
def command() -> None:
    """Draw a chart of the yarn, or of a stitch."""
