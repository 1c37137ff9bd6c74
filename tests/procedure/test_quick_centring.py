"""Centring a bar or a workpiece: both kinds of chuck, and what it may never come to."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from guide.plain import BadInput
from guide.procedure.model import Procedure, Step
from guide.procedure.shelf import find
from guide.walk.answers import accepted
from guide.walk.bits import encode
from guide.walk.flow import doings, exits
from guide.walk.landing import Plan, Ways
from guide.walk.looking import look_again
from guide.walk.world import as_dict, value
from tests.procedure import walks
from tests.procedure.walks import Stood, as_seen

NOSES = ("long", "camlock", "bolted", "threaded")
KINDS = ("adjustable", "independent")
each_kind = pytest.mark.parametrize("kind", KINDS)
each_nose = pytest.mark.parametrize("nose", NOSES)


@cache
def centring() -> Procedure:
    """The shipped procedure."""
    return find("quick-centring")


def told(nose: str, kind: str) -> dict[str, str]:
    """The closed facts of one job."""
    return {"nose": nose, "chuck-kind": kind, "guard-fitted": "yes"}


def walked(facts: dict[str, str], found: dict[str, str] | None = None) -> Iterator[Stood]:
    """Each step of a walk with one round of correcting, the world behind it, what it did."""
    decided = {"first-verdict": ["another-round"]}
    return walks.walked(
        centring(), facts, lambda place: decided.get(place, ["accepted"]), lambda place: found or {}
    )


@each_nose
@each_kind
def test_it_goes_through_and_hands_over_work_that_is_held_for_the_cut(nose: str, kind: str) -> None:
    """Isolated before a hand goes near, power back at the end, the result that of this grip."""
    steps = list(walked(told(nose, kind)))
    place, world, _ = steps[-1]
    left = {"power": "restored", "jaws": "on-work", "result": "valid", "indicator": "off"}
    left |= {"chuck-key": "out", "screw-key": "out", "spanner": "out", "guard": "shut"}
    assert place == "finished"
    assert {name: as_dict(world)[name] for name in left} == left


@each_nose
@each_kind
def test_no_hand_goes_to_the_chuck_before_the_isolation_is_proven(nose: str, kind: str) -> None:
    """Keys, grip, dial and turning by hand come only with the power isolated."""
    power = "unknown"
    for _, world, did in walked(told(nose, kind)):
        if {"fit chuck-key", "grip bar", "set indicator", "turn by hand", "jaws shift"} & set(did):
            assert power == "isolated"
        power = value(world, "power")


@each_kind
def test_only_what_this_chuck_has_is_moved(kind: str) -> None:
    """Jaws by themselves or screws, bolts eased and brought to torque only with the second."""
    did = {each for _, _, done in walked(told("camlock", kind)) for each in done}
    screws = {"screws turn", "bolts ease", "bolts tighten"}
    assert ("jaws shift" in did) is (kind == "independent")
    assert bool(screws & did) is (kind == "adjustable")


@each_kind
def test_the_jaws_are_pulled_up_before_the_last_reading_and_not_after(kind: str) -> None:
    """What is handed over was read in the grip that it has."""
    done = [(place, each) for place, _, did in walked(told("long", kind)) for each in did]
    order = [each for _, each in done]
    assert order.index("jaws tighten") < len(order) - 1 - order[::-1].index("read")
    after = order[len(order) - order[::-1].index("read") :]
    assert not {"jaws tighten", "jaws shift", "screws turn", "screws nip", "grip bar"} & set(after)


NOT_FIT = (
    {"seat": "off", "body": "apart", "bolts": "out", "screws": "free"},
    {"seat": "off"},
    {"body": "apart", "bolts": "out", "screws": "free"},
)  # fmt: skip


@pytest.mark.parametrize("found", NOT_FIT, ids=str)
@each_kind
def test_a_chuck_that_is_off_or_parted_is_not_centred_in(kind: str, found: dict[str, str]) -> None:
    """The walk ends before anything is gripped or read."""
    steps = list(walked(told("bolted", kind), found))
    assert steps[-1][0] == "abandoned"
    assert value(steps[-1][1], "power") == "isolated"
    assert not [did for _, _, did in steps if {"grip bar", "set indicator", "read"} & set(did)]


@each_nose
@each_kind
def test_from_wherever_it_is_found_in_parts_the_dial_is_out_of_reach(nose: str, kind: str) -> None:
    """Whatever step was open: with the plate found parted the walk goes on where it ends."""
    facts, order = told(nose, kind), centring().order
    ways = Ways(Plan(centring()), facts)
    for place, world, _ in walked(facts):
        if value(world, "power") == "isolated" and place in centring().by_name:
            parted = look_again(
                world, {**as_seen(world), "body": "apart", "bolts": "out", "screws": "free"}
            )
            landed = ways.land(place, encode(parted))
            assert order[landed] <= order["not-here"]
            if landed != "not-here":
                assert ways.places(landed, encode(parted)) == {"not-here"}
            assert ways.places("not-here", encode(parted)) == {"abandoned"}


def test_every_loop_is_left_by_a_count_or_by_a_person() -> None:
    """Six rounds at most; another turn only for one who asks for it."""
    for step in centring().steps:
        for way in exits(centring(), step):
            number = centring().order.get(way.to)
            if number is not None and number <= centring().order[step.name]:
                names = {term.name for each in way.conditions for term in each.terms}
                assert names & {"another-turn", "more-rounds"}, (step.name, way.to)


def spoken(step: Step) -> str:
    """Everything a step says."""
    return " ".join((step.title, step.full, step.brief, *(c.say for c in step.checks)))


def test_whatever_moves_turns_grips_or_powers_has_a_caution() -> None:
    """Each hazard has its action."""
    hurts = {
        "grip bar", "jaws shift", "jaws tighten", "screws turn", "bolts tighten", "bolts ease",
        "turn by hand", "try to start", "restore power", "isolate",
    }  # fmt: skip
    for step in centring().steps:
        if step.kind != "gate" and hurts & {each.action for each in doings(step)}:
            assert step.cautions, step.name


@pytest.mark.parametrize("name", ["first-jaws", "second-jaws"])
def test_a_jaw_is_never_eased_so_that_the_work_is_unheld(name: str) -> None:
    """Full, brief and caution say a hair, at once, and that the others hold."""
    step = centring().by_name[name]
    for words in (step.full, step.brief):
        assert "a hair" in words
        assert "at once" in words
        assert "tight" in words
    assert any("drops" in each.hazard and "tight" in each.action for each in step.cautions)


def test_no_jaw_is_called_a_screw_and_no_screw_a_jaw() -> None:
    """Each of the two kinds is told in its own words."""
    for step in centring().steps:
        if step.name.endswith("-screws"):
            assert "jaw" not in spoken(step), step.name
        if step.name.endswith("-jaws"):
            assert "screw" not in spoken(step), step.name


def test_what_stands_there_beforehand_may_be_answered_and_settles_nothing_of_the_limit() -> None:
    """A usual answer is one that is taken; tolerance, nose and kind of chuck have none."""
    usual = {name: fact.usual for name, fact in centring().facts.items() if fact.usual}
    assert not {"tolerance", "nose", "chuck-kind", "guard-fitted", "screw-count"} & usual.keys()
    for name, answer in usual.items():
        assert accepted(centring().facts[name], answer) == answer
    with pytest.raises(BadInput):
        accepted(centring().facts["tolerance"], "")
