"""A process killed at any moment: every event it was told is written is there, and the chain."""

from __future__ import annotations

import subprocess
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from guide.journal.event import Event
from guide.journal.store import Store
from guide.journal.verify import findings

Process = Callable[..., "subprocess.Popen[str]"]
POINTS = 36

WRITER = """
import sys
from pathlib import Path
from guide.journal.event import Event
from guide.journal.store import Store
store = Store(Path(sys.argv[1]))
number, previous = store.last("demo-1")
while True:
    number += 1
    event = Event("demo-1", number, "2030-01-31T07:05:00.000Z", "A. Demo", "snug", "record",
                  {"reading": "0.001", "note": "x" * (number * 37 % 5000)}, previous)
    store.append(event)
    previous = event.digest
    print(number, previous, flush=True)
"""

OPENER = """
import sys
from pathlib import Path
from guide.journal.store import Store
print("go", flush=True)
sys.stdin.readline()
Store(Path(sys.argv[1])).keep_text(sys.argv[2])
sys.stdin.read()
"""


def go(child: subprocess.Popen[str]) -> None:
    """Waits until the opener has loaded all it needs, and lets it open the journal."""
    assert child.stdin
    assert child.stdout
    child.stdout.readline()
    child.stdin.write("\n")
    child.stdin.flush()


def killed_while_writing(child: subprocess.Popen[str], after: int, delay: float) -> list[str]:
    """Kills the writer some time after so many lines; gives every line that it got out."""
    assert child.stdout
    lines = [child.stdout.readline() for _ in range(after)]
    time.sleep(delay)
    child.kill()
    return [line for line in (*lines, *child.stdout) if line.endswith("\n")]


def test_every_acknowledged_event_survives_a_kill_at_any_moment(
    path: Path, process: Process
) -> None:
    """Three dozen kills of one growing journal, spread over the time that an append takes."""
    acknowledged: dict[int, str] = {}
    for point in range(POINTS):
        child = process(WRITER, path)
        for line in killed_while_writing(child, 1 + point % 5, point * 0.0001):
            number, digest = line.split()
            acknowledged[int(number)] = digest
        with Store.read(path) as reader:
            stored = {event.sequence: event.digest for event in reader.stream("demo-1")}
        assert acknowledged.items() <= stored.items()
        assert len(stored) - len(acknowledged) <= point + 1
    assert len(acknowledged) >= POINTS
    with Store(path) as store:
        assert list(findings(store)) == []
        assert len(store.events("demo-1")) == store.last("demo-1")[0]


@pytest.mark.parametrize("delay", [0, 0.0005, 0.001, 0.0015, 0.002, 0.003, 0.004, 0.006])
def test_a_journal_killed_while_it_is_made_can_be_opened(
    path: Path, process: Process, chained: Callable[..., list[Event]], delay: float
) -> None:
    """Whatever is there of the file by then, the next opening makes a whole journal of it."""
    child = process(OPENER, path, "procedure")
    go(child)
    time.sleep(delay)
    child.kill()
    child.wait()
    with Store(path) as store:
        for event in chained():
            store.append(event)
        assert list(findings(store)) == []


def test_several_processes_may_make_the_same_journal_at_once(path: Path, process: Process) -> None:
    """All of them come through, and it is made once."""
    children = [process(OPENER, path, f"text {number}") for number in range(4)]
    for child in children:
        go(child)
    for child in children:
        child.communicate(timeout=20)
    assert [child.returncode for child in children] == [0] * 4
    with Store.read(path) as reader:
        assert len(list(reader.texts())) == 4
