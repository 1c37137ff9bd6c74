"""`spindleside equipment`: the shop's lathes, chucks, indicators and bars."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

import click

from guide.cli.output import emit
from guide.cli.output import say as tell
from guide.cli.places import journal_option, json_option, settings
from guide.equipment.belongs import CHUCK, INDICATOR, KINDS
from guide.plain import N_, BadInput

if TYPE_CHECKING:
    from guide.equipment.equipment import By, Equipment
    from guide.equipment.register import Register, Thing
    from guide.journal.store import Store

Wrap = Callable[[Callable[..., Any]], Callable[..., Any]]
by_option: Wrap = click.option(
    "--by", required=True, metavar="NAME", help="Who does it, and gives a PIN where people sign on."
)
facts_option: Wrap = click.option(
    "--set", "facts", multiple=True, metavar="NAME=ANSWER",
    help="What is known of it, by the procedures' names: graduation=0.0001 in.",
)  # fmt: skip
kind_argument: Wrap = click.argument("kind", type=click.Choice(KINDS))


@click.group(invoke_without_command=True)
@journal_option
@json_option
@click.pass_context
def equipment(ctx: click.Context, journal: str | None, as_json: bool) -> None:
    """List lathes, chucks, indicators and bars, with what is known of each.

    What is kept here is offered where a procedure asks for it, and confirmed there. Nothing is ever
    deleted: what is gone is retired, and its name stays taken.

    \b
    Example:
      spindleside equipment add indicator "Indicator 3" --set "unit=in" --by "A. Sample"
      spindleside equipment calibrate "Indicator 3" --on 2025-01-31 --due 2026-01-31 \\
          --certificate "No. 12" --by "A. Sample"
      spindleside equipment voided "Chuck 7" --why "a crash" --by "A. Sample"
    """
    ctx.obj = journal
    if ctx.invoked_subcommand is None:
        register, today = _register(journal), _today()
        lines = _lines(register, today, settings(journal).language)
        emit(_answer(register, today), as_json, lines)


@equipment.command()
@kind_argument
@click.argument("name")
@facts_option
@by_option
@click.pass_obj
def add(journal: str | None, kind: str, name: str, facts: tuple[str, ...], by: str) -> None:
    """Add a KIND of equipment called NAME.

    \b
    Example:
      spindleside equipment add chuck "Chuck 7" --set "screw-count=4" --by "A. Sample"
    """
    told = _facts(kind, facts)
    with _open(journal, by) as (shop, hand):
        _told(shop.add(hand, kind, name, told, _now()))


@equipment.command()
@kind_argument
@click.argument("name")
@facts_option
@by_option
@click.pass_obj
def change(journal: str | None, kind: str, name: str, facts: tuple[str, ...], by: str) -> None:
    """Change what is known of NAME; an answer left blank is not known any more.

    \b
    Example:
      spindleside equipment change chuck "Chuck 7" --set "mass=50 lb" --set "bore=" --by "A. Sample"
    """
    told = _facts(kind, facts)
    with _open(journal, by) as (shop, hand):
        _told(shop.change(hand, kind, name, told, _now()))


@equipment.command()
@click.argument("name")
@click.option("--on", "day", required=True, metavar="DATE", help="When it was calibrated.")
@click.option("--due", required=True, metavar="DATE", help="When it is to be calibrated again.")
@click.option("--certificate", required=True, metavar="TEXT", help="Its number, or who did it.")
@click.option("--limit", default="", metavar="LENGTH", help="Its largest error: 0.0002 in.")
@by_option
@click.pass_obj
def calibrate(
    journal: str | None, name: str, day: str, due: str, certificate: str, limit: str, by: str
) -> None:
    """Write down that the indicator NAME was calibrated.

    \b
    Example:
      spindleside equipment calibrate "Indicator 3" --on 2025-01-31 --due 2026-01-31 \\
          --certificate "No. 12" --limit "0.0002 in" --by "A. Sample"
    """
    with _open(journal, by) as (shop, hand):
        told = {"day": day, "due": due, "certificate": certificate, "limit": limit}
        _told(shop.calibrate(hand, name, _now(), **told))


@equipment.command()
@kind_argument
@click.argument("name")
@by_option
@click.pass_obj
def retire(journal: str | None, kind: str, name: str, by: str) -> None:
    """Offer NAME no more; its records stay.

    \b
    Example:
      spindleside equipment retire bar "Bar 1" --by "A. Sample"
    """
    with _open(journal, by) as (shop, hand):
        _told(shop.retire(hand, kind, name, _now()))


@equipment.command()
@click.argument("chuck")
@click.option("--why", required=True, metavar="TEXT", help="What happened to it.")
@by_option
@click.pass_obj
def voided(journal: str | None, chuck: str, why: str, by: str) -> None:
    """Write down that the last result of CHUCK counts no more: it is to be looked at again at once.

    \b
    Example:
      spindleside equipment voided "Chuck 7" --why "a crash" --by "A. Sample"
    """
    with _open(journal, by) as (shop, hand):
        _known_chuck(shop, chuck)
        shop.voided(hand, chuck, why, _now())
        tell(_say(N_("{chuck} is to be looked at again at once."), chuck=_visible(chuck)))


def _known_chuck(shop: Equipment, chuck: str) -> None:
    """Refuse a chuck that is neither kept here nor in a record: that would be a slip."""
    from guide.records.trend import known_as, points_of

    if shop.register().named(CHUCK, chuck):
        return
    store: Any = shop.journal
    if all(known_as(each.chuck) != known_as(chuck) for each in points_of(store.latest_outcomes())):
        raise BadInput(
            N_("No chuck called {name} is kept here, and no record names it."),
            N_("Look at the spelling: `spindleside history`, `spindleside equipment`."),
            name=ascii(chuck),
        )


def indicator_of_the_shop(journal: str | None, name: str) -> str:
    """The name of an indicator in use as it is kept here, else BadInput."""
    found = _register(journal).find(INDICATOR, name)
    if not found.active:
        raise BadInput(
            N_("{name} is retired."), N_("Name an indicator that is in use."), name=found.name
        )
    return found.name


def _facts(kind: str, pairs: tuple[str, ...]) -> dict[str, str]:
    """Answers as they are kept; BadInput for one that the procedures would not take."""
    from guide.equipment.asked import asked_of
    from guide.equipment.belongs import belonging
    from guide.walk.answers import accepted

    told: dict[str, str] = {}
    asked = asked_of(kind)
    for pair in pairs:
        name, equals, answer = pair.partition("=")
        if not equals:
            raise BadInput(
                N_("“{pair}” does not name an answer."),
                N_("Write it as mass=50 lb."),
                pair=ascii(pair),
            )
        fact = asked.get(belonging(kind, name.strip()))
        told[name.strip()] = accepted(fact, answer) if fact and answer.strip() else answer.strip()
    return told


@contextmanager
def _open(journal: str | None, by: str) -> Iterator[tuple[Equipment, By]]:
    """The equipment of the journal, to be changed, and who changes it."""
    from guide.equipment.equipment import Equipment
    from guide.journal.store import Store

    with Store(settings(journal).journal_file) as store:
        yield Equipment(store), _hand(store, by)


def _hand(store: Store, by: str) -> By:
    """Whoever does it: by a PIN where people sign on, else by the name."""
    from guide.cli.pins import asked
    from guide.people.people import People

    who = People(store)
    roster = who.roster()
    if not roster.rules.sign_on:
        return by
    person = roster.find(by).name
    return who.sign_on(person, asked(_say(N_("PIN of {name}"), name=person)), _now())


def _register(journal: str | None) -> Register:
    """All equipment; none where there is no journal yet."""
    from guide.equipment.equipment import Equipment
    from guide.equipment.register import Register
    from guide.journal.store import Store

    file = settings(journal).journal_file
    if not Store.is_there(file):
        return Register()
    with Store.read(file) as store:
        return Equipment(store).register()


def _now() -> str:
    """The time as the journal writes it."""
    from guide.journal.wellformed import stamp

    return stamp(datetime.now(UTC))


def _today() -> date:
    """The day by UTC, as the journal has it."""
    return datetime.now(UTC).date()


def _say(sentence: str, **values: object) -> str:
    """A sentence in the language of the environment."""
    from guide.present.words import say

    return say(sentence, settings(None).language, **values)


def _visible(text: str) -> str:
    from guide.present.visible import visible

    return visible(text)


def _told(thing: Thing) -> None:
    """One thing as it is now."""
    from guide.present.equipment import of_thing

    tell(*of_thing(thing, _today(), settings(None).language))


def _answer(register: Register, today: date) -> dict[str, Any]:
    """All equipment as JSON keys."""
    return {
        "equipment": [
            {
                "kind": each.kind,
                "name": each.name,
                "active": each.active,
                "since": each.since,
                "retired": each.retired or None,
                "facts": dict(each.facts),
                "overdue": each.is_overdue(today),
                "calibrations": [
                    {"day": one.day.isoformat(), "due": one.due.isoformat(),
                     "certificate": one.by, "limit": one.error_limit or None}
                    for one in each.calibrations
                ],
            }
            for each in register.things.values()
        ],
        "voided": [
            {"chuck": each.chuck, "at": each.at, "why": each.why, "person": each.person}
            for each in register.voided
        ],
    }  # fmt: skip


def _lines(register: Register, today: date, language: str) -> Iterator[str]:
    """Everything that is kept, kind by kind, then what happened to chucks."""
    from guide.present.equipment import of_thing
    from guide.present.words import say

    if not register.things:
        yield say(N_("No equipment is kept here yet."), language)
    for kind in KINDS:
        for each in register.things.values():
            if each.kind == kind:
                yield from of_thing(each, today, language)
    for mark in register.voided:
        told = {"day": mark.at[:10], "chuck": _visible(mark.chuck), "why": _visible(mark.why)}
        yield say(N_("{day}: the result of {chuck} ceased to count: {why}"), language, **told)
