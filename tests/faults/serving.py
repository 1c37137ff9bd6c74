"""Runs the harnesses beside it, each in a fork of one process that has everything read already.

    python tests/faults/serving.py

Each line of standard input is a list in JSON: the name of a program and its arguments. For each a
line comes back: how it left, what it printed, and what it complained of.
"""

from __future__ import annotations

import gc
import json
import os
import sys
import tempfile
import traceback
from importlib import import_module
from typing import IO

import journals
import warm

from guide.cli import records, verify  # noqa: F401  what the command line imports when it is called
from guide.present.words import catalogue

PROGRAMS = ("killing", "cutting", "spoiling", "exporting", "filling", "barring", "calling")


def forked(name: str, arguments: list[str]) -> tuple[int, str, str]:
    """One run in a process of its own: exit code, standard output, standard error."""
    with tempfile.TemporaryFile("w+") as out, tempfile.TemporaryFile("w+") as err:
        pid = os.fork()
        if pid == 0:
            _run(name, arguments, out, err)
        _, status = os.waitpid(pid, 0)
        out.seek(0)
        err.seek(0)
        return os.waitstatus_to_exitcode(status), out.read(), err.read()


def _run(name: str, arguments: list[str], out: IO[str], err: IO[str]) -> None:
    """The fork, which ends here whatever happens."""
    code = 1
    try:
        os.dup2(out.fileno(), 1)
        os.dup2(err.fileno(), 2)
        import_module(name).main(arguments)
        code = 0
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


def main() -> None:
    """One request a line until there are no more."""
    warm.warm()
    warm.in_memory()
    for each in PROGRAMS:
        import_module(each)
    for answers in journals.WALKED:
        journals.walk(answers)
    catalogue("en")
    gc.freeze()
    for line in sys.stdin:
        name, *arguments = json.loads(line)
        print(json.dumps(forked(name, arguments)), flush=True)


if __name__ == "__main__":
    main()
