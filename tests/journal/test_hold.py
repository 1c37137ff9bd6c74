"""One process at a time has a setup open, and a dead one has none."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.plain import NotAllowed

Process = Callable[..., "subprocess.Popen[str]"]
AT = "2030-01-31T07:05:00.000Z"
LATER = "2030-01-31T08:00:00.000Z"

HOLDER = """
import sys
from pathlib import Path
from guide.journal.store import Store
from guide.plain import NotAllowed
store = Store(Path(sys.argv[1]))
try:
    hold = store.hold(sys.argv[2], sys.argv[3])
    print("held", flush=True)
except NotAllowed as refused:
    print(refused, flush=True)
sys.stdin.read()
"""


def answer(child: subprocess.Popen[str]) -> str:
    """The one line that the other process says."""
    assert child.stdout
    return child.stdout.readline().strip()


def test_another_process_is_refused_until_this_one_lets_go(
    path: Path, store: Store, process: Process
) -> None:
    """It is told where the setup is open and since when."""
    with store.hold("demo-1", AT):
        assert answer(process(HOLDER, path, "demo-1", LATER)) == (
            f"Setup demo-1 is open elsewhere: process {os.getpid()}, since {AT}."
            " Go on there, or close it there first."
        )
    assert answer(process(HOLDER, path, "demo-1", LATER)) == "held"


def test_a_killed_process_holds_nothing(path: Path, store: Store, process: Process) -> None:
    """SIGKILL, which no program can answer; the note it left behind misleads nobody."""
    child = process(HOLDER, path, "demo-1", AT)
    assert answer(child) == "held"
    with pytest.raises(NotAllowed, match=f"process {child.pid}, since {AT}"):
        store.hold("demo-1", LATER)
    child.kill()
    child.wait()
    with store.hold("demo-1", LATER):
        assert f"since {LATER}" in answer(process(HOLDER, path, "demo-1", AT))


def test_other_setups_are_free(path: Path, store: Store, process: Process) -> None:
    """A hold is of one setup."""
    with store.hold("demo-1", AT):
        assert answer(process(HOLDER, path, "demo-2", LATER)) == "held"


def test_the_same_process_cannot_hold_a_setup_twice(store: Store) -> None:
    """Two screens of one program are two holders; letting go twice does no harm."""
    first = store.hold("demo-1", AT)
    with pytest.raises(NotAllowed, match="open elsewhere"):
        store.hold("demo-1", LATER)
    first.release()
    first.release()
    store.hold("demo-1", LATER).release()


def test_locks_lie_in_a_folder_beside_the_journal(path: Path, store: Store) -> None:
    """One small file a setup, by its id."""
    with store.hold("demo-1", AT):
        assert [file.name for file in (path.parent / "locks").iterdir()] == ["setup-demo-1.lock"]


def test_a_refused_hold_leaves_the_holder_in_peace(store: Store, process: Process) -> None:
    """Being refused neither frees the setup nor rewrites the holder's note."""
    with store.hold("demo-1", AT):
        for _ in range(3):
            with pytest.raises(NotAllowed, match=f"since {AT}"):
                store.hold("demo-1", LATER)


def test_the_note_is_of_this_holder_only(path: Path, store: Store) -> None:
    """A shorter note leaves nothing of a longer one behind it."""
    store.hold("demo-1", f"{AT} and a long time before that").release()
    with store.hold("demo-1", AT):
        note = (path.parent / "locks" / "setup-demo-1.lock").read_text()
    assert note == f"{os.getpid()} {AT}"
