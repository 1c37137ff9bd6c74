"""The setup sheet of a practice setup: the same page, with the bench beside it at the dial."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Input, Static

from guide.plain import N_
from guide.practice.hint import hint
from guide.practice.lessons import LESSONS, number_of
from guide.practice.session import Practised
from guide.present.entered import marks
from guide.present.visible import visible
from guide.screens.commands import at_foot
from guide.screens.modals.help import HelpScreen
from guide.screens.practice.bench import BackToSheet, BenchView, Typed
from guide.screens.practice.intro import KEYS as BENCH_KEYS
from guide.screens.said_here import said_here
from guide.screens.sheet import SetupSheet, now
from guide.screens.steps.form import Form
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.verdict import VerdictForm
from guide.screens.tongue import language, say
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.command_line import CommandLine
from guide.screens.widgets.field import Field
from guide.walk.second import Signer

HINT = N_("hint")
WORK_IT_OUT = N_("Work out where the needle has to go, and which screw takes it there. F7 tells.")


class PracticeSheet(SetupSheet):
    """A sheet that talks to a `Practised`, and lets a hand go from the page to the bench."""

    DEFAULT_CSS = """
    PracticeSheet.at-bench BenchView { display: block; }
    PracticeSheet.at-bench FaceView { display: none; }
    PracticeSheet.at-bench.narrow SweepView { display: none; }
    PracticeSheet.work-it-out CorrectionForm .move { display: none; }
    PracticeSheet #hint { height: auto; color: $accent; margin: 1 0 0 0; display: none; }
    PracticeSheet #hint.told { display: block; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("asterisk", "change_hands", priority=True, show=False),
        Binding("f7", "hint", show=False),
    ]

    def __init__(self, walk: Practised, people: Sequence[str] = (), quiet: float = 0.4) -> None:
        super().__init__(walk, people, quiet)
        self.walk = walk
        self.set_reactive(SetupSheet.detail, "brief")
        self.told = False
        """Whether the hint of the present step was asked for."""

    def beside(self) -> ComposeResult:
        """The bench."""
        tools = tuple(self.walk.kept.get("tools", ()))
        yield BenchView(self.walk.bench, tools, self._note_readings)

    @property
    def bench(self) -> BenchView:
        """The bench as it is shown."""
        return self.query_one(BenchView)

    async def on_mount(self) -> None:
        """As on every sheet, with a line for hints; the sheet's own opening follows by itself."""
        await self.query_one("#present").mount(Static(id="hint", markup=False), after="#words")

    def _hint(self, sentence: str) -> None:
        """One sentence below the words of the step; blank takes it away."""
        line = self.query_one("#hint", Static)
        line.update(sentence)
        line.set_class(bool(sentence), "told")

    def say_at_once(self) -> None:
        """Not before the lesson has given its own answers: the step may be another one then."""

    async def open_place(self) -> None:
        """What the lesson answers is answered; then the place as on every sheet, with the bench."""
        filled = False
        while self.walk.fill(now()):
            filled = True
        if filled:
            self.lines_anew()
        if self.form is not None:
            super().say_at_once()
        self.told = False
        self.set_class(self.walk.at_the_bench, "at-bench")
        self.set_class(self.app.size.width < 110, "narrow")
        self._advice_in_sight()
        self.bench.stand(self._positions())
        await super().open_place()
        self._advice_in_sight()
        if filled:
            self._write_round_it()

    def _positions(self) -> int:
        """How many places there are to turn to, one after the other."""
        form = self.form
        return form.count if isinstance(form, TurnForm) else self.walk.bench.truth.screws

    def enter(
        self,
        trigger: str,
        data: Mapping[str, Any],
        *,
        person: str = "",
        beside: Signer | None = None,
    ) -> bool:
        """As on every sheet; the bench shows what was done there with it."""
        self._note_readings()
        done = super().enter(trigger, data, person=person, beside=beside)
        self.bench.stand()
        return done

    def _advice_in_sight(self) -> None:
        """The move is shown where the lesson shows it, or once it was asked for."""
        hides = self.walk.kept.get("advice") != "shown" and not self.told
        step = self.walk.step
        if isinstance(self.form, VerdictForm) and self.form.advised:
            self.form.query(".result").last().display = not hides
        correcting = step is not None and step.kind == "correction"
        self.set_class(hides and correcting, "work-it-out")
        if self.query("#hint"):
            self._hint(say(WORK_IT_OUT) if hides and correcting else "")

    def begin(self) -> None:
        """As on every sheet; at the bench what is typed on is in sight."""
        super().begin()
        if self.walk.at_the_bench and self.form is not None:
            self.bench.stand(self._positions())
            self.call_after_refresh(self.form.scroll_visible, animate=False)

    def _head(self) -> Content:
        """That it is practice first, then the lesson or the seed, and who practises."""
        kept = self.walk.kept
        number = number_of(str(kept["lesson"]))
        if number is None:
            named = say(N_("seed {seed}"), seed=kept["seed"])
        else:
            title = say(LESSONS[number - 1].title)
            named = say(N_("lesson {number}: {title}"), number=number, title=title)
        mark = "".join(f"! {each} · " for each in marks(self.state, language()))
        told = f"{named} · {visible(self.state.person)}"
        return Content.assemble((mark, "bold $warning"), (told, ""))

    def opened_anew(self) -> None:
        """As on every sheet, with the hint at the foot and a key that leads to the bench."""
        super().opened_anew()
        if not self.walk.at_the_bench:
            return
        shown = [each for each in at_foot(self) if each[0] != "take_over"]
        self.query_one(CommandLine).offer([*shown[:3], ("hint", "F7", say(HINT)), *shown[3:]])
        for line in self.query(Input):
            # A line takes every sign that can be printed before the screen's own keys see it.
            line._bindings.bind("asterisk", "screen.change_hands", priority=True)

    def action_give(self, name: str) -> None:
        """A command of every sheet, or the hint; at the bench the help is about the bench."""
        if name == "hint":
            self.action_hint()
        elif name == "help" and self.walk.at_the_bench:
            self.app.push_screen(HelpScreen((), said_here(self, "#present"), BENCH_KEYS))
        else:
            super().action_give(name)

    def _note_readings(self) -> None:
        """Each value that was typed into a turn is what the bench has shown since it was moved."""
        if not isinstance(self.form, TurnForm):
            return
        bench, typed = self.walk.bench, len(self.form.values)
        bench.take_back(typed)
        while len(bench.taken) < typed:
            bench.note_reading()
        self.bench.count = self.form.count

    @on(BackToSheet)
    def action_change_hands(self) -> None:
        """From the sheet to the bench and back."""
        if not self.walk.at_the_bench:
            return
        if self.bench.has_focus:
            self._to_the_line()
        else:
            self.set_focus(self.bench)

    def _to_the_line(self) -> None:
        """The focus goes where something is typed, at once: the next key may be on its way."""
        first = self.form.first() if self.form is not None else None
        place = first or self.query_one(ActionBar).first
        self.set_focus(place.entry if isinstance(place, Field) else place)

    @on(Typed)
    def _display_types(self, event: Typed) -> None:
        """What a display shows goes on the line that waits for it."""
        line = getattr(self.form, "line", lambda: None)()
        if isinstance(self.form, Form) and line is not None:
            line.entry.value = "" if line.hands_over else event.value
            self.form.chosen(line.name or "", event.value, True)
            self.call_after_refresh(self.bench.focus)

    def action_hint(self) -> None:
        """What the advisor says; it is counted."""
        told = hint(self.walk.step, self.walk.state, language())
        if not told:
            self.complain_with(say(N_("There is no hint for this step: do as it says.")))
            return
        self.walk.hints += 1
        self.told = True
        self._advice_in_sight()
        self._hint(say(N_("Hint: {told}"), told=told))
        self.call_after_refresh(self.query_one("#hint").scroll_visible, animate=False)
