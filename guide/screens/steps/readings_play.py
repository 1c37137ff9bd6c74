"""Play: the dial pushed one way and pulled the other."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult

from guide.plain import N_
from guide.screens.steps.form import Form
from guide.screens.tongue import say
from guide.screens.widgets.field import Field


class TypedForm(Form):
    """Lines to type readings on, each checked when it is left by Enter."""

    def __init__(self, trouble: Callable[[str], str]) -> None:
        super().__init__()
        self.trouble = trouble

    def wrong(self, name: str, value: str) -> str:
        """What is wrong with one answer."""
        return self.trouble(value)

    def pressed(self, name: str) -> None:
        """Everything as typed."""
        if self.all_right():
            self.record()

    def record(self) -> None:
        """Enter it."""
        self.act("record", **self.told())


class PlayForm(TypedForm):
    """A push and a pull."""

    def __init__(self, unit: str, trouble: Callable[[str], str]) -> None:
        super().__init__(trouble)
        self.unit = unit

    def compose(self) -> ComposeResult:
        """Two lines to type on."""
        yield Field("pushed", say(N_("Pushed from the indicator by hand, it reads ({unit}):"),
                                  unit=self.unit))  # fmt: skip
        yield Field("pulled", say(N_("Pulled to the indicator by hand, it reads ({unit}):"),
                                  unit=self.unit))  # fmt: skip


class PairForm(TypedForm):
    """One value at one screw."""

    def __init__(self, screw: int, unit: str, trouble: Callable[[str], str]) -> None:
        super().__init__(trouble)
        self.screw, self.unit = screw, unit

    def compose(self) -> ComposeResult:
        """One line to type on."""
        ask = N_("Screw {screw} under the plunger, hands off: it reads ({unit}):")
        yield Field("value", say(ask, screw=self.screw, unit=self.unit))

    def record(self) -> None:
        """The value with its screw."""
        self.act("record", screw=self.screw, value=self.asked()[0].value)
