"""What else can be done, behind `*`: each by its number, and nothing lost by going back."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from guide.journal.store import Store
from guide.records.evidence import faults


def events(home: Path) -> list[Any]:
    """The events of the one setup, in which nothing is wrong."""
    with Store.read(home / "journal.sqlite3") as store:
        assert [each.says for each in faults(store)] == []
        return [*store.events(store.names()[0])]


def pick(at: Any, words: str) -> str:
    """The number that some words have in the list, typed."""
    found = re.search(rf"^(\d+): .*{words}", at.last, re.M)
    assert found, at.last
    return str(at.send(found[1]))


@pytest.fixture
def second(home, terminal, person, quick) -> Any:
    """Somebody at the second page of a removal."""
    at = terminal(home, "start", "chuck-removal", "--plain", "--width", "0", before=quick)
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.answer()
    return one


def test_an_answer_is_corrected_with_a_reason_and_the_old_one_stays(second, home) -> None:
    """Which, the new answer, why: three numbers."""
    at = second.at
    at.send("*")
    pick(at, "Correct an answer")
    pick(at, "Is a chuck guard fitted")
    pick(at, "no$")
    assert "An answer corrected: guard fitted: yes → no" in pick(at, "mistyped")
    last = events(home)[-1]
    assert (last.kind, last.data["old"], last.data["new"]) == ("correct", "yes", "no")


def test_the_step_just_done_is_done_again(second, home) -> None:
    """Its questions come again, and its answers stand there."""
    second.at.send("*")
    told = pick(second.at, "Do the step just done again")
    assert "Say which lathe this is" in told
    assert "Stands there: Lathe 2 (invented)." in told
    assert events(home)[-1].kind == "again"


def test_going_back_from_the_list_writes_nothing(second, home) -> None:
    """The same question follows, from wherever in the list one goes back."""
    at, asked = second.at, second.at.last.splitlines()[-4:]
    at.send("*")
    pick(at, "End this setup")
    assert at.send("/").splitlines()[-4:] == asked
    assert [each.kind for each in events(home)] == ["open", "record"]


def test_a_setup_is_ended_unfinished_with_a_reason_by_number(second, home) -> None:
    """How the lathe stands is read out; a reason is wanted."""
    at = second.at
    at.send("*")
    pick(at, "End this setup")
    assert "Nothing was typed" in at.send("")
    told = pick(at, "called off")
    assert "Recorded: Abandoned: the job is called off" in told
    assert "The power to the lathe: " in told
    at.child.send("1\r")
    at.end()
    assert events(home)[-1].data["ends"] == "abandoned"


def test_the_short_list_leaves_out_no_danger(second, home) -> None:
    """Brief is said from the next page on; `?` says everything all the same."""
    at = second.at
    at.send("*")
    pick(at, "only the short list")
    second.to("stop-lathe")
    brief = at.last
    full = at.send("?")
    dangers = re.findall(r"^Danger: .*$", full, re.M)
    assert dangers
    assert re.findall(r"^Danger: .*$", brief, re.M) == dangers
    assert "Why: " in full
    assert "Why: " not in brief


def test_with_the_power_on_no_end_of_input_claims_that_it_was_cut(
    home, terminal, person, quick
) -> None:
    """A pause would record it as stopped and isolated, which nobody has said: it stays open."""
    at = terminal(home, "start", "adjustable-chuck", "--plain", before=quick)
    one = person(at, "adjustable-chuck-inch")
    one.begin()
    one.to("run-gate")
    at.child.sendeof()
    assert "Stop the spindle and isolate the lathe now." in " ".join(at.end().split())
    last = events(home)[-1]
    assert (last.step, last.kind) == ("restore", "done")
