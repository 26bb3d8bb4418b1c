"""The help option of every command; it writes as everything else does, so that full disks and closed pipes are met."""

import click
from halfhank.cli import terminal


def _show_help(context: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted and not context.resilient_parsing:
        terminal.out(context.get_help() + "\n")
        context.exit()


helped = click.help_option("-h", "--help", callback=_show_help, help="Show this help.")
