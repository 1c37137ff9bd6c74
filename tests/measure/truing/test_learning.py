"""What moves teach is believed as far as they stand above the noise, and no further."""

from __future__ import annotations

from decimal import Decimal

import numpy as np
import pytest
from scipy.stats import ncx2

from guide.measure.truing.facts import Facts
from guide.measure.truing.learning import (
    TOLD,
    Learned,
    chance,
    chance_from,
    hand,
    shift_spread,
    usual_shift,
)
from guide.measure.truing.noise import first_idea, learned

FACTS = Facts("in", Decimal("0.001"), Decimal("0.0001"))
NOISE = 0.0001


def test_a_hair_within_the_noise_does_not_turn_a_told_sense_round() -> None:
    """A tenth the wrong way says nothing of a fact that was told."""
    told = Learned("toward", TOLD).moved(0.0001, -0.0001, NOISE, named=True)
    assert (told.sense, told.wrong_way) == ("toward", False)


def test_a_plain_move_the_other_way_does() -> None:
    """Asked for three thou up, half a thou down: the other sense, and it is said."""
    told = Learned("toward", TOLD).moved(0.003, -0.0005, NOISE, named=True)
    assert (told.sense, told.wrong_way) == ("away", True)


def test_a_sense_borne_out_is_not_lost_by_one_odd_move() -> None:
    """Two good moves stand above one bad one."""
    known = Learned("away", TOLD)
    for went in (0.003, 0.002):
        known = known.moved(went, went, NOISE, named=True)
    assert known.sure
    assert known.moved(0.001, -0.0005, NOISE, named=True).sense == "away"


def test_an_unknown_sense_is_presumed_until_a_move_shows_otherwise() -> None:
    """Up as wanted is presumed toward, but not sure; down is away."""
    up = Learned("unknown").moved(0.0005, 0.0005, NOISE, named=False)
    down = Learned("unknown").moved(0.0005, -0.0005, NOISE, named=False)
    assert (up.sense, up.sure, down.sense) == ("toward", False, "away")
    assert up.moved(0.0005, -0.0005, NOISE, named=True).sense == "away"


def test_a_usual_shift_is_reckoned_with_as_far_as_it_was_seen() -> None:
    """Nothing before the first round; then a share of the mean that grows with the rounds."""
    assert usual_shift(Learned("toward")) == 0
    shares = [
        abs(usual_shift(Learned("toward", shifts=(0.0004 + 0j,) * n))) / 0.0004
        for n in (1, 2, 4, 8)
    ]
    assert shares == sorted(shares)
    assert 0 < shares[0] < 0.5 < shares[-1] < 1


def test_spreads_follow_what_was_seen() -> None:
    """Steady shifts and good hands make them smaller than the first idea, wild ones larger."""
    first = Learned("toward")
    steady = Learned("toward", misses=(0.0,) * 9, shifts=(0.0001 + 0j,) * 9)
    wild = Learned("toward", misses=(0.001,) * 9, shifts=(0.001 + 0j, -0.001 + 0j) * 4)
    assert shift_spread(steady, FACTS) < shift_spread(first, FACTS) < shift_spread(wild, FACTS)
    assert hand(steady, FACTS) < hand(first, FACTS) < hand(wild, FACTS)


def test_the_chance_of_a_round_is_that_of_a_plane_normal() -> None:
    """Rayleigh: 1 − exp(−r²/2s²), 39.3 % within one standard deviation (identity)."""
    assert chance(1.0, 1.0) == pytest.approx(0.3935, abs=1e-4)
    assert chance(-1.0, 1.0) == 0


def test_the_noise_is_the_dials_until_repeats_say_otherwise() -> None:
    """Never below its division's; poor repeats make it larger."""
    first = first_idea(FACTS)
    assert learned(FACTS, ()) == pytest.approx(first)
    assert learned(FACTS, [0.0] * 50) >= 0.0001 / 12**0.5
    assert learned(FACTS, [0.0] * 50) < first < learned(FACTS, [0.001] * 3)
    assert learned(FACTS, (), [(1e-6, 6)]) > first


@pytest.mark.parametrize("off", [0.0, 0.2, 0.5, 1.0, 2.0, 4.0])
@pytest.mark.parametrize("room", [0.3, 1.0, 2.0, 3.0])
def test_the_chance_of_a_centre_that_is_off_is_the_non_central_one(off: float, room: float) -> None:
    """scipy.stats.ncx2 of two degrees of freedom, within 0.03."""
    exact = ncx2.cdf(room * room, 2, off * off) if off else 1 - np.exp(-room * room / 2)
    assert chance_from(off, room, 1.0) == pytest.approx(exact, abs=0.03)


def test_one_move_the_wrong_way_is_two_causes_and_the_next_move_is_to_tell_them() -> None:
    """The other sense, or the screw across was turned: taken to be the sense, and not yet sure."""
    turned = Learned("toward", TOLD).moved(0.003, -0.003, NOISE, named=True)
    assert (turned.sense, turned.sure) == ("away", False)
    assert turned.moved(0.0005, 0.0005, NOISE, named=True).sure
    again = turned.moved(0.0005, -0.0005, NOISE, named=True)
    assert (again.sense, again.sure) == ("toward", False)


def test_what_somebody_said_was_tightened_weighs_more_than_what_was_advised() -> None:
    """Said, one move is enough to be sure; presumed, it is not."""
    said = Learned("toward", TOLD).tightened("away", named=True)
    presumed = Learned("toward", TOLD).moved(0.003, -0.003, NOISE, named=True)
    assert said.sense == presumed.sense == "away"
    assert (said.sure, presumed.sure) == (True, False)
    assert said.evidence > presumed.evidence
