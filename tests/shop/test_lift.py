"""The lifting equation against the agency's manual, and against its own shape."""

from __future__ import annotations

import json
from dataclasses import asdict
from math import prod
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.lift import KG_PER_LB, Hands, Lift, lift
from guide.shop.lift_limits import OUTSIDE

CASES = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_lifting.json").read_text(encoding="utf-8")
)
EASY = Hands(25, 75)


def run(inputs: dict) -> Lift:
    """The lift of one published case."""
    given_ = dict(inputs)
    hands = Hands(given_.pop("h"), given_.pop("v"), given_.pop("a"))
    return lift(hands, given_.pop("d"), **given_)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["case"])
def test_published_examples_come_out(case: dict) -> None:
    """Each example's figures lie within the rounding it is printed with."""
    found = run(case["inputs"])
    figures = {**asdict(found), **asdict(found.multipliers)}
    assert found.applicable
    for name, size in case["expected"].items():
        assert figures[name] == pytest.approx(size, abs=case["tolerance"]), name


def test_two_decimal_multipliers_give_the_printed_limit() -> None:
    """Example 4 rounded as the manual rounds: 34.9 lb (fig. 14, p. 46, transcribed)."""
    sizes = asdict(run(CASES[0]["inputs"]).multipliers).values()
    assert 51 * prod(round(size, 2) for size in sizes) == pytest.approx(34.9, abs=0.05)


def test_careful_set_down_lets_the_worse_end_hold() -> None:
    """With a destination the lower of the two limits is the answer (pp. 21, 26)."""
    origin, end = Hands(23, 15), Hands(23, 64)
    options = {"unit": "us", "coupling": "fair", "load": 44}
    both = lift(origin, destination=end, **options)
    alone = [lift(hands, 49, **options).rwl_lb for hands in (origin, end)]
    assert both.rwl_lb == min(alone)
    assert both.governs == "destination"
    assert lift(end, destination=origin, **options).governs == "origin"


def test_frequency_counts_where_the_lift_starts() -> None:
    """FM is taken at the origin's height, CM at the height of each end."""
    often = {"unit": "metric", "coupling": "fair", "per_minute": 11, "hours": 1.5}
    lowered = lift(Hands(25, 80), destination=Hands(63, 60), **often)
    assert lowered.governs == "destination"
    assert lowered.multipliers.FM == 0.23
    assert lowered.multipliers.CM == 0.95
    assert not lift(Hands(25, 60), destination=Hands(63, 80), **often).applicable


@pytest.mark.parametrize("name", OUTSIDE)
def test_no_figure_for_what_the_equation_is_not_for(name: str) -> None:
    """Each kind of lift outside the equation gives its reason and neither limit nor index."""
    found = lift(EASY, 25, unit="metric", coupling="good", load=5, outside=[name])
    assert not found.applicable
    assert [str(why) for why in found.why_not] == [OUTSIDE[name]]
    assert (found.rwl_lb, found.rwl_kg, found.lifting_index) == (None, None, None)
    assert set(asdict(found.multipliers).values()) == {None}


BEYOND = [
    ("metric", Hands(63.1, 75), 25, {}, "reach"),
    ("metric", Hands(25, 175.1), 25, {}, "up, above"),
    ("metric", EASY, 175.1, {}, "travel"),
    ("metric", Hands(25, 75, 135.1), 25, {}, "turns"),
    ("metric", EASY, 25, {"per_minute": 15.1}, "lifts a minute"),
    ("metric", EASY, 25, {"hours": 8.1}, "hours"),
    ("metric", Hands(25, 74), 25, {"per_minute": 13}, "lifts a minute"),
    ("us", Hands(25.1, 30), 10, {}, "reach"),
    ("us", Hands(10, 70.1), 10, {}, "up, above"),
    ("us", Hands(10, 30), 70.1, {}, "travel"),
]


@pytest.mark.parametrize(("unit", "hands", "d", "more", "word"), BEYOND)
def test_past_a_limit_there_is_no_figure(
    unit: str, hands: Hands, d: float, more: dict, word: str
) -> None:
    """Just past each limit of the table the answer is a sentence about that limit alone."""
    found = lift(hands, d, unit=unit, coupling="good", load=5, **more)
    assert not found.applicable
    assert len(found.why_not) == 1
    assert word in str(found.why_not[0])
    assert found.lifting_index is None
    assert found.rwl_kg is None
    assert 0.0 in asdict(found.multipliers).values()


@pytest.mark.parametrize(
    ("unit", "hands", "d", "more"),
    [
        ("metric", Hands(63, 175, 135), 175, {}),
        ("us", Hands(25, 70, 135), 70, {}),
        ("metric", EASY, 25, {"per_minute": 15}),
        ("metric", EASY, 25, {"hours": 8}),
    ],
)
def test_on_a_limit_the_equation_still_holds(unit: str, hands: Hands, d: float, more: dict) -> None:
    """Every limit itself is inside."""
    assert lift(hands, d, unit=unit, coupling="good", **more).applicable


def test_a_limit_passed_at_the_destination_counts() -> None:
    """One end outside the equation puts the lift outside it, and says which end."""
    found = lift(EASY, destination=Hands(70, 90), unit="metric", coupling="good", load=5)
    assert not found.applicable
    assert "destination" in str(found.why_not[0])


def test_without_a_load_there_is_a_limit_but_no_index() -> None:
    """The load is not needed for the recommended weight limit."""
    found = lift(EASY, 25, unit="metric", coupling="good")
    assert found.rwl_kg == 23
    assert found.lifting_index is None


@pytest.mark.parametrize(
    ("hands", "d", "more"),
    [
        (Hands(0, 75), 25, {}),
        (Hands(25, -1), 25, {}),
        (EASY, -1, {}),
        (Hands(25, 75, -1), 25, {}),
        (EASY, 25, {"per_minute": 0}),
        (EASY, 25, {"hours": 0}),
        (EASY, 25, {"load": 0}),
        (EASY, 25, {"load": float("nan")}),
        (EASY, float("inf"), {}),
        (EASY, None, {}),
        (EASY, 40, {"destination": Hands(30, 90)}),
        (EASY, 25, {"coupling": "tight"}),
        (EASY, 25, {"unit": "imperial"}),
        (EASY, 25, {"outside": ["flying"]}),
    ],
)
def test_impossible_figures_are_refused(hands: Hands, d: float | None, more: dict) -> None:
    """What no lift can have, or what contradicts itself, is bad input."""
    with pytest.raises(BadInput):
        lift(hands, d, **({"unit": "metric", "coupling": "good"} | more))


REACH = st.floats(1, 63)
HEIGHT = st.floats(0, 175)
TRAVEL = st.floats(0, 175)
TURN = st.floats(0, 135)
OFTEN = st.floats(0.01, 8)
HOURS = st.floats(0.1, 8)


def limit(h=30.0, v=60.0, d=40.0, a=20.0, f=2.0, hours=1.0, coupling="fair") -> float:
    """The limit in kg of an ordinary lift with some figures changed."""
    found = lift(Hands(h, v, a), d, unit="metric", coupling=coupling, per_minute=f, hours=hours)
    return found.rwl_kg or 0.0


@pytest.mark.parametrize(
    ("name", "sizes"),
    [
        ("h", st.floats(1, 80)),
        ("d", st.floats(0, 200)),
        ("a", st.floats(0, 160)),
        ("f", st.floats(0.01, 17)),
        ("hours", st.floats(0.1, 10)),
    ],
)
@given(data=st.data())
def test_more_reach_travel_turn_frequency_or_time_never_raises_the_limit(
    name: str, sizes: st.SearchStrategy, data: st.DataObject
) -> None:
    """The limit falls, or stays, as each of these grows, through its end at 0."""
    less, more = sorted((data.draw(sizes), data.draw(sizes)))
    assert limit(**{name: less}) >= limit(**{name: more}) - 1e-9


@given(HEIGHT, HEIGHT)
def test_the_limit_peaks_at_knuckle_height(v1: float, v2: float) -> None:
    """Below 75 cm a higher start is no worse, above it a lower one."""
    low, high = sorted((v1, v2))
    assume(high < 75 or low >= 75)
    assert (
        (limit(v=low) <= limit(v=high) + 1e-9)
        if high < 75
        else (limit(v=low) >= limit(v=high) - 1e-9)
    )


@given(HEIGHT)
def test_a_worse_grip_never_raises_the_limit(v: float) -> None:
    """Good is no less than fair, fair no less than poor, at every height."""
    good, fair, poor = (limit(v=v, coupling=grip) for grip in ("good", "fair", "poor"))
    assert good >= fair >= poor > 0


@given(REACH, HEIGHT, TRAVEL, TURN, OFTEN, HOURS, st.sampled_from(["good", "fair", "poor"]))
def test_the_two_systems_agree_within_the_rounding_of_their_constants(
    h: float, v: float, d: float, a: float, f: float, hours: float, grip: str
) -> None:
    """23 kg and 51 lb, 25 cm and 10 in differ by 1.6 % at most each, so the limits by 5 %."""
    assume(not 73 < v < 78 and h < 62)
    metric = lift(Hands(h, v, a), d, unit="metric", coupling=grip, per_minute=f, hours=hours)
    us = lift(
        Hands(h / 2.54, v / 2.54, a), d / 2.54, unit="us", coupling=grip, per_minute=f, hours=hours
    )
    assert metric.applicable
    assert us.applicable
    assert us.rwl_kg == pytest.approx(metric.rwl_kg, rel=0.05)


@given(REACH, HEIGHT, st.floats(0.5, 500))
def test_the_index_is_the_load_over_the_limit(h: float, v: float, load: float) -> None:
    """In either system, and the other system's limit is the exact conversion of this one's."""
    found = lift(Hands(h, v), 30, unit="metric", coupling="good", load=load)
    assert found.lifting_index * found.rwl_kg == pytest.approx(load)
    assert found.rwl_lb * KG_PER_LB == pytest.approx(found.rwl_kg)


def test_the_record_speaks_json() -> None:
    """The plain form has the named keys and survives the round trip."""
    plain = lift(EASY, 25, unit="us", coupling="good", load=5).to_json()
    assert json.loads(json.dumps(plain)) == plain
    assert {"applicable", "why_not", "rwl_lb", "rwl_kg", "lifting_index"} <= plain.keys()
    assert list(plain["multipliers"]) == ["HM", "VM", "DM", "AM", "FM", "CM"]
