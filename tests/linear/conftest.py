"""A terminal with the front end of lines in it, and somebody who answers from an answers file."""

from __future__ import annotations

import os
import re
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from random import Random
from typing import Any

import pexpect
import pytest

from guide.front.opening import now
from guide.front.results import MEANINGS
from guide.journal.store import Store
from guide.measure.angles import of_screw
from guide.people.people import People
from guide.people.rules import Rules
from guide.practice.chuck import Chuck
from guide.practice.hands import Hands
from guide.practice.truth import drawn
from guide.procedure.model import Step
from guide.procedure.shelf import find
from guide.rehearse import as_seen, read_answers
from guide.walk.flow import looks
from guide.walk.recording import TURNS_ON_THE_BAR, checks_of
from guide.walk.sensible import NEXT_CHECKS
from guide.walk.setup import open_setup
from guide.walk.state import MAKING_SURE

TOP = Path(__file__).parents[2]
ANSWERS = TOP / "tests" / "answers"
AT = "2030-01-31T07:05:00.000Z"
PIN = "four tin horses"
PROGRAM = "import guide.linear.gate as gate, guide.journal.keys as keys; {before}; keys.COST = 2**10; from guide.cli.main import run; run({arguments})"  # noqa: E501 # one line to be run
QUICK = "gate.QUIET = 0.03"
"""For the way to what a test is about: a gate waits less for what may come behind a line."""
CODE = re.compile(r"type (\d{3}) and Enter")
PROMPT = "> "
LONGEST = 20
"""Seconds in which the program says something, however busy the machine is."""


class Terminal:
    """A terminal with the program in it, worked line by line."""

    def __init__(self, home: Path, *arguments: str, before: str = "pass", **env: str) -> None:
        told = {**os.environ, "SPINDLESIDE_HOME": str(home), "TERM": "dumb", "LC_ALL": "C.UTF-8",
                "PYTHONPATH": str(TOP), **env}  # fmt: skip
        self.child = pexpect.spawn(
            sys.executable,
            ["-c", PROGRAM.format(before=before, arguments=[*arguments])],
            dimensions=(24, 80), env=told, timeout=10, encoding="utf-8",
        )  # fmt: skip
        self.child.delaybeforesend = None
        self.all = ""
        """Everything that was ever written, what the terminal showed of answers too."""
        self.last = ""
        """What was written since the last answer."""

    def prompt(self) -> str:
        """What is said until something is asked, and nothing more comes."""
        told = ""
        while not told.endswith(f"\n{PROMPT}"):
            try:
                told += self.child.read_nonblocking(65536, LONGEST)
            except (pexpect.TIMEOUT, pexpect.EOF) as error:
                raise AssertionError(f"nothing is asked after:\n{self.last}\n{told}") from error
            told = told.replace("\r\n", "\n")
        self.all, self.last = self.all + told, told
        return told

    def send(self, text: str) -> str:
        """An answer and Enter; what is said then."""
        self.child.send(f"{text}\r")
        return self.prompt()

    def end(self) -> str:
        """What is said until the program has ended."""
        told = self.child.read().replace("\r\n", "\n")
        self.all += told
        self.child.wait()
        return told

    def code(self) -> str:
        """The number of the check that was read out."""
        found = CODE.findall(" ".join(self.last.split()))
        assert found, self.last
        return found[-1]

    def confirm(self) -> str:
        """The check that was read out, as a person does it: a moment later, alone."""
        time.sleep(0.04)
        return self.send(self.code())


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A journal where nobody signs on."""
    with Store(tmp_path / "journal.sqlite3") as store:
        People(store).set_rules("A. Sample", Rules(sign_on=False), AT)
    return tmp_path


@pytest.fixture
def shop(tmp_path: Path) -> Callable[..., Path]:
    """A journal in which three people sign on, with the same PIN."""

    def settle(**rules: Any) -> Path:
        with pytest.MonkeyPatch.context() as patch, Store(tmp_path / "journal.sqlite3") as store:
            patch.setattr("guide.journal.keys.COST", 2**10)
            people = People(store)
            first = people.first("A. Sample", PIN, AT)
            people.add(first, "B. Sample", "apprentice", PIN, AT)
            people.add(first, "C. Sample", "machinist", PIN, AT)
            people.set_rules(first, Rules(**rules), AT)
        return tmp_path

    return settle


@pytest.fixture
def terminal() -> Iterator[Callable[..., Terminal]]:
    """Opens terminals; their programs are gone afterwards."""
    opened: list[Terminal] = []

    def begin(*given: Any, **more: Any) -> Terminal:
        opened.append(Terminal(*given, **more))
        return opened[-1]

    yield begin
    for each in opened:
        each.child.close(force=True)


def still_to_come(data: Mapping[str, Any]) -> dict[str, Any]:
    """The same answers with a day of the next check that has not gone by: they are given today."""
    facts = data.get("facts")
    if not isinstance(facts, Mapping):
        return dict(data)
    later = {each: "2031-03-02" for each in NEXT_CHECKS if each in facts}
    return {**data, "facts": {**facts, **later}}


class Person:
    """Answers what is asked: by an answers file, and at the dial by a simulated chuck.

    Every answer is given with the engine too, beside the terminal, to compare what comes of it.
    """

    def __init__(
        self, at: Terminal, answers_file: str, store: Store, name: str = "", lathe: str = ""
    ) -> None:
        answers = read_answers(ANSWERS / f"{answers_file}.yaml")
        self.at, self.person, self.lathe = at, name or answers.person, lathe or answers.lathe
        self.known = {each.step: still_to_come(each.data) for each in reversed(answers.answers)}
        self.positions: dict[str, int] = {}
        """At how many places a turn is read, where not at eight."""
        self.hands = Hands(Chuck(drawn(Random(7), 0.0001), Random(8)), 0.0001)
        told = dict(self.known.get("chuck-facts", {}).get("facts", {}))
        if "sense" in told:
            told["sense"] = self.hands.chuck.truth.sense
        self.known["chuck-facts"] = {"facts": told}
        self.walk = open_setup(
            store, find(answers.procedure), setup="beside", person=self.person, at=now(),
            lathe=self.lathe,
        )  # fmt: skip

    @property
    def said(self) -> str:
        """What was said last, on one line."""
        return " ".join(self.at.last.split())

    def begin(self) -> None:
        """Who and which lathe."""
        self.at.prompt()
        self.at.send(self.person)
        self.at.send(self.lathe)

    def to(self, *places: str) -> None:
        """Answer until the walk stands at one of these places."""
        while self.walk.state.place not in places:
            self.answer()

    def besides(self, words: str, *lines: str) -> None:
        """Something of the list behind `*`."""
        number = re.search(rf"(\d+): {words}", self.at.send("*"))
        assert number, self.at.last
        for line in (number[1], *lines):
            self.at.send(line)

    def act(self, trigger: str, **data: Any) -> None:
        """The same with the engine."""
        self.walk.act(trigger, data, person=data.pop("by", self.person), at=now())

    def answer(self) -> None:
        """One page."""
        step, state = self.walk.step, self.walk.state
        if step is None or looks(step):
            self._look(state.place)
        elif step.kind == "gate":
            self.gate()
        elif step.kind == "readings":
            self._readings(step)
        else:
            self._by_kind(step)

    def gate(self) -> None:
        """Every check by its own number."""
        numbers = [str(n) for n, _ in enumerate(checks_of(self._step, self.walk.state), start=1)]
        for _ in numbers:
            self.at.confirm()
        self.act("acknowledge", checks=numbers)

    @property
    def _step(self) -> Step:
        assert self.walk.step is not None
        return self.walk.step

    def _look(self, place: str) -> None:
        """What is to be expected; making sure finds the same."""
        rest = "as-recorded" if place == MAKING_SURE else "as-expected"
        told = {"rest": rest}
        if place == MAKING_SURE:
            told |= {"dressed": "for-turning", "bystanders": "clear"}
        seen = as_seen(self.walk, told)
        for each in (*seen.values(), "0"):
            self.at.send(each)
        self.act("record" if place == MAKING_SURE else "done", seen=seen)

    def _readings(self, step: Step) -> None:
        """Play as in the file; at the screws and round the bar what the simulated dial shows."""
        data = dict(self.known.get(step.name, {}))
        if step.take in ("play", "along"):
            self._lines("record", data, *data.values(), "0")
        elif step.take == "pair":
            asked = re.search(r"Screw (\d) under the plunger, hands off", self.said)
            assert asked, self.said
            data = {"screw": int(asked[1]), "value": self._reads(of_screw(int(asked[1]), 4))}
            self._lines("record", data, data["value"], "1")
        else:
            if step.serves_as in TURNS_ON_THE_BAR or step.name in self.positions:
                count = self.positions.get(step.name, 8)
                angles = [f"{n * 360 // count}" for n in range(count)]
                *values, closing = [self._reads(float(each)) for each in (*angles, "0")]
                data = {"angles": angles, "values": values, "closing": closing}
            watched: tuple[str, ...] = ("",)
            if step.serves_as == "as-left":
                watched = (min(data["values"], key=float), max(data["values"], key=float))
                data["watched"] = [*watched]
            read_at = str(len(data["values"]))
            self._lines("record", data, read_at, *data["values"], data["closing"], *watched, "1")

    def _reads(self, angle: float) -> str:
        """The simulated dial."""
        return f"{self.hands.read([angle])[0]:.4f}"

    def _lines(self, trigger: str, data: dict[str, Any], *lines: str) -> None:
        """Lines in the terminal, and what they come to with the engine."""
        for each in lines:
            self.at.send(each)
        self.act(trigger, **data)

    def _by_kind(self, step: Step) -> None:
        """A task, facts, a move, a tightening, a verdict, the sign-off."""
        data = dict(self.known.get(step.name, {}))
        if step.kind == "task":
            if step.name == "bar-half-round":
                self.hands.chuck.turn_bar()
            self._lines("done", {}, "1")
        elif step.kind == "facts":
            told = [str(data["facts"][name]) for name in step.ask]
            self._lines("record", data, *told, *("0",) * (len(told) > 1))
        elif step.kind == "correction":
            self._move()
        elif step.kind == "tightening":
            self._tighten(step, data)
        elif step.kind == "verdict":
            numbers = dict(re.findall(r"(\d): (accept it|correct it)", self.at.last))
            words = {text: number for number, text in numbers.items()}
            good = "accept it" in words
            decision = "accept" if good else "another-round"
            number = words["accept it" if good else "correct it"]
            self._lines("record", {"decision": decision}, number)
        else:
            data = {"name": self.walk.state.person, "meaning": MEANINGS["did"]}
            self._lines("record", data, "1", "1", "0")

    def _move(self) -> None:
        """What the program says: which screw, by how much, which to tighten; or nothing to do."""
        move = re.search(r"Screw (\d) is under.*Bring the dial to .* from \S+: (\S+) in", self.said)
        if move is None:
            self._lines("record", {"left": "yes"}, "1")
            return
        tighten = [int(each) for each in re.findall(r"tighten: screw (\d)", self.said)]
        got = self.hands.move(int(move[1]), float(move[2]), tighten).reads
        self._lines("record", {"got": f"{got:.4f}"}, f"{got:.4f}", "1")

    def _tighten(self, step: Step, data: dict[str, Any]) -> None:
        """The simulated bolts and screws too."""
        if step.tighten not in ("torque", "check"):
            if step.tighten == "nip":
                self.hands.chuck.nip()
            self._lines("record", {}, "1")
            return
        self.hands.torque()
        data = dict(self.known["round-torque"])
        told = (data["wrench"], data["torque"], data["source"], data["check_pass"])
        self._lines("record", data, *told, "0")


@pytest.fixture
def person(tmp_path: Path) -> Iterator[Callable[..., Person]]:
    """Somebody with an answers file at a terminal."""
    with Store(tmp_path / "beside" / "journal.sqlite3") as store:
        yield lambda at, answers, **who: Person(at, answers, store, **who)


@pytest.fixture
def quick() -> str:
    """What makes gates wait less for what may come behind a line."""
    return QUICK


@pytest.fixture
def pin() -> str:
    """The PIN of everybody in the invented shop."""
    return PIN


@pytest.fixture
def on_screens() -> Any:
    """The hands that walk the screens, and their invented chuck (the tests are no package)."""
    path = Path(__file__).parents[1] / "screens" / "conftest.py"
    spec = spec_from_file_location("hands_on_screens", path)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
