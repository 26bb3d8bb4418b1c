"""The `halfhank` command: a group that imports a command's module only when that command is asked for."""

import click
from halfhank import __version__
from halfhank.cli import terminal
from halfhank.cli.click_options import helped
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
    "chart": "halfhank.cli.commands.chart",
    "instructions": "halfhank.cli.commands.instructions",
    "fabrics": "halfhank.cli.commands.fabrics",
}


class _Commands(LazyGroup):
    listed = COMMANDS


def _show_version(context: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted and not context.resilient_parsing:
        terminal.out(f"halfhank {__version__}\n")
        context.exit()


@click.group(cls=_Commands)
@click.option(
    "-V", "--version", is_flag=True, expose_value=False, is_eager=True, callback=_show_version, help="Show the version."
)
@helped
def halfhank() -> None:
    """Tell what a one-skein shawl will be, and whether the yarn pays for it.

    A description goes in (FILE, or - for standard input); a true-to-scale drawing or a plan of every row comes out.
    Each command has its own --help.

    \b
    Exit status: 0 done, 1 the description has mistakes,
    2 not understood, or a file out of reach,
    3 halfhank itself has failed.
    """
