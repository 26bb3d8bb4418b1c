"""The `halfhank` command: a group that imports a command's module only when that command is asked for."""

from importlib import import_module

import click
from halfhank import __version__
from halfhank.cli import terminal
from halfhank.cli.click_options import helped

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


class LazyGroup(click.Group):
    """A group whose commands are listed by name and loaded one by one."""

    listed = COMMANDS

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.listed)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self.listed:
            return None
        command: click.Command = import_module(self.listed[cmd_name]).command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """As click does, but a misspelt command gets the nearest one as a hint."""
        if args[0] not in self.listed and not args[0].startswith("-"):
            raise click.UsageError(f"there is no command {args[0]!r}{_nearest(args[0], self.listed)}", ctx)
        return super().resolve_command(ctx, args)


def _nearest(word: str, listed: dict[str, str]) -> str:
    from difflib import get_close_matches

    near = get_close_matches(word, listed, 1)
    return f"; did you mean {near[0]}?" if near else ""


def _show_version(context: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted and not context.resilient_parsing:
        terminal.out(f"halfhank {__version__}\n")
        context.exit()


@click.group(cls=LazyGroup)
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
