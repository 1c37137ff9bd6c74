"""What the windows about equipment ask, and what they make of the answers."""

from __future__ import annotations

from collections.abc import Mapping

from guide.equipment.asked import asked_of
from guide.equipment.belongs import BELONGS
from guide.front.questions import options
from guide.plain import N_
from guide.present.visible import visible
from guide.screens.people import Ask
from guide.screens.tongue import language, say, written
from guide.walk.answers import accepted

LIMIT = N_("Its largest error, with the unit, such as 0.0002 in:")


def about_facts(kind: str, known: Mapping[str, str]) -> tuple[Ask, ...]:
    """Everything that belongs to a kind, each as the procedures ask it; blank is not known."""
    asked = asked_of(kind)
    blank = ("", say(N_("not known here")))
    return tuple(
        Ask(
            name,
            visible(written(asked[name].ask)) if name in asked else LIMIT,
            closed=(*options(asked[name]), blank) if name in asked and asked[name].closed else (),
            value=known.get(name, ""),
            may_be_blank=True,
        )
        for name in BELONGS[kind]
    )


def facts_of(kind: str, told: Mapping[str, str]) -> dict[str, str]:
    """The answers that belong to a kind, blank for what is not known; BadInput for one that no
    procedure would take."""
    asked = asked_of(kind)
    answers = {name: "" if told[name] == "unknown" else told[name] for name in BELONGS[kind]}
    return {
        name: accepted(asked[name], each, language()) if each and name in asked else each
        for name, each in answers.items()
    }


def about_calibration() -> tuple[Ask, ...]:
    """When, until when, by whom, how far it may be out."""
    return (
        Ask("day", N_("When was it calibrated? Year, month, day:")),
        Ask("due", N_("When is it due again?")),
        Ask("certificate", N_("The certificate's number, or who did it:")),
        Ask("limit", LIMIT, may_be_blank=True),
    )
