"""The command line as real processes, or as forks of one that has everything read already.

python tests/faults/calling.py '[["verify", "--journal", "FOLDER"], …]'
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import traceback
from collections.abc import Sequence
from typing import IO

import guide
from guide.cli.main import run

PROGRAM = (sys.executable, "-c", "from guide.cli.main import run; run()")
ENVIRONMENT = os.environ | {"PYTHONPATH": os.path.dirname(os.path.dirname(guide.__file__))}


def called(*arguments: object) -> subprocess.CompletedProcess[str]:
    """What the program says to these arguments, and what it leaves with."""
    return subprocess.run(
        [*PROGRAM, *map(str, arguments)],
        capture_output=True, text=True, env=ENVIRONMENT, timeout=60, check=False,
    )  # fmt: skip


def forked(arguments: Sequence[str]) -> tuple[int, str, str]:
    """The same by a fork: exit code, standard output, standard error."""
    with tempfile.TemporaryFile("w+") as out, tempfile.TemporaryFile("w+") as err:
        pid = os.fork()
        if pid == 0:
            _be_called(arguments, out, err)
        _, status = os.waitpid(pid, 0)
        out.seek(0)
        err.seek(0)
        return os.waitstatus_to_exitcode(status), out.read(), err.read()


def _be_called(arguments: Sequence[str], out: IO[str], err: IO[str]) -> None:
    """The fork, which leaves as the program does."""
    code = 1
    os.dup2(out.fileno(), 1)
    os.dup2(err.fileno(), 2)
    try:
        run(list(arguments))
        code = 0
    except SystemExit as left:
        code = int(left.code or 0)
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


def main(arguments: list[str]) -> None:
    """Print what each of the calls left behind."""
    print(json.dumps([forked(each) for each in json.loads(arguments[0])]))


if __name__ == "__main__":
    main(sys.argv[1:])
