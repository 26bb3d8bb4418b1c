"""`halfhank chart`: the charts, one file for each."""

import click
from halfhank.cli.click_options import helped
from halfhank.cli.group import LazyGroup


class Charts(LazyGroup):
    """The charts by name, loaded one by one."""

    listed = {"yarn": "chart_yarn", "stitch": "chart_stitch"}  # noqa: RUF012 (as in the class above it)


@click.group("chart", cls=Charts, no_args_is_help=False)
@helped
def command() -> None:
    """Draw a chart of the yarn, or of a stitch."""
