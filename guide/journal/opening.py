"""How a journal file is approached: what it must be, and how to read it and leave no trace."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path

from guide.journal import schema, trouble


def make_folder(path: Path) -> None:
    """Make the folder of the file where it is missing, or refuse in a sentence."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise trouble.folder(error, path.parent) from error


def is_journal(marks: tuple[int, int, int], path: Path) -> bool:
    """True for a journal of this version, False for an empty file; any other file is refused.

    `marks` are the application id, the version and the number of things that the file holds.
    """
    application, version, things = marks
    if (application, things) == (0, 0):
        return False
    if application != schema.APPLICATION:
        raise trouble.foreign(path)
    if version > schema.VERSION:
        raise trouble.later(path, version)
    return True


def address(path: Path, stack: ExitStack) -> str:
    """The SQLite URI that reads the file with no other file being made beside it.

    SQLite makes its two side files even to read, unless it is told that nothing else writes: so it
    is told so where they are missing. A write-ahead log alone (a copied folder) is read from a
    copy, which goes when the stack is closed.
    """
    if not path.is_file():
        raise trouble.absent(path)
    log, index = (path.with_name(path.name + end) for end in ("-wal", "-shm"))
    if log.exists() and index.exists():
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
