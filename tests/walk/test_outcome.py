"""What a finished setup says of its chuck is what was read, worked out here from its events."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from guide.journal.event import Event
from guide.procedure.shelf import find
from guide.rehearse import read_answers, rehearse
from guide.walk.setup import Setup

ANSWERS = {
    path.stem: read_answers(path)
    for path in sorted((Path(__file__).parents[1] / "answers").glob("*.yaml"))
}
ON_THE_BAR = (
    "as-found", "as-mounted", "round", "after-torque", "finer", "reversed", "gripped-again",
    "as-left",
)  # fmt: skip
OF_FIGURES = ("judged", "unit", "expanded_uncertainty", "verdict", "at_most")


def walked(memory: ModuleType, name: str) -> Setup:
    """A rehearsal, whole."""
    answers = ANSWERS[name]
    return rehearse(find(answers.procedure), answers, memory.Memory(), "walk")


def told(walk: Setup) -> dict[str, str]:
    """Every answer as it stands at the end, from the events."""
    facts: dict[str, str] = {}
    for event in walk.journal.events("walk"):
        facts |= event.data.get("facts", {})
        if event.kind == "correct":
            facts[event.data["fact"]] = event.data["new"]
    return facts


def turns(walk: Setup) -> list[tuple[str, Event]]:
    """Every turn on the bar that was judged, and what it served as."""
    serves = {step.name: step.serves_as for step in walk.procedure.steps}
    return [
        (serves[event.step], event)
        for event in walk.journal.events("walk")
        if event.step in serves
        and serves[event.step] in ON_THE_BAR
        and "judged" in event.data.get("figures", {})
    ]


def as_read(event: Event, facts: Mapping[str, str]) -> dict[str, Any]:
    """What the outcome has to say of a turn."""
    figures = event.data["figures"]
    return {
        **{name: figures[name] for name in OF_FIGURES if name in figures},
        "tolerance": facts.get("tolerance", ""), "station": facts.get("station", ""),
        "at": event.at[:10],
    }  # fmt: skip


@pytest.mark.parametrize("name", ANSWERS)
def test_it_is_what_was_read_and_answered(memory, name: str) -> None:
    """As found and as left with their day, the chuck, the bar, the indicator, the recheck."""
    walk = walked(memory, name)
    last, facts = walk.journal.events("walk")[-1], told(walk)
    outcome = last.data.get("outcome", {})
    assert last.data["ends"] == "finished"
    if not facts.get("chuck", "").strip():
        assert outcome == {}
        return
    read, valid = turns(walk), last.data["world"]["result"] == "valid"
    found = [event for serves, event in read if serves == "as-found"]
    expected = {
        "chuck": facts["chuck"],
        "result": last.data["world"]["result"],
        "as_found": as_read(found[-1], facts) if found else None,
        "as_left": as_read(read[-1][1], facts) if read and valid else None,
        "recheck": facts.get("recheck-date"),
        "diameter": facts.get("bar-diameter"),
        "indicator": facts.get("indicator-name"),
    }
    assert {n: plain(each) for n, each in outcome.items()} == {
        n: each for n, each in expected.items() if each
    }


def plain(value: Any) -> Any:
    """A frozen mapping as a dict."""
    return dict(value) if isinstance(value, Mapping) else value


def test_some_rehearsals_say_as_left_some_as_found_and_some_nothing(memory) -> None:
    """Else the comparison above would say little."""
    said = [
        set(walked(memory, n).journal.events("walk")[-1].data.get("outcome", {})) for n in ANSWERS
    ]
    assert any("as_left" in each for each in said)
    assert any("as_found" in each for each in said)
    assert any(not each for each in said)


def test_only_the_last_event_has_an_outcome(memory) -> None:
    """And the ends and the world beside it."""
    *before, last = walked(memory, "adjustable-chuck-inch").journal.events("walk")
    assert not any({"outcome", "ends", "world"} & each.data.keys() for each in before)
    assert {"outcome", "ends", "world"} <= last.data.keys()


def test_one_that_is_abandoned_before_a_reading_stands_says_nothing_as_left(memory, driver) -> None:
    """The chuck is known, nothing of it is."""
    answers = ANSWERS["adjustable-chuck-inch"]
    walk = driver.opened(memory.Memory(), find(answers.procedure))
    chosen = {"on-nose": "this-chuck", "take-off": "whole", "nose": "camlock"}
    for each in driver.go_on(walk, chosen):
        if "chuck" in each.state.facts:
            break
    walk.act("abandon", {"why": "called away"}, person=walk.state.person, at=driver.AT)
    outcome = walk.journal.events("walk")[-1].data["outcome"]
    assert outcome["chuck"] == walk.state.facts["chuck"]
    assert not {"as_left", "as_found"} & outcome.keys()


@pytest.mark.parametrize(
    "entered", [{"outcome": {"chuck": "C"}}, {"ends": "finished"}, {"world": {}}]
)
def test_nobody_enters_an_outcome(memory, driver, entered: dict[str, Any]) -> None:
    """What only the tool adds is taken out of what is entered."""
    walk = driver.opened(memory.Memory(), find("adjustable-chuck"))
    walk.act("pause", {"why": "coffee"} | entered, person=walk.state.person, at=driver.AT)
    assert not entered.keys() & walk.journal.events("walk")[-1].data.keys()
