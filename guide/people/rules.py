"""What the shop has settled: whether people sign on, after what idle time they are signed out, and
where a second person has to stand beside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from guide.people.role import role_of
from guide.plain import N_, BadInput
from guide.procedure.vocabulary import WITNESSED

MOST_IDLE = 24 * 60


@dataclass(frozen=True, slots=True)
class Rules:
    """The shop's rules as the last event about them left them."""

    sign_on: bool = True
    """Whether each event is signed by the person who acts. Off is for somebody who works alone."""
    idle_minutes: int = 15
    """Minutes without a key or a click after which the person is signed out; 0 is never."""
    witness: Mapping[str, str] = field(default_factory=dict, hash=False)
    """The role of the second person by kind of step; no shop has to ask for one."""

    def as_data(self) -> dict[str, Any]:
        """As an event holds it."""
        return {
            "sign_on": self.sign_on,
            "idle_minutes": self.idle_minutes,
            "witness": dict(self.witness),
        }


def rules_of(data: Mapping[str, Any]) -> Rules:
    """The rules that an event holds; BadInput for what cannot be a rule."""
    sign_on, idle, witness = (data.get(name) for name in ("sign_on", "idle_minutes", "witness"))
    if not isinstance(sign_on, bool) or type(idle) is not int or not isinstance(witness, Mapping):
        raise BadInput(N_("That is no set of rules."), N_("Nothing was changed."))
    if not 0 <= idle <= MOST_IDLE:
        raise BadInput(
            N_("Nobody can be signed out after {idle} minutes."),
            N_("Give 0 for never, or up to {most}."),
            idle=idle,
            most=MOST_IDLE,
        )
    asked = {_kind(kind): role_of(str(role)) for kind, role in witness.items()}
    if asked and not sign_on:
        raise BadInput(
            N_("A second person cannot be asked for while nobody signs on."),
            N_("Turn sign-on on first."),
        )
    return Rules(sign_on, idle, asked)


def _kind(kind: object) -> str:
    if kind in WITNESSED:
        return str(kind)
    raise BadInput(
        N_("A second person cannot be asked for at “{kind}”."),
        N_("It can be at: {kinds}."),
        kind=ascii(kind),
        kinds=", ".join(WITNESSED),
    )
