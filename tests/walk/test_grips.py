"""Several grips of one bar: the range of their runout is judged, a single grip is not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from guide.procedure.model import Step
from guide.procedure.shelf import find
from guide.walk.figures import of_readings
from guide.walk.grips import is_grip
from guide.walk.limit import limit_name
from guide.walk.state import State, Taken

LIMIT = "repeats-middle-limit"
TOLD = {"unit": "in", "graduation": "0.0001 in", "rule": "guarded"}


def grip(number: int) -> Step:
    """A step at which the middle bar is read in one of its grips."""
    return find("jaw-service").by_name[f"middle-{number}"]


def a_turn(across: float, along: float = 0.0) -> dict[str, Any]:
    """A turn at four places, the bar's middle off by so much toward 90° and toward 0°, TIR twice
    its distance.
    """
    values = (along, across, -along, -across)
    return {"angles": ["0", "90", "180", "270"], "values": [f"{each:.5f}" for each in values]}


def read(
    turns: Sequence[Mapping[str, Any]], first: int = 1, **facts: str
) -> list[Mapping[str, Any]]:
    """The figures of one grip after the other, from a number on."""
    told = {**TOLD, **{name.replace("_", "-"): each for name, each in facts.items()}}
    state, figures = State("grips", "", "", facts=told), []
    for number, turn in enumerate(turns, first):
        step = grip(number)
        found = of_readings(step, turn, state)
        figures.append(found)
        taken = Taken(number, step.name, step.serves_as, "turn", {**turn, "figures": found})
        state = replace(state, taken={**state.taken, step.serves_as: taken})
    return figures


def test_the_range_is_the_largest_runout_less_the_smallest() -> None:
    """Over all grips so far, in whatever order they came; worked by hand."""
    one, two, three = read([a_turn(0.0010), a_turn(0.0025), a_turn(0.0015)])
    assert "range" not in one
    assert Decimal(two["range"]) == Decimal("0.0030")
    assert Decimal(three["range"]) == Decimal("0.0030")
    assert (two["grips"], three["grips"]) == ("2", "3")


@pytest.mark.parametrize(
    ("limit", "verdict"), [("0.0040 in", "within"), ("0.0031 in", "undecided"),
                           ("0.0020 in", "outside"), ("unknown", None)],
)  # fmt: skip
def test_the_limit_of_a_diameter_judges_the_range_and_nothing_else(
    limit: str, verdict: str | None
) -> None:
    """Guarded near it, none where nobody knows one; the runout of a grip may be over it."""
    one, two = read([a_turn(0.0030), a_turn(0.0045)], repeats_middle_limit=limit)
    assert "verdict" not in one
    assert Decimal(one["judged"]) > Decimal("0.0040")
    assert two.get("verdict") == verdict
    assert Decimal(two["range"]) == Decimal("0.0030")


def test_a_tolerance_of_the_setup_judges_no_single_grip() -> None:
    """Nor the range, which is another thing than runout."""
    for figures in read([a_turn(0.0100), a_turn(0.0100)], tolerance="0.0010 in"):
        assert "verdict" not in figures


def test_a_high_spot_that_wanders_shows_though_the_range_is_nothing() -> None:
    """The same runout toward opposite sides: its middle moved by the whole of it."""
    _, two = read([a_turn(0.0010), a_turn(-0.0010)])
    assert Decimal(two["range"]) == 0
    assert float(two["middle_moved"]) == pytest.approx(0.0020)


def test_the_middle_never_moves_by_less_than_half_the_range() -> None:
    """By the triangle's inequality; only just so where the high spot stays."""
    straight = read([a_turn(0.0010), a_turn(0.0025)])[1]
    askew = read([a_turn(0.0010), a_turn(0.0, 0.0025)])[1]
    assert float(straight["middle_moved"]) == pytest.approx(float(straight["range"]) / 2)
    assert float(askew["middle_moved"]) > float(askew["range"]) / 2


def test_the_range_is_uncertain_by_both_of_its_ends() -> None:
    """U of the range is the sum of the two; without a division of the dial there is none."""
    figures = read([a_turn(0.0010), a_turn(0.0025)])
    whole = sum(float(each["expanded_uncertainty"]) for each in figures)
    assert float(figures[1]["range_uncertainty"]) == pytest.approx(whole)
    blind = read([a_turn(0.0010), a_turn(0.0025)], graduation="", repeats_middle_limit="1 in")[1]
    assert "range" in blind
    assert not {"range_uncertainty", "verdict"} & blind.keys()


def test_a_grip_read_anew_is_not_held_against_those_that_came_after_it() -> None:
    """Whoever goes back to the first grip begins the row again."""
    told = {**TOLD, LIMIT: "0.0010 in"}
    later = Taken(1, "middle-2", "repeats-middle-2", "turn", {"figures": read([a_turn(0.01)])[0]})
    state = State("grips", "", "", facts=told, taken={"repeats-middle-2": later})
    assert "range" not in of_readings(grip(1), a_turn(0.0010), state)


def test_grips_in_another_unit_are_not_compared() -> None:
    """A dial that was corrected from inch to millimetre in between gives no range."""
    earlier = Taken(1, "middle-1", "repeats-middle-1", "turn", {"figures": read([a_turn(0.01)])[0]})
    state = State("g", "", "", facts={**TOLD, "unit": "mm"}, taken={"repeats-middle-1": earlier})
    assert "range" not in of_readings(grip(2), a_turn(0.0010), state)


def test_one_limit_for_all_grips_of_a_bar_and_each_bar_its_own() -> None:
    """And a name that only ends alike is none of them."""
    assert {limit_name(f"repeats-middle-{n}") for n in (1, 2, 3)} == {LIMIT}
    assert limit_name("repeats-small-1") == "repeats-small-limit"
    assert limit_name("tail-side-left") == "tail-side-limit"
    assert [is_grip(each) for each in ("repeats-large-3", "bore-near", "as-left")] == [
        True, False, False,
    ]  # fmt: skip
