"""Two windows on one setup: the second is refused; two on two setups of one journal: both go on."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from types import ModuleType

import pytest

from guide.journal.event import GENESIS
from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.records.evidence import faults
from guide.rehearse import give, read_answers
from guide.walk.setup import open_setup

HERE = Path(__file__).parent
ANSWERS = HERE.parent / "answers"
SETUP = "walked"

GOING_ON = """
import sys
from pathlib import Path
from guide.journal.store import Store
from guide.plain import Refusal
from guide.front.opening import gone_on
store = Store(Path(sys.argv[1]))
for line in sys.stdin:
    try:
        walk, hold = gone_on(store, sys.argv[2], line.strip())
        print("goes on at", walk.state.sequence, flush=True)
    except Refusal as refusal:
        print(type(refusal).__name__, refusal, flush=True)
"""
"""What a window does when somebody's name was given: it holds the setup and resumes it."""

WALKING = """
import sys
from pathlib import Path
from time import sleep
from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.rehearse import go_on, read_answers
from guide.walk.setup import open_setup
answers, setup, again = read_answers(Path(sys.argv[2])), sys.argv[3], int(sys.argv[4])
procedure = find(answers.procedure)

class Calm(Store):
    def append(self, event, signature=""):
        super().append(event, signature)
        sleep(0.002)

store = Calm(Path(sys.argv[1]), patience=60)
print("ready", flush=True)
sys.stdin.readline()
with store.hold(setup, answers.at(0)):
    walk = open_setup(
        store, procedure, setup=setup, person=answers.person, at=answers.at(0),
        lathe=answers.lathe, mode="rehearsal", typed_at="file",
    )
    for _ in range(again):
        walk.act("pause", {"reason": "the other one"}, person=answers.person, at=answers.at(0))
        walk.act("resume", {}, person=answers.person, at=answers.at(0))
    go_on(walk, answers, answers.answers)
print(walk.state.sequence, walk.state.place, flush=True)
"""
"""A whole rehearsal, first paused and resumed so many times, with a moment after each event."""

RACING = """
import sys
from pathlib import Path
from time import sleep
from guide.journal.event import Event
from guide.journal.store import Store
from guide.plain import NotAllowed
store = Store(Path(sys.argv[1]), patience=60)
print("ready", flush=True)
sys.stdin.readline()
written = refused = 0
while written < int(sys.argv[3]):
    number, previous = store.last("raced")
    sleep(0.0005 * (written % 3))
    told = {"by": sys.argv[2], "number": written}
    at = "2031-03-02T08:00:00.000Z"
    event = Event("raced", number + 1, at, sys.argv[2], "", "try", told, previous)
    try:
        store.append(event)
        written += 1
    except NotAllowed as refusal:
        assert "Someone else has gone on with this setup" in str(refusal), refusal
        refused += 1
print(written, refused, flush=True)
"""
"""Two that append to one chain with nothing that holds either off."""


class Process:
    """A process that says one line for each that it is told."""

    def __init__(self, script: str, *arguments: object) -> None:
        command = [sys.executable, "-c", script, *map(str, arguments)]
        self.child = subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )

    def tell(self, line: str = "") -> None:
        """One line to it."""
        assert self.child.stdin
        self.child.stdin.write(f"{line}\n")
        self.child.stdin.flush()

    def says(self) -> str:
        """One line of it."""
        assert self.child.stdout
        return self.child.stdout.readline().strip()

    def kill(self) -> None:
        """SIGKILL, and nothing of it is left."""
        self.child.kill()
        self.child.communicate()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the journal is."""
    return tmp_path / "home" / "journal.sqlite3"


@pytest.fixture
def process() -> Iterator[Callable[..., Process]]:
    """Starts a process; none is left behind."""
    started: list[Process] = []

    def start(script: str, *arguments: object) -> Process:
        started.append(Process(script, *arguments))
        return started[-1]

    yield start
    for each in started:
        each.kill()


@pytest.fixture
def windows(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """The real program on terminals."""
    monkeypatch.syspath_prepend(str(HERE))
    import windows

    return windows


def begun(path: Path, events: int) -> None:
    """A setup that was left after so many events."""
    answers = read_answers(ANSWERS / "chuck-recheck-inch.yaml")
    with Store(path) as store:
        walk = open_setup(
            store, find(answers.procedure), setup=SETUP, person=answers.person, at=answers.at(0),
            lathe=answers.lathe,
        )  # fmt: skip
        for number, answer in enumerate(answers.answers[: events - 1], start=1):
            give(walk, answer, answers.at(number))


@pytest.mark.parametrize("events", [1, 6, 14, 27])
def test_the_second_is_refused_until_the_first_is_killed(
    path: Path, process: Callable[..., Process], events: int
) -> None:
    """In one sentence that names the process, three times over; then kill -9, and it goes on."""
    begun(path, events)
    first, second = process(GOING_ON, path, SETUP), process(GOING_ON, path, SETUP)
    first.tell("A. Sample")
    assert first.says() == f"goes on at {events + 1}"
    for person in ("A. Sample", "B. Sample", "A. Sample"):
        second.tell(person)
        said = second.says()
        assert said.startswith(f"NotAllowed Setup {SETUP} is open elsewhere: process ")
        assert f"process {first.child.pid}, since " in said
        assert said.endswith("Go on there, or close it there first.")
    first.kill()
    second.tell("A. Sample")
    assert second.says() == f"goes on at {events + 2}"
    with Store.read(path) as store:
        assert store.last(SETUP)[0] == events + 2
        assert list(faults(store)) == []


def test_two_windows_of_the_program_itself(path: Path, windows: ModuleType) -> None:
    """`spindleside resume` on two terminals: the second says where the setup is open and writes
    nothing; when the first is killed with kill -9 the same window goes on.
    """
    begun(path, 1)
    with (
        windows.Window(path.parent, SETUP) as first,
        windows.Window(path.parent, SETUP) as second,
    ):
        for window in (first, second):
            window.until("Who goes on with it?")
            window.until("1 A. Sample")
            window.type("1")
            window.until("▁ A. Sample ▁")
        first.type("\r")
        first.until("Which lathe is this?")
        second.type("\r")
        second.until(f"Setup {SETUP} is open elsewhere: process {first.pid}, since")
        second.until("Go on there, or close it there first.")
        with Store.read(path) as store:
            assert [each.kind for each in store.events(SETUP)] == ["open", "resume"]
        first.kill()
        second.type("\r")
        second.until("Which lathe is this?")
        assert "Traceback" not in second.shown
        with Store.read(path) as store:
            assert [each.kind for each in store.events(SETUP)] == ["open", "resume", "resume"]
            assert list(faults(store)) == []


def test_two_processes_write_two_setups_at_once(
    path: Path, process: Callable[..., Process]
) -> None:
    """208 events each: both chains are whole, so is the one over all, and they wrote in turns."""
    file = ANSWERS / "chuck-recheck-inch.yaml"
    both = [process(WALKING, path, file, setup, 90) for setup in ("one", "other")]
    assert [each.says() for each in both] == ["ready", "ready"]
    for each in both:
        each.tell()
    assert [each.says() for each in both] == ["208 finished", "208 finished"]
    with Store.read(path) as store:
        assert list(faults(store)) == []
        links = list(store.links())
        assert [each.number for each in links] == list(range(1, 417))
        assert [len(store.events(setup)) for setup in ("one", "other")] == [208, 208]
    turns = sum(before.setup != after.setup for before, after in pairwise(links))
    print("turns", turns)
    assert turns >= 20


def test_two_processes_that_race_for_one_chain_write_each_event_once(
    path: Path, process: Callable[..., Process]
) -> None:
    """200 events each, whoever comes second refused: each acknowledged one is in one chain."""
    both = [process(RACING, path, name, 200) for name in ("A. Sample", "B. Sample")]
    assert [each.says() for each in both] == ["ready", "ready"]
    for each in both:
        each.tell()
    told = [each.says().split() for each in both]
    print("written, refused", told)
    assert [written for written, _ in told] == ["200", "200"]
    assert sum(int(refused) for _, refused in told) >= 10
    with Store.read(path) as store:
        events = store.events("raced")
        previous = GENESIS
        for number, event in enumerate(events, start=1):
            assert (event.sequence, event.previous) == (number, previous)
            previous = event.digest
        for name in ("A. Sample", "B. Sample"):
            mine = [each.data["number"] for each in events if each.person == name]
            assert mine == list(range(200))
        assert [each.number for each in store.links()] == list(range(1, 401))
