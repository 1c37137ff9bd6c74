"""A correction: which screw, from what to what, what to ease first, and what the dial came to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Static

from guide.plain import N_
from guide.screens.steps.form import Offer
from guide.screens.steps.readings import Turn
from guide.screens.steps.readings_play import TypedForm
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.face import Face
from guide.screens.widgets.field import Field

NOT_SURE = "not-sure"


@dataclass(frozen=True, slots=True)
class Advice:
    """The move as plain text; `screw` is the one under the plunger."""

    screw: int
    reads: str
    by: str
    bring_to: str
    ease: str
    tighten: str
    """Blank until it is known which way the screws move the body."""
    why: str
    angle: float
    high: float | None


class CorrectionForm(TypedForm):
    """What to do at the screw, what the dial came to; or leave it alone."""

    DEFAULT_CSS = """
    CorrectionForm .beside { height: auto; margin: 0 0 1 0; }
    CorrectionForm .column { width: 1fr; height: auto; padding: 0 2; }
    """

    def __init__(
        self,
        advice: Advice | None,
        turn: Turn,
        screws: Sequence[int],
        trouble: Callable[[str], str],
    ) -> None:
        super().__init__(trouble)
        self.advice, self.turn, self.screws = advice, turn, tuple(screws)

    def compose(self) -> ComposeResult:
        """The move beside the face, then what it came to."""
        advice = self.advice
        if advice is None:
            none = N_("Nothing is left here that this dial could set. Leave it alone.")
            yield Static(say(none), classes="how", markup=False)
            return
        with Horizontal(classes="beside"):
            yield Static(_told(advice, self.turn.unit), classes="column", markup=False)
            yield Face(self.turn.marks, say(N_("screw")), self.turn.way)
        yield Field("got", say(N_("The dial came to ({unit}):"), unit=self.turn.unit))
        if not advice.tighten:
            options = [(str(n), say(N_("screw {screw}"), screw=n)) for n in self.screws]
            options.append((NOT_SURE, say(N_("I am not sure"))))
            which = say(N_("Which screw was tightened?"))
            yield Choices("tightened", which, options, stacked=False)

    def on_mount(self) -> None:
        """The face stands where the screw is under the plunger."""
        if self.advice:
            self.query_one(Face).turn_to(self.advice.angle, self.advice.high)

    def offers(self) -> tuple[Offer, ...]:
        """Record the move, or leave the pair as it is."""
        leave = ("alone", say(N_("Leave this one alone")))
        return (("record", say(N_("Record the move   ⏎"))), leave) if self.advice else (leave,)

    def wrong(self, name: str, value: str) -> str:
        """The reading has to be one; the screw has to be named."""
        if name == "got":
            return self.trouble(value)
        return "" if value else say(N_("Say which screw was tightened, or that you are not sure."))

    def pressed(self, name: str) -> None:
        """Recorded or left."""
        if name == "alone":
            self.act("record", left="yes")
        else:
            super().pressed(name)

    def record(self) -> None:
        """What the dial came to and which screw was tightened."""
        told = self.told()
        screw = told.get("tightened", NOT_SURE)
        more = {} if screw == NOT_SURE else {"tightened": int(screw)}
        self.act("record", got=told["got"], **more)


def _told(advice: Advice, unit: str) -> Content:
    """The move in lines, the value to bring the dial to standing out."""
    turn = N_("Screw {screw} is under the plunger and reads {reads} {unit}.")
    change = N_("Change wanted there: {by} {unit}.")
    bring = N_("Bring the dial to {to} {unit}")
    lines = [
        (say(turn, screw=advice.screw, reads=advice.reads, unit=unit) + "\n", ""),
        (say(change, by=advice.by, unit=unit) + "\n", ""),
        (say(bring, to=advice.bring_to, unit=unit) + "\n", "bold $accent"),
    ]
    if advice.tighten:
        lines.append((say(N_("Ease first: {screws}."), screws=advice.ease) + "\n", ""))
        lines.append((say(N_("Then tighten: {screws}."), screws=advice.tighten) + "\n", ""))
    return Content.assemble(*lines, (advice.why, "$quiet"))
