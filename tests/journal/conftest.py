"""A journal of its own for each test, and a setup of a few invented events in it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

import guide
from guide.journal.event import GENESIS, Event
from guide.journal.store import Store

AT = "2030-01-31T07:05:00.000Z"
STEPS = ("opening", "isolate", "clean-nose", "as-found", "snug", "handing-over")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where this test's journal is, or will be; its folder is not there yet."""
    return tmp_path / "home" / "journal.sqlite3"


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """An open, empty journal."""
    with Store(path, patience=0.1) as store:
        yield store


@pytest.fixture
def chained() -> Callable[..., list[Event]]:
    """Makes a setup's events, each holding the digest of the one before (invented data)."""

    def made(setup: str = "demo-1", count: int = len(STEPS)) -> list[Event]:
        events: list[Event] = []
        for number in range(1, count + 1):
            data = {"reading": f"0.00{number}", "unit": "in", "screws": [1, number]}
            previous = events[-1].digest if events else GENESIS
            step, kind = STEPS[(number - 1) % len(STEPS)], "record" if number > 1 else "open"
            events.append(Event(setup, number, AT, "A. Demo", step, kind, data, previous))
        return events

    return made


@pytest.fixture
def walked(store: Store, chained: Callable[..., list[Event]]) -> list[Event]:
    """The events of setup demo-1, written into `store`."""
    events = chained()
    for event in events:
        store.append(event)
    return events


@pytest.fixture
def outside() -> Callable[[str], Any]:
    """Reads a file of values that were not made here."""
    folder = Path(__file__).parents[1] / "outside"

    def read(name: str) -> Any:
        text = (folder / name).read_text(encoding="utf-8")
        return json.loads(text) if name.endswith(".json") else text

    return read


@pytest.fixture
def process() -> Iterator[Callable[..., subprocess.Popen[str]]]:
    """Starts a program as a process of its own, and kills what is left of it afterwards."""
    started: list[subprocess.Popen[str]] = []
    environment = os.environ | {"PYTHONPATH": str(Path(guide.__file__).parents[1])}

    def start(program: str, *arguments: object) -> subprocess.Popen[str]:
        command = [sys.executable, "-c", program, *map(str, arguments)]
        pipe = subprocess.PIPE
        started.append(
            subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True, env=environment)
        )
        return started[-1]

    yield start
    for child in started:
        child.kill()
        child.communicate()
