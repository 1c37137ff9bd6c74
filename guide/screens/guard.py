"""Keeps what an instrument types away from every page that reads no dial, and says so."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING

from textual import events
from textual.widgets import Input, Static
from textual.widgets.input import Selection

from guide.plain import N_
from guide.present.bursts import GAP, Bursts
from guide.screens.steps.form import Form
from guide.screens.tongue import say
from guide.screens.widgets.beside_line import BesideLine
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import PlainLine

if TYPE_CHECKING:
    from textual.app import App

LAG = 0.02
"""Seconds to wait beyond the rule's own, for a key that is still on its way."""
OTHERS = (events.Paste, events.MouseDown)
"""What a person does besides keys, before which kept keys go."""
TAKEN = N_(
    "{text} came as fast as an indicator types and was not taken: values go in where a dial is "
    "read."
)
UNSEEN = N_(
    "Something came as fast as an indicator types and was not taken: values go in where a dial is "
    "read."
)
TOGETHER = N_("Two numbers came in one moment and neither was taken: press one, then the other.")

PassOn = Callable[[events.Event], Awaitable[None]]


class Guard:
    """Stands before all pages; `pass_on` is where events go that are not kept back."""

    def __init__(self, app: App[int], pass_on: PassOn) -> None:
        self.app, self.pass_on = app, pass_on
        self.bursts: Bursts[events.Key] = Bursts()
        self.stood: tuple[Input, str, Selection] | None = None
        """A line, and what stood on it before the first sign of what may be a value; None where
        that sign went elsewhere."""

    async def came(self, event: events.Event) -> None:
        """Any event; a key may have to wait a moment."""
        if isinstance(event, OTHERS):
            await self._on_their_way(self.bursts.interrupted())
        if not isinstance(event, events.Key) or self._reads_a_dial():
            await self.pass_on(event)
            return
        sign = event.character or event.key
        freed = self.bursts.press(sign if sign.isprintable() else event.key, event.time, event)
        if not self.bursts.value and len(self.bursts.text) <= 1:
            self.stood = None
        if self._hears_every_key():
            await self._at_once(event, freed)
        elif line := self._typed_on(sign):
            await self._on_the_line(line, event, freed)
        else:
            await self._on_their_way(freed)
        if self.bursts.value:
            self._take_off()
            self._tell(self.bursts.value)
        if self.bursts.waiting:
            self.app.set_timer(GAP + LAG, self._look_again)

    def _form(self) -> Form | None:
        """The form of the sheet that is open, if nothing is over it."""
        form = getattr(self.app.screen, "form", None)
        return form if isinstance(form, Form) else None

    def _reads_a_dial(self) -> bool:
        """Whether the page takes values itself, and nothing of one is kept back here."""
        form = self._form()
        return form is not None and form.takes_values and not self.bursts.waiting

    def _hears_every_key(self) -> bool:
        """Whether the page is a gate, whose own rule needs every key at its time."""
        form = self._form()
        return form is not None and form.hears_every_key

    async def _at_once(self, event: events.Key, freed: list[events.Key]) -> None:
        """At a gate nothing waits; what ends a value, or is a letter of it, is only heard there."""
        loose = event in freed or event.key.isdecimal()
        before = [each for each in (*freed, *self.bursts.watch_only()) if each is not event]
        await self._on_their_way(before)
        form = self._form()
        if loose or form is None:
            await self.pass_on(event)
        else:
            form.key_came(event.key, event.time)

    def _chooses(self) -> bool:
        """Whether a number is an answer where the focus is, and goes on to the next question."""
        row = self.app.focused
        return isinstance(row, Choices) and not isinstance(row, BesideLine)

    def _typed_on(self, sign: str) -> Input | None:
        """The line on which a sign would stand, where it is no key of the line's own."""
        line = self.app.focused
        if not isinstance(line, Input) or (isinstance(line, PlainLine) and line.is_key(sign)):
            return None
        return line

    async def _on_the_line(self, line: Input, event: events.Key, freed: list[events.Key]) -> None:
        """A hand that types sees each sign at once; what stood there is known, should it be none.

        A sign that came close behind one that is kept back waits with it.
        """
        await self._on_their_way(freed)
        if not self.bursts.begins_alone:
            return
        if self.bursts.text == event.character:
            self.stood = line, line.value, line.selection
        await self._on_their_way(self.bursts.watch_only())

    def _take_off(self) -> None:
        """What an instrument typed on a line goes off it again, after its last sign came there."""
        if self.stood is not None:
            line, value, selection = self.stood
            self.stood = None
            line.call_later(_put_back, line, value, selection)

    def _look_again(self) -> None:
        """Whether keys have waited long enough, after every key that is already on its way."""
        self.app.call_later(self._settle)

    async def _settle(self) -> None:
        """Keys that stood alone go on their way."""
        await self._on_their_way(self.bursts.settle(events.Idle().time))

    async def _on_their_way(self, keys: list[events.Key]) -> None:
        """Each in its turn, with the time at which it was pressed.

        Of several answers in one moment it is not known which question each of them is for.
        """
        if len(keys) > 1 and all(each.key.isdecimal() for each in keys) and self._chooses():
            tell(self.app, say(TOGETHER))
            return
        for each in keys:
            await self.pass_on(each)

    def _tell(self, value: str) -> None:
        """One sentence; what came while something unseen is typed is not shown."""
        unseen = isinstance(self.app.focused, Input) and self.app.focused.password
        tell(self.app, say(UNSEEN) if unseen else say(TAKEN, text=value))


def _put_back(line: Input, value: str, selection: Selection) -> None:
    """A line as it was."""
    line.value = value
    line.selection = selection


def tell(app: App[int], sentence: str) -> None:
    """One sentence that is no complaint, where the open page has a line for it, else over it."""
    lines = app.screen.query("#complaint").results(Static)
    line = next(iter(lines), None)
    if line is None:
        app.notify(sentence, severity="warning", markup=False)
    else:
        line.update(f"! {sentence}")
        line.display = True
