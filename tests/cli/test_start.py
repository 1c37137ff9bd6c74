"""`start`, `resume` and the bare program open the screens, where there is a terminal."""

from __future__ import annotations

import sys
from pathlib import Path
from types import ModuleType

import pytest

from guide.journal.store import Store
from guide.procedure.load import load
from guide.walk.setup import open_setup


@pytest.fixture
def screens(monkeypatch: pytest.MonkeyPatch) -> list[tuple[object, ...]]:
    """A terminal, and screens that only note how they were called."""
    called: list[tuple[object, ...]] = []
    fake = ModuleType("guide.screens.app")

    def run(settings, *, procedure=None, setup=None):
        called.append((settings.home.name, procedure, setup))
        return 0

    fake.run = run  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "guide.screens.app", fake)
    monkeypatch.setattr("guide.cli.start.at_a_terminal", lambda: True)
    return called


@pytest.fixture
def opened(home: Path, given: Path):
    """Opens a setup on a lathe of its own."""

    def make(setup: str, minute: int, mode: str = "real", abandon: bool = False) -> None:
        at = f"2031-03-03T07:{minute:02}:00.000Z"
        with Store(home / "journal.sqlite3") as store:
            walk = open_setup(
                store, load(given / "short.yaml"), setup=setup, person="A. Sample", at=at,
                lathe=f"Lathe {setup}", mode=mode,
            )  # fmt: skip
            if abandon:
                walk.act("abandon", {"why": "called away"}, person="A. Sample", at=at)

    return make


@pytest.mark.parametrize("arguments", [(), ("start", "adjustable-chuck"), ("resume",)])
def test_without_a_terminal_it_is_one_plain_sentence(call, opened, arguments) -> None:
    """Exit 2: screens cannot be shown on a pipe or typed at from one."""
    opened("one", 1)
    found = call(*arguments)
    assert (found.code, found.out, found.in_one_sentence) == (2, "", True)
    assert "need a terminal" in found.err


def test_the_bare_program_opens_the_start_page(call, screens) -> None:
    """With no procedure and no setup."""
    assert call().code == 0
    assert screens == [("home", None, None)]


def test_start_opens_a_procedure_in_the_journal_that_was_named(call, screens, tmp_path) -> None:
    """By its name; the folder on the command line wins over the environment."""
    assert call("start", "adjustable-chuck", "--journal", tmp_path / "else").code == 0
    assert screens == [("else", "adjustable-chuck", None)]


def test_a_procedure_that_is_not_there_is_bad_input(call, screens) -> None:
    """Exit 2, and the names that are there."""
    found = call("start", "nosuch")
    assert (found.code, found.in_one_sentence, screens) == (2, True, [])
    assert "adjustable-chuck" in found.err


def test_a_file_of_ones_own_runs_only_when_it_is_sound(call, screens, given, tmp_path) -> None:
    """The sound one opens; one that fails its check is exit 1 and opens nothing."""
    text = (given / "short.yaml").read_text()
    (tmp_path / "bad.yaml").write_text(text.replace("[stop, isolate]", "[isolate, clear away]"))
    found = call("start", tmp_path / "bad.yaml")
    assert (found.code, found.in_one_sentence, screens) == (1, True, [])
    assert call("start", given / "short.yaml").code == 0
    assert screens == [("home", str(given / "short.yaml"), None)]


def test_resume_goes_on_with_the_open_setup_worked_on_last(call, screens, opened) -> None:
    """Not with one that has ended, and not with a rehearsal that broke off."""
    opened("one", 1)
    opened("two", 2)
    opened("three", 3, abandon=True)
    opened("four", 4, mode="rehearsal")
    assert call("resume").code == 0
    assert call("resume", "one").code == 0
    assert [setup for _, _, setup in screens] == ["two", "one"]


def test_a_setup_that_has_ended_is_not_gone_on_with(call, screens, opened) -> None:
    """Exit 1, and how to look at it."""
    opened("over", 1, abandon=True)
    found = call("resume", "over")
    assert (found.code, found.in_one_sentence, screens) == (1, True, [])
    assert "records show over" in found.err


@pytest.mark.parametrize("arguments", [("resume",), ("resume", "nosuch")])
def test_nothing_to_go_on_with_is_bad_input(call, screens, opened, arguments) -> None:
    """Exit 2."""
    opened("over", 1, abandon=True)
    found = call(*arguments)
    assert (found.code, found.in_one_sentence, screens) == (2, True, [])
