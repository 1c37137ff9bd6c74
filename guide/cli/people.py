"""`spindleside people`: who may sign, and the shop's rules."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import click

from guide.cli.output import emit
from guide.cli.output import say as tell
from guide.cli.pins import asked, asked_twice
from guide.cli.places import journal_option, json_option, settings
from guide.plain import N_, BadInput
from guide.roles import ROLES

if TYPE_CHECKING:
    from guide.people.hand import Hand
    from guide.people.people import People
    from guide.people.roster import Person, Roster

by_option: Callable[[Callable[..., Any]], Callable[..., Any]] = click.option(
    "--by", required=True, metavar="NAME", help="The supervisor who does it, and gives a PIN."
)


@click.group(invoke_without_command=True)
@journal_option
@json_option
@click.pass_context
def people(ctx: click.Context, journal: str | None, as_json: bool) -> None:
    """List who may sign, with their roles and public keys, and the shop's rules.

    The first person is a supervisor, who adds the others. Nobody is ever deleted: whoever leaves is
    retired, and what they signed stays good. A PIN is asked for unseen; without a terminal each is
    one line of standard input.

    \b
    Example:
      spindleside people first "A. Sample"
      spindleside people add "B. Sample" --role apprentice --by "A. Sample"
      spindleside people rules --sign-on off --by "A. Sample"
    """
    ctx.obj = journal
    if ctx.invoked_subcommand is None:
        roster = _roster(journal)
        emit(_answer(roster), as_json, _lines(roster, settings(journal).language))


@people.command()
@click.argument("name")
@click.pass_obj
def first(journal: str | None, name: str) -> None:
    """Add the first person, NAME, a supervisor. The PIN is asked for twice.

    \b
    Example:
      spindleside people first "A. Sample"
    """
    with _open(journal) as who:
        who.first(name, _new_pin(), _now())
        _told(who.roster().find(name))


@people.command()
@click.argument("name")
@click.option("--role", required=True, type=click.Choice(ROLES), help="What the person is.")
@by_option
@click.pass_obj
def add(journal: str | None, name: str, role: str, by: str) -> None:
    """Add NAME; first the supervisor's PIN, then the new person's twice.

    \b
    Example:
      spindleside people add "B. Sample" --role apprentice --by "A. Sample"
    """
    with _open(journal) as who:
        hand = _signed_on(who, by)
        _told(who.add(hand, name, role, _new_pin(), _now()))


@people.command()
@click.argument("name")
@by_option
@click.pass_obj
def retire(journal: str | None, name: str, by: str) -> None:
    """Let NAME act no more; nothing that was signed changes.

    \b
    Example:
      spindleside people retire "B. Sample" --by "A. Sample"
    """
    with _open(journal) as who:
        _told(who.retire(_signed_on(who, by), name, _now()))


@people.command()
@click.argument("name")
@click.argument("role", type=click.Choice(ROLES))
@by_option
@click.pass_obj
def role(journal: str | None, name: str, role: str, by: str) -> None:
    """Give NAME another ROLE.

    \b
    Example:
      spindleside people role "B. Sample" machinist --by "A. Sample"
    """
    with _open(journal) as who:
        _told(who.change_role(_signed_on(who, by), name, role, _now()))


@people.command("new-key")
@click.argument("name")
@by_option
@click.pass_obj
def new_key(journal: str | None, name: str, by: str) -> None:
    """Give NAME, who has forgotten the PIN, a new key under a new one.

    \b
    Example:
      spindleside people new-key "B. Sample" --by "A. Sample"
    """
    with _open(journal) as who:
        hand = _signed_on(who, by)
        _told(who.new_key(hand, name, _new_pin(), _now()))


@people.command("new-pin")
@click.argument("name")
@click.pass_obj
def new_pin(journal: str | None, name: str) -> None:
    """Change the PIN of NAME: the old one, then the new one twice.

    \b
    Example:
      spindleside people new-pin "B. Sample"
    """
    with _open(journal) as who:
        hand = _signed_on(who, name)
        _told(who.new_pin(hand, _new_pin(), _now()))


@people.command()
@click.option("--sign-on", type=click.Choice(["on", "off"]), help="Off: nothing is signed.")
@click.option("--idle", type=int, metavar="MINUTES", help="Signed out after so long; 0 is never.")
@click.option(
    "--witness",
    multiple=True,
    metavar="KIND=ROLE",
    help="A second person at gate, verdict or sign-off: gate=supervisor, or gate=none.",
)
@click.option("--by", required=True, metavar="NAME", help="Who changes them.")
@click.pass_obj
def rules(
    journal: str | None, sign_on: str | None, idle: int | None, witness: tuple[str, ...], by: str
) -> None:
    """Change the shop's rules; what is not named stays as it is.

    Somebody who works alone turns sign-on off with this one command before anyone was added; the
    events are then unsigned, and every page says so.

    \b
    Example:
      spindleside people rules --sign-on off --by "A. Sample"
      spindleside people rules --witness gate=supervisor --idle 10 --by "A. Sample"
    """
    from guide.people.rules import Rules

    with _open(journal) as who:
        roster = who.roster()
        old = roster.rules
        wanted = Rules(
            old.sign_on if sign_on is None else sign_on == "on",
            old.idle_minutes if idle is None else idle,
            _witnesses(dict(old.witness), witness),
        )
        hand: Hand | str = _signed_on(who, by) if roster.people else by
        after = who.set_rules(hand, wanted, _now())
        tell(*_ruled(after, settings(journal).language))


def _witnesses(now: dict[str, str], changes: tuple[str, ...]) -> dict[str, str]:
    """The roles by kind of step after these changes."""
    for each in changes:
        kind, equals, wanted = each.partition("=")
        if not equals:
            raise BadInput(
                N_("“{each}” does not name a kind of step and a role."),
                N_("Write it as gate=supervisor, or gate=none."),
                each=ascii(each),
            )
        now.pop(kind, None)
        if wanted != "none":
            now[kind] = wanted
    return now


@contextmanager
def _open(journal: str | None) -> Iterator[People]:
    """The people of the journal, to be changed."""
    from guide.journal.store import Store
    from guide.people.people import People

    with Store(settings(journal).journal_file) as store:
        yield People(store)


def _roster(journal: str | None) -> Roster:
    """Everybody; nobody where there is no journal yet."""
    from guide.journal.store import Store
    from guide.people.people import People
    from guide.people.roster import Roster

    file = settings(journal).journal_file
    if not Store.is_there(file):
        return Roster()
    with Store.read(file) as store:
        return People(store).roster()


def _signed_on(who: People, name: str) -> Hand:
    """The hand of somebody, for the PIN that is asked."""
    person = who.roster().find(name).name
    pin = asked(_say(N_("PIN of {name}"), name=person))
    return who.sign_on(person, pin, _now(), _waited(who, person))


def _waited(who: People, name: str) -> float:
    """Seconds waited here, where the clock was set back since the last wrong PIN."""
    from time import sleep

    wait = who.to_wait(name, _now())
    if not wait or who.to_wait(name, _now(), wait):
        return 0.0
    told = {"seconds": int(-(-wait // 1))}
    print(_say(N_("The clock was set back; waiting for {seconds} s."), **told), file=sys.stderr)
    sleep(wait)
    return wait


def _new_pin() -> str:
    """A new PIN."""
    return asked_twice(_say(N_("New PIN or passphrase")), _say(N_("The same again")))


def _now() -> str:
    """The time as the journal writes it."""
    from datetime import UTC, datetime

    from guide.journal.wellformed import stamp

    return stamp(datetime.now(UTC))


def _say(sentence: str, **values: object) -> str:
    """A sentence in the language of the environment."""
    from guide.present.words import say

    return say(sentence, settings(None).language, **values)


def _told(person: Person) -> None:
    """One person as they are now."""
    tell(*_of_person(person, settings(None).language))


def _answer(roster: Roster) -> dict[str, Any]:
    """Everybody and the rules as JSON keys."""
    return {
        "people": [
            {
                "name": each.name,
                "role": each.role,
                "active": each.active,
                "since": each.since,
                "retired": each.retired or None,
                "keys": [key.key for key in each.keys],
            }
            for each in roster.people.values()
        ],
        "rules": roster.rules.as_data(),
    }


def _lines(roster: Roster, language: str) -> Iterator[str]:
    """Everybody, one in two lines, and the rules."""
    from guide.present.words import say

    if not roster.people:
        yield say(N_("Nobody is on record yet."), language)
    for each in roster.people.values():
        yield from _of_person(each, language)
    yield from _ruled(roster, language)


def _of_person(person: Person, language: str) -> Iterator[str]:
    """Name, role, since when, and the key that counts."""
    from guide.present.labels import ROLE
    from guide.present.visible import visible
    from guide.present.words import say

    told = {"name": visible(person.name), "role": say(ROLE[person.role], language)}
    since = say(N_("{name}, {role}, since {day}"), language, **told, day=person.since[:10])
    retired = say(N_("retired {day}"), language, day=person.retired[:10]) if person.retired else ""
    yield ", ".join(filter(None, (since, retired)))
    yield f"    {person.key}"


def _ruled(roster: Roster, language: str) -> Iterator[str]:
    """The rules in words."""
    from guide.present.labels import ROLE
    from guide.present.words import say

    rules = roster.rules
    on, off = N_("Everybody signs on; each event is signed."), N_("Nobody signs on: NOT SIGNED.")
    yield say(on if rules.sign_on else off, language)
    if rules.sign_on and rules.idle_minutes:
        yield say(N_("Signed off after {n} idle minutes."), language, n=rules.idle_minutes)
    for kind, wanted in sorted(rules.witness.items()):
        told = {"kind": kind, "role": say(ROLE[wanted], language)}
        yield say(N_("A second person at each {kind}: {role}."), language, **told)
