"""`practice` lists its lessons, opens the screens, and tells how a practice setup went."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from guide.journal.store import Store
from guide.practice.lessons import LESSONS, free
from guide.practice.session import Practised, opened
from guide.procedure.vocabulary import TRIGGER
from guide.walk.recording import checks_of

AT = "2030-01-31T07:05:00.000Z"


@pytest.fixture
def practised(home: Path) -> Path:
    """A journal with one practice setup that was stopped after its first turn."""
    home.mkdir()
    with Store(home / "journal.sqlite3") as store:
        walk = opened(store, free(4711), 4711, setup="once", person="A. Sample", at=AT)
        for _ in range(20):
            if walk.state.place == "first-verdict":
                break
            if not walk.fill(AT):
                step = walk.step
                assert step is not None
                walk.act(TRIGGER[step.kind], entered(walk), person="A. Sample", at=AT)
        stop = {"decision": "stop", "why": "enough for today"}
        walk.act("record", stop, person="A. Sample", at=AT)
        walk.act("abandon", {"why": "the bell"}, person="A. Sample", at=AT)
    return home


def entered(walk: Practised) -> dict[str, Any]:
    """Gates by their numbers, and a turn at four positions as it is shown."""
    step, bench = walk.step, walk.bench
    assert step is not None
    if step.kind == "gate":
        return {"checks": [*range(1, len(checks_of(step, walk.state)) + 1)]}
    if step.kind != "readings":
        return {}
    values = []
    for _ in range(5):
        bench.note_reading()
        values.append(bench.shown())
        bench.next_place(4)
    angles = ["0", "90", "180", "270"]
    return {"angles": angles, "values": values[:4], "closing": values[4], "rolled_over": "no"}


def test_every_lesson_is_listed_with_what_it_teaches(call) -> None:
    """By number, name and sentence; with nothing of what it hides."""
    said = call("practice", "--list")
    assert said.code == 0
    for number, each in enumerate(LESSONS, start=1):
        assert f"{number:>3}  {each.name}" in said.out
        assert each.learn in said.out
        assert each.moral not in said.out


def test_the_list_is_json_for_programs(call) -> None:
    """One object, a lesson each."""
    told = json.loads(call("practice", "--list", "--json").out)
    assert [each["name"] for each in told["lessons"]] == [each.name for each in LESSONS]
    assert {"learn", "rounds", "readings", "unit"} <= set(told["lessons"][0])


def test_a_lesson_that_is_not_there_is_refused_before_any_screen(call) -> None:
    """Bad input, one sentence, and where they are listed."""
    said = call("practice", "--lesson", "99")
    assert said.code == 2
    assert said.in_one_sentence
    assert "--list" in said.err


@pytest.mark.parametrize("seed", ["0", "-3", "abc"])
def test_a_seed_is_a_whole_number_from_one(seed: str, call) -> None:
    """Anything else is bad input."""
    said = call("practice", "--seed", seed)
    assert said.code == 2
    assert said.in_one_sentence


def test_without_a_terminal_the_bench_is_refused(call) -> None:
    """Nobody could read its needle."""
    said = call("practice", "--lesson", "1")
    assert said.code == 2
    assert "terminal" in said.err


def test_what_is_asked_for_reaches_the_screens(call, monkeypatch) -> None:
    """Lesson, seed and unit."""
    wanted = []
    monkeypatch.setattr("guide.cli.start.at_a_terminal", lambda: True)
    monkeypatch.setattr("guide.screens.app.run", lambda here, **told: wanted.append(told) or 0)
    assert call("practice", "--lesson", "tilt", "--unit", "mm").code == 0
    assert call("practice", "--seed", "4711").code == 0
    assert call("practice").code == 0
    assert [each["practice"] for each in wanted] == ["tilt;;mm", "drawn;4711;", ";;"]


def test_the_debrief_is_told_from_the_journal(call, practised) -> None:
    """In words, marked as practice, with the seed, the decision and the drawing."""
    said = call("practice", "--debrief", "once")
    assert said.code == 0
    assert said.out.startswith("! PRACTICE, not a real lathe")
    assert "seed 4711" in said.out
    assert "stopped" in said.out
    assert "What was hidden" in said.out


def test_the_debrief_is_json_for_programs(call, practised) -> None:
    """The same as keys; lengths in the unit of the dial."""
    told = json.loads(call("practice", "--debrief", "once", "--json").out)
    assert (told["mode"], told["lesson"], told["seed"]) == ("practice", "drawn", "4711")
    assert told["readings"] == 5
    assert told["place"] == "abandoned"
    assert told["decisions"][0]["decision"] == "stop"
    assert told["best"]["readings"] >= 9


def test_a_debrief_of_nothing_is_refused(call, practised) -> None:
    """One sentence each for a setup that is not there."""
    said = call("practice", "--debrief", "never")
    assert said.code == 2
    assert said.in_one_sentence


def test_a_practice_verifies_and_every_form_of_it_says_practice(call, practised, tmp_path) -> None:
    """verify, records, records show, and the files that export writes."""
    assert call("verify").code == 0
    assert "(practice)" in call("records").out
    assert "PRACTICE" in call("records", "show", "once").out
    for ending in ("md", "html", "jsonl"):
        target = tmp_path / f"out.{ending}"
        assert call("export", "once", "--to", target).code == 0
        assert "practice" in target.read_text(encoding="utf-8").lower()


def test_help_shows_an_example(call) -> None:
    """As every command does."""
    said = call("practice", "--help")
    assert "Example" in said.out
    assert "spindleside practice --lesson" in said.out


def test_listing_loads_no_screen(call) -> None:
    """The list is quick: Textual stays out."""
    import subprocess

    look = (
        "import sys; from guide.cli.main import run\n"
        "try: run(['practice', '--list'])\n"
        "except SystemExit: pass\n"
        "assert 'textual' not in sys.modules and 'sqlite3' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", look], check=True, capture_output=True)
