"""Listens to one indicator for as long as somebody wants to hear it, in a thread of its own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from threading import Event, Thread
from time import monotonic
from typing import Protocol

from guide.instruments.frames import Frames, Line
from guide.instruments.instrument import Instrument
from guide.instruments.pace import Pace
from guide.instruments.port import opened
from guide.instruments.understood import Odd, Over, Value, understood
from guide.plain import Refusal

AGAIN = 2.0
"""Seconds between two tries to open a port."""
APART = 1.0
"""Seconds between two times that the same sort of trouble is told."""


class Wire(Protocol):
    """What is asked of a port."""

    def read(self) -> bytes:
        """What came, after a moment at most."""

    def write(self, data: bytes) -> None:
        """Send something."""

    def close(self) -> None:
        """Let others have it."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """The port cannot be read; the link is tried again."""

    why: Refusal


@dataclass(frozen=True, slots=True)
class Back:
    """The port is open after trouble."""


@dataclass(frozen=True, slots=True)
class Streams:
    """Values come without pause, and are not taken."""


Said = Value | Over | Odd | Trouble | Back | Streams


class Link:
    """Opens, reads, and tries again; `tell` is called in the thread, for each thing once."""

    again = AGAIN
    """Seconds until a port is tried again."""

    def __init__(
        self,
        instrument: Instrument,
        tell: Callable[[Said], None],
        opening: Callable[[Instrument], Wire] = opened,
        clock: Callable[[], float] = monotonic,
    ) -> None:
        self.instrument, self.tell, self.opening = instrument, tell, opening
        self.clock = clock
        self.frames, self.pace = Frames(), Pace()
        self._stop, self._ask = Event(), Event()
        self.listens = Event()
        """Set while what comes is for somebody."""
        self._trouble = ""
        self._told: dict[type, float] = {}
        self._thread = Thread(target=self._run, name=f"wire {instrument.port}", daemon=True)

    def start(self) -> None:
        """Begin to listen."""
        self._thread.start()

    def stop(self) -> None:
        """Listen no more; the port is let go within a moment."""
        self._stop.set()

    def wait(self, seconds: float = 2.0) -> bool:
        """Whether the port has been let go, after some seconds at most."""
        self._thread.join(seconds)
        return not self._thread.is_alive()

    def ask(self) -> None:
        """Ask the indicator for a value, where it has to be asked."""
        self._ask.set()

    def _run(self) -> None:
        """Until it is stopped."""
        while not self._stop.is_set():
            try:
                port = self.opening(self.instrument)
            except Refusal as refusal:
                self._in_trouble(refusal)
            else:
                self._listen(port)
            self._stop.wait(self.again)

    def _listen(self, port: Wire) -> None:
        """One open port, until it is lost."""
        try:
            self._begin(port.read())
            self.listens.set()
            if self._trouble:
                self._trouble = ""
                self.tell(Back())
            while not self._stop.is_set():
                self._go_on(port)
        except Refusal as refusal:
            self._in_trouble(refusal)
        finally:
            self.listens.clear()
            self.frames.broken_off()
            port.close()

    def _begin(self, before: bytes) -> None:
        """What was on its way before anybody listened was sent for nobody."""
        self._ask.clear()
        if before and before[-1:] not in b"\r\n":
            self.frames.begun_before()

    def _go_on(self, port: Wire) -> None:
        """Ask if that is wanted, and hear what comes."""
        if self._ask.is_set():
            self._ask.clear()
            port.write(self.instrument.request)
        for line in self.frames.fed(port.read()):
            self._heard(line)

    def _heard(self, line: Line) -> None:
        """One line."""
        told, now = understood(line, self.instrument), self.clock()
        if isinstance(told, Value) and not self.pace.streams(now):
            self.tell(told)
        else:
            self._now_and_then(Streams() if isinstance(told, Value) else told, now)

    def _now_and_then(self, told: Said, now: float) -> None:
        """Trouble of one sort is told once a second, however much of it there is."""
        if now - self._told.get(type(told), float("-inf")) >= APART:
            self._told[type(told)] = now
            self.tell(told)

    def _in_trouble(self, refusal: Refusal) -> None:
        """Told once, until it is another trouble or over."""
        if str(refusal) != self._trouble:
            self._trouble = str(refusal)
            self.tell(Trouble(refusal))
