"""A correction: which screw, from what to what, what to ease first, and what the dial came to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from guide.front.correction import Advice
from guide.front.turn import Turn
from guide.plain import N_
from guide.present.chuck_face import SIGNS, Face
from guide.screens.steps.form import Offer
from guide.screens.steps.listening import DialChoices
from guide.screens.steps.readings_play import TypedForm
from guide.screens.steps.turn import face_of
from guide.screens.tongue import say
from guide.screens.widgets.face import FaceView
from guide.screens.widgets.field import Field
from guide.screens.widgets.inks import style_here
from guide.screens.widgets.large import Large

NOT_SURE = "not-sure"


class CorrectionForm(TypedForm):
    """What to do at the screw, what the dial came to; or leave it alone."""

    DEFAULT_CSS = """
    CorrectionForm .beside { height: auto; margin: 0 0 1 0; }
    CorrectionForm .column { width: 1fr; height: auto; }
    CorrectionForm .move { height: auto; padding: 0 0 0 2; margin: 0 0 1 0; }
    """

    def __init__(
        self,
        advice: Advice | None,
        nothing: str,
        turn: Turn,
        screws: Sequence[int],
        trouble: Callable[[str], str],
    ) -> None:
        super().__init__(trouble, turn.unit)
        self.advice, self.turn, self.screws = advice, turn, tuple(screws)
        self.nothing = nothing
        """What is said where no move is advised."""

    def compose(self) -> ComposeResult:
        """The move beside the face, then what it came to."""
        advice = self.advice
        if advice is None:
            yield Static(self.nothing, classes="how", markup=False)
            return
        with Horizontal(classes="beside"):
            with Vertical(classes="column"):
                yield Static(_where(advice, self.turn), classes="move", markup=False)
                yield Large(advice.bring_to, *_bring(advice, self.turn))
                yield Static(_told(advice, self.turn, style_here()), classes="move", markup=False)
                came = say(N_("The dial came to ({unit}):"), unit=self.turn.unit)
                yield Field("got", came, dial=True)
                if not advice.tighten:
                    yield self._which()
            yield FaceView(self._picture(advice), self.turn.say(N_("screw")))

    def _which(self) -> DialChoices:
        """The question by which the way the screws move the body is learned."""
        options = [(str(n), self.turn.say(N_("screw {screw}"), screw=n)) for n in self.screws]
        options.append((NOT_SURE, say(N_("I am not sure"))))
        question = self.turn.say(N_("Which screw was tightened?"))
        return DialChoices("tightened", question, options)

    def _picture(self, advice: Advice) -> Face:
        """The face with the screw under the plunger, and what is to be done at which."""
        return replace(
            face_of(self.turn),
            turned=advice.angle,
            high=advice.high,
            ease=advice.eases,
            tighten=advice.tightens,
        )

    def line(self) -> Field | None:
        """What the dial came to: a later value stands for the one before."""
        return next(iter(self.query(Field)), None)

    def offers(self) -> tuple[Offer, ...]:
        """Record the move, or leave the pair as it is."""
        if self.advice is None:
            return (("alone", say(N_("Leave this one alone   ⏎"))),)
        leave = ("alone", say(N_("Leave this one alone")))
        return ("record", say(N_("Record the move   ⏎"))), leave

    def wrong(self, name: str, value: str) -> str:
        """The reading has to be one; the screw has to be named."""
        if name == "got":
            return super().wrong(name, value)
        which = N_("Say which screw was tightened, or that you are not sure.")
        return "" if value else self.turn.say(which)

    def pressed(self, name: str) -> None:
        """Recorded or left."""
        if name == "alone":
            if not self.of_a_value(name):
                self.act("record", left="yes")
        else:
            super().pressed(name)

    def record(self) -> None:
        """What the dial came to and which screw was tightened."""
        told = self.told()
        screw = told.get("tightened", NOT_SURE)
        more = {} if screw == NOT_SURE else {"tightened": int(screw)}
        self.act("record", got=told["got"], **more)


def _where(advice: Advice, turn: Turn) -> str:
    """Which screw it is about, and what it reads."""
    under = N_("Screw {screw} is under the plunger and reads {reads} {unit}.")
    return turn.say(under, screw=advice.screw, reads=advice.reads, unit=turn.unit)


def _bring(advice: Advice, turn: Turn) -> tuple[str, str]:
    """The value to bring the dial to, and how far that is."""
    bring = say(N_("Bring the dial to {to} {unit}"), to=advice.bring_to, unit=turn.unit)
    far = say(N_("from {reads}: {by} {unit}"), reads=advice.reads, by=advice.by, unit=turn.unit)
    return bring, far


def _told(advice: Advice, turn: Turn, style: str) -> Content:
    """What to ease, what to tighten then, and why."""
    lines: list[tuple[str, str]] = []
    if advice.tighten:
        ease, tighten = (SIGNS[style][sign] for sign in ("ease", "tighten"))
        first = turn.say(N_("{sign} Ease first: {screws}."), sign=ease, screws=advice.ease)
        then = turn.say(N_("{sign} Then tighten: {screws}."), sign=tighten, screws=advice.tighten)
        lines += [(first + "\n", ""), (then + "\n", "")]
    return Content.assemble(*lines, (advice.why, "$quiet"))
