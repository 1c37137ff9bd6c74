"""What disk, folder and other programs can do: one sentence with a remedy, nothing lost."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from threading import Timer

import pytest

from guide.journal import schema, trouble
from guide.journal.event import Event
from guide.journal.store import Store
from guide.plain import BadInput, CheckFailed, NotAllowed, Refusal

Process = Callable[..., "subprocess.Popen[str]"]


def one_sentence(refused: Refusal) -> str:
    """The refusal's text, which must be a sentence and a remedy on one line."""
    assert refused.remedy
    assert "\n" not in str(refused)
    assert "{" not in str(refused)
    return str(refused)


def files(folder: Path) -> dict[str, bytes]:
    """Every file in the folder with its bytes."""
    return {file.name: file.read_bytes() for file in folder.iterdir() if file.is_file()}


def test_a_locked_journal_is_refused_and_goes_on_afterwards(
    path: Path, store: Store, walked: list[Event]
) -> None:
    """Another program in the middle of writing; when it has done, so can we."""
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    going_on = replace(walked[-1], sequence=7, previous=walked[-1].digest)
    with pytest.raises(NotAllowed) as refused:
        store.append(going_on)
    assert "Another program keeps the journal" in one_sentence(refused.value)
    assert list(store.events("demo-1")) == walked
    other.execute("COMMIT")
    other.close()
    store.append(going_on)
    assert store.last("demo-1")[0] == 7


def test_a_new_file_that_another_program_is_making_is_waited_for(path: Path) -> None:
    """SQLite itself would not wait with the change of mode that a new journal needs."""
    path.parent.mkdir()
    other = sqlite3.connect(path, isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    for statement in schema.statements():
        other.execute(statement)
    done = Timer(0.15, other.execute, ["COMMIT"])
    done.start()
    with Store(path, patience=5) as store:
        assert store.names() == ()
    done.join()
    other.close()


def test_a_new_file_that_stays_locked_is_refused(path: Path) -> None:
    """After the patience that was asked for."""
    path.parent.mkdir()
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(NotAllowed) as refused:
        Store(path, patience=0.05)
    assert "Another program keeps the journal" in one_sentence(refused.value)
    other.close()


def test_a_full_disk_is_refused_and_what_was_written_stays(
    store: Store, walked: list[Event]
) -> None:
    """SQLite is given no more pages; the store works again when there is room."""
    pages = store._base.execute("PRAGMA page_count").fetchone()[0]
    store._base.execute(f"PRAGMA max_page_count = {pages}")
    long = replace(walked[-1], sequence=7, previous=walked[-1].digest, data={"note": "x" * 100_000})
    with pytest.raises(Refusal) as refused:
        store.append(long)
    assert "is full" in one_sentence(refused.value)
    assert list(store.events("demo-1")) == walked
    store._base.execute("PRAGMA max_page_count = 1000000")
    store.append(long)
    assert store.events("demo-1")[-1] == long


LIMITED = """
import resource, sys
from pathlib import Path
from guide.journal.store import Store
from guide.plain import Refusal
with Store(Path(sys.argv[1])) as store:
    store.keep_text("before")
    resource.setrlimit(resource.RLIMIT_FSIZE, (20000, 20000))
    try:
        store.keep_text("x" * 100000)
    except Refusal as refused:
        print(type(refused).__name__, refused)
    print([text for _, text in store.texts()])
"""


def test_a_write_that_the_system_cuts_short_is_refused(path: Path, process: Process) -> None:
    """A real limit on file sizes, in a process of its own."""
    said, _ = process(LIMITED, path).communicate(timeout=10)
    sentence, texts = said.splitlines()
    assert "The disk that holds the journal" in sentence
    assert texts == "['before']"


@pytest.fixture
def shared() -> Iterator[Path]:
    """A folder that another user of the machine may enter too."""
    with tempfile.TemporaryDirectory() as folder:
        os.chmod(folder, 0o777)
        yield Path(folder)


UNPRIVILEGED = """
import os, sys
from pathlib import Path
from guide.journal import verify
from guide.journal.store import Store
from guide.plain import Refusal
path = Path(sys.argv[1])
def read():
    with Store.read(path) as reader:
        return len(reader.events("demo-1")), list(verify.findings(reader))
def held():
    with Store.read(path) as reader:
        return reader.hold("demo-1", "now")
def tried(what):
    try:
        print(what())
    except Refusal as refused:
        print(type(refused).__name__, refused)
read()  # loads what is loaded late, while root's Python may still be read
if os.geteuid() == 0:
    os.setuid(65534)
tried(lambda: Store(path))
tried(lambda: Store(path.parent / "deeper" / "journal.sqlite3"))
tried(read)
tried(held)
"""


@pytest.mark.parametrize("mode", [0o666, 0o444])
def test_a_read_only_folder_is_refused_to_write_and_can_be_read(
    shared: Path, chained: Callable[..., list[Event]], process: Process, mode: int
) -> None:
    """As a user without rights over it, even where the tests are run by root."""
    folder = shared / "home"
    path = folder / "journal.sqlite3"
    with Store(path) as store:
        for event in chained():
            store.append(event)
    path.chmod(mode)
    folder.chmod(0o555)
    before = files(folder)
    said, _ = process(UNPRIVILEGED, path).communicate(timeout=10)
    write, deeper, read, held = said.splitlines()
    folder.chmod(0o755)
    assert write.startswith("Refusal The journal")
    assert "cannot be" in write
    assert "writable" in write
    assert deeper.startswith("Refusal")
    assert "permission denied" in deeper
    assert read == "(6, [])"
    assert held.startswith("Refusal")
    assert files(folder) == before


def test_a_folder_that_is_a_file_is_refused(tmp_path: Path) -> None:
    """Nothing is written over it."""
    (tmp_path / "home").write_text("a letter")
    with pytest.raises(Refusal) as refused:
        Store(tmp_path / "home" / "journal.sqlite3")
    assert "cannot be used" in one_sentence(refused.value)
    assert (tmp_path / "home").read_text() == "a letter"


def test_a_journal_that_is_a_folder_is_refused(path: Path) -> None:
    """For writing and for reading."""
    path.mkdir(parents=True)
    for opened in (Store, Store.read):
        with pytest.raises(Refusal) as refused:
            opened(path)
        one_sentence(refused.value)


def lettered(path: Path) -> None:
    """Some other file under the journal's name."""
    path.write_bytes(b"Dear reader, " * 500)


def another_database(path: Path) -> None:
    """Another program's database under the journal's name."""
    base = sqlite3.connect(path)
    base.execute("CREATE TABLE event (body TEXT)")
    base.close()


def from_later(path: Path) -> None:
    """A journal as some later version may write it."""
    Store(path).close()
    base = sqlite3.connect(path)
    base.execute(f"PRAGMA user_version = {schema.VERSION + 1}")
    base.close()


@pytest.mark.parametrize("opened", [Store, Store.read])
@pytest.mark.parametrize(
    ("made", "sentence"),
    [
        (lettered, "is not a journal"),
        (another_database, "is not a journal"),
        (from_later, "A later version of spindleside wrote the journal"),
    ],
)
def test_a_file_that_is_not_ours_is_refused_and_not_touched(
    path: Path,
    made: Callable[[Path], None],
    sentence: str,
    opened: Callable[[Path], Store],
) -> None:
    """Not one byte, and no file beside it."""
    path.parent.mkdir()
    made(path)
    before = files(path.parent)
    with pytest.raises(BadInput) as refused:
        opened(path)
    assert sentence in one_sentence(refused.value)
    assert files(path.parent) == before


def test_reading_where_no_journal_is_makes_none(path: Path) -> None:
    """No folder and no file."""
    with pytest.raises(BadInput) as refused:
        Store.read(path)
    assert "There is no journal at" in one_sentence(refused.value)
    assert not path.parent.exists()


def test_an_empty_file_is_said_to_be_empty_and_stays_so(path: Path) -> None:
    """It was cut off, or its making was: nobody is told that there is none."""
    path.parent.mkdir()
    path.touch()
    with pytest.raises(CheckFailed) as refused:
        Store.read(path)
    assert "is empty: it was cut off, or nothing was ever written" in one_sentence(refused.value)
    assert files(path.parent) == {path.name: b""}


def test_nothing_is_begun_anew_in_a_file_that_was_cut_to_nothing(path: Path, store: Store) -> None:
    """A setup was held open beside it: what was in it is gone, and that is said, not covered up."""
    with store.hold("demo-1", "2031-03-02T08:00:00.000Z"):
        pass
    store.close()
    os.truncate(path, 0)
    with pytest.raises(CheckFailed) as refused:
        Store(path)
    assert "put back a backup" in one_sentence(refused.value)
    assert path.stat().st_size == 0


DAMAGED = {
    "user_version 0": (60, bytes(4)),
    "user_version below 0": (60, b"\x80\0\0\x02"),
    "user_version past any": (60, b"\0\x40\0\x02"),
    "application_id": (68, b"\0\0\0\0"),
    "the mark of SQLite": (0, b"sQLite"),
    "the first sector": (0, bytes(512)),
    "the sort of file": (19, b"\x05"),
}


@pytest.mark.parametrize("opened", [Store, Store.read], ids=["to write", "to read"])
@pytest.mark.parametrize("harm", DAMAGED)
def test_a_journal_whose_marks_are_damaged_is_said_to_be(
    path: Path, store: Store, walked: list[Event], opened: Callable[..., Store], harm: str
) -> None:
    """Neither that there is none, nor that it is no journal, nor that another version wrote it."""
    store.close()
    at, raw = DAMAGED[harm]
    data = bytearray(path.read_bytes())
    data[at : at + len(raw)] = raw
    path.write_bytes(data)
    with pytest.raises(CheckFailed) as refused:
        opened(path).close()
    assert "is damaged. Copy its folder away" in one_sentence(refused.value)
    assert path.read_bytes() == data


@pytest.mark.parametrize("kept", [512, 4096, 6000, 20_480])
def test_a_journal_that_was_cut_is_said_to_be_damaged(
    path: Path, store: Store, walked: list[Event], kept: int
) -> None:
    """Wherever it ends: refused as damaged when it is opened, or when the event is looked for."""
    store.close()
    os.truncate(path, kept)
    with pytest.raises(CheckFailed) as refused:
        _everything(path)
    assert "is damaged. Copy its folder away" in one_sentence(refused.value)


def _everything(path: Path) -> None:
    with Store.read(path) as store:
        assert store.damage()
        list(store.links())
        store.setups()
        list(store.texts())
        list(store.seals())


def test_a_schema_that_is_damaged_is_not_taken_for_a_folder_that_bars_writing(
    path: Path, store: Store, walked: list[Event]
) -> None:
    """A column of another name: SQLite calls that an error of whoever asks."""
    store.close()
    data = path.read_bytes()
    path.write_bytes(data.replace(b"head TEXT NOT NULL", b"heed TEXT NOT NULL"))
    with Store.read(path) as damaged, pytest.raises(CheckFailed) as refused:
        damaged.head()
    assert "is damaged. Copy its folder away" in one_sentence(refused.value)


def test_reading_a_closed_journal_leaves_no_trace(
    path: Path, store: Store, walked: list[Event]
) -> None:
    """Same files, same bytes, and nothing can be written through it."""
    store.close()
    before = files(path.parent)
    assert list(before) == ["journal.sqlite3"]
    with Store.read(path) as reader:
        assert list(reader.events("demo-1")) == walked
        with pytest.raises(Refusal) as refused:
            reader.keep_text("more")
        assert "cannot be written" in one_sentence(refused.value)
    assert files(path.parent) == before


def test_reading_a_journal_in_use_sees_what_was_written_last(
    path: Path, store: Store, walked: list[Event]
) -> None:
    """The log beside the file is read with it, even what comes later; no file comes or goes."""
    before = set(files(path.parent))
    going_on = replace(walked[-1], sequence=7, previous=walked[-1].digest)
    with Store.read(path) as reader:
        assert list(reader.events("demo-1")) == walked
        store.append(going_on)
        assert list(reader.events("demo-1")) == [*walked, going_on]
    assert set(files(path.parent)) == before


def test_reading_a_copied_folder_with_its_log_leaves_no_trace(
    path: Path, store: Store, walked: list[Event], tmp_path: Path
) -> None:
    """Copied while in use: the log holds events, and SQLite's index of it is not there."""
    copied = tmp_path / "copy"
    copied.mkdir()
    for name, raw in files(path.parent).items():
        if not name.endswith("-shm"):
            (copied / name).write_bytes(raw)
    before = files(copied)
    assert set(before) == {"journal.sqlite3", "journal.sqlite3-wal"}
    with Store.read(copied / path.name) as reader:
        assert list(reader.events("demo-1")) == walked
    assert files(copied) == before


@pytest.mark.parametrize("kind", sorted({*trouble.KINDS, *trouble.ALIKE}))
def test_every_result_code_has_a_sentence_and_a_remedy(tmp_path: Path, kind: str) -> None:
    """Extended codes such as SQLITE_IOERR_WRITE say the same as their primary one."""
    refused = trouble.database(kind, tmp_path)
    assert str(tmp_path) in one_sentence(refused)
    assert str(trouble.database(f"{kind}_MORE", tmp_path)) == str(refused)


def test_a_result_code_that_nobody_foresaw_is_said_too(tmp_path: Path) -> None:
    """By its name, with the usual remedy."""
    assert "SQLITE_TOOBIG" in one_sentence(trouble.database("SQLITE_TOOBIG", tmp_path))
    assert isinstance(trouble.database("SQLITE_CORRUPT_VTAB", tmp_path), CheckFailed)
