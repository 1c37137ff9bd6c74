"""The shop calculators on pages of their own: a list, and one page to ask and answer each."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from guide.plain import N_
from guide.present.asked import INCH, METRIC, Answer, Asked, Calculator, Typed
from guide.present.calculators import CALCULATORS, answered, missing, wrong
from guide.screens.messages import Chosen, Picked
from guide.screens.tongue import language, say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.command_line import CommandLine, Given
from guide.screens.widgets.field import Field
from guide.screens.widgets.press import Press

UNITS = "units"
"""The row that says which unit a bare figure is in."""
SOON = 0.05
"""Seconds after which the answer has its place on the page."""
ABOUT = N_("What is worked out here is a figure to compare with, never a permission.")


class CalculatorList(Screen[None]):
    """Every calculator by its title; what was typed on one is there again when it is reopened."""

    DEFAULT_CSS = """
    CalculatorList #title { height: 2; padding: 1 2 0 2; text-style: bold; background: $panel;
        color: $accent; }
    CalculatorList #about { height: 2; padding: 0 2 1 2; background: $panel; }
    CalculatorList #rows { height: 1fr; padding: 1 2 0 2; }
    CalculatorList Press { background: $background; }
    CalculatorList Press:hover { background: $panel; }
    CalculatorList Press:focus { background: $primary; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,f10", "back", show=False)]

    def __init__(self) -> None:
        super().__init__()
        self.typed: dict[str, Mapping[str, str]] = {}

    def compose(self) -> ComposeResult:
        """Title, what they are, one row each."""
        foot = CommandLine()
        foot.offer([("open", "Enter 1–9", say(N_("open"))), ("leave", "Esc", say(N_("back")))])
        yield Static(say(N_("Shop calculators")), id="title", markup=False)
        yield Static(say(ABOUT), id="about", markup=False)
        with VerticalScroll(id="rows", can_focus=False):
            for number, each in enumerate(CALCULATORS.values(), 1):
                yield Press(each.name, f"{number if number < 10 else ' '}  {say(each.title)}")
        yield foot

    def on_mount(self) -> None:
        """Begin at the first."""
        self.query(Press).first().focus()

    def on_key(self, event: object) -> None:
        """A number opens its row."""
        key = str(getattr(event, "key", ""))
        rows = list(self.query(Press))
        if key.isdecimal() and 1 <= int(key) <= len(rows):
            rows[int(key) - 1].action_press()

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        """Open the page of a calculator, with what stood there before."""
        event.stop()
        name = event.name
        page = CalculatorPage(CALCULATORS[name], self.typed.get(name, {}))
        self.app.push_screen(page, lambda typed: self.typed.update({name: typed or {}}))

    @on(Given)
    def _given(self, event: Given) -> None:
        """A command at the foot was clicked."""
        event.stop()
        if event.name == "leave":
            self.action_back()
        elif isinstance(self.focused, Press):
            self.focused.action_press()

    def action_back(self) -> None:
        """Back to the start page."""
        self.dismiss(None)


class CalculatorPage(Screen[Mapping[str, str]]):
    """One growing page: what is asked above, the answer below it; gives back what was typed."""

    DEFAULT_CSS = """
    CalculatorPage #head { height: 1; background: $panel; color: $accent; padding: 0 1;
        text-style: bold; }
    CalculatorPage #page { height: 1fr; padding: 0 1; scrollbar-size-vertical: 1; }
    CalculatorPage #about { color: $quiet; padding: 0 2; margin: 0 0 1 0; }
    CalculatorPage Field { margin: 0; layout: grid; grid-size: 2; grid-columns: 48 1fr;
        grid-rows: auto; }
    CalculatorPage Field.bare { margin: 0 0 1 0; }
    CalculatorPage Field Input { margin: 0; max-width: 24; }
    CalculatorPage Field .help { column-span: 2; padding: 0 4; }
    CalculatorPage Choices { margin: 0; }
    CalculatorPage .work { width: auto; max-width: 30; margin: 1 2; }
    CalculatorPage #answer { height: auto; padding: 0 1; margin: 0 1 1 1; display: none;
        border-left: outer $accent; }
    CalculatorPage #answer.there { display: block; }
    CalculatorPage #complaint { height: auto; max-height: 3; color: $error; padding: 0 1; }
    """
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,f10", "back", show=False),
        Binding("pageup", "turn(-1)", show=False, priority=True),
        Binding("pagedown", "turn(1)", show=False, priority=True),
    ]

    def __init__(self, calculator: Calculator, typed: Mapping[str, str]) -> None:
        super().__init__()
        self.calculator, self.given = calculator, typed

    def compose(self) -> ComposeResult:
        """Questions, the button, the answer, the line for what was not accepted, the keys."""
        foot = CommandLine()
        foot.offer(
            [
                ("work", "Enter", say(N_("work it out"))),
                ("none", "↑ ↓", say(N_("questions"))),
                ("none", "PgUp PgDn", say(N_("page"))),
                ("leave", "Esc", say(N_("back"))),
            ]
        )
        yield Static(say(self.calculator.title), id="head", markup=False)
        with VerticalScroll(id="page", can_focus=False):
            yield Static(say(self.calculator.about), id="about", markup=False)
            if self.calculator.has_units:
                yield self._units()
            for each in self.calculator.asks:
                yield self._question(each)
            yield Press("work", say(N_("Work it out   ⏎")), classes="work")
            yield Static("", id="answer", markup=False)
        yield Static("", id="complaint", markup=False)
        yield foot

    def _units(self) -> Choices:
        """What a figure is in that is typed without its unit."""
        options = ((METRIC, say(N_("mm, kg"))), (INCH, say(N_("in, lb"))))
        return Choices(
            UNITS, say(N_("A figure without its unit is in")), options,
            chosen=self.given.get(UNITS, ""), stacked=False,
        )  # fmt: skip

    def _question(self, asked: Asked) -> Choices | Field:
        """The widget that asks a question."""
        given = self.given.get(asked.name, asked.given)
        ask = say(asked.ask)
        if asked.options:
            none = [] if asked.needed or asked.given else [("", say(asked.none))]
            options = none + [(value, say(words)) for value, words in asked.options]
            wide = sum(len(words) + 5 for _, words in options) > 60
            note = say(asked.help)
            return Choices(asked.name, ask, options, chosen=given, note=note, stacked=wide)
        ask = ask if asked.needed else say(N_("{ask} (or blank)"), ask=ask)
        bare = "" if asked.help else "bare"
        return Field(asked.name, ask, value=given, help=say(asked.help), classes=bare)

    def on_mount(self) -> None:
        """Begin at the first question."""
        self.asked()[0].focus(scroll_visible=False)

    def asked(self) -> list[Choices | Field]:
        """The questions in order."""
        return list(self.query("Choices, Field"))  # type: ignore[arg-type]

    def told(self) -> dict[str, str]:
        """Every answer by its name."""
        return {each.name or "": each.value for each in self.asked()}

    def _typed(self) -> Typed:
        """The answers, to be read in the reader's language."""
        told = self.told()
        return Typed(told, language(), told.get(UNITS, ""))

    def complain(self, sentence: str) -> None:
        """One sentence in the line for it."""
        self.query_one("#complaint", Static).update(f"✗ {sentence}" if sentence else "")

    @on(Chosen)
    def _chosen(self, event: Chosen) -> None:
        """Enter goes to the next that needs an answer, and works it out when none does."""
        event.stop()
        if not event.onward:
            return
        sentence = self._wrong(event.name)
        self.complain(sentence)
        if sentence:
            return
        widget = next(each for each in self.asked() if each.name == event.name)
        if isinstance(widget, Choices):
            self._after(event.name)
        elif missing(self.calculator, self._typed()):
            self._to_open(event.name)
        else:
            self.work_out()

    def _wrong(self, name: str) -> str:
        """What is wrong with one answer; blank when nothing is."""
        asked = next((each for each in self.calculator.asks if each.name == name), None)
        return "" if asked is None else wrong(asked, self._typed())

    def _after(self, name: str) -> None:
        """To the next question, after the last to the button."""
        names = [each.name for each in self.asked()]
        rest = self.asked()[names.index(name) + 1 :]
        (rest[0] if rest else self.query_one(".work", Press)).focus()

    def _to_open(self, name: str) -> None:
        """To the next question that needs an answer, round to the first where that is above."""
        needed = {each.name for each in self.calculator.asks if each.needed}
        names = [each.name for each in self.asked()]
        round_ = self.asked()[names.index(name) + 1 :] + self.asked()[: names.index(name)]
        next(each for each in round_ if each.name in needed and not each.value).focus()

    @on(Picked)
    def _pressed(self, event: Picked) -> None:
        """The button."""
        event.stop()
        self.work_out()

    def work_out(self) -> None:
        """Show the answer, or say in one sentence what it lacks; nothing that was typed is lost."""
        self._show(None)
        typed = self._typed()
        for asked in self.calculator.asks:
            if sentence := wrong(asked, typed):
                self._refuse(asked.name, sentence)
                return
        if (open_one := missing(self.calculator, typed)) is not None:
            ask = say(open_one.ask)
            self._refuse(open_one.name, say(N_("“{ask}” has no answer yet."), ask=ask))
            return
        found = answered(self.calculator, typed)
        if isinstance(found, str):
            self.complain(found)
            return
        self.complain("")
        self._show(found)

    def _refuse(self, name: str, sentence: str) -> None:
        """Say what is wrong, with the focus where it is."""
        self.complain(sentence)
        next(each for each in self.asked() if each.name == name).focus()

    def _show(self, found: Answer | None) -> None:
        """The answer under the questions, at the top of what is in sight."""
        place = self.query_one("#answer", Static)
        place.set_class(found is not None, "there")
        if found is None:
            return
        place.update(self._drawn(found))
        button = self.query_one(".work", Press)
        button.focus(scroll_visible=False)
        self.set_timer(SOON, self._to_answer)

    def _to_answer(self) -> None:
        """The button to the top of what is in sight, the answer under it."""
        page, button = self.query_one("#page", VerticalScroll), self.query_one(".work", Press)
        page.scroll_to_widget(button, animate=False, top=True)

    def _drawn(self, found: Answer) -> Content:
        """Answer first, then the caution, then what it rests on."""
        first, *more = found.lines
        parts: list[tuple[str, str]] = [(first, "bold")]
        parts += [(f"\n{line}", "") for line in more]
        parts.append((f"\n\n! {say(self.calculator.caution)}\n", "$warning"))
        parts += [(f"\n{line}", "$quiet") for line in self.calculator.rests_on(found, language())]
        return Content.assemble(*parts)

    @on(Given)
    def _given(self, event: Given) -> None:
        """A command at the foot was clicked."""
        event.stop()
        if event.name == "work":
            self.work_out()
        elif event.name == "leave":
            self.action_back()

    def action_turn(self, way: int) -> None:
        """A page up or down."""
        page = self.query_one("#page", VerticalScroll)
        page.scroll_relative(y=way * max(page.size.height - 2, 1), animate=False)

    def action_back(self) -> None:
        """Back to the list, with everything that was typed."""
        self.dismiss(self.told())
