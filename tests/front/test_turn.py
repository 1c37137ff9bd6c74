"""What is said of a value at one screw as it is typed."""

from __future__ import annotations

from decimal import Decimal

from guide.front.correction import advice
from guide.front.turn import pair_doubt, turn_at
from guide.measure.truing.heard import WasMoved, WasRead, WasTorqued
from guide.procedure.shelf import find
from guide.walk.advised import STATION, pair_was_read
from guide.walk.figures import TURNS_ON_THE_BAR
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


def test_the_turn_after_a_move_the_wrong_way_says_so_above_its_first_reading() -> None:
    """With or without an aim; a turn on the plate has nothing to do with it."""
    wrong = WasMoved(3, Decimal("0.0035"), Decimal("-0.0105"), bring_to=Decimal("-0.0035"))
    heard = (READ, wrong, WasTorqued())
    procedure = find("adjustable-chuck")
    turns = [each for each in procedure.steps if each.take == "turn"]
    assert {each.serves_as in TURNS_ON_THE_BAR for each in turns} == {True, False}
    for aim in ({}, {"tolerance": "0.001 in"}):
        state = State("s", "t", "round", facts={**FACTS, **aim}, heard=heard, moved=(3,))
        for step in turns:
            told = " ".join(turn_at(step, state).told)
            said = "The needle went the other way" in told
            assert said == (step.serves_as in TURNS_ON_THE_BAR)
