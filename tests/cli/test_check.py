"""`check` says whether every path of a procedure meets its gates."""

from __future__ import annotations

import json
from pathlib import Path

import pytest


@pytest.fixture
def broken(given: Path, tmp_path: Path):
    """Writes a copy of the short procedure with one piece replaced, and gives its path."""

    def write(old: str, new: str, name: str = "mine.yaml") -> Path:
        text = (given / "short.yaml").read_text()
        assert old in text
        path = tmp_path / name
        path.write_text(text.replace(old, new, 1))
        return path

    return write


def test_a_sound_procedure_closes_with_what_was_walked(call, given: Path) -> None:
    """Spots and changes are counted, and it says that it is not the machine that was checked."""
    found = call("check", given / "short.yaml")
    assert (found.code, found.err) == (0, "")
    first, last = found.out.splitlines()
    assert first.startswith("short: problems: 0; walked 8 spots")
    assert "158 changes" in first
    assert last == "It checks the procedure, not the machine."


def test_a_finding_stands_behind_its_place_with_the_way_there(call, broken) -> None:
    """File as it was named, line, column, step, reason, and the shortest way."""
    path = broken("does: [stop, isolate]", "does: [isolate, clear away]")
    found = call("check", path)
    assert (found.code, found.err) == (1, "")
    place, said = found.out.splitlines()[0].split(": ", 1)
    line = path.read_text().splitlines().index("      - step: isolate") + 1
    assert place == f"{path}:{line}:9"
    assert said.startswith("isolate: “clear away” may not be done now: it needs")
    assert "way there: look-first (look)" in said


def test_a_word_without_its_action_is_refused(call, broken) -> None:
    """Words that order a move which no action makes are a finding like any other."""
    path = broken("brief: Clear everything away.", "brief: Tighten the bolts, then clear away.")
    found = call("check", path)
    assert found.code == 1
    assert "its words say “tighten”" in found.out.splitlines()[0]


def test_what_cannot_be_read_is_a_finding_too(call, broken) -> None:
    """A repeated key has its line; nothing was walked."""
    path = broken(
        "    brief: Clear everything", "    title: Again\n        brief: Clear everything"
    )
    found = call("check", path)
    assert (found.code, found.err) == (1, "")
    assert f"{path}:" in found.out.splitlines()[0]
    assert "problems: 1; not walked before these are mended." in found.out


def test_one_bad_among_several_fails_and_all_are_reported(call, broken, given: Path) -> None:
    """In the order in which they were named."""
    bad = broken("does: [stop, isolate]", "does: [isolate, clear away]")
    found = call("check", given / "short.yaml", bad, given / "short.yaml")
    assert found.code == 1
    closing = [line for line in found.out.splitlines() if line.startswith("short: ")]
    assert ["problems: 0" in line for line in closing] == [True, False, True]


def test_as_json(call, broken) -> None:
    """Every finding with file, line, column, step and sentence."""
    bad = broken("does: [stop, isolate]", "does: [isolate, clear away]")
    found = call("check", bad, "--json")
    answer = json.loads(found.out)
    assert (found.code, answer["sound"]) == (1, False)
    assert answer["note"] == "It checks the procedure, not the machine."
    (only,) = answer["procedures"]
    assert set(only) == {"procedure", "problems", "spots", "changes"}
    assert set(only["problems"][0]) == {"file", "line", "column", "step", "says"}


@pytest.mark.parametrize("name", ["nosuch", "nosuch.yaml"])
def test_a_procedure_that_is_not_there_is_bad_input(call, name: str) -> None:
    """Exit 2, not a failed check."""
    found = call("check", name)
    assert (found.code, found.in_one_sentence) == (2, True)
