"""Asking who is at the lathe, which lathe it is, and a PIN: typed, or picked from those known."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.widget import Widget

from guide.front.signing_words import LATHE, PERSON, PIN
from guide.plain import N_
from guide.present.usual import LATHES, PEOPLE
from guide.screens.modals.window import Window
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices, Option
from guide.screens.widgets.field import Field
from guide.screens.widgets.press import Press

if TYPE_CHECKING:
    from guide.screens.app import Spindleside

MOST = 6
"""Names used before that are offered; any other is typed."""
A_WHILE = 0.25
"""Seconds between two looks how long a PIN has still to wait."""

Attempt = Callable[[Mapping[str, str]], Awaitable[str]]
"""Tries what the answers are wanted for; gives back why not, blank when it was done."""


@dataclass(frozen=True, slots=True)
class Ask:
    """One question of a window."""

    name: str
    sentence: str
    known: tuple[str, ...] = ()
    """Names used before, offered above the line to type on."""
    usual: tuple[str, ...] = ()
    """Words to pick where nothing was used before."""
    closed: tuple[Option, ...] = ()
    """All answers there are, where nothing else may be typed."""
    hidden: bool = False
    """Whether what is typed is not shown."""
    value: str = ""
    """What stands there beforehand."""
    may_be_blank: bool = False
    whose: str = ""
    """For a PIN that is known already: the question that says whose it is."""


def person(
    known: Sequence[str], pin: bool = False, sentence: str = PERSON, value: str = ""
) -> tuple[Ask, ...]:
    """Who; with `pin` one of those who may sign, and the PIN that proves it."""
    if not pin:
        return (Ask("person", sentence, tuple(known), PEOPLE, value=value),)
    value = value or (known[0] if len(known) == 1 else "")
    who = Ask("person", sentence, closed=tuple((name, name) for name in known), value=value)
    return who, pin_of("person")


def pin_of(whose: str, name: str = "pin", sentence: str = PIN) -> Ask:
    """The PIN of who is named by another question."""
    return Ask(name, sentence, hidden=True, whose=whose)


class AskScreen(Window[dict[str, str]]):
    """Gives back every answer by its name, PINs left out."""

    app: Spindleside
    yes = N_("Go on   ⏎")

    def __init__(self, title: str, told: str, asks: Sequence[Ask], attempt: Attempt) -> None:
        super().__init__()
        self.title_text, self.told_text, self.asks = title, told, tuple(asks)
        self.attempt = attempt

    @classmethod
    def for_person(
        cls, title: str, known: Sequence[str], attempt: Attempt, pin: bool = False
    ) -> AskScreen:
        """Only who."""
        told = N_("Everything is recorded under this name.")
        return cls(title, told, person(known, pin), attempt)

    @classmethod
    def for_setup(
        cls,
        people: Sequence[str],
        lathes: Sequence[str],
        attempt: Attempt,
        last: bool = False,
        pin: bool = False,
        first: str = "",
    ) -> AskScreen:
        """Who, and on which lathe; with `last` those of the last setup stand there already.

        `first` is who has just settled how people work here: that name is not typed twice.
        """
        who, *more = person(people, pin, value=first)
        lathe = Ask("lathe", LATHE, tuple(lathes), LATHES)
        if last:
            who, lathe = (each if each.value else _standing(each) for each in (who, lathe))
        told = N_("Everything is recorded under these names; a lathe has one open setup at most.")
        return cls(N_("A new setup"), told, (who, *more, lathe), attempt)

    def on_mount(self) -> None:
        """Where a PIN is asked, look how long it has to wait."""
        if any(each.whose for each in self.asks):
            self.set_interval(A_WHILE, self._count_down)
            self._count_down()

    def to_wait(self) -> int:
        """Seconds until the PIN that is asked here is tried again."""
        whose = {each.whose for each in self.asks}
        names = [each.value for each in self.asked() if each.name in whose]
        return max((self.app.desk.to_wait(name) for name in names if name), default=0)

    def _count_down(self) -> None:
        """The button says how long it waits."""
        seconds = self.to_wait()
        label = say(N_("Wait {seconds} s"), seconds=seconds) if seconds else say(self.yes)
        for button in self.query(Press):
            if button.name == "yes" and button.label != label:
                button.label = label
                button.refresh()

    def questions(self) -> ComposeResult:
        """For each the names used before, and a line to type another."""
        for each in self.asks:
            if each.closed:
                yield Choices(each.name, say(each.sentence), each.closed,
                              chosen=each.value)  # fmt: skip
                continue
            yield Field(each.name, say(each.sentence), value=each.value, hidden=each.hidden,
                        usual=each.known[:MOST] or [say(name) for name in each.usual])  # fmt: skip

    def first(self) -> Widget:
        """The first question; where all stand there already, the button that confirms them."""
        if self.asks and all(each.value for each in self.asks):
            return self.query("ActionBar Press").first()
        if self.asks and self.asks[0].value:
            return next(self.line(each.name) for each in self.asks if not each.value)
        return super().first()

    def line(self, name: str) -> Choices | Field:
        """The question of a name."""
        return next(each for each in self.asked() if each.name == name)

    def confirm(self) -> None:
        """Give the answers back, none of them blank that is wanted."""
        for each in self.asks:
            if not each.may_be_blank and not self.line(each.name).value:
                asked = say(each.sentence).removesuffix(":")
                self.complain(say(N_("“{ask}” has no answer yet."), ask=asked))
                self.line(each.name).focus()
                return
        if self.to_wait():
            return
        told = {each.name: self.line(each.name).value for each in self.asks}
        self.try_out(self.attempt(told), self._done)

    def _done(self, sentence: str) -> None:
        """Close, or stay with all that was typed, but for a PIN that was wrong."""
        if not sentence:
            shown = [each.name for each in self.asks if not each.hidden]
            self.dismiss({name: self.line(name).value for name in shown})
            return
        self._count_down()
        wrong = [self.line(each.name) for each in self.asks if each.whose and self.to_wait()]
        for line in wrong:
            if isinstance(line, Field):
                line.entry.value = ""
                line.focus()


def _standing(ask: Ask) -> Ask:
    """The question with the name used last standing there."""
    names = ask.known or tuple(value for value, _ in ask.closed)
    return replace(ask, value=names[0] if names else "")
