"""A group whose commands are listed by name and loaded one by one."""

from collections.abc import Mapping
from importlib import import_module
from typing import ClassVar

import click


class LazyGroup(click.Group):
    """`listed` has each command's name and the module whose `command` it is; `renamed` has old names and what each is
    called now: they still work, and are listed nowhere."""

    listed: ClassVar[Mapping[str, str]] = {}
    renamed: ClassVar[Mapping[str, str]] = {}

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
        """As click does, but an old name leads to the new one; a misspelt command gets the nearest as a hint."""
        args = [self.renamed.get(args[0], args[0]), *args[1:]]
        if args[0] not in self.listed and not args[0].startswith("-"):
            raise click.UsageError(f"unknown command {args[0]!r}{_nearest(args[0], self.listed)}", ctx)
        return super().resolve_command(ctx, args)


def _nearest(word: str, listed: Mapping[str, str]) -> str:
    from difflib import get_close_matches

    near = get_close_matches(word, listed, 1)
    return f"; did you mean {near[0]}?" if near else ""
