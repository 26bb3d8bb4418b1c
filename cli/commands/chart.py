"""`halfhank chart`: the charts, one subcommand each."""

from importlib import import_module

import click
from halfhank.cli.helping import helped

# Name, and the module in `halfhank.cli.commands` whose `command` it is.
CHARTS = {"stitch": "chart_stitch"}


class Charts(click.Group):
    """A group whose charts are loaded one by one."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(CHARTS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in CHARTS:
            return None
        command: click.Command = import_module(f"halfhank.cli.commands.{CHARTS[cmd_name]}").command
        return command


@click.group("chart", cls=Charts, no_args_is_help=False)
@helped
def command() -> None:
    """Draw a chart: `stitch`, from written rows."""
