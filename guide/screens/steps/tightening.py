"""Tightening: the order and the stages, the torque as given and where it comes from."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.widgets import Input, Static

from guide.front.tightening import Tightening
from guide.plain import N_
from guide.present.usual import SOURCES, units
from guide.screens.steps.form import Form
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field

Passes = Callable[[str], str]
"""The order and the stages as lines, for a torque as typed."""


class TighteningForm(Form):
    """Easing, snugging, touching and nipping are done; a torque is entered with its source."""

    def __init__(self, given: Tightening, passes: Passes, trouble: Callable[[str], str]) -> None:
        super().__init__()
        self.given, self.passes, self.trouble = given, passes, trouble

    @property
    def with_torque(self) -> bool:
        """Whether a torque is asked."""
        return self.given.with_torque

    def compose(self) -> ComposeResult:
        """The order, and for a torque the wrench, the figure, its source and the check pass."""
        yield Static(self.given.what, classes="how", markup=False)
        yield Static(self.passes(self.given.torque), id="passes", markup=False)
        if not self.with_torque:
            return
        yes_no = (("yes", say(N_("yes"))), ("no", say(N_("no, by feel"))))
        yield Choices("wrench", say(N_("Is there a torque wrench for it?")), yes_no)
        yield Field("torque", say(N_("The maker's torque, with its unit:")),
                    value=self.given.torque, help=self.given.comparison,
                    units=units("torque"))  # fmt: skip
        yield Field("source", say(N_("Where that figure comes from:")), value=self.given.source,
                    usual=[say(each) for each in SOURCES])  # fmt: skip
        checked = N_("Gone round once more at full torque until none moved?")
        done = (("yes", say(N_("yes, none moved"))),)
        yield Choices("check_pass", say(checked), done)

    def answered(self, name: str, value: str) -> None:
        """Without a wrench no torque is known."""
        if name == "wrench":
            for each in self.query(Field):
                each.display = value == "yes"

    def on_input_changed(self, event: Input.Changed) -> None:
        """The stages follow the torque as it is typed."""
        event.stop()
        torque = next((each for each in self.query(Field) if each.name == "torque"), None)
        if torque is not None and event.input is torque.entry:
            self.query_one("#passes", Static).update(self.passes(torque.value))

    def wrong(self, name: str, value: str) -> str:
        """What is wrong with one answer."""
        if name == "torque":
            return self.trouble(value)
        if value:
            return ""
        return say(N_("That line has no answer yet. Answer it before it is recorded."))

    def pressed(self, name: str) -> None:
        """All that is shown is answered, and entered."""
        if self.all_right():
            self.act("record", **self.told())
