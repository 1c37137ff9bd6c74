"""Runs the harnesses of this folder in a process of their own: they fork, and are killed."""

from __future__ import annotations

import json
import os
import select
import subprocess
import sys
from collections.abc import Callable, Iterator
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

import guide

HERE = Path(__file__).parent
ENVIRONMENT = os.environ | {"PYTHONPATH": str(Path(guide.__file__).parents[1])}
LONGEST = 300.0
"""Seconds for one run on a busy machine."""

Harness = Callable[..., Any]


@pytest.fixture(autouse=True)
def warmed(monkeypatch: pytest.MonkeyPatch) -> None:
    """What comes of a procedure's or an event's text is worked out once for all tests here."""
    monkeypatch.syspath_prepend(str(HERE))
    import_module("warm").warm(monkeypatch.setattr)


@pytest.fixture(scope="session")
def harness() -> Iterator[Harness]:
    """Runs one of the programs beside this file and gives what it reports.

    The report is shown with `pytest -rP` too.
    """
    command = [sys.executable, str(HERE / "serving.py")]
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
    with subprocess.Popen(command, text=True, env=ENVIRONMENT, **pipes) as server:
        assert server.stdin
        assert server.stdout

        def run(name: str, *arguments: object) -> dict[str, Any]:
            server.stdin.write(json.dumps([name, *map(str, arguments)]) + "\n")
            server.stdin.flush()
            assert select.select([server.stdout], [], [], LONGEST)[0], name
            code, out, err = json.loads(server.stdout.readline())
            assert code == 0, err
            report = json.loads(out)
            print(name, *arguments, report)
            return report

        yield run
        server.kill()
