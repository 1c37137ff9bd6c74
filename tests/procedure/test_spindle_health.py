"""The spindle alone: read by hand while isolated, judged by told limits, adjusted never."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.walk.flow import doings
from guide.walk.state import State
from guide.walk.world import UNKNOWN, value
from tests.procedure import walks
from tests.procedure.walks import Stood, rehearsed

ANSWERS = Path(__file__).parents[1] / "answers"
NOSES = ("long", "camlock", "bolted", "threaded")
READ = ["nose-play", "nose-runout", "nose-face", "bore-near", "bore-far", "axial-slip",
        "radial-play", "axial-play"]  # fmt: skip
"""The order in which a machinist would look: surface, face, bore, axis, bearings under load."""


@cache
def health() -> Procedure:
    """The shipped procedure."""
    return find("spindle-health")


def ended(folder: Path, unit: str) -> State:
    """The state at the end of a rehearsal."""
    return rehearsed("spindle-health", unit, folder).state


def told(**more: str) -> dict[str, str]:
    """The closed facts of one job, with everything there is."""
    facts = {"nose": "camlock", "on-nose": "nothing", "guard-fitted": "yes", "test-bar": "bar"}
    facts |= {"turns-freely": "yes", "slip-way": "plug", "lever-way": "bar"}
    facts |= {"bar-mass": "one-hand", "to-be-seen-to": "no"}
    return facts | {name.replace("_", "-"): each for name, each in more.items()}


def walked(facts: dict[str, str]) -> Iterator[Stood]:
    """Each step of a walk without surprises, the world behind it, and what it did."""
    return walks.walked(health(), facts)


def served(facts: dict[str, str]) -> list[str]:
    """What the readings of a walk serve as, in their order."""
    steps = (health().by_name.get(place) for place, _, _ in walked(facts))
    return [step.serves_as for step in steps if step and step.kind == "readings"]


@pytest.mark.parametrize("nose", NOSES)
def test_on_every_nose_all_is_read_in_a_machinist_s_order(nose: str) -> None:
    """And the lathe is left isolated with a bare nose and nothing standing at it."""
    facts = told(nose=nose)
    *_, (place, world, _) = walked(facts)
    assert served(facts) == READ
    assert place == "finished"
    left = ("power", "seat", "indicator", "guard", "small-things")
    assert [value(world, each) for each in left] == ["isolated", "off", "off", "shut", "cleared"]


def test_what_is_not_there_is_not_read() -> None:
    """No bar, no plug, no lever: the rest is read, and nothing is put in its place."""
    assert served(told(test_bar="none")) == [r for r in READ if not r.startswith("bore")]
    assert served(told(slip_way="none")) == [r for r in READ if r != "axial-slip"]
    assert served(told(lever_way="fingers")) == READ[:-2]


@pytest.mark.parametrize("mass", ["one-hand", "helper", "cradle"])
def test_the_bar_is_carried_as_was_said_and_in_no_other_way(mass: str) -> None:
    """By its weight and by who is there."""
    ways = {"one-hand": "bar-in-hand", "helper": "bar-in-helper", "cradle": "bar-in-cradle"}
    places = {place for place, _, _ in walked(told(bar_mass=mass))}
    assert places & set(ways.values()) == {ways[mass]}


@pytest.mark.parametrize("found", ["something-else", "unknown"])
def test_a_nose_that_is_not_bare_ends_it_with_nothing_touched(found: str) -> None:
    """What is on it comes off by its own procedure."""
    steps = list(walked(told(on_nose=found)))
    assert (steps[-1][0], steps[-1][1]) == ("abandoned", UNKNOWN)


def test_nothing_runs_and_nothing_is_adjusted() -> None:
    """No action of the whole procedure powers, tightens or slackens anything but a loose plate."""
    did = {each.action for step in health().steps for each in doings(step)}
    assert not did & {"restore power", "run slow", "bolts tighten", "bolts ease", "screws turn"}
    assert [s.name for s in health().steps if {"lock", "unlock"} & {d.action for d in s.does}] == [
        "lock-first"
    ]


def test_each_reading_is_judged_by_the_limit_told_for_it(folder: Path) -> None:
    """Within one and outside another, whatever is allowed elsewhere."""
    taken = ended(folder, "inch").taken
    assert {name: taken[name].figures.get("verdict") for name in READ} == {
        "nose-play": None, **dict.fromkeys(READ[1:], "within"),
    }  # fmt: skip


def test_where_no_limit_is_known_there_is_a_figure_and_no_verdict(folder: Path) -> None:
    """None is built in."""
    taken = ended(folder, "metric").taken
    assert taken["nose-runout"].figures["verdict"] == "outside"
    for name in ("nose-face", "radial-play", "axial-play"):
        assert "verdict" not in taken[name].figures
        assert taken[name].figures.keys() & {"judged", "play"}
    assert not [fact for fact in health().facts.values() if "limit" in fact.name and fact.usual]


def test_what_has_to_be_seen_to_is_handed_over_with_a_label(folder: Path) -> None:
    """And nothing of it is adjusted by feel."""
    places = {unit: [e.place for e in ended(folder, unit).entries] for unit in ("inch", "metric")}
    assert "label-it" in places["metric"]
    assert "label-it" not in places["inch"]
    assert "competent person" in health().by_name["label-it"].full


def test_whatever_turns_levers_or_carries_has_a_caution() -> None:
    """Each hazard has its action."""
    for step in health().steps:
        actions = {each.action for each in step.does}
        carries = step.name.startswith(("bar-", "slip-")) and step.name != "bar-facts"
        if "turn by hand" in actions or carries or step.serves_as.endswith("l-play"):
            assert step.cautions, step.name
