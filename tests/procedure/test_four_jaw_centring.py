"""Work in independent jaws: each shape by its own steps, one order, and handed over isolated."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.walk.flow import doings, exits
from guide.walk.state import State
from guide.walk.world import UNKNOWN, as_dict, value
from tests.procedure import walks
from tests.procedure.walks import Stood, rehearsed

ANSWERS = Path(__file__).parents[1] / "answers"
SHAPES = ("round", "square", "off-centre", "bored")
each_shape = pytest.mark.parametrize("shape", SHAPES)
GRIPS = {"round": "grip-round", "square": "grip-square", "off-centre": "grip-point",
         "bored": "grip-bored"}  # fmt: skip
DIALS = {"round": "on-outside", "square": "on-flat", "off-centre": "on-rod", "bored": "in-bore"}


@cache
def four_jaw() -> Procedure:
    """The shipped procedure."""
    return find("four-jaw-centring")


def ended(folder: Path, unit: str) -> State:
    """The state at the end of a rehearsal."""
    return rehearsed("four-jaw-centring", unit, folder).state


def told(shape: str, **more: str) -> dict[str, str]:
    """The closed facts of one job."""
    facts = {"chuck-kind": "independent", "nose": "camlock", "guard-fitted": "yes"}
    facts |= {"shape": shape, "packing": "bare"}
    facts |= {"support": "hand"} if shape in ("round", "square") else {"carried-by": "hand"}
    return facts | {name.replace("_", "-"): each for name, each in more.items()}


def walked(facts: dict[str, str], found: dict[str, str] | None = None) -> Iterator[Stood]:
    """Each step of a walk with one round of correcting, the world behind it, what it did."""
    decided = {"first-verdict": ["another-round"]}
    return walks.walked(
        four_jaw(), facts, lambda place: decided.get(place, ["accepted"]), lambda place: found or {}
    )


def places(facts: dict[str, str]) -> list[str]:
    """The steps of a walk, in their order."""
    return [place for place, _, _ in walked(facts)]


@each_shape
@pytest.mark.parametrize("nose", ["long", "camlock", "bolted", "threaded"])
def test_every_shape_is_handed_over_isolated_gripped_for_the_cut_and_read(
    shape: str, nose: str
) -> None:
    """The lock comes off by whoever starts on it; nothing stands at the chuck."""
    *_, (place, world, _) = walked(told(shape, nose=nose))
    left = {"power": "isolated", "jaws": "on-work", "result": "valid", "indicator": "off"}
    left |= {"chuck-key": "out", "guard": "shut", "small-things": "cleared", "controls": "neutral"}
    assert place == "finished"
    assert {name: as_dict(world)[name] for name in left} == left


@each_shape
def test_each_shape_has_its_own_grip_and_its_own_place_of_the_dial(shape: str) -> None:
    """And none of another's."""
    gone = set(places(told(shape)))
    assert gone & set(GRIPS.values()) == {GRIPS[shape]}
    assert gone & set(DIALS.values()) == {DIALS[shape]}
    flats = {name for name in gone if "flat" in name}
    assert bool(flats) is (shape == "square")
    assert ("face-left" in gone) is (shape == "bored")
    assert ("heavy-side" in gone) is (shape == "off-centre")


@pytest.mark.parametrize(
    ("shape", "more", "step", "is_there"),
    [
        ("round", {"support": "centre"}, "centre-up", True),
        ("round", {"support": "centre"}, "centre-again", True),
        ("round", {"support": "cradle"}, "cradle-down", True),
        ("round", {"support": "cradle"}, "centre-up", False),
        ("square", {"support": "hand"}, "cradle-ready-long", False),
        ("bored", {"carried_by": "cradle"}, "cradle-ready-short", True),
        ("off-centre", {"support": "centre"}, "centre-up", False),
        ("bored", {"packing": "soft"}, "pack", True),
        ("bored", {"packing": "bare"}, "pack", False),
    ],
)
def test_packing_and_support_are_as_was_said(
    shape: str, more: dict[str, str], step: str, is_there: bool
) -> None:
    """By weight, overhang and surface, and in no other way."""
    assert (step in places(told(shape, **more))) is is_there


@each_shape
def test_no_hand_goes_to_the_chuck_before_the_isolation_is_proven(shape: str) -> None:
    """Keys, grip, dial, turning and jaws come only with the power isolated."""
    power = "unknown"
    for _, world, did in walked(told(shape)):
        if {"fit chuck-key", "grip bar", "set indicator", "turn by hand", "jaws shift"} & set(did):
            assert power == "isolated"
        power = value(world, "power")


@each_shape
def test_the_jaws_are_pulled_up_before_the_last_turn_and_not_touched_after(shape: str) -> None:
    """What is handed over was read in the grip that it has."""
    done = [each for _, _, did in walked(told(shape)) for each in did]
    pulled = len(done) - 1 - done[::-1].index("jaws tighten")
    assert "read" in done[pulled:]
    assert not {"jaws shift", "grip bar", "fit chuck-key"} & set(done[pulled + 2 :])


def test_another_kind_of_chuck_ends_it_with_nothing_touched() -> None:
    """It has its own procedure."""
    steps = list(walked(told("round", chuck_kind="adjustable")))
    assert (steps[-1][0], steps[-1][1]) == ("abandoned", UNKNOWN)


@pytest.mark.parametrize("found", [{"seat": "off"}, {"seat": "caught"}, {"body": "apart"}], ids=str)
def test_nothing_is_centred_in_a_chuck_that_is_not_fast(found: dict[str, str]) -> None:
    """The walk ends before anything is gripped or read."""
    steps = list(walked(told("round"), found))
    assert steps[-1][0] == "abandoned"
    assert not [did for _, _, did in steps if {"grip bar", "set indicator", "read"} & set(did)]


def test_in_a_bore_a_move_is_shown_the_same_way_round_as_outside() -> None:
    """By where the dial stands: the far wall, so that the advice's sign needs no turning."""
    step = four_jaw().by_name["in-bore"]
    assert "far wall" in step.full
    assert "as outside" in step.brief
    assert "rise" in step.good


def test_a_flat_is_read_at_its_lowest_and_at_four_places_alone() -> None:
    """A corner is no reading."""
    for name in ("first-flats", "round-flats", "last-flats", "first-flat", "second-flat"):
        assert "lowest" in four_jaw().by_name[name].full
        assert "lowest" in four_jaw().by_name[name].brief


def test_rehearsals_end_within_and_the_face_is_judged_by_its_own_limit(folder: Path) -> None:
    """The bore by the tolerance, its face by the limit that was told for it."""
    inch, metric = (ended(folder, unit) for unit in ("inch", "metric"))
    assert [each.place for each in (inch, metric)] == ["finished"] * 2
    assert inch.taken["as-left"].figures["verdict"] == "within"
    assert metric.taken["as-left"].figures["verdict"] == "within"
    assert inch.taken["work-face-left"].figures["verdict"] == "within"
    assert metric.facts["balance"] == "swings"


def test_work_off_its_middle_is_handed_over_as_out_of_balance() -> None:
    """With who may say how fast, and never with a figure for it."""
    step = four_jaw().by_name["sign-off-off-centre"]
    assert "out of balance" in step.full
    assert "competent person" in step.full
    assert "lowest speed" in step.brief


def test_every_loop_is_left_by_a_count_or_by_a_person() -> None:
    """Six rounds at most; another turn only for one who asks for it."""
    for step in four_jaw().steps:
        for way in exits(four_jaw(), step):
            number = four_jaw().order.get(way.to)
            if number is not None and number <= four_jaw().order[step.name]:
                names = {term.name for each in way.conditions for term in each.terms}
                assert names & {"another-turn", "more-rounds"}, (step.name, way.to)


def test_whatever_grips_moves_turns_or_carries_has_a_caution() -> None:
    """Each hazard has its action; a jaw is eased by a hair while the others hold."""
    hurts = {"grip bar", "jaws shift", "jaws tighten", "turn by hand", "try to start", "isolate"}
    for step in four_jaw().steps:
        if step.kind != "gate" and hurts & {each.action for each in doings(step)}:
            assert step.cautions, step.name
        if "cradle" in step.name or "centre" in step.name:
            assert step.cautions, step.name
    for name in ("first-jaws", "second-jaws"):
        assert "a hair" in four_jaw().by_name[name].brief
        assert "at once" in four_jaw().by_name[name].brief
