"""The people of the shop: who may sign, their roles, and the shop's rules."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from textual.widget import Widget
from textual.widgets import Static

from guide.front.desk import Desk
from guide.front.opening import now
from guide.front.signing_words import AGAIN, NEW_PIN, NOT_ALIKE, wrong_before
from guide.people.hand import Hand
from guide.people.roster import Person, Roster
from guide.people.rules import Rules
from guide.plain import N_, BadInput
from guide.present.labels import ROLE
from guide.present.visible import visible
from guide.procedure.vocabulary import WITNESSED
from guide.roles import ROLES, SUPERVISOR
from guide.screens.page import Page, TileGrid, numbered
from guide.screens.people import Ask, AskScreen, pin_of
from guide.screens.signing import refusal_of
from guide.screens.tongue import say
from guide.screens.widgets.notice import Notice
from guide.screens.widgets.press import Press

BY = N_("The supervisor who does it:")
WHO = N_("The person's name:")
WHOM = N_("Who is it?")
THEIR_PIN = N_("They type a PIN or passphrase of their own, at least six characters:")
FIRST = {
    "first": (
        N_("Sign on from now on: add the first person"),
        N_("The first person is a supervisor, who adds others. From then on everybody signs on."),
    )
}
"""What can be done where nobody is on record: whoever works alone signs nothing."""
ABOUT = {
    "add": (N_("Add a person"), N_("The new person types their own PIN; nobody else knows it.")),
    "retire": (
        N_("Retire a person"),
        N_("They can act no more; everything they signed stays good, and nobody is ever deleted."),
    ),
    "role": (N_("Give another role"), N_("What was done before keeps the role it was done in.")),
    "new-key": (
        N_("A PIN was forgotten: a new key"),
        N_("The old key signs no more; what it signed stays good."),
    ),
    "new-pin": (
        N_("Change my own PIN"),
        N_(
            "The key stays the same: a copy of the file made before still opens with the old PIN."
            " Where that can matter, have a supervisor give a new key."
        ),
    ),
    "rules": (
        N_("Change the shop's rules"),
        N_("Without sign-on nothing is signed and every page says so."),
    ),
}
"""What can be done here, and what it means."""


class ChangeScreen(AskScreen):
    """Asks for one change; where something stands there already one begins at the top too."""

    DEFAULT_CSS = "ChangeScreen Field, ChangeScreen Choices { margin: 0; }"

    def first(self) -> Widget:
        """The first question."""
        return self.asked()[0]


class PeoplePage(Page[None]):
    """A list, and what can be done."""

    DEFAULT_CSS = "PeoplePage #people { height: auto; padding: 0 1; }"
    title_text = N_("People")

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk

    async def on_mount(self) -> None:
        """Everybody as they are."""
        await self.fill()

    async def fill(self) -> None:
        """The list and what can be done, written anew."""
        roster, rows = self.desk.roster, self.query_one("#rows")
        doings = ABOUT if roster.people else FIRST
        await rows.remove_children()
        await rows.mount(
            Static("\n".join(_lines(roster)) + "\n", id="people", markup=False),
            TileGrid(*(Press(name, numbered(place, say(doings[name][0])))
                       for place, name in enumerate(doings, 1))),
        )  # fmt: skip
        rows.query(Press).first().focus()
        self.query_one(Notice).tell(wrong_before(self.desk.told_once()))

    async def picked(self, name: str) -> None:
        """Ask for what is needed."""
        self.run_worker(self._do(name), group="people", exclusive=True)

    async def _do(self, what: str) -> None:
        """One change, by the window that asks for it."""
        title, told = (ABOUT | FIRST)[what]

        def attempt(answers: Mapping[str, str]) -> Awaitable[str]:
            return refusal_of(self.desk.apart(lambda desk: DO[what](desk, answers)))

        asks = tuple(_asks(what, self.desk.roster))
        if await self.app.push_screen_wait(ChangeScreen(title, told, asks, attempt)):
            await self.fill()


def _asks(what: str, roster: Roster) -> Iterator[Ask]:
    """What a change needs to know, the PIN of who makes it last."""
    if what == "new-pin":
        yield _one_of("name", N_("Your name:"), roster.active)
        yield pin_of("name", "by_pin", N_("The PIN as it is now:"))
        yield from _two_pins(NEW_PIN)
        return
    if what == "rules":
        yield from _about_rules(roster.rules)
    elif what in ("add", "first"):
        yield Ask("name", WHO if what == "add" else N_("Your name:"))
    else:
        yield _one_of("name", WHOM, roster.active)
    if what in ("add", "role"):
        yield Ask("role", N_("Role"), closed=tuple((each, say(ROLE[each])) for each in ROLES))
    if what in ("add", "first", "new-key"):
        yield from _two_pins(NEW_PIN if what == "first" else THEIR_PIN)
    if what != "first":
        yield _one_of("by", BY, [each for each in roster.active if each.role == SUPERVISOR])
        yield pin_of("by", "by_pin", N_("The supervisor's PIN or passphrase:"))


def _one_of(name: str, sentence: str, people: Sequence[Person]) -> Ask:
    """One of some people, who stands there already where it can be nobody else."""
    closed = tuple((each.name, visible(each.name)) for each in people)
    return Ask(name, sentence, closed=closed, value=closed[0][0] if len(closed) == 1 else "")


def _two_pins(sentence: str) -> Iterator[Ask]:
    """A new PIN and the same again."""
    yield Ask("pin", sentence, hidden=True)
    yield Ask("again", AGAIN, hidden=True)


def _about_rules(rules: Rules) -> Iterator[Ask]:
    """The rules as they stand, to be changed."""
    ways = (("yes", say(N_("yes"))), ("no", say(N_("no: NOT SIGNED"))))
    yield Ask("sign_on", N_("Does everybody sign on?"), closed=ways,
              value="yes" if rules.sign_on else "no")  # fmt: skip
    yield Ask("idle", N_("Signed out after how many idle minutes? (0 is never)"),
              value=str(rules.idle_minutes))  # fmt: skip
    roles = (("none", say(N_("nobody"))), *((each, say(ROLE[each])) for each in ROLES))
    kinds = {"gate": N_("A second person at each gate, of this role or above"),
             "verdict": N_("At each verdict"), "sign-off": N_("At the sign-off")}  # fmt: skip
    for kind in WITNESSED:
        yield Ask(kind, kinds[kind], closed=roles, value=rules.witness.get(kind, "none"))


def _lines(roster: Roster) -> Iterator[str]:
    """Everybody, and the rules in words."""
    if not roster.people:
        yield say(N_("Nobody signs on here: names are typed, and nothing is signed."))
    for each in roster.people.values():
        yield _of_person(each)
    rules = roster.rules
    yield ""
    on, off = N_("Everybody signs on; each event is signed."), N_("Nobody signs on: NOT SIGNED.")
    yield say(on if rules.sign_on else off)
    if rules.sign_on and rules.idle_minutes:
        yield say(N_("Signed out after {n} min without a key or a click."), n=rules.idle_minutes)
    for kind, role in sorted(rules.witness.items()):
        told = N_("A second person at each {kind}: {role} or above.")
        yield say(told, kind=kind, role=say(ROLE[role]))


def _of_person(person: Person) -> str:
    """One person on one line."""
    told = {"name": visible(person.name), "role": say(ROLE[person.role])}
    since = say(N_("{name}, {role}, since {day}"), **told, day=person.since[:10])
    if person.active:
        return since
    return f"{since}, {say(N_('retired {day}'), day=person.retired[:10])}"


def _by(desk: Desk, told: Mapping[str, str]) -> Hand:
    """The hand of who makes the change."""
    return desk.sign_on(told["by"] if "by" in told else told["name"], told["by_pin"])


def _pin(told: Mapping[str, str]) -> str:
    """A new PIN, typed twice and the same."""
    if told["pin"] != told["again"]:
        raise BadInput(NOT_ALIKE)
    return told["pin"]


def _first(desk: Desk, told: Mapping[str, str]) -> None:
    hand = desk.first(told["name"], _pin(told))
    desk.people.set_rules(hand, replace(desk.roster.rules, sign_on=True), now())


def _add(desk: Desk, told: Mapping[str, str]) -> None:
    pin = _pin(told)
    desk.people.add(_by(desk, told), told["name"], told["role"], pin, now())


def _retire(desk: Desk, told: Mapping[str, str]) -> None:
    desk.people.retire(_by(desk, told), told["name"], now())


def _role(desk: Desk, told: Mapping[str, str]) -> None:
    desk.people.change_role(_by(desk, told), told["name"], told["role"], now())


def _new_key(desk: Desk, told: Mapping[str, str]) -> None:
    pin = _pin(told)
    desk.people.new_key(_by(desk, told), told["name"], pin, now())


def _new_pin(desk: Desk, told: Mapping[str, str]) -> None:
    pin = _pin(told)
    desk.people.new_pin(_by(desk, told), pin, now())


def _rules(desk: Desk, told: Mapping[str, str]) -> None:
    if not told["idle"].isdecimal():
        raise BadInput(N_("The idle minutes are a whole number."), N_("Write 15, or 0 for never."))
    witness = {kind: told[kind] for kind in WITNESSED if told[kind] != "none"}
    signs = told["sign_on"] == "yes"
    wanted = replace(Rules(), sign_on=signs, idle_minutes=int(told["idle"]), witness=witness)
    desk.people.set_rules(_by(desk, told), wanted, now())


DO: dict[str, Callable[[Desk, Mapping[str, str]], None]] = {
    "first": _first,
    "add": _add,
    "retire": _retire,
    "role": _role,
    "new-key": _new_key,
    "new-pin": _new_pin,
    "rules": _rules,
}
"""What each line of the page does."""
