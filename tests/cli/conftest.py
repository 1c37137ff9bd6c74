"""The command line called in this process, on a journal of its own."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import pytest

from guide.cli.main import run

GIVEN = Path(__file__).parent / "given"
SHORT, ANSWERS = GIVEN / "short.yaml", GIVEN / "answers.yaml"


class Said(NamedTuple):
    """What one call left behind."""

    code: int | str | None
    out: str
    err: str

    @property
    def in_one_sentence(self) -> bool:
        """Whether standard error holds one line in the program's name and no traceback."""
        told = self.err.splitlines()
        return len(told) == 1 and told[0].startswith("spindleside: ")


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the journal is, or will be; the folder is not there yet."""
    place = tmp_path / "home"
    monkeypatch.setenv("SPINDLESIDE_HOME", str(place))
    monkeypatch.delenv("SPINDLESIDE_LANGUAGE", raising=False)
    return place


@pytest.fixture
def call(home: Path, capsys: pytest.CaptureFixture[str]) -> Callable[..., Said]:
    """Calls the program with arguments."""

    def spindleside(*arguments: object) -> Said:
        with pytest.raises(SystemExit) as left:
            run([str(each) for each in arguments])
        told = capsys.readouterr()
        return Said(left.value.code, told.out, told.err)

    return spindleside


@pytest.fixture
def rehearsed(call: Callable[..., Said], home: Path) -> Path:
    """The journal file with the short procedure rehearsed as `first`: eleven events."""
    said = call("rehearse", SHORT, "--answers", ANSWERS, "--journal", home, "--setup", "first")
    assert said.code == 0, said.err
    return home / "journal.sqlite3"


@contextmanager
def opened(path: Path) -> Iterator[sqlite3.Connection]:
    """The journal file in the hands of somebody with a database tool."""
    base = sqlite3.connect(path)
    try:
        with base:
            yield base
    finally:
        base.close()


@pytest.fixture
def sql() -> Callable[..., object]:
    """Opens a journal file past the program."""
    return opened


@pytest.fixture
def given() -> Path:
    """The folder of files that commands are tried on."""
    return GIVEN
