"""The windows of signing: first use, signed out, a witness, a deviation."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping, Sequence
from functools import partial

from textual.app import ComposeResult
from textual.widgets import Static

from guide.front.desk import Desk
from guide.front.opening import now
from guide.front.signing_words import (
    AGAIN,
    DEVIATION,
    FIRST_USE,
    NEW_PIN,
    NOT_ALIKE,
    SECOND_NAME,
    SECOND_PIN,
    WAY,
    WAYS,
    WHO_ALLOWS,
    WHO_WORKS,
    WHY_NOT,
    of_witness,
)  # fmt: skip
from guide.people.hand import Hand
from guide.people.rules import Rules
from guide.plain import N_, Refusal
from guide.present.usual import NOT_AS_WRITTEN, PEOPLE
from guide.present.visible import visible
from guide.present.words import refused
from guide.screens.modals.window import Window
from guide.screens.people import Ask, AskScreen, Attempt, person, pin_of
from guide.screens.tongue import language, say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field

Sign = Callable[[str, str], Awaitable[Hand]]
"""Gives somebody's hand for a name and a PIN, or a Refusal."""
Enter = Callable[[Mapping[str, str], Hand | None], str | None]
"""Enters what answers are for, with the hand of who signed on; gives back why not, if so."""


async def refusal_of(attempt: Awaitable[str | None]) -> str:
    """Why an attempt was refused, as a sentence; blank when it was not."""
    try:
        return await attempt or ""
    except Refusal as refusal:
        return refused(refusal, language())


def signing(sign: Sign | None, enter: Enter) -> Attempt:
    """Tries answers: signs on with them, where people sign on, and enters what they are for."""

    async def attempt(told: Mapping[str, str]) -> str | None:
        hand = await sign(told["person"], told["pin"]) if sign else None
        return enter(told, hand)

    return lambda told: refusal_of(attempt(told))


class FirstUse(Window[str]):
    """Once for each journal: whether people sign on, and who is the first, whose name it gives."""

    DEFAULT_CSS = "FirstUse Field { margin: 0; }"
    title_text = WHO_WORKS
    told_text = FIRST_USE
    yes = N_("Go on   ⏎")

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk

    def questions(self) -> ComposeResult:
        """How, who, and the PIN twice where there is to be one."""
        ways = [(way, say(words)) for way, words in WAYS.items()]
        yield Choices("way", say(WAY), ways)
        yield Field("person", say(N_("Your name:")), usual=[say(each) for each in PEOPLE])
        yield Field("pin", say(NEW_PIN), hidden=True)
        yield Field("again", say(AGAIN), hidden=True)

    def on_mount(self) -> None:
        """No PIN is asked before it is known that there is to be one."""
        self._show_pins(False)

    def answered(self, name: str, value: str) -> None:
        """PINs are asked where people sign on."""
        if name == "way":
            self._show_pins(value == "on")

    def _show_pins(self, shown: bool) -> None:
        for each in self.query(Field):
            if each.hidden:
                each.display = shown

    def confirm(self) -> None:
        """Settle it, or say what is wrong."""
        told = {each.name or "": each.value for each in self.asked()}
        if not told.get("way") or not told.get("person"):
            self.complain(say(N_("Choose how it is to be, and type your name.")))
        elif told.get("pin", "") != told.get("again", ""):
            self.complain(say(NOT_ALIKE))
            next(each for each in self.asked() if each.name == "pin").focus()
        else:
            settled = self.desk.apart(partial(_settled, told=told))
            self.try_out(refusal_of(settled), self._done)

    def _done(self, sentence: str) -> None:
        """Close once it is settled; a PIN that may be none is typed anew."""
        if not sentence:
            self.dismiss(next(each.value for each in self.asked() if each.name == "person"))
        for each in self.asked():
            if sentence and each.name == "pin":
                each.focus()


def _settled(desk: Desk, told: Mapping[str, str]) -> None:
    """Write down how it is to be here."""
    if told["way"] == "on":
        desk.first(told["person"], told["pin"])
    else:
        desk.people.set_rules(told["person"], Rules(sign_on=False), now())


class SignedOut(AskScreen):
    """Over a sheet at which nobody is signed on any more: who goes on."""

    no = N_("Close the sheet   *")

    def __init__(self, desk: Desk, last: str, told: str, go_on: Enter) -> None:
        names = sorted(desk.names(), key=lambda each: each != last)
        asks = person(names, True, N_("Who goes on?"), last if last in names else "")
        super().__init__(N_("Signed out"), as_it_is(told), asks, signing(desk.signed_on, go_on))


class Beside(AskScreen):
    """A second person, who signs beside; in an unsigned setup only a name.

    It closes once what they stand beside is entered: where that is refused nothing typed is lost.
    """

    DEFAULT_CSS = "Beside .lines { height: auto; margin: 0 0 1 0; }"

    def __init__(
        self,
        title: str,
        told: str,
        asks: Sequence[Ask],
        sign: Sign | None,
        enter: Enter,
        lines: Sequence[str] = (),
    ) -> None:
        super().__init__(as_it_is(title), as_it_is(told), asks, signing(sign, enter))
        self.lines = tuple(lines)

    def questions(self) -> ComposeResult:
        """What they stand beside, then who."""
        if self.lines:
            told = "\n".join(f"· {each}" for each in self.lines)
            yield Static(told, classes="lines", markup=False)
        yield from super().questions()

    def begin(self) -> None:
        """What they stand beside is in sight first."""
        self.first().focus(scroll_visible=False)


def witness_of(
    title: str,
    lines: Sequence[str],
    role: str,
    by: str,
    names: Sequence[str],
    sign: Sign | None,
    enter: Enter,
) -> Beside:
    """Asks for the witness of a gate or a result that `by` did, naming what is witnessed."""
    told = of_witness(role, by, signed=sign is not None)
    asks = _second(names, sign is not None, SECOND_NAME)
    heading = say(N_("Witness: {title}"), title=visible(title))
    return Beside(heading, told, asks, sign, enter, [*map(visible, lines)])


def deviation_of(title: str, names: Sequence[str], sign: Sign | None, enter: Enter) -> Beside:
    """Asks why a task is not done as written, and who allows that."""
    told = say(DEVIATION)
    asks = (
        Ask("why", WHY_NOT, usual=NOT_AS_WRITTEN),
        *_second(names, sign is not None, WHO_ALLOWS),
    )
    heading = say(N_("Not done as written: {title}"), title=visible(title))
    return Beside(heading, told, asks, sign, enter)


def _second(names: Sequence[str], signs: bool, sentence: str) -> tuple[Ask, ...]:
    """Who the second person is, and where people sign on that person's PIN."""
    who, *_ = person(names, signs, sentence)
    pin = SECOND_PIN
    return (who, pin_of("person", sentence=pin)) if signs else (who,)


def as_it_is(text: str) -> str:
    """Text that is said already, safe to be filled in again with nothing."""
    return text.replace("{", "{{").replace("}", "}}")
