"""Who it is: by name, and where people sign on by a PIN that no terminal shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from guide.front.desk import Desk
from guide.front.signing_words import (
    AGAIN,
    DEVIATION,
    FIRST_USE,
    NEW_PIN,
    NOT_ALIKE,
    PERSON,
    PIN,
    SECOND_NAME,
    SECOND_PIN,
    WAY,
    WAYS,
    WHO_ALLOWS,
    WHO_WORKS,
    WHY_NOT,
    of_witness,
)
from guide.linear.ends import Back
from guide.linear.talk import Line, Talk
from guide.people.hand import Hand
from guide.people.rules import Rules
from guide.plain import N_, Refusal
from guide.present.tongue import language, say
from guide.present.usual import NOT_AS_WRITTEN, PEOPLE
from guide.present.visible import visible
from guide.present.words import refused

if TYPE_CHECKING:
    from guide.linear.sitting import Sitting

MOST = 6
"""Names used before that are offered; any other is typed."""


def who(
    talk: Talk,
    desk: Desk,
    ask: str,
    names: Sequence[str],
    signs: bool,
    pin: str = PIN,
    first: str = "",
) -> tuple[str, Hand | None]:
    """Somebody's name, and where people sign on the hand for the right PIN; `Back` for nobody.

    `first` is who has just settled how people work here: Enter alone takes that name.
    """
    if not signs:
        usual = tuple(names[:MOST]) or tuple(say(each) for each in PEOPLE)
        return talk.answer(Line("person", ask, usual=usual), first), None
    name = names[0] if len(names) == 1 else ""
    options = tuple((each, visible(each)) for each in names)
    name = talk.answer(Line("person", ask, options=options), name)
    return name, _hand(talk, desk, name, pin)


def _hand(talk: Talk, desk: Desk, name: str, pin: str) -> Hand:
    """Ask for the PIN until it is the right one."""
    while True:
        if seconds := desk.to_wait(name):
            talk.say(N_("Wait {seconds} s, then type the PIN."), seconds=seconds)
        try:
            return desk.sign_on(name, talk.secret(say(pin)))
        except Refusal as refusal:
            talk.lines.tell(refused(refusal, language()))


def settle(talk: Talk, desk: Desk, at: str) -> str:
    """Once for each journal: whether people sign on, and who is the first; `Back` for not now.

    Gives that name back, and a blank where it was settled before.
    """
    if desk.roster.begun:
        return ""
    talk.say(WHO_WORKS)
    talk.say(FIRST_USE)
    way = talk.choose(say(WAY), [(each, say(words)) for each, words in WAYS.items()])
    name = talk.answer(Line("person", say(PERSON), usual=tuple(say(each) for each in PEOPLE)))
    while not desk.roster.begun:
        try:
            if way == "off":
                desk.people.set_rules(name, Rules(sign_on=False), at)
            elif pin := _new_pin(talk):
                desk.first(name, pin)
        except Refusal as refusal:
            talk.lines.tell(refused(refusal, language()))
            if way == "off":
                raise Back from None
    return name


def _new_pin(talk: Talk) -> str:
    """A PIN typed twice; blank where both are not the same."""
    first, second = talk.secret(say(NEW_PIN)), talk.secret(say(AGAIN))
    if first != second:
        talk.say(NOT_ALIKE)
    return first if first == second else ""


def as_witness(
    at: Sitting, title: str, told: Sequence[str], role: str, names: Sequence[str]
) -> tuple[str, Hand | None]:
    """The second person, who has heard what it is about; `Back` for nobody."""
    talk, signs = at.talk, at.signed
    talk.say(N_("Witness: {title}"), title=visible(title))
    talk.lines.tell(of_witness(role, at.state.person, signed=signs))
    for each in told:
        talk.lines.tell(visible(each))
    return who(talk, at.desk, say(SECOND_NAME), names, signs, SECOND_PIN)


def who_allows(at: Sitting, title: str, names: Sequence[str]) -> tuple[str, str, Hand | None]:
    """Why a task is not done as written, and who allows that; `Back` for not at all."""
    talk = at.talk
    talk.say(N_("Not done as written: {title}"), title=visible(title))
    talk.say(DEVIATION)
    usual = tuple(say(each) for each in NOT_AS_WRITTEN)
    why = talk.answer(Line("why", say(WHY_NOT), usual=usual))
    return why, *who(talk, at.desk, say(WHO_ALLOWS), names, at.signed, SECOND_PIN)
