"""The `halfhank` command: a group that imports a command's module only when that command is asked for."""

import click
from halfhank import __version__
from halfhank.cli import terminal
from halfhank.cli.click_options import example, helped
from halfhank.cli.lazy_group import LazyGroup

# Name, and the module whose `command` it is.
COMMANDS = {
    "draw": "halfhank.cli.commands.draw",
    "plan": "halfhank.cli.commands.plan",
    "check": "halfhank.cli.commands.check",
    "new": "halfhank.cli.commands.new",
    "weigh": "halfhank.cli.commands.weigh",
    "stops": "halfhank.cli.commands.stops",
    "skeins": "halfhank.cli.commands.skeins",
    "chart": "halfhank.cli.commands.charts.chart",
    "instructions": "halfhank.cli.commands.instructions",
    "page": "halfhank.cli.commands.page",
    "stitches": "halfhank.cli.commands.stitches",
}
# Old names.
RENAMED = {"fabrics": "stitches"}


class _Commands(LazyGroup):
    listed = COMMANDS
    renamed = RENAMED


def _show_version(context: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted and not context.resilient_parsing:
        terminal.out(f"halfhank {__version__}\n")
        context.exit()


@click.group(cls=_Commands, epilog=example("halfhank plan mine.shawl"))
@click.option(
    "-V", "--version", is_flag=True, expose_value=False, is_eager=True, callback=_show_version, help="Show the version."
)
@helped
def halfhank() -> None:
    """Work out a one-skein shawl: every row, its size, and whether there is enough yarn.

    A description goes in (FILE, or - for standard input); a drawing to scale or a plan of every row comes out.
    Each command has its own --help.

    \b
    Exit status: 0 done, 1 the description has mistakes,
    2 wrong command or option, or a file that cannot be read or written,
    3 halfhank itself has failed.
    """
