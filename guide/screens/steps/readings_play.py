"""Two values of a dial: pushed one way and pulled the other, or near and far along a bar."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult

from guide.front.turn import FAR, NEAR, Turn
from guide.plain import N_
from guide.screens.steps.listening import ListeningForm
from guide.screens.tongue import say
from guide.screens.widgets.field import Field


class TypedForm(ListeningForm):
    """Lines to type readings on, each checked when it is left by Enter or Tab."""

    def __init__(self, trouble: Callable[[str], str], unit: str) -> None:
        super().__init__()
        self.trouble, self.unit = trouble, unit

    def wrong(self, name: str, value: str) -> str:
        """What is wrong with one reading; its line keeps the number alone."""
        number, sentence = self.number(value)
        sentence = sentence or self.trouble(number)
        field = next(each for each in self.query(Field) if each.name == name)
        if sentence:
            field.put_back(value)
        else:
            field.entry.value = number
        return sentence

    def pressed(self, name: str) -> None:
        """Everything as typed; never by a key of a value that a dial typed."""
        if not self.of_a_value(name) and self.all_right():
            self.record()

    def record(self) -> None:
        """Enter it."""
        self.act("record", **self.told())


class PlayForm(TypedForm):
    """A push and a pull."""

    def __init__(self, unit: str, trouble: Callable[[str], str]) -> None:
        super().__init__(trouble, unit)

    def compose(self) -> ComposeResult:
        """Two lines to type on."""
        pushed = say(N_("Pushed toward the plunger by hand, it reads ({unit}):"), unit=self.unit)
        pulled = say(N_("Pulled away from the plunger by hand, it reads ({unit}):"), unit=self.unit)
        yield Field("pushed", pushed, dial=True)
        yield Field("pulled", pulled, dial=True)


class AlongForm(TypedForm):
    """One value near the headstock and one near the tailstock."""

    def __init__(self, unit: str, trouble: Callable[[str], str]) -> None:
        super().__init__(trouble, unit)

    def compose(self) -> ComposeResult:
        """Two lines to type on."""
        yield Field("near", say(NEAR, unit=self.unit), dial=True)
        yield Field("far", say(FAR, unit=self.unit), dial=True)


class PairForm(TypedForm):
    """One value at one screw."""

    def __init__(self, screw: int, turn: Turn, trouble: Callable[[str], str]) -> None:
        super().__init__(trouble, turn.unit)
        self.screw, self.turn = screw, turn

    def compose(self) -> ComposeResult:
        """One line to type on."""
        ask = N_("Screw {screw} under the plunger, hands off: it reads ({unit}):")
        asked = self.turn.say(ask, screw=self.screw, unit=self.unit)
        yield Field("value", asked, dial=True)

    def line(self) -> Field:
        """The one line: a later value stands for the one before."""
        return self.query_one(Field)

    def record(self) -> None:
        """The value with its screw."""
        self.act("record", screw=self.screw, value=self.asked()[0].value)
