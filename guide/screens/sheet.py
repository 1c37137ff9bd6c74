"""The setup sheet: what is done above, the present step open, what comes next; it alone acts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any, ClassVar

from textual import events, on
from textual.binding import BindingType

from guide.front.as_recorded import as_recorded
from guide.front.doable import runs, witness_at
from guide.front.own_language import speak_for
from guide.journal.wellformed import stamp
from guide.plain import N_, Refusal
from guide.present.usual import PAUSED_FOR
from guide.present.words import refused
from guide.screens.commands import BY_NAME, RARE, at_foot, bindings, on_menu
from guide.screens.growing_page import MENU
from guide.screens.messages import Act, Complaint, OfferChanged, Picked
from guide.screens.onward import WAYS, move
from guide.screens.signing_sheet import Signing
from guide.screens.steps.gate import GateForm
from guide.screens.steps.listening import ListeningForm
from guide.screens.tongue import language
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.command_line import CommandLine
from guide.screens.wire import FromWire, Wires
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
AHEAD = 0.2
"""Seconds after which the first page stands and is being read."""
ONE_FRAME = 1 / 60
"""Seconds after which the page has been painted and its parts have their places."""


class SetupSheet(Signing):
    """One growing page of one setup; gives back the procedure to go on with, blank for none."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings(),
        ("up", "scroll(-1)"),
        ("down", "scroll(1)"),
        ("pageup", "page(-1)"),
        ("pagedown", "page(1)"),
    ]

    def __init__(
        self,
        setup: Setup,
        people: Sequence[str] = (),
        quiet: float = 0.4,
        desk: Desk | None = None,
        wires: Wires | None = None,
    ) -> None:
        super().__init__(setup)
        self.wires = wires
        """Indicators that are read by wire; None where none is."""
        self.known_people, self.quiet, self.desk = tuple(people), quiet, desk
        self.came_at = setup.state.sequence
        self.refusal = ""
        """Why the last thing was not entered; blank once it was."""
        self.opened = 0.0

    async def on_mount(self) -> None:
        """Open at the present step."""
        self.complain_with("")
        settings = getattr(self.app, "settings", None)
        self.set_reactive(SetupSheet.detail, settings.detail if settings else "full")
        page = self.query_one("#page")
        self.watch(page, "scroll_y", self._more, init=False)
        self.watch(page, "virtual_size", self._more, init=False)
        self.screen_layout_refresh_signal.subscribe(self, self._laid_out, immediate=True)
        if self.signed:
            self.set_interval(LOOKED_AT, self.left_alone)
        await self.open_place()
        self.set_timer(AHEAD, self._look_ahead)
        if self.wires:
            self.wires.open(self)

    def _look_ahead(self) -> None:
        """The ways of the procedure are laid out before the first look needs them."""
        self.setup.fold.ways(self.state.facts)

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
        self.acts.append((before, self.state))
        self.complain_with("")
        if before.person != self.state.person and self.speak_for(self.state.person):
            self.forget_words()
        if self.form is not None:
            self.say_at_once()
        # Not called yet: where the sheet is closed at once nothing is left half begun.
        opening: WorkType[None] = self.open_place
        self.run_worker(opening, group="open-place")
        return True

    def speak_for(self, person: str) -> bool:
        """The language follows the person; whether it is another one now."""
        settings = getattr(self.app, "settings", None)
        return bool(settings and speak_for(person, settings))

    def entered(
        self, trigger: str, data: Mapping[str, Any], *, person: str, beside: Signer | None = None
    ) -> str:
        """The same for a window over the sheet, which says itself why not."""
        self.enter(trigger, data, person=person, beside=beside)
        return self.refusal

    def opened_anew(self) -> None:
        """The page that stands is now that of the present place."""
        if self.form is not None:
            self.form.sequence = self.state.sequence
        for line in self.query(CommandLine):
            line.offer(at_foot(self), RARE)
        self._tell_wrong()
        self.opened = events.Idle().time
        self.set_timer(ONE_FRAME, self.begin)

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
