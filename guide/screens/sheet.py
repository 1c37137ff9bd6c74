"""The setup sheet: what is done above, the present step open, what comes next; it alone acts."""

from __future__ import annotations

from asyncio import Event
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any, ClassVar

from rich.cells import cell_len
from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.reactive import reactive
from textual.widgets import Static

from guide.front.as_recorded import as_recorded
from guide.front.doable import runs, witness_at
from guide.journal.wellformed import stamp
from guide.plain import N_, Refusal
from guide.present.besides_text import besides_text
from guide.present.entered import marks
from guide.present.sheet import lines, newest
from guide.present.step_text import coming, step_text
from guide.present.usual import PAUSED_FOR
from guide.present.visible import visible
from guide.present.words import refused
from guide.screens.commands import BY_NAME, RARE, at_foot, bindings, on_menu
from guide.screens.let_go import let_go
from guide.screens.messages import Act, Complaint, OfferChanged, Picked
from guide.screens.onward import WAYS, move
from guide.screens.pages import form_for
from guide.screens.sheet_text import (
    after_words,
    done_lines,
    next_lines,
    step_words,
)
from guide.screens.signing_sheet import Signing
from guide.screens.steps.form import Form
from guide.screens.steps.gate import GateForm
from guide.screens.steps.listening import ListeningForm
from guide.screens.steps.task import TaskForm
from guide.screens.tongue import language, say, written
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.command_line import CommandLine
from guide.screens.widgets.notice import Notice
from guide.screens.wire import FromWire, Wires
from guide.walk.flow import looks
from guide.walk.going_on import goes_on_to
from guide.walk.second import Signer
from guide.walk.setup import Setup
from guide.walk.world import value

if TYPE_CHECKING:
    from textual.worker import WorkType

    from guide.front.desk import Desk


def now() -> str:
    """The time as the journal writes it."""
    return stamp(datetime.now(UTC))


LOOKED_AT = 5.0
"""Seconds between two looks whether anybody is there."""
HEAD_EDGES = 2
"""Columns of the head beside its words."""
RECENT = 16
"""Lines of what is done that are written anew together; the earlier ones stand."""
ONE_FRAME = 1 / 60
"""Seconds after which the page has been painted and its parts have their places."""
AT_A_GLANCE = ("readings", "correction", "verdict")
"""Kinds of step with eyes and hands at the dial: what it reads stands above how it is done."""
DRAWN = 0.1
"""Seconds after which the drawings of a page have been made."""
MENU = "menu"
"""The tile that shows everything else."""
ABOVE = 3
"""Lines of what is done that stay in sight above a step that leaves room for them."""


class SetupSheet(Signing):
    """One growing page of one setup; gives back the procedure to go on with, blank for none."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(),
        ("up", "scroll(-1)"),
        ("down", "scroll(1)"),
        ("pageup", "page(-1)"),
        ("pagedown", "page(1)"),
    ]
    detail: reactive[str] = reactive("full", init=False)
    """full or brief."""

    def __init__(
        self,
        setup: Setup,
        people: Sequence[str] = (),
        quiet: float = 0.4,
        desk: Desk | None = None,
        wires: Wires | None = None,
    ) -> None:
        super().__init__()
        self.wires = wires
        """Indicators that are read by wire; None where none is."""
        self.setup, self.known_people, self.quiet, self.desk = setup, tuple(people), quiet, desk
        self.came_at = setup.state.sequence
        self.form: Form | None = None
        self.refusal = ""
        """Why the last thing was not entered; blank once it was."""
        self.opened = 0.0
        self.lines = [*lines(setup.state, setup.procedure, language())]
        """What is done, one line an event; each act adds its own."""
        self.shown: dict[str, Content] = {}

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
        yield Static(say(N_("▼ more below: +")), id="more", markup=False)
        yield Notice()
        yield Static(id="complaint", markup=False)
        yield ActionBar(always=((MENU, say(N_("Menu   *"))),))
        yield CommandLine()

    def beside(self) -> ComposeResult:
        """What stands beside the page: nothing, where the lathe is a real one."""
        yield from ()

    async def on_mount(self) -> None:
        """Open at the present step."""
        self.complain_with("")
        settings = getattr(self.app, "settings", None)
        self.set_reactive(SetupSheet.detail, settings.detail if settings else "full")
        page = self.query_one("#page")
        self.watch(page, "scroll_y", self._more, init=False)
        self.watch(page, "virtual_size", self._more, init=False)
        if self.signed:
            self.set_interval(LOOKED_AT, self.left_alone)
        await self.open_place()
        if self.wires:
            self.wires.open(self)

    def on_unmount(self) -> None:
        """Nobody listens to a wire for a sheet that is gone."""
        if self.wires:
            self.wires.close()

    @on(FromWire)
    def _from_wire(self, event: FromWire) -> None:
        """An indicator sent something, or its link changed."""
        event.stop()
        if self.wires:
            self.wires.came(self, event)

    def _more(self) -> None:
        """Say that the present step goes on below, while it does."""
        page, present = self.query_one("#page"), self.query_one("#present")
        below = present.virtual_region.bottom - page.scroll_offset.y - page.size.height
        self.query_one("#more").set_class(below > 1, "below")

    async def open_place(self) -> None:
        """Show the present place afresh: the form of the last one goes, a new one comes.

        Where one task follows another the words change, and nothing else has to.
        """
        if self.form is not None:
            self._say_at_once()
            await self._painted()
        self._write()
        if not self._goes_on_as_it_is():
            form = form_for(self.setup.procedure, self.state)
            if self.form is not None:
                await self.form.remove()
                let_go(self)
            self.form = form
            await self.query_one("#present").mount(form, before="#after")
            await self.query_one(ActionBar).offer(form.offers())
        self._opened_anew()

    def _say_at_once(self) -> None:
        """The words of the present step where those of the last one stand, before all else.

        A hand that waits sees what to do next; the page has its places a moment later.
        """
        page, present = self.query_one("#page"), self.query_one("#present")
        if page.scroll_y > present.virtual_region.y:
            self._to_present(at_once=True)
        words, _ = self._words()
        self.query_one("#words", Static).update(words, layout=False)

    async def _painted(self) -> None:
        """Until what was changed is on the glass."""
        done = Event()
        self.call_after_refresh(done.set)
        await done.wait()

    def _begin(self) -> None:
        """The top of the present step in sight, the focus where one types."""
        if self.form is None or not self.form.is_attached or self.form.begun:
            return
        first = self.form.first() or self.query_one(ActionBar).first
        if first is not None:
            first.focus(scroll_visible=False)
        self._to_present()
        put = self.query_one("#page").scroll_y
        self.set_timer(DRAWN, lambda: self._still_at(put))

    def _to_present(self, at_once: bool = False) -> None:
        """The top of the present step in sight, with some lines above it where there is room."""
        page, present = self.query_one("#page"), self.query_one("#present")
        above = ABOVE if present.size.height + ABOVE < page.size.height else 0
        top = max(present.virtual_region.y - above, 0)
        page.scroll_to(y=top, animate=False, force=True, immediate=at_once)

    def _still_at(self, put: float) -> None:
        """Once more when drawings have their place, unless somebody has moved the page since."""
        at_rest = self.form is not None and not self.form.begun
        if at_rest and self.query_one("#page").scroll_y == put:
            self._to_present()

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
        """Lathe and person, and the procedure where it has room; what is not real says so first.

        That a real setup is not signed is said quietly: the sign of a hazard is for hazards.
        """
        state = self.state
        real = state.opening.get("mode") == "real"
        sign, style = ("", "$quiet") if real else ("! ", "bold $warning")
        mark = "".join(f"{sign}{each} · " for each in marks(state, language()))
        told = " · ".join(map(visible, (state.facts.get("lathe", ""), state.person)))
        title = f" · {visible(written(self.setup.procedure.title))}"
        has_room = cell_len(f"{mark}{told}{title}") <= self.app.size.width - HEAD_EDGES
        return Content.assemble((mark, style), told, title if has_room else "")

    def watch_detail(self) -> None:
        """The same step in other words; nothing typed is touched."""
        self._write()

    def enter(
        self,
        trigger: str,
        data: Mapping[str, Any],
        *,
        person: str = "",
        beside: Signer | None = None,
    ) -> bool:
        """Do one thing, durably, or say in one sentence why not; `beside` is the second person."""
        before, who = self.state, person or self.state.person
        try:
            kept = as_recorded(data, self.setup.procedure)
            self.setup.act(trigger, kept, person=who, at=now(), beside=beside)
        except Refusal as refusal:
            self.refusal = refused(refusal, language())
            self._refuse(self.refusal)
            return False
        self.refusal = ""
        self.lines.append(newest(before, self.state, self.setup.procedure, language()))
        self.complain_with("")
        # Not called yet: where the sheet is closed at once nothing is left half begun.
        opening: WorkType[None] = self.open_place
        self.run_worker(opening, group="open-place")
        return True

    def entered(
        self, trigger: str, data: Mapping[str, Any], *, person: str, beside: Signer | None = None
    ) -> str:
        """The same for a window over the sheet, which says itself why not."""
        self.enter(trigger, data, person=person, beside=beside)
        return self.refusal

    def _goes_on_as_it_is(self) -> bool:
        """Whether one task follows another: the words change, and nothing else has to."""
        step = self.setup.step
        return (
            type(self.form) is TaskForm
            and step is not None
            and step.kind == "task"
            and not (looks(step))
        )

    def _opened_anew(self) -> None:
        """The page that stands is now that of the present place."""
        if self.form is not None:
            self.form.sequence = self.state.sequence
        self.query_one(CommandLine).offer(at_foot(self), RARE)
        self._tell_wrong()
        self.opened = events.Idle().time
        self.set_timer(ONE_FRAME, self._begin)

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

    @on(Act)
    def _act(self, event: Act) -> None:
        """A form wants something entered; one that has been replaced since is not heard."""
        event.stop()
        if event.meant_for != self.state.sequence:
            return
        step = self.setup.step
        role = witness_at(step, self.state, event.trigger)
        if step is None or not role:
            self.enter(event.trigger, event.data)
        else:
            asked = self._with_witness(step, role, event.trigger, event.data)
            self.run_worker(asked, group="witness", exclusive=True)

    def _refuse(self, sentence: str) -> None:
        """Say why something was not entered; every check of a gate is then looked at again."""
        self.complain_with(sentence)
        if isinstance(self.form, GateForm):
            self.form.refused()

    @on(Complaint)
    def _complaint(self, event: Complaint) -> None:
        """A form says what was not accepted."""
        event.stop()
        self.complain_with(event.sentence)

    @on(OfferChanged)
    async def _offers(self, event: OfferChanged) -> None:
        """The form has other buttons now."""
        event.stop()
        if self.form is not None:
            await self.query_one(ActionBar).offer(self.form.offers())

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        """A button below the sheet; one pressed before the page could be read does not count."""
        event.stop()
        if event.time - self.opened < self.quiet or self.form is None:
            return
        if event.name == MENU:
            self.action_star()
        elif event.name == "leave":
            self.action_give("leave")
        elif event.name == "onward":
            self.close(goes_on_to(self.state))
        else:
            self.form.pressed(event.name)

    def on_resize(self, event: events.Resize) -> None:
        """The line of keys has room or not, and so has the procedure's title in the head."""
        self._show("#head", self._head())
        for line in self.query(CommandLine):
            line.resized(event.size.height)

    def on_key(self, event: events.Key) -> None:
        """Every key that nothing took goes to the form as well, with its time."""
        if self.form is not None:
            self.form.key_came(event.key, event.time)
        if event.key == "asterisk":
            event.stop()
            self.action_star()
        elif event.key in WAYS and not isinstance(self.form, ListeningForm):
            move(self, self, WAYS[event.key])

    def action_star(self) -> None:
        """Show everything else that can be done here; once, however often it is asked."""
        if self.app.screen is self:
            self.run_worker(self._menu(), group="menu", exclusive=True)

    async def _menu(self) -> None:
        """One of the commands, by its digit or its tile."""
        from guide.screens.modals.menu import Menu

        name = await self.app.push_screen_wait(Menu(on_menu(self)))
        if name and self.is_attached:
            await BY_NAME[name].give(self)

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text is no key of a person's."""
        if self.form is not None:
            self.form.key_came("paste", event.time)

    def action_give(self, name: str) -> None:
        """Give a command by its name."""
        self.run_worker(BY_NAME[name].give(self), group="command", exclusive=True)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A command that cannot be given now is not shown."""
        if action == "give":
            return BY_NAME[str(parameters[0])].open_at(self)
        return True

    def action_scroll(self, by: int) -> None:
        """A line back or on."""
        self.query_one("#page").scroll_relative(y=by * 2, animate=False)

    def action_page(self, by: int) -> None:
        """A page back or on."""
        page = self.query_one("#page")
        page.scroll_relative(y=by * (page.size.height - 2), animate=False)

    async def pause(self, ask: str) -> bool:
        """Pause with a reason; with the power on, stopping and isolating come first."""
        from guide.screens.modals.reason import ReasonScreen

        powered = value(self.state.world, "power") == "restored"
        told = N_("Stop the spindle and isolate the lathe now. Say yes when that is done.")
        calm = N_(
            "A chuck that nothing holds falls, and a key left in is thrown by the next start: "
            "support under it, keys out, power locked off, a note on the lathe. Before work "
            "goes on, the whole machine is looked at again."
        )
        asks = ReasonScreen(N_("Pause this setup?"), told if powered else calm, ask, wanted=False,
                            usual=PAUSED_FOR, yes=N_("Pause now   ⏎"))  # fmt: skip
        why = await self.app.push_screen_wait(asks)
        return why is not None and self.enter("pause", {"why": why})

    async def leave(self) -> None:
        """A running setup is paused first; then the sheet closes."""
        ask = N_("It is paused when you leave. Why? (may stay blank)")
        if not runs(self.state) or await self.pause(ask):
            self.close()

    def close(self, onward: str = "") -> None:
        """The sheet goes, and with it a page that is on its way."""
        self.workers.cancel_group(self, "open-place")
        self.dismiss(onward)
