"""A link to an indicator over a real pseudo-terminal: heard, lost, found again, never hanging."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from guide.instruments.instrument import Instrument
from guide.instruments.link import Back, Link, Streams, Trouble
from guide.instruments.port import NOT_OPENED, not_opened, opened
from guide.instruments.understood import Odd, Over, Value
from guide.plain import Refusal


class Heard:
    """A link and everything that it told."""

    def __init__(self, port: str, opening: Any = opened, **more: Any) -> None:
        self.told: list[Any] = []
        instrument = Instrument("Indicator 3", port, **more)
        self.link = Link(instrument, self.told.append, opening)
        self.link.again = 0.05
        self.link.start()
        time.sleep(0.2)

    def until(self, count: int, seconds: float = 5) -> list[Any]:
        """Everything told, once it is so much."""
        end = time.monotonic() + seconds
        while len(self.told) < count and time.monotonic() < end:
            time.sleep(0.01)
        return self.told


@pytest.fixture
def heard() -> Iterator[Callable[..., Heard]]:
    """Begins to listen at a port; afterwards every port is let go."""
    begun: list[Heard] = []

    def listen(port: str, **more: Any) -> Heard:
        begun.append(Heard(port, **more))
        return begun[-1]

    yield listen
    for each in begun:
        each.link.stop()
    assert all(each.link.wait() for each in begun)


def test_values_come_through_a_port(indicator, heard) -> None:
    """One, two in one piece, one byte by byte, by every usual end."""
    far = indicator()
    at = heard(far.port)
    far.sends(b"+0.0012\r\n")
    assert at.until(1) == [Value("0.0012", "in")]
    far.sends(b"-0.0001\r0.0002 in\n")
    assert at.until(3)[1:] == [Value("-0.0001", "in"), Value("0.0002", "in")]
    for each in b"0.0003\r":
        far.sends(bytes([each]))
        time.sleep(0.15)
    assert at.until(4)[3:] == [Value("0.0003", "in")]


def test_half_a_line_and_a_lost_link_and_it_is_back(indicator, heard, tmp_path: Path) -> None:
    """Told once; the half is forgotten; the next whole line on the new wire is a value."""
    first, port = indicator(), tmp_path / "port"
    port.symlink_to(first.port)
    at = heard(str(port))
    first.sends(b"0.00")
    time.sleep(0.2)
    first.unplug()
    assert isinstance(at.until(1)[0], Trouble)
    second = indicator()
    os.unlink(port)
    port.symlink_to(second.port)
    end = time.monotonic() + 5
    while Back() not in at.told and time.monotonic() < end:
        time.sleep(0.01)
    second.sends(b"34\r")
    at.until(len(at.told) + 1, 0.5)
    assert at.told[-2:] == [Back(), Value("34", "in")]
    assert "the link on" in str(at.told[0].why)
    assert sum(isinstance(each, Value) for each in at.told) == 1


def test_what_was_sent_before_anybody_listened_is_not_taken(heard) -> None:
    """Nor the end of a line that was under way."""
    pieces = [b"0.5\r0.00", b"12\r0.2\r"]

    class Far:
        """A port on which a line is under way when it is opened."""

        def read(self) -> bytes:
            time.sleep(0.01)
            return pieces.pop(0) if pieces else b""

        def close(self) -> None: ...

    at = heard("invented", opening=lambda _: Far())
    assert at.until(1) == [Value("0.2", "in")]


@pytest.mark.parametrize(
    "piece", [b"\xff\x00\x1b[2J" * 128, b"odd\r\n" * 200], ids=["endless", "lines"]
)
def test_a_megabyte_of_garbage_does_not_hang_or_flood(indicator, heard, piece: bytes) -> None:
    """It is told now and then, nothing of it is kept, and the next value is heard."""
    far = indicator()
    at = heard(far.port)
    began = time.monotonic()
    for _ in range(2**20 // len(piece)):
        far.sends(piece)
    took = time.monotonic() - began
    far.sends(b"\r0.0012\r")
    end = time.monotonic() + 5
    while Value("0.0012", "in") not in at.told and time.monotonic() < end:
        time.sleep(0.01)
    assert at.told[-1] == Value("0.0012", "in")
    assert {type(each) for each in at.told[:-1]} == {Odd}
    assert len(at.told) <= took + 3
    assert at.link.frames.kept == 0
    assert took < 20


def test_past_its_range_and_a_stream_are_told(indicator, heard) -> None:
    """A stream once, and none of its later values is taken."""
    far = indicator()
    at = heard(far.port)
    far.sends(b"OL\r")
    assert at.until(1) == [Over("OL")]
    for n in range(20):
        far.sends(b"0.%03d\r" % n)
        time.sleep(0.02)
    time.sleep(0.2)
    kinds = [type(each) for each in at.told[1:]]
    assert kinds == [Value] * 4 + [Streams]


def test_an_indicator_that_has_to_be_asked_is_asked(indicator, heard) -> None:
    """Only when somebody wants a value."""
    far = indicator()
    at = heard(far.port, ask="R\\r")
    assert far.hears(0.3) == b""
    at.link.ask()
    assert far.hears() == b"R\r"
    far.sends(b"0.1\r")
    assert at.until(1) == [Value("0.1", "in")]


def why(instrument: Instrument) -> str:
    """Why a port does not open."""
    with pytest.raises(Refusal) as raised:
        opened(instrument)
    return str(raised.value)


def test_why_a_port_does_not_open_is_one_sentence(indicator, heard, tmp_path: Path) -> None:
    """None there, in use by another, no port at all, no right: each in its own words."""
    assert "there is no port" in why(Instrument("I", "/dev/no-such-port"))
    far = indicator()
    heard(far.port)
    assert "another program is using" in why(Instrument("I", far.port))
    (tmp_path / "file").write_text("")
    assert "cannot be opened as a serial port" in why(Instrument("I", str(tmp_path / "file")))
    denied = not_opened(Instrument("I", "/dev/ttyS0"), PermissionError(13, "denied"))
    assert denied.sentence == NOT_OPENED["right"][0]


def test_without_the_library_it_is_said_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is an extra."""
    monkeypatch.setitem(__import__("sys").modules, "serial", None)
    assert "pip install 'spindleside[serial]'" in why(Instrument("I", "/dev/ttyS0"))


def test_trouble_is_told_once_and_stopping_does_not_wait(heard) -> None:
    """However often it is tried again."""
    at = heard("/dev/no-such-port")
    time.sleep(0.4)
    assert len(at.told) == 1
    began = time.monotonic()
    at.link.stop()
    assert time.monotonic() - began < 0.05
