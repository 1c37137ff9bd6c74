"""How a journal file is approached: what it must be, and how to read it and leave no trace."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path

from guide.journal import schema, trouble
from guide.journal.durable import keep_names

INDEX = 32768
"""Bytes of the smallest index that SQLite keeps of a log; a smaller one was never used."""


LIKELY = 99
"""The highest version that is taken for one of a later program and not for damage."""
BEGINNING = 1 << 16
"""Bytes in which what a journal is made of is spelled out."""


def make_folder(path: Path) -> None:
    """Make the folder of the file where it is missing, or refuse in a sentence.

    A folder that is made is on the disk before anything is written into it.
    """
    try:
        missing = [each for each in path.absolute().parents if not each.exists()]
        path.parent.mkdir(parents=True, exist_ok=True)
        for each in missing:
            keep_names(each.parent)
    except OSError as error:
        raise trouble.folder(error, path.parent) from error


def version_of(marks: tuple[int, int, int, int], path: Path) -> int:
    """The version of a journal, 0 for an empty file; any other file is refused.

    `marks` are the application id, the version, the number of things that the file holds, and how
    many of those that every journal holds.
    """
    application, version, things, ours = marks
    if (application, version, things) == (0, 0, 0):
        return 0
    if application != schema.APPLICATION:
        raise trouble.damaged(path) if ours == schema.OURS else trouble.foreign(path)
    if not 1 <= version <= LIKELY or ours != schema.OURS:
        raise trouble.damaged(path)
    if version > schema.VERSION:
        raise trouble.later(path, version)
    return version


def was_journal(path: Path) -> bool:
    """Whether a file that SQLite does not take for one of its own was a journal."""
    try:
        with open(path, "rb") as file:
            beginning = file.read(BEGINNING)
    except OSError:
        return False
    mark = schema.APPLICATION.to_bytes(4, "big")
    return beginning[68:72] == mark or schema.EVENT[:18].encode() in beginning


def was_used(path: Path) -> bool:
    """Whether a file that holds nothing lies where setups were held open: nothing is left of them.

    A new journal is made before its first setup is held.
    """
    try:
        return path.exists() and any((path.parent / "locks").glob("setup-*.lock"))
    except OSError:
        return False


def is_there(path: Path) -> bool:
    """Whether something is there; Refusal where its folder may not be looked into."""
    try:
        return path.exists()
    except OSError as error:
        raise trouble.barred(error, path) from error


def address(path: Path, stack: ExitStack) -> str:
    """The SQLite URI that reads the file with no other file being made beside it.

    SQLite makes its two side files even to read, unless it is told that nothing else writes: so it
    is told so where they are missing, or where a full disk left no more than the beginning of one.
    A write-ahead log alone (a copied folder) is read from a copy, which goes when the stack is
    closed. BadInput where it is not there, Refusal where it cannot be got at.
    """
    try:
        return _address(path, stack)
    except OSError as error:
        raise trouble.barred(error, path) from error


def _address(path: Path, stack: ExitStack) -> str:
    if not path.is_file():
        raise trouble.absent(path)
    log, index = (path.with_name(path.name + end) for end in ("-wal", "-shm"))
    if log.exists() and index.exists() and index.stat().st_size >= INDEX:
        return f"{path.absolute().as_uri()}?mode=ro"
    if log.exists() and log.stat().st_size:
        return f"{_copied(path, log, stack).as_uri()}?mode=ro"
    return f"{path.absolute().as_uri()}?mode=ro&immutable=1"


def _copied(path: Path, log: Path, stack: ExitStack) -> Path:
    from shutil import copy
    from tempfile import TemporaryDirectory

    place = Path(stack.enter_context(TemporaryDirectory()))
    copy(log, place)
    return Path(copy(path, place))
