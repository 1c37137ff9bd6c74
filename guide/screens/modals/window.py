"""A small window over the sheet: questions, one line for what was not accepted, its buttons."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Static

from guide.plain import N_
from guide.screens.glass import Glass, Told
from guide.screens.messages import Chosen, Complaint, Picked
from guide.screens.onward import move
from guide.screens.tongue import say
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.beside_line import BesideLine
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field

ROUND_IT, EDGES = 4, 2
"""Lines that a window leaves free above and below with its edges, and the edges alone."""
SHARE = 0.92
"""The share of a tall terminal's lines that a window takes up, as its style says."""


class Window(Glass[Told | None], ModalScreen[Told | None]):
    """Escape or its second button closes it with nothing."""

    DEFAULT_CSS = """
    Window { align: center middle; }
    Window #window { width: 76; max-height: 92vh; height: auto; background: $background;
        border: solid $primary; border-subtitle-color: $accent; padding: 0 1; }
    Window #questions { height: auto; max-height: 45vh; scrollbar-size-vertical: 1; }
    Window .title { text-style: bold; }
    Window .told { color: $quiet; margin: 0 0 1 0; }
    Window #complaint { color: $error; height: auto; }
    """
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        ("escape", "nothing", "back"),
        ("asterisk", "nothing"),
        ("plus", "move(1)"),
        ("minus", "move(-1)"),
        ("pageup", "page(-1)"),
        ("pagedown", "page(1)"),
    ]
    title_text = ""
    told_text = ""
    yes = N_("Yes   ⏎")
    no = N_("Back   *")
    trying = False
    """Whether an answer is being tried: until it is known nothing else counts."""

    def compose(self) -> ComposeResult:
        """Title, questions, complaint, buttons."""
        with Vertical(id="window"):
            yield Static(say(self.title_text), classes="title", markup=False)
            yield Static(say(self.told_text), classes="told", markup=False)
            with VerticalScroll(id="questions", can_focus=False):
                yield from self.questions()
            yield Static("", id="complaint", markup=False)
            yes = (("yes", say(self.yes)),) if self.yes else ()
            yield ActionBar((*yes, ("no", say(self.no))))

    def questions(self) -> ComposeResult:
        """The questions."""
        yield from ()

    def on_mount(self) -> None:
        """Begin at the first question, with as many in sight as there is room for.

        A window that was closed before it was there has none.
        """
        if not self.query("#window"):
            return
        for questions in self.query("#questions"):
            for name in ("scroll_y", "virtual_size"):
                self.watch(questions, name, self._look_again, init=False)
        self.begin()

    def on_resize(self) -> None:
        """The room is another one."""
        self._look_again()

    def _look_again(self) -> None:
        """Once it is drawn."""
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        """The questions take what height the rest leaves; said where there is more below.

        A window that is on its way out has neither.
        """
        for window, questions in zip(self.query("#window"), self.query("#questions"), strict=False):
            others = [each for each in window.children if each is not questions]
            rest = sum(each.outer_size.height + each.styles.margin.height for each in others)
            room = min(self.size.height - ROUND_IT, int(self.size.height * SHARE) - EDGES)
            questions.styles.max_height = max(room - rest, 1)
            below = questions.scroll_y < questions.max_scroll_y
            window.border_subtitle = say(N_("▼ more below: +")) if below else ""

    def action_move(self, way: int) -> None:
        """To the next tile, or the one before."""
        move(self, self, way)

    def action_page(self, by: int) -> None:
        """A page back or on."""
        questions = self.query_one("#questions")
        questions.scroll_relative(y=by * max(questions.size.height - 1, 1), animate=False)

    def begin(self) -> None:
        """The focus where one begins."""
        self.first().focus()

    def first(self) -> Widget:
        """What has the focus at first: the first question, else the last button."""
        asked = self.asked()
        return asked[0] if asked else self.query("ActionBar Press").last()

    def asked(self) -> list[Choices | Field]:
        """The questions in sight, in order."""
        found = [each for each in self.query("Choices, Field") if each.display]
        return [each for each in found if not isinstance(each, BesideLine)]  # type: ignore[misc]

    def complain(self, sentence: str) -> None:
        """Say what was not accepted."""
        self.query_one("#complaint", Static).update(f"✗ {sentence}" if sentence else "")
        self._look_again()

    @on(Complaint)
    def _complaint(self, event: Complaint) -> None:
        """A question says what it does not take."""
        event.stop()
        self.complain(event.sentence)

    @on(Chosen)
    def _onward(self, event: Chosen) -> None:
        """From a question to the next, after the last to the first button."""
        event.stop()
        self.answered(event.name, event.value)
        if not event.onward:
            return
        questions = self.asked()
        names = [each.name for each in questions]
        rest = questions[names.index(event.name) + 1 :] if event.name in names else []
        rest = [each for each in rest if not _settled(each)]
        if rest:
            rest[0].focus()
        else:
            self.query_one(ActionBar).focus_first()

    def answered(self, name: str, value: str) -> None:
        """What else an answer changes."""

    @on(Picked)
    def _pressed(self, event: Picked) -> None:
        """Yes or back."""
        event.stop()
        if event.name == "no":
            self.action_nothing()
        elif not self.trying:
            self.confirm()

    def confirm(self) -> None:
        """The first button; a window whose only way is back has none."""

    def try_out(self, attempt: Awaitable[str], then: Callable[[str], None]) -> None:
        """Try something that takes its time, then go on with why not, blank when it was done."""
        self.trying = True
        self.query_one("#complaint", Static).update(say(N_("One moment …")))
        self.run_worker(self._tried(attempt, then), group="try", exclusive=True)

    async def _tried(self, attempt: Awaitable[str], then: Callable[[str], None]) -> None:
        try:
            sentence = await attempt
        finally:
            self.trying = False
        self.complain(sentence)
        then(sentence)

    def action_nothing(self) -> None:
        """Close with nothing."""
        if not self.trying:
            self.dismiss(None)

    def action_star(self) -> None:
        """Close it, from a numeric keypad."""
        self.action_nothing()


def _settled(asked: Choices | Field) -> bool:
    """Whether a question has one answer alone, which stands there already: it is passed over."""
    return isinstance(asked, Choices) and [asked.value] == [value for value, _ in asked.options]
