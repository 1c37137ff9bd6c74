"""Who has a setup open: a lock of the operating system, gone when its process is gone."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from types import TracebackType

from guide.journal import trouble
from guide.plain import N_, NotAllowed

LOCKED_BYTE = 1 << 30
"""Windows locks bytes against reading too: one far behind the note that others are to read."""


class Hold:
    """One setup held open by this process until `release`, the end of `with`, or its death."""

    def __init__(self, file: Path, setup: str, at: str) -> None:
        """Hold it, or refuse: NotAllowed where somebody has it open, Refusal where no lock can be.

        `file` is the lock's own file, made where it is missing and never removed; `at` is the time
        that others are told.
        """
        self._descriptor = -1
        try:
            self._descriptor = _opened(file)
            free = _take(self._descriptor)
            note = _note(self._descriptor, f"{os.getpid()} {at}") if free else _read(file)
        except OSError as error:
            self.release()
            raise trouble.folder(error, file) from error
        if not free:
            self.release()
            raise _held(setup, *note.split(maxsplit=1))

    def release(self) -> None:
        """Let others have it; a second time does nothing."""
        if self._descriptor >= 0:
            os.close(self._descriptor)
        self._descriptor = -1

    def __enter__(self) -> Hold:
        """The hold itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Let others have it."""
        self.release()


def _opened(file: Path) -> int:
    file.parent.mkdir(exist_ok=True)
    return os.open(file, os.O_RDWR | os.O_CREAT, 0o666)


def _note(descriptor: int, text: str) -> str:
    os.lseek(descriptor, 0, os.SEEK_SET)
    os.ftruncate(descriptor, 0)
    os.write(descriptor, text.encode())
    return text


def _read(file: Path) -> str:
    return file.read_text(encoding="utf-8", errors="replace")


def _held(setup: str, process: str = "?", since: str = "?") -> NotAllowed:
    return NotAllowed(
        N_("Setup {setup} is open elsewhere: process {process}, since {since}."),
        N_("Go on there, or close it there first."),
        setup=setup,
        process=process,
        since=since,
    )


if sys.platform == "win32":
    import msvcrt

    def _take(descriptor: int) -> bool:
        os.lseek(descriptor, LOCKED_BYTE, os.SEEK_SET)
        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except PermissionError:
            return False
        return True
else:
    import fcntl

    def _take(descriptor: int) -> bool:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True
