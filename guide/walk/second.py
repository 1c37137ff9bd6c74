"""The second person: who witnesses a gate or a result, and who allows a deviation."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Protocol

from guide.journal.event import Event
from guide.plain import N_, BadInput, NotAllowed
from guide.procedure.model import Step
from guide.procedure.vocabulary import WITNESSED
from guide.roles import MACHINIST, SUPERVISOR, at_least
from guide.walk.state import State

WITNESS, ALLOWED = "witness", "allowed"
"""Under what an event holds the second person."""


class Signer(Protocol):
    """Somebody who has signed on and can sign."""

    @property
    def name(self) -> str:
        """As on record."""

    @property
    def role(self) -> str:
        """One of the three."""

    @property
    def key(self) -> str:
        """Public key."""

    def sign(self, text: str) -> str:
        """The signature of a text."""


def wanted_at(step: Step, state: State) -> str:
    """The role of the witness that a step needs, blank where it needs none.

    The procedure and the shop may both ask; the higher role counts.
    """
    rules = state.opening.get("witnesses")
    shop = str(rules.get(step.kind, "")) if isinstance(rules, Mapping) else ""
    return step.witness if at_least(step.witness, shop) else shop or step.witness


def key_of(trigger: str) -> str:
    """Under what the second person of such an event is held."""
    return ALLOWED if trigger == "deviate" else WITNESS


def unsigned_text(event: Event, name: str) -> str:
    """What the second person signs: the event's body as it is without that signature."""
    told = {n: v for n, v in dict(event.data[name]).items() if n != "signature"}
    return replace(event, data={**event.data, name: told}).body()


def is_signed(state: State) -> bool:
    """Whether the events of the setup are signed."""
    return state.opening.get("sign_on") == "on"


def witnessed(state: State, step: Step, event: Event) -> None:
    """Refuse a step whose witness is missing, is the acting person, or has too low a role."""
    told = event.data.get(WITNESS)
    if told is None and step.kind not in WITNESSED:
        return
    wanted = wanted_at(step, state)
    if told is None:
        if wanted:
            raise NotAllowed(
                N_("“{title}” needs a second person as witness: {role}."),
                N_("Have that person look, and sign beside you."),
                title=step.title,
                role=wanted,
            )
        return
    person = _named(told, state)
    if _same(person, told, event):
        raise NotAllowed(
            N_("Nobody witnesses what they did themselves, and {person} did it."),
            N_("Ask somebody else."),
            person=person,
        )
    if wanted and is_signed(state) and not at_least(str(told.get("role")), wanted):
        raise NotAllowed(
            N_("The witness of “{title}” is to be a {role} at least."),
            N_("Ask one."),
            title=step.title,
            role=wanted,
        )


def least_to_allow(own: bool) -> str:
    """The role that allows a deviation: of one's own, or of somebody else's."""
    return SUPERVISOR if own else MACHINIST


def allowed(state: State, event: Event) -> None:
    """Refuse a deviation that nobody allowed who may: a supervisor may allow their own."""
    told = event.data.get(ALLOWED)
    if not isinstance(told, Mapping):
        raise BadInput(N_("Somebody has to allow a deviation."), N_("Name who allows it."))
    person = _named(told, state)
    if not is_signed(state):
        return
    least = least_to_allow(own=_same(person, told, event))
    if not at_least(str(told.get("role")), least):
        raise NotAllowed(
            N_("{person} cannot allow this: a {role} at least has to."),
            N_("Ask one; nobody below a supervisor allows what they do themselves."),
            person=person,
            role=least,
        )


def _named(told: object, state: State) -> str:
    """The second person's name; in a signed setup role, key and signature have to be there."""
    fields = told if isinstance(told, Mapping) else {}
    needed = ("person", "role", "key") if is_signed(state) else ("person",)
    if not all(str(fields.get(name, "")).strip() for name in needed):
        raise BadInput(N_("The second person has not signed."), N_("Sign on beside."))
    return str(fields["person"])


def _same(person: str, told: Mapping[str, Any], event: Event) -> bool:
    """Whether the second person is the one who acts."""
    alike = " ".join(person.split()).casefold() == " ".join(event.person.split()).casefold()
    return alike or bool(event.key and told.get("key") == event.key)
