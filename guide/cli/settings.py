"""`spindleside settings`: how the screens look and move, and how much they say at first."""

from __future__ import annotations

import click

from guide.cli.output import emit
from guide.cli.places import journal_option, json_option
from guide.cli.places import settings as settings_here
from guide.plain import N_, BadInput, Refusal
from guide.settings import LIKED, Settings, keep, may_be, variable


@click.command()
@click.argument("name", default="")
@click.argument("value", default="")
@journal_option
@json_option
def settings(name: str, value: str, journal: str | None, as_json: bool) -> None:
    """Show the settings, or change one: look, language, detail or motion.

    They are kept in settings.json beside the journal. SPINDLESIDE_LOOK and its like in the
    environment come first, and NO_COLOR before any look.

    \b
    Example:
      spindleside settings
      spindleside settings look light
    """
    here = settings_here(journal)
    for each in here.unfit:
        raise BadInput(N_("What {name} in the environment says cannot be chosen."),
                       N_("Choose one of: {may}."),
                       name=each, may=", ".join(may_be(_named(each))))  # fmt: skip
    if name:
        here = _changed(here, name, value)
    told = {each: getattr(here, each) for each in LIKED}
    lines = [f"{each}: {now}  ({', '.join(may_be(each))})" for each, now in told.items()]
    emit(told, as_json, lines)


def _named(held: str) -> str:
    """The setting that a variable of the environment holds."""
    return next(name for name in LIKED if variable(name) == held)


def _changed(here: Settings, name: str, value: str) -> Settings:
    """One setting changed and kept."""
    if name not in LIKED:
        raise BadInput(N_("There is no setting “{name}”."), N_("Name one of: {names}."),
                       name=name, names=", ".join(LIKED))  # fmt: skip
    if value not in may_be(name):
        raise BadInput(N_("“{value}” cannot be chosen for {name}."), N_("Choose one of: {may}."),
                       value=value, name=name, may=", ".join(may_be(name)))  # fmt: skip
    try:
        return keep(here, name, value)
    except OSError as error:
        raise Refusal(N_("The setting could not be kept: {why}."), why=str(error)) from error
