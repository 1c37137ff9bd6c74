"""A journal in memory, as strict as the one on the disk about what continues a setup."""

from __future__ import annotations

from contextlib import AbstractContextManager, nullcontext
from typing import Any

from guide.journal.canonical import digest
from guide.journal.event import GENESIS, Event, parse
from guide.journal.summary import Summary, summary
from guide.plain import N_, NotAllowed


class Memory:
    """What a setup asks of the journal, forgotten at the end of a test."""

    def __init__(self) -> None:
        self.written: dict[str, tuple[Event, ...]] = {}
        self.texts: dict[str, str] = {}
        self.full = False
        """Whether the disk is full: nothing can be written any more."""

    def append(self, event: Event, signature: str = "") -> None:
        """Keep an event, read back from its text; refused unless it follows the last one."""
        before = self.events(event.setup)
        last = (len(before), before[-1].digest if before else GENESIS)
        if self.full or (event.sequence - 1, event.previous) != last:
            raise NotAllowed(N_("This event is not written."), "")
        self.written[event.setup] = (*before, parse(event.body()))

    def events(self, setup: str) -> tuple[Event, ...]:
        """All events of a setup in order."""
        return self.written.get(setup, ())

    def keep_text(self, text: str) -> str:
        """Keep a procedure text by its digest."""
        self.texts[digest(text)] = text
        return digest(text)

    def text(self, name: str) -> str:
        """A kept procedure text."""
        return self.texts[name]

    def setups(self) -> tuple[Summary, ...]:
        """A summary of each setup, the one opened last first."""
        both = ((name, events[0], events[-1]) for name, events in self.written.items())
        made = [
            summary(name, first.body(), last.body(), last.sequence) for name, first, last in both
        ]
        return tuple(reversed(made))

    def hold(self, setup: str, at: str) -> AbstractContextManager[Any]:
        """Nobody else is there."""
        return nullcontext()

    def copy(self) -> Memory:
        """A journal that goes on from here by itself."""
        other = Memory()
        other.written, other.texts = dict(self.written), self.texts
        return other
