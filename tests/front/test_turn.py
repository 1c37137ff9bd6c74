"""What is said of a value at one screw as it is typed."""

from __future__ import annotations

from decimal import Decimal

from guide.front.correction import advice
from guide.front.turn import pair_doubt
from guide.measure.truing.heard import WasRead
from guide.walk.advised import STATION, pair_was_read
from guide.walk.state import State, Taken

FACTS = {"unit": "in", "screw-count": "4", "sense": "toward", "graduation": "0.0005 in"}
VALUES = ("0", "-0.0015", "-0.0070", "-0.0055")
TURN = {"angles": ("0", "90", "180", "270"), "values": VALUES}
READ = WasRead((0.0, 90.0, 180.0, 270.0), tuple(map(Decimal, VALUES)), STATION)


def standing() -> State:
    """A state behind one turn, before the first screw is read."""
    turn = Taken(1, "round-turn", "round", "turn", TURN)
    return State("s", "t", "first-pair", facts=FACTS, turn=turn, heard=(READ,))


def test_a_value_that_contradicts_the_turn_is_doubted_once_and_stands_when_said_again() -> None:
    """Screw 3, minus forgotten: what it read, what the turn said, and to look again."""
    trouble = pair_doubt(standing())
    first = trouble("0.0070")
    assert "Screw 3 reads 0.0070 in" in first
    assert "about -0.0070 in" in first
    assert [trouble("0.0070"), trouble("0.0070")] == ["", ""]
    assert trouble("0.0090") != ""


def test_a_value_as_the_turn_had_it_is_taken_at_once() -> None:
    """And one that is no number is refused each time it is typed."""
    trouble = pair_doubt(standing())
    assert trouble("-0.0070") == ""
    assert trouble("seven") == trouble("seven") != ""


def test_a_move_from_a_value_that_was_let_stand_says_what_speaks_against_it() -> None:
    """On the page of the correction itself, before the reason of the move."""
    for value, against in (("0.0070", True), ("-0.0070", False)):
        pair = {"screw": 3, "value": value}
        heard = (READ, pair_was_read(pair, standing()))
        state = State("s", "t", "p", facts=FACTS, heard=heard, pair=pair)
        move = advice(state)
        assert move is not None
        assert ("if it was misread, so is this move" in move.why) == against
