"""The shop calculators on pages of their own: a list, and one page to ask and answer each."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from guide.plain import N_
from guide.present.asked import INCH, METRIC, Answer, Asked, Calculator, Typed
from guide.present.calculators import CALCULATORS, answered, missing, wrong
from guide.screens.messages import Chosen
from guide.screens.page import Offer, Page, TileGrid, numbered, quiet
from guide.screens.tongue import language, say
from guide.screens.widgets.beside_line import BesideLine
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.screens.widgets.press import Press

UNITS = "units"
"""The row that says which unit a bare figure is in."""
SOON = 0.05
"""Seconds after which the answer has its place on the page."""
ABOUT = N_("What is worked out here is a figure to compare with, never a permission.")


class CalculatorList(Page[None]):
    """Every calculator by its title; what was typed on one is there again when it is reopened."""

    title_text = N_("Shop calculators")

    def __init__(self) -> None:
        super().__init__()
        self.typed: dict[str, Mapping[str, str]] = {}

    def body(self) -> ComposeResult:
        """What they are, one tile each."""
        yield quiet(say(ABOUT))
        yield TileGrid(*(Press(each.name, numbered(n, say(each.title)))
                         for n, each in enumerate(CALCULATORS.values(), 1)))  # fmt: skip

    def on_mount(self) -> None:
        """Begin at the first."""
        self.query(Press).first().focus()

    async def picked(self, name: str) -> None:
        """Open the page of a calculator, with what stood there before."""
        page = CalculatorPage(CALCULATORS[name], self.typed.get(name, {}))
        self.app.push_screen(page, lambda typed: self.typed.update({name: typed or {}}))


class CalculatorPage(Page[Mapping[str, str]]):
    """One growing page: what is asked above, the answer below it; gives back what was typed."""

    DEFAULT_CSS = """
    CalculatorPage Field Input { max-width: 30; }
    CalculatorPage #answer { height: auto; padding: 0 1; margin: 0 1 1 1; display: none;
        border-left: outer $accent; }
    CalculatorPage #answer.there { display: block; }
    """
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("pageup", "page(-1)", show=False, priority=True),
        Binding("pagedown", "page(1)", show=False, priority=True),
    ]

    def __init__(self, calculator: Calculator, typed: Mapping[str, str]) -> None:
        super().__init__()
        self.calculator, self.given = calculator, typed

    def title_line(self) -> str:
        """Which one."""
        return say(self.calculator.title)

    def body(self) -> ComposeResult:
        """Questions, then the answer."""
        yield quiet(say(self.calculator.about))
        if self.calculator.has_units:
            yield self._units()
        for each in self.calculator.asks:
            yield self._question(each)
        yield Static("", id="answer", markup=False)

    def foot(self) -> tuple[Offer, ...]:
        """Work it out, or back."""
        return (("work", say(N_("Work it out   ⏎"))), *super().foot())

    def _units(self) -> Choices:
        """What a figure is in that is typed without its unit."""
        options = ((METRIC, say(N_("mm, kg"))), (INCH, say(N_("in, lb"))))
        return Choices(
            UNITS, say(N_("A figure typed without a unit is taken as")), options,
            chosen=self.given.get(UNITS, ""),
        )  # fmt: skip

    def _question(self, asked: Asked) -> Choices | Field:
        """The widget that asks a question."""
        given = self.given.get(asked.name, asked.given)
        ask = say(asked.ask)
        if asked.options:
            none = [] if asked.needed or asked.given else [("", say(asked.none))]
            options = none + [(value, say(words)) for value, words in asked.options]
            note = say(asked.help)
            return Choices(asked.name, ask, options, chosen=given, note=note)
        ask = ask if asked.needed else say(N_("{ask} (or blank)"), ask=ask)
        bare = "" if asked.help else "bare"
        return Field(asked.name, ask, value=given, help=say(asked.help), classes=bare)

    def on_mount(self) -> None:
        """Begin at the first question."""
        self.asked()[0].focus(scroll_visible=False)

    def asked(self) -> list[Choices | Field]:
        """The questions in order."""
        found = self.query("Choices, Field")
        return [each for each in found if not isinstance(each, BesideLine)]  # type: ignore[misc]

    def told(self) -> dict[str, str]:
        """Every answer by its name."""
        return {each.name or "": each.value for each in self.asked()}

    def _typed(self) -> Typed:
        """The answers, to be read in the reader's language."""
        told = self.told()
        return Typed(told, language(), told.get(UNITS, ""))

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
        (rest[0] if rest else self.work).focus()

    def _to_open(self, name: str) -> None:
        """To the next question that needs an answer, round to the first where that is above."""
        needed = {each.name for each in self.calculator.asks if each.needed}
        names = [each.name for each in self.asked()]
        round_ = self.asked()[names.index(name) + 1 :] + self.asked()[: names.index(name)]
        next(each for each in round_ if each.name in needed and not each.value).focus()

    @property
    def work(self) -> Press:
        """The tile that works it out."""
        return self.query_one("ActionBar Press", Press)

    async def picked(self, name: str) -> None:
        """The tile."""
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
        self.work.focus(scroll_visible=False)
        self.set_timer(SOON, partial(self.call_after_refresh, self._to_answer))

    def _to_answer(self) -> None:
        """The answer to the top of what is in sight, when it has its place."""
        answer = self.query_one("#answer")
        self.query_one("#rows", VerticalScroll).scroll_to_widget(answer, animate=False, top=True)

    def _drawn(self, found: Answer) -> Content:
        """Answer first, then the caution, then what it rests on."""
        first, *more = found.lines
        parts: list[tuple[str, str]] = [(first, "bold")]
        parts += [(f"\n{line}", "") for line in more]
        parts.append((f"\n\n! {say(self.calculator.caution)}\n", "$warning"))
        parts += [(f"\n{line}", "$quiet") for line in self.calculator.rests_on(found, language())]
        return Content.assemble(*parts)

    def action_back(self) -> None:
        """Back to the list, with everything that was typed."""
        self.dismiss(self.told())
