"""Advice centres the body on paper, turns the right screws, and says when it does not know."""

from __future__ import annotations

from decimal import Decimal
from math import cos, hypot, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide.measure.advice import WHY_READ, WHY_UNKNOWN, Facts, advise
from guide.measure.angles import even, of_screw
from guide.measure.directions import directions
from guide.measure.reading import Reading
from guide.plain import BadInput

offsets = st.tuples(st.integers(-90, 90), st.integers(-90, 90))


def series(*values, n=None):
    """Readings at even positions."""
    return [
        Reading(angle, Decimal(str(value)))
        for angle, value in zip(even(n or len(values)), values, strict=True)
    ]


def dial(x, y, screws, mean=5.0, surface=1):
    """What the dial shows at each screw when the centre is off by (x, y)."""
    angles = [radians(of_screw(k, screws)) for k in range(1, screws + 1)]
    return series(*(round(mean + surface * (x * cos(t) + y * sin(t)), 9) for t in angles))


def moved(x, y, move, screws, sense, surface=1):
    """Where the centre is after the screws that the move names first were turned, by |by|.

    Written from what a screw does to a body, not from how the advice is worked out.
    """
    turn = radians(of_screw(move.tighten[0], screws))
    way = 1 if sense == "toward" else -1
    if abs(cos(turn - radians(of_screw(move.screw, screws)))) < 0.999:
        turn, way = radians(of_screw(move.ease[0], screws)), -way
    shift = abs(float(move.by)) * way
    return x + shift * cos(turn), y + shift * sin(turn)


def test_a_body_too_far_out_at_a_screw_is_moved_away_from_it():
    """Screw 3 reads 20 against 0: with screws that pull the body, ease 3 and tighten 1."""
    move = advise(series(0, 12, 20, 8), Facts("thou", sense="toward"))
    assert (move.screw, move.across, move.tighten, move.ease) == (1, 3, (1,), (3,))
    assert (move.reads, move.by, move.bring_to) == (0, 10, 10)


def test_the_other_sense_turns_the_same_screws_the_other_way():
    """Jaws push the body off: tighten 3, which is then the one to watch."""
    move = advise(series(0, 12, 20, 8), Facts("thou", sense="away"))
    assert (move.screw, move.tighten, move.ease) == (3, (3,), (1,))
    assert (move.reads, move.by, move.bring_to) == (20, -10, 10)


def test_inside_a_bore_the_screws_swap():
    """A dial that rises inside means a body that went the other way."""
    move = advise(series(0, 12, 20, 8), Facts("thou", sense="toward", surface="inside"))
    assert (move.screw, move.by, move.tighten, move.ease) == (3, -10, (3,), (1,))


def test_an_unknown_sense_names_no_screw_to_turn():
    """It says back both a hair, then watch the needle."""
    move = advise(series(0, 12, 20, 8), Facts("thou"))
    assert (move.screw, move.by, move.bring_to) == (1, 10, 10)
    assert (move.tighten, move.ease, move.why) == (None, None, WHY_UNKNOWN)
    assert "back both a hair" in move.why


def test_the_larger_pair_is_first():
    """Screws 2 and 4 are 12 apart, 1 and 3 only 4."""
    assert advise(series(4, 0, 8, 12), Facts("thou", sense="toward")).screw == 2


def test_the_second_pair_counts_from_what_was_just_read():
    """by stays the pair's half difference; bring_to = reads + by, wherever easing left the dial."""
    facts = Facts("thou", sense="toward")
    move = advise(series(0, 12, 20, 8), facts, under=Reading(90.0, Decimal("13.5")))
    assert (move.screw, move.reads, move.by, move.bring_to) == (
        2, Decimal("13.5"), -2, Decimal("11.5"),
    )  # fmt: skip
    assert (move.tighten, move.ease) == ((4,), (2,))


def test_the_latest_reading_at_a_place_counts():
    """A place read again replaces what it read before."""
    again = [*series(0, 12, 20, 8), Reading(0.0, Decimal(8)), Reading(180.0, Decimal(12))]
    assert directions(again, 4) == {1: 2, 2: -2}


def test_a_screw_number_goes_before_its_angle():
    """A reading set by eye near a screw still belongs to it."""
    read = [Reading(angle + 2, Decimal(v), k) for k, angle, v in
            ((1, 0, 0), (2, 90, 12), (3, 180, 20), (4, 270, 8))]  # fmt: skip
    assert directions(read, 4) == {1: 10, 2: -2}


def test_pairs_are_exact_decimals():
    """No binary noise in what the dial is to be brought to."""
    move = advise(series("0.1", "0.1", "0.3", "0.1"), Facts("mm", sense="toward"))
    assert (str(move.by), str(move.bring_to)) == ("0.1", "0.2")


def test_nothing_is_advised_below_half_a_graduation():
    """A move that the dial cannot show is not asked for."""
    near = series("0", "0", "0.4", "0")
    assert advise(near, Facts("thou", graduation=Decimal("0.5"))) is None
    assert advise(near, Facts("thou", graduation=Decimal("0.2"))) is not None
    assert advise(series(5, 5, 5, 5), Facts("thou")) is None


def test_a_screw_that_was_not_read_is_to_be_read_first():
    """Six places and four screws: screw 2 has no reading of its own."""
    read = series(5, 10, 10, 5, 0, 0)
    move = advise(read, Facts("thou", sense="toward"))
    assert (move.screw, move.reads, move.bring_to, move.why) == (4, None, None, WHY_READ)
    assert move.by > 0


def test_a_plunger_between_screws_is_refused():
    """A move needs a screw under the plunger."""
    with pytest.raises(BadInput, match="No screw"):
        advise(series(0, 12, 20, 8), Facts("thou"), under=Reading(45.0, Decimal(0)))


@given(
    offsets,
    st.sampled_from([3, 4, 5, 6, 8]),
    st.sampled_from(["toward", "away"]),
    st.sampled_from(["outside", "inside"]),
)
def test_two_moves_centre_the_body(offset, screws, sense, surface):
    """Whatever the screws: after the advised move and the one at its second screw it is centred.

    The body is moved by the model above, so a wrong sign would double the error.
    """
    x, y = (float(part) for part in offset)
    assume(hypot(x, y) > 1)
    sign = 1 if surface == "outside" else -1
    facts = Facts("thou", screws=screws, sense=sense, surface=surface)
    for _ in range(2):
        move = advise(dial(x, y, screws, surface=sign), facts)
        if move is None:
            break
        x, y = moved(x, y, move, screws, sense)
    assert hypot(x, y) < 1e-6


@given(offsets, st.sampled_from([3, 4, 6]))
def test_each_move_brings_the_centre_nearer(offset, screws):
    """The further direction first never makes it worse."""
    x, y = (float(part) for part in offset)
    assume(hypot(x, y) > 1)
    facts = Facts("thou", screws=screws, sense="toward")
    after = moved(x, y, advise(dial(x, y, screws), facts), screws, "toward")
    assert hypot(*after) < hypot(x, y)


def test_three_screws_tighten_one_against_two():
    """Body out at screw 1 alone: ease it and draw up both others."""
    move = advise(series(8, -1, -1), Facts("thou", screws=3, sense="toward"))
    assert (move.screw, move.across, move.ease, move.tighten) == (1, None, (1,), (2, 3))
    assert move.by == -6


def test_six_screws_name_the_neighbours_too():
    """Moving toward screw 4 draws 3 and 5 along and needs 1, 2 and 6 eased."""
    move = advise(dial(6, 0, 6), Facts("thou", screws=6, sense="toward"))
    assert (move.screw, move.tighten, move.ease) == (4, (4, 3, 5), (1, 2, 6))


@pytest.mark.parametrize("bad", [{"screws": 2}, {"sense": "left"}, {"surface": "top"}])
def test_facts_come_from_closed_lists(bad):
    """A wrong fact is refused at the door."""
    with pytest.raises(BadInput):
        Facts("thou", **bad)
