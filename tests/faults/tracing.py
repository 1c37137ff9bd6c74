"""A process watched at each of its calls that change a file: Linux ptrace through ctypes.

The process is a fork of this one. At such a call it stands still before anything is done of it, so
that it can be killed there, or looked at: which file, which bytes, from which offset on.
"""

from __future__ import annotations

import ctypes
import os
import platform
import signal
import struct
import sys
from collections.abc import Callable, Iterator
from types import TracebackType
from typing import NamedTuple

NUMBERS = {
    "x86_64": {
        1: "write", 18: "pwrite64", 20: "writev", 74: "fsync", 75: "fdatasync", 76: "truncate",
        77: "ftruncate", 82: "rename", 83: "mkdir", 84: "rmdir", 87: "unlink", 258: "mkdirat",
        263: "unlinkat", 264: "renameat", 285: "fallocate", 296: "pwritev", 316: "renameat2",
        328: "pwritev2",
    },
    "aarch64": {
        34: "mkdirat", 35: "unlinkat", 38: "renameat", 45: "truncate", 46: "ftruncate",
        47: "fallocate", 64: "write", 66: "writev", 68: "pwrite64", 70: "pwritev", 82: "fsync",
        83: "fdatasync", 276: "renameat2", 287: "pwritev2",
    },
}  # fmt: skip
"""Linux system calls that change files or folders, by machine (asm/unistd.h of each)."""
TRACEME, CONTINUE_TO_CALL, SET_OPTIONS, CALL_INFO = 0, 24, 0x4200, 0x420E
"""Requests of ptrace(2)."""
CALLS_MARKED, DIES_WITH_US = 1, 1 << 20
"""Options of ptrace(2): TRACESYSGOOD and EXITKILL."""
ENTRY, INFO = 1, struct.Struct("=B3xIQQ7Q")
"""PTRACE_GET_SYSCALL_INFO (Linux 5.3): what sort of stop it is, then the number and arguments."""


class Call(NamedTuple):
    """One call that the process is about to make."""

    name: str
    arguments: tuple[int, ...]


class Watched:
    """A fork that does some work, stopped before each call that changes a file."""

    def __init__(self, work: Callable[[], object]) -> None:
        """Fork. OSError where this machine does not let a process be watched.

        What `work` gives is kept until the end: an open journal in it is left open.
        """
        self._names = NUMBERS.get(platform.machine(), {})
        if sys.platform != "linux" or not self._names:
            raise OSError("no ptrace here")
        self._ptrace = ctypes.CDLL(None, use_errno=True).ptrace
        self._ptrace.argtypes = (ctypes.c_long, ctypes.c_long, ctypes.c_void_p, ctypes.c_void_p)
        self._ptrace.restype = ctypes.c_long
        self._status: int | None = None
        self.pid = os.fork()
        if self.pid == 0:
            self._be_watched(work)
        self._wait()
        if self._status is not None:
            raise OSError("ptrace was refused")
        self._ask(SET_OPTIONS, self.pid, 0, CALLS_MARKED | DIES_WITH_US)

    def __enter__(self) -> Watched:
        """The watched process itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Nothing of it is left."""
        self.kill()

    def calls(self) -> Iterator[Call]:
        """Each call that changes a file, in turn, while the process stands before it."""
        while self._status is None:
            stopped = self._on()
            if stopped == signal.SIGTRAP | 0x80 and (call := self._call()):
                yield call

    def kill(self) -> None:
        """SIGKILL, which no program can answer; a call that it stands before is not made."""
        while self._status is None:
            os.kill(self.pid, signal.SIGKILL)
            self._wait()

    @property
    def exit_code(self) -> int | None:
        """How it left; minus the signal that killed it, None while it runs."""
        return None if self._status is None else os.waitstatus_to_exitcode(self._status)

    def file(self, descriptor: int) -> str:
        """The path of a file that it has open."""
        return os.readlink(f"/proc/{self.pid}/fd/{descriptor}")

    def offset(self, descriptor: int) -> int:
        """Where the process stands in a file that it has open."""
        with open(f"/proc/{self.pid}/fdinfo/{descriptor}") as told:
            return int(told.readline().split()[1])

    def memory(self, address: int, size: int) -> bytes:
        """Bytes of its memory."""
        with open(f"/proc/{self.pid}/mem", "rb", buffering=0) as memory:
            memory.seek(address)
            return memory.read(size)

    def text(self, address: int) -> str:
        """A path in its memory, which need not begin on a page of its own."""
        found = b""
        while b"\0" not in found:
            room = 4096 - (address + len(found)) % 4096
            found += self.memory(address + len(found), room)
        return os.fsdecode(found.split(b"\0")[0])

    def _be_watched(self, work: Callable[[], object]) -> None:
        """The fork: nothing of its parent's runs in it afterwards."""
        code = 1
        try:
            self._ask(TRACEME, 0, 0, 0)
            os.kill(os.getpid(), signal.SIGSTOP)
            _kept = work()
            code = 0
        except BaseException as error:
            os.write(2, f"the watched process: {error!r}\n".encode())
        finally:
            os._exit(code)

    def _on(self) -> int:
        """Let it go to its next stop; gives the signal that it is stopped by."""
        try:
            self._ask(CONTINUE_TO_CALL, self.pid, 0, 0)
        except ProcessLookupError:
            return self._wait()
        return self._wait()

    def _wait(self) -> int:
        _, status = os.waitpid(self.pid, 0)
        if os.WIFSTOPPED(status):
            return os.WSTOPSIG(status)
        self._status = status
        return 0

    def _call(self) -> Call | None:
        """The call that it stands before, None after one and before one that changes no file."""
        told = ctypes.create_string_buffer(INFO.size)
        self._ask(CALL_INFO, self.pid, INFO.size, ctypes.addressof(told))
        sort, _, _, _, number, *arguments = INFO.unpack(told.raw)
        name = self._names.get(number) if sort == ENTRY else None
        return Call(name, tuple(arguments)) if name else None

    def _ask(self, request: int, pid: int, address: int, data: int) -> None:
        if self._ptrace(request, pid, address, data) == -1:
            number = ctypes.get_errno()
            raise OSError(number, os.strerror(number))


def can_watch() -> bool:
    """Whether a process can be watched on this machine: tried, not guessed."""
    reader, writer = os.pipe()
    try:
        with Watched(lambda: _say(writer)) as child:
            seen = [call.name for call in child.calls()]
        return seen == ["write", "write"] and os.read(reader, 9) == b"12"
    except OSError:
        return False
    finally:
        os.close(reader)
        os.close(writer)


def _say(descriptor: int) -> None:
    os.write(descriptor, b"1")
    os.write(descriptor, b"2")
