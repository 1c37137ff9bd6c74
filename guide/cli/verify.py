"""`spindleside verify`: whether the journal still stands as it was written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING

import click

from guide.cli.output import emit
from guide.cli.places import journal_option, json_option, reading, settings
from guide.plain import N_, BadInput

if TYPE_CHECKING:
    from guide.journal.store import Store
    from guide.records.evidence import Fault

Head = tuple[str, int, str]
"""A setup, the number of its events, and the digest of the last one."""


@click.command()
@click.argument("setup", required=False)
@journal_option
@json_option
@click.pass_context
def verify(ctx: click.Context, setup: str | None, journal: str | None, as_json: bool) -> None:
    """Check the journal, or one SETUP: every event as it was written, and allowed by the walk.

    Names the first event that was changed, taken out, added or moved, then the others. It only
    reads. The chains are not signed: compare the digests with ones that were printed at the time.

    \b
    Example:
      spindleside verify
    """
    from guide.present.words import say
    from guide.records.evidence import UNSIGNED, faults

    here = settings(journal)
    with reading(here) as store:
        heads = _heads(store, setup)
        found = tuple(faults(store, setup, here.language))
    note = say(UNSIGNED, here.language)
    emit(_answer(found, heads, note), as_json, _lines(found, heads, note, here.language))
    ctx.exit(1 if found else 0)


def _heads(store: Store, setup: str | None) -> tuple[Head, ...]:
    """The last digest of each setup that is checked."""
    names = store.names()
    if setup is not None and setup not in names:
        raise BadInput(
            N_("There is no setup called {setup}."),
            N_("`spindleside records` lists them."),
            setup=ascii(setup),
        )
    return tuple((name, *store.last(name)) for name in names if setup in (None, name))


def _answer(found: tuple[Fault, ...], heads: tuple[Head, ...], note: str) -> dict[str, object]:
    """What was found as JSON keys."""
    return {
        "sound": not found,
        "findings": [asdict(each) for each in found],
        "setups": [{"setup": name, "events": count, "head": head} for name, count, head in heads],
        "note": note,
    }


def _lines(
    found: tuple[Fault, ...], heads: tuple[Head, ...], note: str, language: str
) -> Iterator[str]:
    """The first fault, the others, and the digests to compare."""
    from guide.present.visible import visible
    from guide.present.words import say

    yield from (each.says for each in found)
    summary = N_("Setups: {setups}, events: {events}, faults: {faults}.")
    events = sum(count for _, count, _ in heads)
    yield say(summary, language, setups=len(heads), events=events, faults=len(found))
    for name, count, head in heads:
        told = {"setup": name, "events": count, "head": head}
        yield visible(say(N_("{setup}: {events} events, last digest {head}"), language, **told))
    yield note
