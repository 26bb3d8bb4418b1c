"""Runs a command line, and turns whatever happens into an exit status and a line or two for people."""

import os
from collections.abc import Sequence

import click
from halfhank.cli import terminal
from halfhank.cli.errors import ALL_WELL, FAULT, INTERRUPTED, USAGE, CommandError
from halfhank.cli.group import halfhank

NAME = "halfhank"
_COMPLETE = "_HALFHANK_COMPLETE"


def run(arguments: Sequence[str]) -> int:
    """Run one command line; gives its exit status and never an exception."""
    try:
        return _invoke(list(arguments))
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except click.ClickException as error:
        return _wrong_usage(error)
    except CommandError as error:
        return _print_error(error.message, error.hint)
    except (KeyboardInterrupt, click.Abort):
        return INTERRUPTED
    except Exception as error:
        from halfhank.cli.fault import print_fault

        print_fault(error)
        return FAULT


def _invoke(arguments: list[str]) -> int:
    if _COMPLETE in os.environ:
        from click.shell_completion import shell_complete

        return shell_complete(halfhank, {}, NAME, _COMPLETE, os.environ[_COMPLETE])
    with halfhank.make_context(NAME, arguments or ["--help"]) as context:
        status = halfhank.invoke(context)
    return status if isinstance(status, int) else ALL_WELL


def _wrong_usage(error: click.ClickException) -> int:
    context = getattr(error, "ctx", None)
    path = context.command_path if context is not None else NAME
    return _print_error(error.format_message(), f"see {path} --help")


def _print_error(message: str, hint: str | None) -> int:
    terminal.err(f"{NAME}: {terminal.safe(message.rstrip('.'))}\n")
    if hint:
        terminal.err(f"  {terminal.safe(hint)}\n")
    return USAGE
