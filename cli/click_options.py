"""What the commands share: the help option, the example below a help, and file names as arguments."""

import os

import click
from halfhank.cli import terminal


class FileName(click.Path):
    """A file's name, which shells complete. It is taken as it is: nothing is looked up before the command runs."""

    def convert(self, value: str | os.PathLike[str], param: click.Parameter | None, ctx: click.Context | None) -> str:
        return os.fspath(value)


EMBED = "Draw for a page of HTML: the svg element alone, as wide as its place, without ids."


def example(line: str) -> str:
    """A command's epilog: the last line of its help, a command line that can be typed as it is."""
    return f"\b\nExample: {line}"


def _show_help(context: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted and not context.resilient_parsing:
        terminal.out(context.get_help() + "\n")
        context.exit()


# Help is written as everything else is, so that full disks and closed pipes are met.
helped = click.option(
    "-h", "--help", is_flag=True, expose_value=False, is_eager=True, callback=_show_help, help="Show this help."
)
