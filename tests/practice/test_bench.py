"""The bench under a learner's hands: what moves, what refuses, and what is noted."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.practice.bench import (
    AT_ITS_END,
    BOLTS_HOLD,
    KEY_IN,
    NO_BOLTS,
    NO_KEY,
    SLACK,
    STIFF,
    STUCK,
    Bench,
)
from guide.practice.dial import FINE
from guide.practice.kept import truth, truth_text
from guide.practice.lessons import LESSONS
from guide.practice.screws import Screws
from guide.practice.truth import Truth

STILL = Truth(
    angle_error=0, drift=0, lash=0, across_spread=0, shift_spread=0, stick=0, play=0, setting=0
)


def bench(**told: object) -> Bench:
    """A bench on which nothing happens by itself, bolts snug."""
    one = Bench(replace(STILL, **told), FINE["in"], "1")
    one.ease_bolts()
    return one


def driven(one: Bench, screw: int, hairs: float) -> str:
    """The key into a screw, turned, and what the bench said to it."""
    one.chosen = screw
    one.key_in()
    return one.turn_key(hairs).sentence


def test_the_spindle_does_not_turn_with_a_key_in_and_it_is_noted() -> None:
    """It says so as a lathe would, and stays where it is."""
    one = bench()
    one.key_in()
    for said in (one.turn(15), one.next_place(8), one.turn(-2)):
        assert said.sentence == KEY_IN
        assert said.refused
    assert one.angle == 0
    assert one.noted["key_in"] == 3
    one.key_out()
    assert not one.turn(15).refused
    assert one.angle == 15


def test_a_screw_moves_nothing_while_the_bolts_hold() -> None:
    """Tight bolts hold the body whatever is done to a screw."""
    one = bench(centre=0.001 + 0j)
    one.torque_bolts()
    before = one.needle()
    assert driven(one, 1, 8) == BOLTS_HOLD
    assert one.needle() == before


def test_a_screw_is_stiff_until_the_one_across_is_eased() -> None:
    """Driven against its opposite it moves nothing; eased by so much, it goes so far."""
    one = bench()
    assert driven(one, 1, 8) == STIFF
    assert one.needle() == 0
    one.key_out()
    driven(one, 3, -20)
    one.key_out()
    assert driven(one, 1, 8) == ""
    assert one.needle() == pytest.approx(8 * 0.5 * 0.0001)


@pytest.mark.parametrize(("sense", "way"), [("toward", 1), ("away", -1)])
def test_the_needle_goes_the_way_the_screws_work(sense: str, way: int) -> None:
    """Toward: the surface under the plunger rises as its own screw is driven; away: it falls."""
    one = bench(sense=sense)
    driven(one, 3, -20)
    one.key_out()
    driven(one, 1, 8)
    assert one.needle() == pytest.approx(way * 0.0004)


def test_a_screw_that_is_eased_alone_moves_nothing() -> None:
    """Only its gap opens; friction holds the body."""
    one = bench(centre=0.0005 + 0j)
    before = one.needle()
    driven(one, 1, -20)
    assert one.needle() == before


def test_a_key_that_comes_out_gives_back_what_it_held() -> None:
    """The lash of a move, and nothing more of it however often the key goes in and out."""
    one = bench(lash=0.1)
    driven(one, 3, -40)
    one.key_out()
    driven(one, 1, 8)
    reached = one.needle()
    one.key_out()
    assert one.needle() == pytest.approx(0.9 * reached)
    one.key_in()
    one.key_out()
    assert one.needle() == pytest.approx(0.9 * reached)


def test_friction_holds_and_then_slips() -> None:
    """Hairs smaller than the stick show nothing, then all of them at once; none is lost."""
    one = bench(stick=0.0002)
    driven(one, 3, -40)
    one.key_out()
    seen = [(driven(one, 1, 0), one.needle())[1]]
    for _ in range(24):
        one.turn_key(1)
        seen.append(one.needle())
    assert len(set(seen)) < 12
    assert seen[-1] + one.wound == pytest.approx(24 * 0.00005)


def test_a_body_at_its_end_no_longer_follows() -> None:
    """The needle stands still while the screw turns."""
    one = bench(clearance=0.001, centre=0.0004 + 0j)
    driven(one, 3, -100)
    one.key_out()
    assert driven(one, 1, 40) in (AT_ITS_END, "")
    assert one.turn_key(8).sentence == AT_ITS_END
    assert one.chuck.centre == pytest.approx(0.0005)


def test_what_cannot_be_done_says_so() -> None:
    """No key in, a screw that is stuck, bolts where there are none."""
    one = bench(stuck=(2,))
    assert one.turn_key(1).sentence == NO_KEY
    assert driven(one, 2, 4) == STUCK
    jaws = Bench(replace(STILL, held="jaws", sense="away", clearance=2), FINE["in"], "1")
    assert jaws.ease_bolts().sentence == NO_BOLTS
    assert jaws.bolts == "none"


def test_easing_twice_is_slack_and_is_noted() -> None:
    """The second stage is one too many: the body drops."""
    one = bench()
    before = one.chuck.centre
    assert one.ease_bolts().sentence == SLACK
    assert one.bolts == "slack"
    assert abs(one.chuck.centre - before) >= 0.0005 - 1e-12
    assert one.noted["slack"] == 1


def test_bolts_are_not_torqued_with_a_key_in() -> None:
    """The key comes out first."""
    one = bench()
    one.key_in()
    assert one.torque_bolts().refused
    assert one.bolts == "snug"


def test_six_screws_have_three_that_stand_against_each() -> None:
    """The one across and its two neighbours; with three screws both others; with four one."""
    assert Screws(6, "toward").against(1) == (4, 3, 5)
    assert Screws(3, "toward").against(1) == (2, 3)
    assert Screws(4, "toward").against(2) == (4,)


@given(st.integers(3, 6), st.integers(1, 3), st.floats(0.0001, 0.01))
def test_no_gap_is_ever_below_nothing(count: int, screw: int, by: float) -> None:
    """However a body follows, a screw never reaches into what it bears on."""
    one = Screws(count, "toward", dict.fromkeys(range(1, count + 1), 0.005))
    one.followed(min(by, one.room(screw)) * one.way(screw), screw)
    assert all(gap >= 0 for gap in one.gaps.values())


def test_the_key_goes_round_the_screws_on_the_plungers_line() -> None:
    """From the one under the plunger to the one across, and back."""
    one = bench()
    one.key_in()
    seen = []
    for _ in range(3):
        one.other_screw()
        seen.append(one.key)
    assert seen == [3, 1, 3]


def test_push_and_pull_show_what_gives_and_letting_go_takes_it_back() -> None:
    """Half of it each way; the next turn of the spindle lets go by itself."""
    one = bench(play=0.0004, play_shows="gaussian", seat_play=0.0002)
    one.rests = 0.0
    one.push(-1)
    low = one.needle()
    one.push(1)
    assert one.needle() - low == pytest.approx(0.0006)
    one.feel_at()
    one.feel_at()
    one.push(-1)
    nose = one.needle()
    one.push(1)
    assert one.needle() - nose == pytest.approx(0.0004)
    one.turn(15)
    assert one.hand == 0
    assert one.where == "bar"


def test_zero_is_where_it_is_set_and_the_slid_indicator_is_set_anew() -> None:
    """Turning the dial moves no surface."""
    one = Bench(replace(STILL, centre=0.001 + 0j, tilt=0.0005 + 0j), FINE["in"], "1", (1.0, 3.0))
    one.next_place(2)
    assert one.shown() == "-0.0030"
    one.zero_here()
    assert one.shown() == "0.0000"
    one.slide_indicator()
    assert one.station == 3.0
    assert one.shown() == "0.0000"
    one.next_place(2)
    assert one.shown() == "0.0050"


def test_the_bench_comes_back_from_its_text_and_goes_on_by_the_same_chance() -> None:
    """Left and taken up again it is the same bench: same needle, same chance afterwards."""
    truths = [each.truth for each in LESSONS]
    for hidden in truths:
        one = Bench(hidden, FINE["in"], "5")
        one.ease_bolts()
        driven(one, 1, -12)
        one.key_out()
        one.next_place(8)
        one.note_reading()
        other = Bench(hidden, FINE["in"], "5")
        told = one.as_text()
        one.entered(9)
        other.stand_as(told, 9)
        assert other.as_text() == one.as_text() == told
        for each in (one, other):
            each.torque_bolts()
            each.next_place(8)
        assert other.needle() == one.needle()


@pytest.mark.parametrize("one", LESSONS, ids=lambda each: each.name)
def test_what_is_hidden_comes_back_from_its_text(one: object) -> None:
    """The journal keeps all of it, exactly."""
    assert truth(truth_text(one.truth)) == one.truth  # type: ignore[attr-defined]
