"""The growing page of a sheet: what is done above, the present step open, what comes next below."""

from __future__ import annotations

from abc import abstractmethod
from asyncio import Lock

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.reactive import reactive
from textual.widgets import Static

from guide.plain import N_
from guide.present.besides_text import besides_text
from guide.present.entered import marks
from guide.present.sheet import Line, lines, newest
from guide.present.step_text import coming, progress, step_text
from guide.present.visible import visible
from guide.screens.glass import Glass
from guide.screens.let_go import let_go
from guide.screens.pages import form_for
from guide.screens.sheet_text import (
    after_words,
    done_lines,
    next_lines,
    step_words,
)
from guide.screens.steps.form import Form
from guide.screens.steps.task import TaskForm
from guide.screens.tongue import language, say, written
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.command_line import CommandLine
from guide.screens.widgets.notice import Notice
from guide.walk.flow import looks
from guide.walk.setup import Setup
from guide.walk.state import State

HEAD_EDGES = 2
"""Columns of the head beside its words."""
RECENT = 16
"""Lines of what is done that are written anew together; the earlier ones stand."""
AT_A_GLANCE = ("readings", "correction", "verdict")
"""Kinds of step with eyes and hands at the dial: what it reads stands above how it is done."""
MENU, MENU_TILE = "menu", N_("Menu   *")
"""The tile that shows everything else."""
MORE = N_("▼ more below: +")
HOW_FAR = N_("step {number} of about {count}")
ABOVE = 3
"""Lines of what is done that stay in sight above a step that leaves room for them."""


class GrowingPage(Glass[str]):
    """Writes a setup's page and keeps the present step in sight; nothing is entered here."""

    AUTO_FOCUS = ""

    detail: reactive[str] = reactive("full", init=False)
    """full or brief."""

    def __init__(self, setup: Setup) -> None:
        super().__init__()
        self.setup = setup
        self.form: Form | None = None
        self.lines: list[Line] = [*lines(setup.state, setup.procedure, language())]
        """What is done, one line an event; each act adds its own."""
        self.acts: list[tuple[State, State]] = []
        """What was done since: the states before and after, until the line of it is made."""
        self.shown: dict[str, Content] = {}
        self.put: float | None = None
        """Where the page was put for the present step; None once somebody has moved it."""
        self._opening = Lock()

    @property
    def state(self) -> State:
        """Where the setup stands."""
        return self.setup.state

    @abstractmethod
    def opened_anew(self) -> None:
        """The page that stands is now that of the present place."""

    def compose(self) -> ComposeResult:
        """Head, page, complaint, buttons, commands."""
        yield Static(id="head", markup=False)
        with Horizontal(id="middle"):
            with VerticalScroll(id="page", can_focus=False):
                yield Static(id="earlier", markup=False)
                yield Static(id="done", markup=False)
                with Vertical(id="present"):
                    yield Static(id="words", markup=False)
                    yield Static(id="after", markup=False)
                yield Static(id="next", markup=False)
            yield from self.beside()
        yield Static(say(MORE), id="more", markup=False)
        yield Notice()
        yield Static(id="complaint", markup=False)
        yield ActionBar(always=((MENU, say(MENU_TILE)),))
        yield CommandLine()

    def beside(self) -> ComposeResult:
        """What stands beside the page: nothing, where the lathe is a real one."""
        yield from ()

    def _more(self) -> None:
        """Say that the present step goes on below, while it does."""
        page, present = self.query_one("#page"), self.query_one("#present")
        below = present.virtual_region.bottom - page.scroll_offset.y - page.size.height
        self.query_one("#more").set_class(below > 1, "below")

    async def open_place(self) -> None:
        """Show the present place afresh: the form of the last one goes, a new one comes.

        Where one task follows another the words change, and nothing else has to. Nothing is shown
        on a page that has gone meanwhile; two that are opened at once come one after the other.
        """
        async with self._opening:
            if self.query("#next"):
                self._tell_acts()
                self._write()
                if not self._goes_on_as_it_is():
                    await self._change_form()
            if self.query("#next"):
                self.opened_anew()

    async def _change_form(self) -> None:
        """The form of the last place goes and the present one's comes; in between there is none.

        The focus goes first: Textual would hand it on to whatever stands near, and scroll there.
        It comes back where one types: a dial's button may be quicker than the page.
        """
        self.set_focus(None)
        last, self.form = self.form, None
        if last is not None:
            await last.remove()
            let_go(self)
        self.form = form = form_for(self.setup.procedure, self.state)
        await self.query_one("#present").mount(form, before="#after")
        if form.is_mounted and self.is_running and (first := form.first()) is not None:
            first.focus(scroll_visible=False)
        for bar in self.query(ActionBar):
            await bar.offer(form.offers())

    async def say_anew(self) -> None:
        """The whole sheet in another language, with what was answered on the present page."""
        kept = self.form.kept() if self.form else {}
        self.complain_with("")
        self.forget_words()
        await self.open_place()
        if self.form:
            self.form.put_back(kept)
            await self.query_one(ActionBar).offer(self.form.offers())

    def forget_words(self) -> None:
        """What is written stands in another language than is spoken now: nothing of it stays."""
        self.lines_anew()
        self.shown = {}
        self.query_one("#more", Static).update(say(MORE))
        self.query_one(ActionBar).always = ((MENU, say(MENU_TILE)),)

    def lines_anew(self) -> None:
        """Every line once more: others may have acted, or another language is spoken now."""
        self._tell_acts()
        self.lines = [*lines(self.state, self.setup.procedure, language())]

    def _tell_acts(self) -> None:
        """A line for each act, made when the next step's words are on the glass already."""
        for before, after in self.acts:
            self.lines.append(newest(before, after, self.setup.procedure, language()))
            self._tell_mark(before.place)
        self.acts.clear()

    def _tell_mark(self, place: str) -> None:
        """What is odd about what the dial just showed is in sight on the next page too."""
        step, told = self.setup.procedure.by_name.get(place), self.lines[-1].note
        if told and step is not None and step.kind in ("readings", "correction"):
            self.note(told)

    def say_at_once(self) -> None:
        """The words of the present step where those of the last one stand, before all else.

        A hand that waits sees what to do next; the page has its places a moment later.
        """
        page, present = self.query_one("#page"), self.query_one("#present")
        gone_on = page.scroll_y > present.virtual_region.y
        if gone_on:
            self._to_present()
        words, _ = self._words()
        place = self.query_one("#words", Static)
        place.update(words, layout=False)
        self.paint_now(place, moved=gone_on)

    def begin(self) -> None:
        """The top of the present step in sight, the focus where one types."""
        if self.form is None or not self.form.is_mounted or self.form.begun:
            return
        first = self.form.first() or self.query_one(ActionBar).first
        if first is not None:
            first.focus(scroll_visible=False)
        self._to_present()

    def _to_present(self) -> None:
        """The top of the present step in sight, with some lines above it where there is room."""
        page, present = self.query_one("#page"), self.query_one("#present")
        above = ABOVE if present.size.height + ABOVE < page.size.height else 0
        top = max(present.virtual_region.y - above, 0)
        page.scroll_to(y=top, animate=False, force=True, immediate=True)
        self.put = page.scroll_y

    def _laid_out(self, _: object) -> None:
        """Lines and drawings have their places: once more, unless somebody has moved the page."""
        page = self.query_one("#page")
        if self.put is None or self.form is None or self.form.begun:
            return
        if page.scroll_y == min(self.put, page.max_scroll_y):
            self._to_present()
        else:
            self.put = None

    def _write(self) -> None:
        """The whole sheet."""
        self._write_present()
        self._write_round_it()

    def _write_present(self) -> None:
        """The words of the present step."""
        words, after = self._words()
        self._show("#words", words)
        self._show("#after", after)
        self.query_one("#after").display = bool(after)

    def _words(self) -> tuple[Content, Content]:
        """What the present step says above its form, and below it."""
        step = self.setup.step
        procedure, state = self.setup.procedure, self.state
        text = step_text(procedure, step, self.detail) if step else besides_text(state)
        at_a_glance = step is not None and step.kind in AT_A_GLANCE
        return step_words(text, at_a_glance), after_words(text, at_a_glance)

    def _write_round_it(self) -> None:
        """The head, what is done above, what comes next below."""
        self._show("#head", self._head())
        long_ago = len(self.lines) // RECENT * RECENT
        self._show("#earlier", done_lines(self.lines[:long_ago]))
        self._show("#done", done_lines(self.lines[long_ago:], self._stage_before(long_ago)))
        titles = () if self.state.ended else coming(self.setup.procedure, self.state)
        self._show("#next", next_lines(titles))

    def _show(self, part: str, content: Content) -> None:
        """Put words where they are not yet: what stays the same is not painted again."""
        if self.shown.get(part) != content:
            self.shown[part] = content
            self.query_one(part, Static).update(content)

    def _stage_before(self, number: int) -> str:
        """The stage that the lines before one ended in."""
        return next((each.stage for each in reversed(self.lines[:number]) if each.stage), "")

    def _head(self) -> Content:
        """Lathe and person; how far one is and the procedure, where there is room for them.

        What is not real says so first. That a real setup is not signed is said quietly: the sign of
        a hazard is for hazards.
        """
        state = self.state
        real = state.opening.get("mode") == "real"
        sign, style = ("", "$quiet") if real else ("! ", "bold $warning")
        mark = "".join(f"{sign}{each} · " for each in marks(state, language()))
        told = " · ".join(map(visible, (state.facts.get("lathe", ""), state.person)))
        for more in (self._how_far(), visible(written(self.setup.procedure.title))):
            if more and cell_len(f"{mark}{told} · {more}") <= self.app.size.width - HEAD_EDGES:
                told += f" · {more}"
        return Content.assemble((mark, style), told)

    def _how_far(self) -> str:
        """Which step this is, of about how many; blank where the walk stands at none."""
        if self.setup.step is None:
            return ""
        number, count = progress(self.setup.procedure, self.state)
        return say(HOW_FAR, number=number, count=count)

    def watch_detail(self) -> None:
        """The same step in other words; nothing typed is touched."""
        self._write()

    def _goes_on_as_it_is(self) -> bool:
        """Whether one task follows another: the words change, and nothing else has to."""
        step = self.setup.step
        return (
            type(self.form) is TaskForm
            and step is not None
            and step.kind == "task"
            and not (looks(step))
        )

    def complain_with(self, sentence: str) -> None:
        """One sentence in the line for it; blank takes it away."""
        line = self.query_one("#complaint", Static)
        if sentence or line.display:
            line.update(f"✗ {visible(sentence)}" if sentence else "")
            line.display = bool(sentence)

    def note(self, sentence: str) -> None:
        """One sentence in the same line that is no complaint."""
        self.complain_with(sentence)
        self.query_one("#complaint", Static).update(f"! {visible(sentence)}")
