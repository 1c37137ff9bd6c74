"""Learners with scripts: they see the needle, follow the sheet, and know nothing that is hidden."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from guide.journal.store import Store
from guide.journal.wellformed import stamp
from guide.measure.angles import across
from guide.measure.harmonic import fit
from guide.practice.bench import AT_ITS_END, Bench
from guide.practice.lesson import Lesson
from guide.practice.lessons import lesson
from guide.practice.session import Practised, opened
from guide.procedure.vocabulary import TRIGGER
from guide.walk.advised import next_move, next_screw
from guide.walk.recording import checks_of, offered

PERSON = "A. Sample"
BEGINS = datetime(2030, 1, 31, 7, 5, tzinfo=UTC)


@dataclass
class Learner:
    """Somebody at the bench: what is decided is told by a function of the walk."""

    walk: Practised
    decide: Callable[[Learner], tuple[str, str]]
    """The decision at a verdict, and its reason."""
    positions: int = 8
    told: Callable[[str], str] = str
    """What is typed for what is to be read."""
    signs: bool = True
    """Whether what is below zero is typed so on a face that has no numbers below it."""
    rolled: str = "yes"
    minute: int = 0
    typed: list[str] = field(default_factory=list)
    heard: list[str] = field(default_factory=list)
    """What the bench said while the key was turned."""

    def go(self, most: int = 160) -> Practised:
        """Walk to the end."""
        for _ in range(most):
            if self.walk.state.ended:
                return self.walk
            if not self.walk.fill(self.at()):
                self.step()
        raise AssertionError(f"still at {self.walk.state.place}")

    def at(self) -> str:
        """An invented clock, a minute an entry."""
        self.minute += 1
        return stamp(BEGINS + timedelta(minutes=self.minute))

    def step(self) -> None:
        """Whatever the present step asks."""
        step = self.walk.step
        assert step is not None, self.walk.state.place
        by_kind = {
            "readings": self.read, "correction": self.correct, "tightening": self.tighten,
            "verdict": self.verdict, "gate": self.gate, "task": dict,
        }  # fmt: skip
        data = by_kind.get(step.kind, self.sign)()
        self.walk.act(TRIGGER[step.kind], data, person=PERSON, at=self.at())

    def gate(self) -> dict[str, Any]:
        """Every check by its number."""
        assert self.walk.step
        lines = checks_of(self.walk.step, self.walk.state)
        return {"checks": [*range(1, len(lines) + 1)]}

    def sign(self) -> dict[str, Any]:
        """The name, with a meaning."""
        return {"name": PERSON, "meaning": "practised"}

    def value(self) -> str:
        """What is typed for what the needle shows now."""
        self.walk.bench.note_reading()
        self.typed.append(self.read_off(self.walk.bench.taken[-1][1]))
        return self.typed[-1]

    def read_off(self, shown: str) -> str:
        """What is typed for what is to be read: below zero with a minus, whatever the face."""
        dial, value = self.walk.bench.dial, Decimal(shown)
        below = self.signs and dial.numbering == "continuous" and value * 2 > dial.per_turn
        return self.told(str(value - dial.per_turn if below else value))

    def read(self) -> dict[str, Any]:
        """A turn, or one screw."""
        assert self.walk.step
        if self.walk.step.take == "pair":
            screw = next_screw(self.walk.state)
            self.to(screw)
            return {"screw": screw, "value": self.read_off(self.walk.bench.shown())}
        self.to(1)
        values = [self.value()]
        for _ in range(self.positions):
            self.walk.bench.next_place(self.positions)
            values.append(self.value())
        angles = [f"{each * 360 / self.positions:g}" for each in range(self.positions)]
        data = {"angles": angles, "values": values[:-1], "closing": values[-1]}
        return {**data, "rolled_over": self.rolled}

    def to(self, screw: int) -> None:
        """Turn on, the chosen way, until a screw is under the plunger."""
        count = self.walk.bench.truth.screws
        for _ in range(2 * count):
            if self.walk.bench.under == screw:
                return
            self.walk.bench.next_place(count)

    def correct(self) -> dict[str, Any]:
        """Bring the needle to the value, with the key, a hair at a time."""
        move = next_move(self.walk.state)
        if move is None:
            return {"left": "yes"}
        bench, here = self.walk.bench, self.walk.state.pair["screw"]
        aim = float(move.bring_to)
        which = self.which(here, move.by > 0)
        for screw in bench.screws.against(which):
            self.key(screw, -40)
        self.key_to(which, aim, up=move.by > 0)
        return {"got": self.read_off(bench.shown()), "tightened": which}

    def which(self, here: int, up: bool) -> int:
        """The screw to tighten; where nobody knows, a hair at one shows it."""
        bench = self.walk.bench
        other = across(here, bench.truth.screws)
        sense = self.walk.state.facts.get("sense")
        if sense == "unknown":
            self.key(other or here % bench.truth.screws + 1, -10)
            before = bench.needle()
            self.key(here, 3)
            sense = "toward" if bench.needle() > before else "away"
        if (sense == "toward") == up:
            return here
        return other or max(bench.screws.against(here), key=lambda k: k)

    def key(self, screw: int, hairs: float) -> None:
        """The key into a screw, so many hairs, and out."""
        self.walk.bench.chosen = screw
        self.walk.bench.key_in()
        self.walk.bench.turn_key(hairs)
        self.walk.bench.key_out()

    def key_to(self, screw: int, aim: float, up: bool) -> None:
        """Turn the key in by hairs until the needle is at the value or no longer follows."""
        bench = self.walk.bench
        bench.chosen = screw
        bench.key_in()
        for _ in range(200):
            now = bench.dial.of_inches(bench.needle())
            if (now >= aim) is up and now != aim:
                break
            if said := bench.turn_key(1).sentence:
                self.heard.append(said)
                break
        bench.key_out()

    def tighten(self) -> dict[str, Any]:
        """Bolts as the step says, on the bench and on the sheet."""
        assert self.walk.step
        kind = self.walk.step.tighten
        if kind == "ease":
            self.walk.bench.ease_bolts()
        if kind == "torque":
            self.walk.bench.torque_bolts()
            return {"torque": "33 ft-lb", "source": "invented for practice", "wrench": "yes",
                    "check_pass": "yes"}  # fmt: skip
        return {}

    def verdict(self) -> dict[str, Any]:
        """What is decided."""
        assert self.walk.step
        decision, why = self.decide(self)
        open_here = offered(self.walk.step, self.walk.state)
        if decision not in open_here:
            decision, why = "stop", why or "it does not come within"
        return {"decision": decision, **({"why": why} if decision == "stop" else {})}


def sensible(one: Learner) -> tuple[str, str]:
    """Accept within; read again where the closing reading moved; else another round."""
    state = one.walk.state
    assert state.turn
    first, closing = state.turn.data["values"][0], state.turn.data["closing"]
    dial = one.walk.bench.dial
    off = abs(dial.off(Decimal(closing), dial.to_inches(float(first))))
    turns = sum(each.data.get("decision") == "another-turn" for each in state.entries)
    if off > 2 and turns < 3:
        return "another-turn", ""
    return ("accept" if state.verdict == "within" else "another-round"), ""


def careful(one: Learner) -> tuple[str, str]:
    """As a sensible person, who also feels, looks along the bar and turns it in the jaws."""
    bench = one.walk.bench
    allowed = float(one.walk.kept["tolerance"])
    figures = one.walk.state.turn.figures if one.walk.state.turn else {}
    if felt(bench) > 0.8 * allowed:
        return "stop", "the spindle gives"
    if bench.dial.to_inches(float(figures.get("form") or 0)) > allowed:
        return "stop", "the bar is not round"
    if AT_ITS_END in one.heard:
        return "stop", "the body is at its end"
    if len(bench.stations) > 1 and leans(bench) > allowed:
        return "stop", "it leans"
    if "bar" in one.walk.kept["tools"] and follows_the_bar(bench):
        return "stop", "it is the bar"
    return sensible(one)


def felt(bench: Bench) -> float:
    """How much it gives to a push and a pull."""
    seen = [(bench.push(hand), bench.needle())[1] for hand in (-1, 1)]
    bench.push(0)
    return seen[1] - seen[0]


def middle(bench: Bench) -> complex:
    """Where the bar's middle is seen to be, watching a whole turn."""
    found = fit([*range(0, 360, 30)], [bench.needle(each) for each in range(0, 360, 30)])
    return complex(found.a, found.b)


def leans(bench: Bench) -> float:
    """How much the runout differs between here and the next station."""
    here = middle(bench)
    bench.slide_indicator()
    there = middle(bench)
    bench.slide_indicator()
    return abs(there - here)


def follows_the_bar(bench: Bench) -> bool:
    """Whether what is out goes round with the bar."""
    here = middle(bench)
    bench.turn_bar()
    return abs(middle(bench) + here) < abs(middle(bench) - here)


@dataclass
class Room:
    """Opens practice setups in a journal."""

    store: Store
    number: int = 0

    def open(self, one: Lesson | str, seed: int = 1) -> Practised:
        """A new practice setup of a lesson."""
        self.number += 1
        found = lesson(one) if isinstance(one, str) else one
        name = f"practice-{self.number}"
        return opened(self.store, found, seed, setup=name, person=PERSON, at=stamp(BEGINS))

    def walked(self, one: Lesson | str, seed: int = 1, **how: Any) -> Practised:
        """A practice setup that was walked to its end."""
        return Learner(self.open(one, seed), **{"decide": sensible, **how}).go()


@pytest.fixture
def room(tmp_path: Path) -> Iterator[Room]:
    """A journal of this test's own."""
    with Store(tmp_path / "journal.sqlite3") as store:
        yield Room(store)


@pytest.fixture
def learner() -> type[Learner]:
    """Somebody with a script."""
    return Learner


@pytest.fixture
def with_care() -> Callable[[Learner], tuple[str, str]]:
    """How a careful person decides."""
    return careful
