"""A task: one press for done."""

from __future__ import annotations

from guide.plain import N_
from guide.screens.steps.form import Form, Offer
from guide.screens.tongue import say


class TaskForm(Form):
    """Nothing to enter but that it was done."""

    def offers(self) -> tuple[Offer, ...]:
        """One button."""
        return (("done", say(N_("Done   ⏎"))),)

    def pressed(self, name: str) -> None:
        """It was done."""
        self.act("done")
