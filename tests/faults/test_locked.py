"""Another program keeps the journal locked: it is waited for, then one sentence, nothing lost."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import partial
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from threading import Timer
from time import monotonic
from types import ModuleType

import pytest

from guide.journal.store import Store
from guide.journal.verify import findings
from guide.plain import NotAllowed
from guide.procedure.shelf import find
from guide.rehearse import Answers, give, read_answers, rehearse
from guide.walk.setup import open_setup, replayed

ANSWERS = Path(__file__).parents[1] / "answers" / "chuck-recheck-inch.yaml"
SETUP = "walked"
LOCKED = "Another program keeps the journal"
SLACK = 1.0
"""Seconds that a busy machine may add to a wait."""

LOCKER = """
import sqlite3, sys
base = sqlite3.connect(sys.argv[1], isolation_level=None)
base.execute("SELECT count(*) FROM event").fetchall()
for line in sys.stdin:
    for each in line.strip().split(";"):
        base.execute(each)
    print("done", flush=True)
"""
"""Does what it is told to the file: a program of somebody's, with nothing of ours in it."""

LOCKS = {
    "immediate": ("BEGIN IMMEDIATE", "COMMIT"),
    "exclusive": ("BEGIN EXCLUSIVE", "ROLLBACK"),
    "half written": ("BEGIN; DELETE FROM glance", "ROLLBACK"),
}
KEEPS_ALL = (
    "PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE",
    "COMMIT; PRAGMA locking_mode = NORMAL; SELECT count(*) FROM glance",
)
"""Nobody else may even read."""


class Other:
    """Another program that has the journal open."""

    def __init__(self, path: Path) -> None:
        command = [sys.executable, "-c", LOCKER, str(path)]
        self.child = subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )

    def do(self, statements: str) -> None:
        """Some statements, and wait until they are done."""
        assert self.child.stdin
        assert self.child.stdout
        self.child.stdin.write(f"{statements}\n")
        self.child.stdin.flush()
        assert self.child.stdout.readline() == "done\n"

    def kill(self) -> None:
        """SIGKILL, and nothing of it is left."""
        self.child.kill()
        self.child.communicate()


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[Answers, list[str]]:
    """The answers of a rehearsal, and what it writes where nothing is in its way."""
    answers = read_answers(ANSWERS)
    with Store(tmp_path_factory.mktemp("whole") / "journal.sqlite3") as store:
        rehearse(find(answers.procedure), answers, store, SETUP)
        return answers, bodies(store)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the journal is."""
    return tmp_path / "home" / "journal.sqlite3"


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    """The journal, which waits a short while only."""
    with Store(path, patience=0.03) as store:
        yield store


@pytest.fixture
def other(path: Path, store: Store) -> Iterator[Other]:
    """The other program."""
    other = Other(path)
    yield other
    other.kill()


def bodies(store: Store) -> list[str]:
    """Every event byte for byte."""
    return [row.body for row in store.rows(SETUP)]


def opened(store: Store, answers: Answers) -> None:
    """The setup of the rehearsal."""
    open_setup(
        store, find(answers.procedure), setup=SETUP, person=answers.person, at=answers.at(0),
        lathe=answers.lathe, mode="rehearsal", typed_at="file",
    )  # fmt: skip


def refused(what: Callable[[], object], patience: float) -> None:
    """In one sentence with a remedy, after the patience that was asked for and not much later."""
    began = monotonic()
    with pytest.raises(NotAllowed, match=LOCKED) as told:
        what()
    assert patience <= monotonic() - began + 0.005
    assert monotonic() - began < patience + SLACK
    assert told.value.remedy
    assert "\n" not in str(told.value)


def test_every_event_of_a_walk_is_refused_and_written_afterwards(
    path: Path, store: Store, other: Other, whole: tuple[Answers, list[str]]
) -> None:
    """Locked before each of 28 events, in three ways in turn: the walk stays where it is, readers
    see what was acknowledged, and in the end the journal is byte for byte as without a lock.
    """
    answers, expected = whole
    opened(store, answers)
    walk = replayed(store, SETUP)
    for number, answer in enumerate(answers.answers, start=1):
        lock, release = tuple(LOCKS.values())[number % 3]
        other.do(lock)
        place = walk.state.place
        refused(partial(give, walk, answer, answers.at(number)), 0.03)
        assert walk.state.place == place
        with Store.read(path) as reader:
            assert bodies(reader) == expected[:number]
            assert list(findings(reader)) == []
        other.do(release)
        give(walk, answer, answers.at(number))
    assert bodies(store) == expected
    assert len(expected) == 28


WRITINGS: dict[str, Callable[[Store], object]] = {
    "keep_text": lambda store: store.keep_text("a text"),
    "keep_sealed": lambda store: store.keep_sealed("a seal"),
    "relist": lambda store: store.relist(),
}


@pytest.mark.parametrize("name", WRITINGS)
@pytest.mark.parametrize("lock", LOCKS)
def test_every_other_writing_is_refused_and_done_afterwards(
    store: Store, other: Other, name: str, lock: str
) -> None:
    """Nine of them."""
    other.do(LOCKS[lock][0])
    refused(lambda: WRITINGS[name](store), 0.03)
    other.do(LOCKS[lock][1])
    WRITINGS[name](store)
    assert list(findings(store)) == []


@pytest.mark.parametrize("patience", [0.0, 0.2, 0.6])
def test_it_waits_as_long_as_it_was_told(path: Path, other: Other, patience: float) -> None:
    """And a journal that is already one can be opened meanwhile."""
    other.do("BEGIN IMMEDIATE")
    with Store(path, patience=patience) as second:
        refused(lambda: second.keep_text("a text"), patience)


def test_a_lock_that_is_let_go_in_time_is_not_noticed(path: Path, other: Other) -> None:
    """Written while the patience lasts, as soon as the other has done."""
    other.do("BEGIN IMMEDIATE")
    with Store(path, patience=20) as second:
        release = Timer(0.25, other.do, ["COMMIT"])
        release.start()
        began = monotonic()
        name = second.keep_text("a text")
        assert 0.2 < monotonic() - began < 10
        release.join()
        assert second.text(name) == "a text"


def test_a_journal_that_another_keeps_to_itself_is_refused_to_readers_too(
    path: Path, store: Store, other: Other, whole: tuple[Answers, list[str]]
) -> None:
    """Opening, reading and writing, each in a sentence; afterwards everything is there."""
    opened(store, whole[0])
    store.close()
    other.do(KEEPS_ALL[0])
    for patience in (0.0, 0.2):
        refused(lambda patience=patience: Store(path, patience=patience), patience)
        refused(lambda patience=patience: bodies(Store.read(path, patience=patience)), patience)
    other.do(KEEPS_ALL[1])
    with Store(path) as again:
        assert bodies(again) == whole[1][:1]
        assert list(findings(again)) == []


@pytest.mark.parametrize("lock", LOCKS)
def test_a_program_that_is_killed_locks_nothing(
    path: Path, store: Store, other: Other, lock: str
) -> None:
    """Nothing that it left half written is there either."""
    name = store.keep_text("before")
    other.do(LOCKS[lock][0])
    refused(lambda: store.keep_text("after"), 0.03)
    other.kill()
    store.keep_text("after")
    with Store.read(path) as reader:
        assert reader.text(name) == "before"
        assert list(findings(reader)) == []


@pytest.fixture
def calling() -> ModuleType:
    """Real processes of the command line."""
    spec = spec_from_file_location("faults_calling", Path(__file__).with_name("calling.py"))
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_command_line_reads_on_and_says_one_sentence_where_it_would_write(
    path: Path, store: Store, other: Other, whole: tuple[Answers, list[str]], calling: ModuleType
) -> None:
    """Four real processes beside the lock."""
    opened(store, whole[0])
    other.do("BEGIN IMMEDIATE")
    for command in (("verify",), ("records",), ("records", "show", SETUP)):
        said = calling.called(*command, "--journal", path.parent)
        assert (said.returncode, said.stderr) == (0, "")
    said = calling.called("records", "relist", "--journal", path.parent)
    assert (said.returncode, said.stdout) == (1, "")
    assert said.stderr.startswith(f"spindleside: {LOCKED}")
    assert len(said.stderr.splitlines()) == 1
