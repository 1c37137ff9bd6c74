"""`spindleside records`: the setups that the journal holds, and the sheet of one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from guide.cli.completing import setups
from guide.cli.output import emit
from guide.cli.places import journal_option, json_option, reading, settings
from guide.plain import N_

if TYPE_CHECKING:
    from guide.journal.summary import Summary
    from guide.settings import Settings


@click.group(invoke_without_command=True)
@journal_option
@json_option
@click.pass_context
def records(ctx: click.Context, journal: str | None, as_json: bool) -> None:
    """List the setups, the one that was worked on last first.

    \b
    Example:
      spindleside records
      spindleside records show 20300131-0705-a1b2
    """
    ctx.obj = journal
    if ctx.invoked_subcommand is None:
        here = settings(journal)
        found = _setups(here)
        emit({"setups": list(map(_answer, found))}, as_json, _lines(found, here))


@records.command()
@click.argument("setup", shell_complete=setups)
@journal_option
@json_option
@click.pass_context
def show(ctx: click.Context, setup: str, journal: str | None, as_json: bool) -> None:
    """Show the whole record of a SETUP: the sheet as text.

    \b
    Example:
      spindleside records show 20300131-0705-a1b2
    """
    from dataclasses import asdict

    from guide.records.of_setup import record_of
    from guide.records.to_text import to_text
    from guide.walk.setup import replayed

    here = settings(journal or ctx.obj)
    with reading(here) as store:
        record = record_of(replayed(store, setup), store, here.language)
    emit(asdict(record) if as_json else {}, as_json, (to_text(record, here.language),))


@records.command()
@journal_option
@click.pass_context
def relist(ctx: click.Context, journal: str | None) -> None:
    """Make the list of setups anew from their events; nothing else is touched.

    \b
    Example:
      spindleside records relist
    """
    from guide.cli.output import say as tell
    from guide.journal.store import Store
    from guide.present.words import say

    here = settings(journal or ctx.obj)
    with reading(here), Store(here.journal_file) as store:
        store.relist()
        count = len(store.names())
    tell(say(N_("The list of {count} setups was made anew."), here.language, count=count))


def _setups(here: Settings) -> tuple[Summary, ...]:
    """A summary of each setup; none where there is no journal yet."""
    from guide.journal.store import Store

    if not Store.is_there(here.journal_file):
        return ()
    with reading(here) as store:
        return store.setups()


def _answer(each: Summary) -> dict[str, object]:
    """One setup as JSON keys."""
    return {
        "setup": each.setup,
        "procedure": each.opening.get("procedure"),
        "lathe": _lathe(each),
        "mode": each.opening.get("mode"),
        "input": each.opening.get("input"),
        "opened_at": each.opened_at,
        "opened_by": each.opened_by,
        "last_at": each.last_at,
        "last_by": each.last_by,
        "last_step": each.last_step,
        "events": each.events,
        "ends": each.closing.get("ends"),
    }


def _lathe(each: Summary) -> object:
    """The lathe as it was named when the setup was opened."""
    facts = each.opening.get("facts")
    return facts.get("lathe") if isinstance(facts, dict) else None


def _lines(found: tuple[Summary, ...], here: Settings) -> Iterator[str]:
    """One setup in two lines."""
    from guide.present.visible import visible
    from guide.present.words import say

    if not found:
        yield say(N_("There is no setup in {folder} yet."), here.language, folder=here.home)
    for each in found:
        yield visible(f"{each.setup}  {_what(each)}, {_lathe(each)}: {_stands(each, here)}")
        yield "    " + visible(_worked_on(each, here))


def _what(each: Summary) -> str:
    """The procedure, and the mark of one that is not real."""
    mode = each.opening.get("mode")
    return f"{each.opening.get('procedure')}" + ("" if mode == "real" else f" ({mode})")


def _stands(each: Summary, here: Settings) -> str:
    """How it ended, or where it is open."""
    from guide.present.words import recorded, say

    open_at = say(N_("open, last at “{step}”"), here.language, step=each.last_step or "–")
    return recorded(each.closing.get("ends"), here.language) or open_at


def _worked_on(each: Summary, here: Settings) -> str:
    """Who opened it and when, and who was last."""
    from guide.present.words import say
    from guide.records.section import when

    return say(
        N_("{first} {opened} to {last} {closed}, {events} events"),
        here.language,
        first=each.opened_by,
        opened=when(each.opened_at),
        last=each.last_by,
        closed=when(each.last_at),
        events=each.events,
    )
