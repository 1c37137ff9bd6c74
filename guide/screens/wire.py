"""Indicators on a wire while a sheet is open: read in threads, posted to the sheet, closed with it.

What they send goes to the line of a reading and nowhere else: never to a gate, never to a button.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from textual.message import Message

from guide.instruments.instrument import Instrument
from guide.instruments.kept import instruments, known_as
from guide.instruments.link import Back, Link, Said, Streams, Trouble
from guide.instruments.understood import Over, Value
from guide.plain import N_, Refusal
from guide.present.visible import visible
from guide.present.words import refused
from guide.screens.guard import tell
from guide.screens.steps.listening import ListeningForm
from guide.screens.tongue import language, say
from guide.screens.widgets.notice import Notice

if TYPE_CHECKING:
    from pathlib import Path

    from guide.screens.sheet import SetupSheet

ELSEWHERE = N_("{name} sent {text}, which was not taken: values go in where a dial is read.")
OTHER = N_("{name} sent {text}, which was not taken: this setup is read with {read}.")
STREAMS = N_("{name} sends without pause, and nothing is taken: set it to send when it is told to.")
OVER = N_("{name} is past its range ({raw}): nothing was taken; move it and send again.")
ODD = N_("{name} sent {raw}, which is not understood and was not taken.")
BACK = N_("{name} is back: go on.")
UNKNOWN = ("", "unknown")
"""What the fact of the indicator is while nobody named one."""


AFTER = 0.4
"""Seconds after which what a form says of the value before has been said."""


def _say(sheet: SetupSheet, sentence: str) -> None:
    """One sentence on the page that is open, which nothing that came before takes away."""
    sheet.set_timer(AFTER, partial(tell, sheet.app, sentence))


class FromWire(Message):
    """Something came from an indicator, or its link changed."""

    def __init__(self, name: str, told: Said) -> None:
        super().__init__()
        self.name, self.told = name, told


class Wires:
    """The links of one sheet."""

    def __init__(
        self, home: Path, linked: Callable[[Instrument, Callable[[Said], None]], Link] = Link
    ) -> None:
        self.listed: Sequence[Instrument] = ()
        self.linked = linked
        self.links: list[Link] = []
        self.trouble: dict[str, str] = {}
        """Why an indicator cannot be read now, by its name."""
        try:
            self.listed = instruments(home)
        except Refusal as refusal:
            self.trouble[""] = refused(refusal, language())

    def open(self, sheet: SetupSheet) -> None:
        """Begin to listen, for this sheet."""

        def posted(name: str, told: Said) -> None:
            sheet.post_message(FromWire(name, told))

        self.links = [self.linked(each, partial(posted, each.name)) for each in self.listed]
        for link in self.links:
            link.start()

    def close(self) -> None:
        """Listen no more."""
        for link in self.links:
            link.stop()

    @property
    def asked(self) -> bool:
        """Whether any indicator has to be asked for a value."""
        return any(each.ask for each in self.listed)

    def ask(self) -> None:
        """Ask those that have to be asked."""
        for link in self.links:
            if link.instrument.ask:
                link.ask()

    @property
    def notice(self) -> str:
        """Why indicators cannot be read, blank while they can."""
        return " ".join(self.trouble.values())

    def came(self, sheet: SetupSheet, event: FromWire) -> None:
        """Take it, or say in one sentence why not."""
        told, name = event.told, visible(event.name)
        if isinstance(told, Trouble):
            self.trouble[event.name] = refused(told.why, language())
            sheet.query_one(Notice).tell(visible(self.notice))
        elif isinstance(told, Back):
            self.trouble.pop(event.name, None)
            sheet.query_one(Notice).tell(visible(self.notice))
            _say(sheet, say(BACK, name=name))
        elif isinstance(told, Value):
            self._value(sheet, event, f"{told.number} {told.unit}")
        elif isinstance(told, Streams):
            _say(sheet, say(STREAMS, name=name))
        else:
            _say(sheet, say(OVER if isinstance(told, Over) else ODD, name=name, raw=told.raw))

    def _value(self, sheet: SetupSheet, event: FromWire, text: str) -> None:
        """A value goes on the line of the page that was open when it came."""
        form, read = sheet.form, sheet.state.facts.get("indicator-name", "")
        told = {"name": visible(event.name), "text": text, "read": visible(read)}
        here = sheet.app.screen is sheet and event.time >= sheet.opened
        settled = form is not None and form.sequence == sheet.state.sequence
        if not (here and settled and isinstance(form, ListeningForm)):
            _say(sheet, say(ELSEWHERE, **told))
        elif read not in UNKNOWN and known_as(read) != known_as(event.name):
            _say(sheet, say(OTHER, **told))
        else:
            form.take_sent(text, event.name)
