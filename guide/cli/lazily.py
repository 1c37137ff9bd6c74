"""Commands that are imported when they are asked for."""

from __future__ import annotations

from importlib import import_module

import click


class LazyGroup(click.Group):
    """A group whose commands are imported on first use, to keep every start quick."""

    def __init__(self, *args: object, places: dict[str, str] | None = None, **kw: object) -> None:
        kw.setdefault("no_args_is_help", False)
        super().__init__(*args, **kw)  # type: ignore[arg-type] # click's own signature is wide
        self.places = places or {}

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names, in the order in which they are used."""
        return list(self.places)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """The command of that name, imported now."""
        if name not in self.places:
            return None
        module, attribute = self.places[name].split(":")
        command: click.Command = getattr(import_module(module), attribute)
        return command
