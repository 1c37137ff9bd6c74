"""A journal with nobody in it, or with a small invented shop; PINs are stretched a little only."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from guide.journal import keys
from guide.journal.store import Store
from guide.people.hand import Hand
from guide.people.people import People

A, B, C = "A. Sample", "B. Sample", "C. Sample"
PINS = {A: "four tin horses", B: "nine wet boots", C: "two red doors"}


class Shop(NamedTuple):
    """The people of a journal, and the hands of those who signed on."""

    people: People
    hands: dict[str, Hand]
    at: Callable[..., str]


def at(hour: int = 8, minute: int = 0, second: int = 0, millis: int = 0) -> str:
    """A time of an invented day."""
    return f"2031-03-02T{hour:02}:{minute:02}:{second:02}.{millis:03}Z"


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """PINs are stretched a little only."""
    monkeypatch.setattr(keys, "COST", 2**10)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Where the journal is."""
    return tmp_path / "home" / "journal.sqlite3"


@pytest.fixture
def store(file: Path) -> Iterator[Store]:
    """An empty journal."""
    with Store(file) as store:
        yield store


@pytest.fixture
def people(store: Store) -> People:
    """The people of an empty journal."""
    return People(store)


@pytest.fixture
def shop(people: People) -> Any:
    """A. Sample is a supervisor, B. Sample a machinist, C. Sample an apprentice."""
    first = people.first(A, PINS[A], at())
    people.add(first, B, "machinist", PINS[B], at())
    people.add(first, C, "apprentice", PINS[C], at())
    return Shop(people, {name: people.sign_on(name, pin, at()) for name, pin in PINS.items()}, at)
