"""A walk of about three minutes for whoever is here for the first time; nothing is written.

Each page says one thing and has it done once, on the same tiles, lines and checks as a setup.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

from guide.plain import N_
from guide.present.gate_text import of_confirming
from guide.present.questions import Confirming
from guide.screens.glass import Glass
from guide.screens.messages import Act, Chosen, Complaint, Picked
from guide.screens.steps.gate import GateForm
from guide.screens.tongue import say
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.screens.widgets.large import Large


@dataclass(frozen=True, slots=True)
class Stop:
    """One page of the walk."""

    title: str
    words: str
    do: str
    """What is done here before it goes on."""
    widgets: Callable[[], tuple[Widget, ...]]


def _nose() -> tuple[Widget, ...]:
    return (Choices("nose", say(N_("Which kind of spindle nose has it?")),
                    [("long", say(N_("a ring nut behind the plate"))),
                     ("cams", say(N_("cams round the rim")))]),)  # fmt: skip


def _length() -> tuple[Widget, ...]:
    return (Field("length", say(N_("How long is the bar?")), units=("in", "mm"),
                  may_be_unknown=True),)  # fmt: skip


def _gate() -> tuple[Widget, ...]:
    return (GateForm([
        of_confirming(Confirming(N_("My own lock is on the isolator and its key is on me."),
                                 N_("Somebody switches on with your hand in the chuck."),
                                 N_("Pull at the lock; feel the key in your pocket."))),
        of_confirming(Confirming(N_("The chuck key is out and lies on the bench."),
                                 N_("A key left in is thrown when the spindle starts."),
                                 N_("See it lie there."))),
    ]),)  # fmt: skip


def _reading() -> tuple[Widget, ...]:
    return (Field("reading", say(N_("Turn to 0°, screw 1 under the plunger. Reads (in):")),
                  dial=True),)  # fmt: skip


def _bring() -> tuple[Widget, ...]:
    return (Large("0.0020", say(N_("Bring the dial to 0.0020 in"))),
            Field("got", say(N_("The dial came to (in):")), dial=True))  # fmt: skip


def _power() -> tuple[Widget, ...]:
    return (Choices("power", say(N_("The power to the lathe")),
                    [("on", say(N_("on"))), ("off", say(N_("isolated, own lock on"))),
                     ("unknown", say(N_("I cannot tell from here")))]),)  # fmt: skip


STOPS = (
    Stop(
        N_("One growing page"),
        N_(
            "A setup is one page that grows, as on paper. What is done stands above, with its time"
            " and your name. The present step is open in the middle: what to do, what can hurt, and"
            " why. What comes next stands below. The sign ▸ shows where you answer."
        ),
        N_("Press 2, or touch the second answer."),
        _nose,
    ),
    Stop(
        N_("One hand, oily"),
        N_(
            "Ten digits, plus, minus, full stop, slash, star and Enter are enough. Enter goes on. A"
            " slash goes back to the question before, a full stop and Enter is “not known here”,"
            " and a star shows everything else that can be done. Nothing has to be typed in words:"
            " what is usual stands there to pick."
        ),
        N_("Type 200 and Enter, then 2 for millimetres."),
        _length,
    ),
    Stop(
        N_("What can hurt"),
        N_(
            "Before anything that can crush, throw or start comes a gate. Look at each line, on the"
            " machine and not on the screen, and press that line's own number. Enter never opens a"
            " gate, and nobody can go round one. A number counts only when no other key comes near"
            " it, so wait a moment between two."
        ),
        N_("Press 1, wait, then 2."),
        _gate,
    ),
    Stop(
        N_("At the dial"),
        N_(
            "The spindle is turned by hand to each angle, the hand taken off, and what the dial"
            " shows is typed as it is, with a minus where it is below zero. An indicator that types"
            " or sends by itself fills the line and moves on. The first position is read again at"
            " the end: if it moved, the turn does not count."
        ),
        N_("Type 0.0040 and Enter."),
        _reading,
    ),
    Stop(
        N_("Bring the dial to"),
        N_(
            "From the readings comes one value, large enough to be read from some steps away: turn"
            " the screw until the needle stands there, then type where it came to. With it stands"
            " what to ease first, why, and how far the figures can be trusted. A figure never says"
            " that you may: the maker's manual, local rules and a competent person come first."
        ),
        N_("Type 0.0020 and Enter."),
        _bring,
    ),
    Stop(
        N_("Called away"),
        N_(
            "Pause at any time: star, then 5. Even if this computer loses its power, nothing"
            " that was entered is lost. When work goes on you are asked how the lathe"
            " stands, line by line. Look at it; never answer from memory. If something has"
            " changed, the walk goes to the step that puts it right."
        ),
        N_("Press 3: what you cannot see, you do not know."),
        _power,
    ),
)
"""In the order in which a setup has them."""
LAST = Stop(
    N_("That is all"),
    N_("At the end you sign, and the sheet is the record: who did what, when, with which reading."
       " It shows if anybody changes it. To try it all on a chuck that cannot hurt anyone, take the"
       " first lesson of practice; there is one for every fault that a chuck can have."),
    N_("Press Enter to go to the start page."), tuple,
)  # fmt: skip


class FirstWalk(Glass[None]):
    """One stop after the other; it can be left at any time."""

    DEFAULT_CSS = """
    FirstWalk #title { height: auto; max-height: 4; padding: 0 2; background: $panel;
        color: $accent;
        text-style: bold; }
    FirstWalk #page { height: 1fr; padding: 1 2; scrollbar-size-vertical: 1; }
    FirstWalk #words { height: auto; margin: 0 0 1 0; }
    FirstWalk #do { height: auto; color: $accent; text-style: bold; margin: 0 0 1 0; }
    FirstWalk #try { height: auto; }
    FirstWalk #complaint { height: auto; color: $error; padding: 0 2; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,f10", "back", show=False),
        Binding("f1,question_mark", "help", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.place = 0

    @property
    def stop(self) -> Stop:
        """Where it stands."""
        return STOPS[self.place] if self.place < len(STOPS) else LAST

    def compose(self) -> ComposeResult:
        """Title, words, what to do, the thing to do it on, the ways on."""
        yield Static("", id="title", markup=False)
        with VerticalScroll(id="page", can_focus=False):
            yield Static("", id="words", markup=False)
            yield Static("", id="do", markup=False)
            yield Vertical(id="try")
        yield Static("", id="complaint", markup=False)
        yield ActionBar()

    async def on_mount(self) -> None:
        """At the first stop."""
        await self._show()

    async def _show(self) -> None:
        """The stop as it stands now."""
        told = say(N_("A walk of three minutes · {n} of {all} · nothing is written"),
                   n=self.place + 1, all=len(STOPS) + 1)  # fmt: skip
        self.query_one("#title", Static).update(f"{told} · {say(self.stop.title)}")
        self.query_one("#words", Static).update(say(self.stop.words))
        self.query_one("#do", Static).update(f"→ {say(self.stop.do)}")
        self._complain("")
        tried = self.query_one("#try", Vertical)
        await tried.remove_children()
        await tried.mount_all(self.stop.widgets())
        last = self.place == len(STOPS)
        on_label = say(N_("To the start page   ⏎")) if last else say(N_("Pass this over"))
        await self.query_one(ActionBar).offer((("on", on_label), ("back", say(N_("Leave   *")))))
        self._focus()

    def _focus(self) -> None:
        """The thing to do it on, or the way on where there is none."""
        found = [each for each in self.query("#try Field, #try Choices, #try GateForm")
                 if each.can_focus or isinstance(each, Field)]  # fmt: skip
        if found:
            found[0].focus()
        else:
            self.query_one(ActionBar).focus_first()

    async def _on(self) -> None:
        """To the next stop, after the last one to the start page."""
        if self.place == len(STOPS):
            self.action_back()
            return
        self.place += 1
        await self._show()

    @on(Chosen)
    async def _chosen(self, event: Chosen) -> None:
        """An answer or a figure: whatever it is, it was done."""
        event.stop()
        if event.onward and event.value:
            await self._on()

    @on(Act)
    async def _acted(self, event: Act) -> None:
        """Every check of the gate is confirmed."""
        event.stop()
        await self._on()

    @on(Complaint)
    def _complaint(self, event: Complaint) -> None:
        """The gate says why a number did not count."""
        event.stop()
        self._complain(event.sentence)

    def _complain(self, sentence: str) -> None:
        self.query_one("#complaint", Static).update(f"✗ {sentence}" if sentence else "")

    @on(Picked)
    async def _picked(self, event: Picked) -> None:
        """A tile at the foot."""
        event.stop()
        if event.name == "back":
            self.action_back()
        elif event.name == "on":
            await self._on()

    def on_key(self, event: events.Key) -> None:
        """The gate hears every key, with its time; a star leaves."""
        for gate in self.query(GateForm):
            gate.key_came(event.key, event.time)
        if event.key == "asterisk":
            event.stop()
            self.action_back()

    def action_help(self) -> None:
        """Explain the words that stand here."""
        from guide.screens.modals.help import HelpScreen
        from guide.screens.said_here import said_here

        self.app.push_screen(HelpScreen((), said_here(self)))

    def action_star(self) -> None:
        """Leave it, from a numeric keypad."""
        self.action_back()

    def action_back(self) -> None:
        """To the start page."""
        self.dismiss(None)
