"""A short invented setup with one event of every kind, walked through the real engine."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from itertools import count, islice
from pathlib import Path
from types import MappingProxyType
from typing import Any

import pytest

from guide.journal import keys
from guide.journal.store import Store
from guide.people.hand import Hand
from guide.people.people import People
from guide.procedure.load import load
from guide.procedure.model import Procedure
from guide.walk.looking import ASKED
from guide.walk.setup import Setup, open_setup
from guide.walk.world import as_dict

FACTS = {
    "nose": "camlock",
    "guard-fitted": "yes",
    "chuck": "Chuck 7 (invented)",
    "unit": "in",
    "tolerance": "0.001 in",
    "graduation": "0.0001 in",
    "rule": "guarded",
    "screw-count": "4",
    "bolt-count": "6",
    "bar-diameter": "1.25 in",
    "station": "4 in",
    "recheck-date": "2031-06-30",
}
SEEN = {
    "power": "isolated", "controls": "neutral", "spindle": "free", "seat": "locked",
    "body": "on-plate", "bolts": "tight", "screws": "nipped", "carried": "nothing",
    "lifting-gear": "away", "chuck-key": "out", "screw-key": "out", "spanner": "out",
    "small-things": "cleared", "jaws": "on-bar", "indicator": "off", "guard": "open",
    "bystanders": "clear", "dressed": "for-turning",
}  # fmt: skip
AS_FOUND = {
    "angles": ["0", "45", "90", "135", "180", "225", "270", "315"],
    "values": [
        "0.0000", "-0.0003", "-0.0010", "-0.0017", "-0.0020", "-0.0017", "-0.0010", "-0.0003"
    ],
    "closing": "0.0000",
    "watched": ["-0.0020", "0.0000"],
}  # fmt: skip
AS_LEFT = AS_FOUND | {
    "values": ["0.0000", "0.0000", "0.0001", "0.0001", "0.0001", "0.0001", "0.0000", "0.0000"],
    "watched": ["0.0000", "0.0001"],
}
Act = tuple[str, Mapping[str, Any], str]
TORQUE = {"torque": "33 ft-lb", "source": "stamped on the plate", "wrench": "no"}

Walk = Callable[..., Setup]
Hands = dict[str, Hand]


@pytest.fixture(scope="session")
def paper() -> Procedure:
    """The short procedure."""
    return load(Path(__file__).with_name("paper.yaml"))


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """An empty journal."""
    with Store(tmp_path / "home" / "journal.sqlite3") as store:
        yield store


def seen_now(walk: Setup, **found: str) -> dict[str, Any]:
    """Everything as it is recorded but for what was found."""
    recorded = {n: v for n, v in as_dict(walk.state.world).items() if n in ASKED}
    return recorded | {"dressed": "for-turning", "bystanders": "clear"} | found


def script(walk: Setup, second: str, note: str, facts: Mapping[str, str]) -> Iterator[Act]:
    """Everything that is done, as trigger, data and who does it from here on."""
    yield "record", {"facts": FACTS | dict(facts)}, ""
    yield "done", {"seen": SEEN}, ""
    yield "acknowledge", {"checks": ["1", "2"], "seconds": "1.5"}, ""
    yield "pause", {"why": note}, ""
    yield "resume", {}, ""
    yield "record", {"seen": seen_now(walk, guard="shut")}, ""
    yield "done", {}, ""
    yield "record", {"pushed": "0.0000", "pulled": "-0.0002"}, ""
    yield "record", AS_FOUND, ""
    yield "take-over", {}, second
    yield "record", {"seen": seen_now(walk, dressed="other")}, ""
    yield "acknowledge", {"checks": ["2", "1", "3"], "seconds": "31"}, ""
    yield "done", {}, ""
    yield "record", {"pushed": "0.0000", "pulled": "-0.0002"}, ""
    yield "record", AS_FOUND, ""
    chuck, renamed = (FACTS | dict(facts))["chuck"], f"{facts.get('chuck', 'Chuck')} 8"
    yield "correct", {"fact": "chuck", "old": chuck, "new": renamed, "why": note}, ""
    yield "record", {"decision": "another-round"}, ""
    yield "record", {}, ""
    yield "record", {"screw": 3, "value": "-0.0020"}, ""
    yield "record", {"got": "-0.0011", "tightened": 3}, ""
    yield "record", TORQUE, ""
    yield "record", {}, ""
    yield "record", AS_LEFT, ""
    yield "record", {"decision": "accept"}, ""
    yield "done", {}, ""
    yield "record", {"name": second, "meaning": "handed over as left"}, ""


@pytest.fixture
def hands(store: Store, monkeypatch: pytest.MonkeyPatch) -> Callable[[str, str], Hands]:
    """Two people who sign on to this journal: a supervisor and a machinist, with cheap seals."""
    monkeypatch.setattr(keys, "COST", 2**4)

    def made(first: str, second: str) -> Hands:
        people, at = People(store), "2031-03-02T07:00:00.000Z"
        one = people.first(first, "lathe-bed", at)
        people.add(one, second, "machinist", "tool-post", at)
        return {first: one, second: people.sign_on(second, "tool-post", at)}

    return made


@pytest.fixture
def walked(store: Store, paper: Procedure, hands: Callable[[str, str], Hands]) -> Walk:
    """Walks it to its end: a pause, a change found, a take-over, a corrected answer, haste."""

    def walk(
        first: str = "A. Sample",
        second: str = "B. Sample",
        note: str = "dinner break",
        facts: Mapping[str, str] = MappingProxyType({}),
        setup: str = "on-paper",
        mode: str = "real",
        typed_at: str = "terminal",
        events: int = 99,
        signed: bool = False,
    ) -> Setup:
        at = map("2031-03-02T08:{:02}:05.000Z".format, count())
        opening = {
            "setup": setup,
            "mode": mode,
            "typed_at": typed_at,
            "lathe": "Lathe 2 (invented)",
        }
        signing = hands(first, second) if signed else {}
        hand = signing.get(first)
        made = open_setup(store, paper, person=first, at=next(at), hand=hand, **opening)
        made.hands.update(signing)
        person = first
        for trigger, data, now in islice(script(made, second, note, facts), events):
            person = now or person
            made.act(trigger, data, person=person, at=next(at))
        return made

    return walk


@contextmanager
def opened(path: Path) -> Iterator[sqlite3.Connection]:
    """The journal file in the hands of somebody with a database tool."""
    base = sqlite3.connect(path)
    try:
        with base:
            yield base
    finally:
        base.close()


@pytest.fixture
def sql() -> Callable[[Path], AbstractContextManager[sqlite3.Connection]]:
    """Opens a journal file past the program."""
    return opened


@pytest.fixture
def spoil() -> Callable[[Path, str, int, str, str], None]:
    """Changes a piece of one event's stored text, with a plain UPDATE."""

    def change(path: Path, setup: str, sequence: int, old: str, new: str) -> None:
        where = "WHERE setup = ? AND sequence = ?"
        with opened(path) as base:
            changed = base.execute(
                f"UPDATE event SET body = replace(body, ?, ?) {where} AND instr(body, ?)",
                (old, new, setup, sequence, old),
            )
            assert changed.rowcount == 1

    return change
