"""The chuck does what its faults say, and nothing besides."""

from __future__ import annotations

from cmath import isclose
from dataclasses import replace
from random import Random
from statistics import pstdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.harmonic import fit
from guide.practice.chuck import Chuck, even_angles
from guide.practice.truth import Truth, drawn

STILL = Truth(
    angle_error=0, drift=0, lash=0, across_spread=0, shift_spread=0, stick=0, play=0, setting=0
)
OFF = st.complex_numbers(max_magnitude=0.004, allow_nan=False, allow_infinity=False)


def chuck(seed: int = 1, **told: object) -> Chuck:
    """A chuck on which nothing happens but what is told."""
    return Chuck(replace(STILL, **told), Random(seed))


def seen(one: Chuck, count: int = 12) -> complex:
    """The middle that the needle shows over a turn."""
    angles = even_angles(count)
    found = fit(angles, [one.needle(each) for each in angles])
    return complex(found.a, found.b)


@given(OFF)
def test_the_needle_shows_where_the_centre_is(centre: complex) -> None:
    """A turn read off a still chuck has its centre as the first harmonic."""
    assert isclose(seen(chuck(centre=centre)), centre, abs_tol=1e-12)


@given(OFF, OFF)
def test_a_push_moves_the_body_as_far_as_it_says(centre: complex, by: complex) -> None:
    """Nothing is won or lost: a still body goes where it is pushed, within its register."""
    one = chuck(centre=centre, clearance=1.0)
    went = one.push(0, by.real)
    assert went == pytest.approx(by.real, abs=1e-12)
    assert isclose(one.centre, centre + by.real, abs_tol=1e-12)


@given(OFF)
def test_a_body_never_leaves_its_register(by: complex) -> None:
    """However far it is slid, it stays within half the clearance of the middle of its travel."""
    one = chuck(register=0.001 + 0.001j, centre=0.001 + 0j, clearance=0.004)
    one.slide(by * 5)
    assert abs(one.centre - one.truth.register) <= 0.002 + 1e-12


@given(OFF)
def test_easing_gives_back_what_torquing_took_where_it_returns_all(shift: complex) -> None:
    """With nothing but a steady shift that returns wholly, a round of bolts changes nothing."""
    one = chuck(shift=shift, returns=1.0, clearance=1.0)
    one.ease()
    one.torque()
    assert isclose(one.centre, shift, abs_tol=1e-12)
    one.ease()
    assert isclose(one.centre, 0j, abs_tol=1e-12)


@given(OFF, OFF)
def test_a_bar_turned_half_round_takes_its_own_part_with_it(centre: complex, bar: complex) -> None:
    """Half the sum of both turns is the chuck, half the difference is the bar."""
    one = chuck(centre=centre, bar=bar)
    before = seen(one)
    one.turn_bar()
    after = seen(one)
    assert isclose((before + after) / 2, centre, abs_tol=1e-12)
    assert isclose((before - after) / 2, bar, abs_tol=1e-12)


def test_a_bent_bar_runs_out_more_further_out() -> None:
    """What is bent is off by its slope at each station, and the jaws' own middle is not."""
    one = chuck(bent=0.0003 + 0j)
    assert one.runout(1.0) == pytest.approx(0.0006)
    assert one.runout(4.0) == pytest.approx(0.0024)
    assert one.chuck_at(4.0) == 0


def test_lobes_go_round_with_the_bar() -> None:
    """Three lobes turned half round stand upside down; two stand as they stood."""
    odd, even = chuck(lobes={3: 0.0005 + 0j}), chuck(lobes={2: 0.0005 + 0j})
    before = odd.at(0), even.at(0)
    odd.turn_bar()
    even.turn_bar()
    assert odd.at(0) == pytest.approx(-before[0])
    assert even.at(0) == pytest.approx(before[1])


def test_three_lobes_at_four_positions_look_like_a_centre_that_is_off() -> None:
    """Read at four they are taken for eccentricity; read at eight they are not."""
    one = chuck(lobes={3: 0.0005 + 0j})
    assert abs(seen(one, 4)) == pytest.approx(0.0005)
    assert abs(seen(one, 8)) < 1e-9


def test_a_tilt_grows_along_the_bar() -> None:
    """A body that is true at one station is out at the next by tilt times way, twice over."""
    one = chuck(tilt=0.0002 + 0j, centre=-0.0002 + 0j)
    assert one.runout(1.0) == pytest.approx(0.0)
    assert one.runout(5.0) == pytest.approx(2 * 4 * 0.0002)


def test_what_gives_adds_up_from_nose_to_bar() -> None:
    """Push and pull show the bearing at the nose, the seat besides at the plate, the grip too."""
    one = chuck(play=0.0003, seat_play=0.0002, grip_play=0.0004)
    assert [one.gives(each) for each in ("nose", "plate", "bar")] == pytest.approx(
        [0.0003, 0.0005, 0.0009]
    )


def test_a_knock_moves_the_zero_once_and_at_its_time() -> None:
    """Readings before it stand as they stood, those after it are all off by it."""
    one = chuck(knock=0.0008, knocked_at=3)
    read = [float(one.read(0, 0.0001)) for _ in range(6)]
    assert read == pytest.approx([0, 0, 0, 0.0008, 0.0008, 0.0008])


def test_slack_bolts_drop_the_body_and_make_torquing_worse() -> None:
    """Slack scatters where torquing leaves the body several times as far as snug does."""
    ends: dict[bool, list[float]] = {True: [], False: []}
    for slack, found in ends.items():
        for seed in range(120):
            one = chuck(seed, shift_spread=0.0001)
            one.slacken() if slack else one.ease()
            before = one.centre
            one.torque()
            found.append((one.centre - before).real)
    assert pstdev(ends[True]) > 2 * pstdev(ends[False])


def test_jaws_know_no_bolts() -> None:
    """Where each jaw moves by itself, easing, slackening and torquing do nothing at all."""
    one = chuck(held="jaws", shift=0.001 + 0j, centre=0.002 + 0j)
    one.ease()
    one.slacken()
    one.torque()
    assert one.centre == 0.002
    assert not one.tight


def test_nipping_stirs_much_less_than_torquing() -> None:
    """A tenth of the spread of a torque."""
    moved = []
    for seed in range(200):
        one = chuck(seed, shift_spread=0.0001)
        one.nip()
        moved.append(one.centre.real)
    assert pstdev(moved) == pytest.approx(0.00001, rel=0.25)


def test_the_same_seed_draws_the_same_chuck_and_the_same_readings() -> None:
    """Nothing else than the seed decides."""
    both = [drawn(Random(7), 0.0001) for _ in range(2)]
    assert both[0] == both[1]
    first, second = (Chuck(each, Random(3)) for each in both)
    assert [first.read(a, 0.0001) for a in range(9)] == [second.read(a, 0.0001) for a in range(9)]
