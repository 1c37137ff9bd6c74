"""What the walk makes of readings, and what it never advises twice."""

from __future__ import annotations

from dataclasses import replace

import pytest

from guide.measure.truing.noise import unaveraged
from guide.plain import BadInput
from guide.procedure.shelf import find
from guide.walk.advised import chuck_facts
from guide.walk.completed import RECKONING
from guide.walk.error_limit import error_limit, refuse_no_limit
from guide.walk.figures import TURNS_ON_THE_BAR, of_bar, turn_values
from guide.walk.state import Entry, State, Taken

FACTS = {"unit": "in", "screw-count": "4", "sense": "toward", "graduation": "0.0001 in"}
TURN = {
    "angles": ("0", "90", "180", "270"),
    "values": ("0.0000", "0.0010", "0.0040", "0.0030"),
}
"""Pair 1-3 is 4 thou apart, pair 2-4 is 2 thou apart (invented)."""


def standing(**more: object) -> State:
    """A state behind one turn."""
    turn = Taken(1, "round-turn", "round", "turn", TURN)
    return replace(State("s", "t", "first-pair", facts=FACTS, turn=turn), **more)


def told(limit: str = "", name: str = "Indicator 3") -> State:
    """An indicator was named, with its error limit where that was kept."""
    data = {"facts": {"indicator-name": name}} | ({"error_limit": limit} if limit else {})
    entry = Entry(1, "2030-01-31T08:00:00.000Z", "A. Sample", "dial", "record", data)
    facts = {**FACTS, "indicator-name": "Indicator 3", "tolerance": "0.005 in"}
    return standing(entries=(entry,), facts=facts)


def test_the_indicators_error_enters_u_where_its_limit_is_known() -> None:
    """limit/√3 of each reading, and twice that of a TIR: it may lie against itself across it."""
    without, with_it = of_bar(TURN, told()), of_bar(TURN, told("0.0003 in"))
    assert "indicator error" not in without["uncertainty_parts"]
    part = float(with_it["uncertainty_parts"]["indicator error"])
    assert part == pytest.approx(0.0003 / 3**0.5, rel=1e-6)
    assert with_it["error_limit"] == "0.0003 in"
    u = [float(each["expanded_uncertainty"]) / 2 for each in (without, with_it)]
    assert u[1] ** 2 - u[0] ** 2 == pytest.approx((2 * part) ** 2, rel=1e-6)


def test_without_a_limit_every_figure_is_as_it_was() -> None:
    """A limit that belongs to another indicator than the one named now is none."""
    other = told("0.0003 in", "Indicator 4")
    assert error_limit(other) == ""
    assert of_bar(TURN, other) == of_bar(TURN, told()) == of_bar(TURN, replace(told(), entries=()))


def test_the_advisor_reckons_with_the_same_limit() -> None:
    """In the dial's unit; nothing changes for it where none is known."""
    with_it, without = (chuck_facts(told(each)) for each in ("0.0003 in", ""))
    assert without.error_limit is None
    more = unaveraged(with_it) ** 2 - unaveraged(without) ** 2
    assert more == pytest.approx((2 * 0.0003) ** 2 / 3)


@pytest.mark.parametrize("limit", ["0.0003", "-1 in", "0 in", "unknown", ""])
def test_a_limit_that_is_no_length_above_nothing_is_refused(limit: str) -> None:
    """And one on a page that names no indicator."""
    job = find("adjustable-chuck")
    named = next(each for each in job.steps if "indicator-name" in each.ask)
    other = next(each for each in job.steps if each.ask and "indicator-name" not in each.ask)
    with pytest.raises(BadInput):
        refuse_no_limit(named, {"error_limit": limit})
    with pytest.raises(BadInput):
        refuse_no_limit(other, {"error_limit": "0.0003 in"})
    refuse_no_limit(named, {"error_limit": "0.0003 in"})


def test_a_dial_that_may_have_rolled_over_is_asked_about_and_then_unwrapped() -> None:
    """0, 96, 93, 97 of 100 a turn may mean 0, −4, −7, −3: never taken so without being told."""
    state = standing()
    state = replace(
        state,
        facts={**FACTS, "unit": "thou", "numbering": "continuous", "range-per-turn": "100 thou"},
    )
    typed = {"values": ("0", "96", "93", "97")}
    with pytest.raises(BadInput, match="passed its zero"):
        turn_values(typed, state)
    assert [int(v) for v in turn_values({**typed, "rolled_over": "yes"}, state)] == [0, -4, -7, -3]
    assert [int(v) for v in turn_values({**typed, "rolled_over": "no"}, state)] == [0, 96, 93, 97]


FAR_OFF = {"values": ("0.000", "0.006", "0.012", "0.006")}
"""Six thou off centre: more than half of the clearance, which is five (invented)."""


@pytest.mark.parametrize("serves_as", ["nose-runout", "face-runout", "centre-runout", "bore-near"])
def test_what_no_screw_shifts_is_never_said_to_be_beyond_the_screws(serves_as: str) -> None:
    """However far off it is, and whatever clearance the chuck has that comes there later."""
    state = standing(facts={**FACTS, "clearance": "0.010 in"})
    assert "beyond-travel" not in of_bar(FAR_OFF, state, serves_as)["flags"]


@pytest.mark.parametrize("serves_as", [*TURNS_ON_THE_BAR, "register-runout"])
def test_a_chuck_further_off_than_half_its_clearance_is_said_to_be(serves_as: str) -> None:
    """And a register, against which the screws would have to shift the body."""
    for clearance, said in (("0.010 in", True), ("0.014 in", False)):
        state = standing(facts={**FACTS, "clearance": clearance})
        assert ("beyond-travel" in of_bar(FAR_OFF, state, serves_as)["flags"]) == said


@pytest.mark.parametrize(("mark", "held"), [("1", True), ("2", True), (RECKONING, False)])
def test_a_record_of_an_earlier_reckoning_keeps_the_flags_it_was_written_with(
    mark: str, held: bool
) -> None:
    """Its bare nose was held against the clearance, and so it is when it is worked out again."""
    facts = {**FACTS, "clearance": "0.010 in"}
    state = standing(facts=facts, opening={"reckoning": mark})
    assert ("beyond-travel" in of_bar(FAR_OFF, state, "nose-runout")["flags"]) == held
