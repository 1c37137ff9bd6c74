"""What the walk tells the advisor and asks of it: the larger direction first, nothing twice."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from guide.measure.truing.heard import WasMoved, WasRead, WasTorqued
from guide.walk.advised import (
    STATION,
    contradicts,
    ends_far_off,
    knows_aim,
    next_move,
    next_screw,
    no_move,
    of_move,
    pair_was_read,
    planned,
    said_before,
    stands_against_the_turn,
    turned_round,
    was_moved,
)
from guide.walk.state import State, Taken

FACTS = {"unit": "in", "screw-count": "4", "sense": "toward", "graduation": "0.0001 in"}
TURN = {
    "angles": ("0", "90", "180", "270"),
    "values": ("0.0000", "0.0010", "0.0040", "0.0030"),
}
"""Pair 1-3 is 4 thou apart, pair 2-4 is 2 thou apart (invented)."""
READ = WasRead((0.0, 90.0, 180.0, 270.0), tuple(Decimal(each) for each in TURN["values"]), STATION)
FIRST = WasMoved(1, Decimal("0.0020"), reads=Decimal("0.0020"), bring_to=Decimal("0.0020"))


def standing(*more_heard: object, **more: object) -> State:
    """A state behind one turn."""
    turn = Taken(1, "round-turn", "round", "turn", TURN)
    state = State("s", "t", "first-pair", facts=FACTS, turn=turn, heard=(READ, *more_heard))
    return replace(state, **more)


def test_the_larger_direction_goes_first_and_the_other_one_next() -> None:
    """4 thou before 2 thou, each at the screw that is tightened."""
    first = next_screw(standing())
    assert first == 1
    assert next_screw(standing(FIRST, moved=(first,))) in (2, 4)


def test_a_move_is_half_the_difference_of_its_pair() -> None:
    """Common practice, no source: bring the dial to the middle of the two."""
    move = next_move(standing(pair={"screw": 1, "value": "0.0000"}))
    assert move is not None
    assert move.bring_to == Decimal("0.0020")


def test_a_direction_already_moved_is_not_moved_again_from_the_same_turn() -> None:
    """After an interruption the same pair may come up again; the old turn has no say in it."""
    for screw in (1, 3):
        again = standing(FIRST, moved=(3,), pair={"screw": screw, "value": "0.0021"})
        assert next_move(again) is None


def test_nothing_is_announced_of_an_aim_that_nobody_gave() -> None:
    """Without a tolerance nothing can be proved or not; with a coarse dial it is said at once."""
    state = replace(standing(), heard=())
    assert not knows_aim(state)
    assert said_before(state) is None
    fine = replace(state, facts={**FACTS, "graduation": "0.001 in", "tolerance": "0.0005 in"})
    assert "cannot prove" in str(said_before(fine))


def test_the_first_turn_is_read_at_the_screws_alone() -> None:
    """Far off, or not known, the screws are enough: four, and the first one again."""
    known = {**FACTS, "tolerance": "0.001 in"}
    plan = planned(replace(standing(), heard=(), facts=known))
    assert plan is not None
    assert plan.angles == (0, 90, 180, 270, 360)


WRONG = {"screw": 1, "value": "0.0000"}
"""What the screw reads that is then moved."""


def moved(state: State, got: str, **said: object) -> State:
    """The state behind a move at the screw just read, as the fold has it."""
    data = of_move({"got": got, **said}, state)
    heard = was_moved(data)
    assert heard is not None
    return replace(state, heard=(*state.heard, heard), moved=(1,), pair={})


def test_a_record_does_not_state_that_a_screw_was_tightened_where_nobody_said_so() -> None:
    """The screw that was advised is presumed, apart from what was said; it teaches no sense."""
    state = standing(pair=WRONG)
    kept = of_move({"got": "-0.0020"}, state)
    assert (kept["presumed"], kept["moved"]) == (1, "-0.0020")
    assert not {"tightened", "learned"} & kept.keys()
    heard = was_moved(kept)
    assert heard is not None
    assert heard.tightened is None
    said = of_move({"got": "-0.0020", "tightened": 3}, state)
    assert (said["tightened"], said["learned"], "presumed" in said) == (3, "toward", False)


def test_a_record_that_states_a_presumed_screw_as_tightened_is_still_read() -> None:
    """As records of earlier reckonings have it."""
    advised = {"screw": 1, "by": "0.0020", "bring_to": "0.0020", "tighten": [1], "ease": [3]}
    heard = was_moved({"advised": advised, "got": "0.0019", "tightened": 1, "learned": "toward"})
    assert heard is not None
    assert (heard.tightened, heard.reads) == (1, Decimal("0.0019"))


def test_after_a_move_the_wrong_way_the_next_page_says_what_is_taken_for_true_now() -> None:
    """What was seen, the sense from here on, and that the screw across may have been turned."""
    state = moved(standing(pair=WRONG), "-0.0020")
    assert turned_round(moved(standing(pair=WRONG), "0.0020")) is None
    told = next_move(replace(state, pair={"screw": 2, "value": "0.0010"}))
    assert told is not None
    for said in (str(turned_round(state)), str(told.why)):
        assert "The needle went the other way" in said
        assert "the screw across was turned" in said
        assert "taken to push the body away" in said
    torqued = replace(state, heard=(*state.heard, WasTorqued()))
    assert turned_round(torqued) == turned_round(state)
    assert turned_round(replace(torqued, heard=(*torqued.heard, READ))) is None
    assert told.tighten == (4,) if told.by > 0 else told.tighten == (2,)


def test_a_value_that_contradicts_the_turn_is_said_and_then_stands_beside_its_move() -> None:
    """The turn read 4 thou at screw 3; the other sign is asked about, and not let by in silence."""
    assert contradicts(3, Decimal("0.0040"), standing()) is None
    doubt = contradicts(3, Decimal("-0.0040"), standing())
    assert doubt is not None
    for said in ("Screw 3 reads -0.0040 in", "about 0.0040 in", "say it once more"):
        assert said in str(doubt)
    pair = {"screw": 3, "value": "-0.0040"}
    read = standing(pair_was_read(pair, standing()), pair=pair)
    assert "if it was misread, so is this move" in str(stands_against_the_turn(read))
    right = {"screw": 3, "value": "0.0040"}
    read = standing(pair_was_read(right, standing()), pair=right)
    assert stands_against_the_turn(read) is None


REGISTER = {**FACTS, "clearance": "0.020 in"}
"""A body that its register lets go by 20 thou from end to end (invented)."""


def test_the_end_of_a_move_is_asked_about_where_the_move_can_hardly_have_ended_there() -> None:
    """From 0 to 0.0020: a forgotten sign, a slipped point, the other way; not one short of it."""
    state = standing(pair=WRONG)
    for odd in ("-0.0020", "0.0200", "1", "0.0045"):
        doubt = ends_far_off(Decimal(odd), state)
        assert doubt is not None, odd
        assert "From 0.0000" in str(doubt)
        assert "say it once more" in str(doubt)
    for usual in ("0", "0.0002", "0.0012", "0.0020", "0.0030", "-0.0004"):
        assert ends_far_off(Decimal(usual), state) is None, usual


def test_where_nobody_knows_which_way_a_screw_works_the_other_way_is_no_surprise() -> None:
    """That is how it is learned; far beyond it still is one."""
    state = standing(pair=WRONG)
    state = replace(state, facts={**FACTS, "sense": "unknown"})
    move = next_move(state)
    assert move is not None
    assert ends_far_off(move.reads - move.by, state) is None
    assert ends_far_off(move.reads - 9 * move.by - Decimal("0.01"), state) is not None


def test_a_misread_end_of_a_move_spoils_no_later_advice() -> None:
    """An inch where it came to two thou, said twice: the next turn has the say, not the slip.

    Its middle is -0.00025; nothing learned of the bolts from that round takes the aim far from it.
    """
    state = replace(standing(pair=WRONG), facts=REGISTER)
    after = tuple(Decimal(each) for each in ("0.0000", "0.0005", "0.0000", "-0.0010", "0.0000"))
    turn = WasRead((0.0, 90.0, 180.0, 270.0, 360.0), after, STATION)
    for got in ("1", "-0.5", "0.0500"):
        spoiled = moved(state, got)
        later = replace(spoiled, heard=(*spoiled.heard, WasTorqued(), turn), moved=())
        pair = {"screw": 4, "value": "-0.0010"}
        read = replace(later, heard=(*later.heard, pair_was_read(pair, later)), pair=pair)
        move = next_move(read)
        assert move is not None
        assert abs(move.bring_to - Decimal("-0.00025")) <= Decimal("0.0005"), got


def test_no_move_is_advised_that_the_register_does_not_let_the_body_make() -> None:
    """A value let stand that is far beyond it: turn no screw, read a turn; other values are used.

    Of an unknown clearance nothing is known to be beyond it.
    """
    for value, beyond in (("-0.0680", True), ("-0.0068", False)):
        pair = {"screw": 3, "value": value}
        state = replace(standing(pair_was_read(pair, standing()), pair=pair), facts=REGISTER)
        assert (next_move(state) is None) is beyond
        assert ("Turn no screw" in no_move(state)) is beyond
        unknown = replace(state, facts=FACTS)
        assert next_move(unknown) is not None
        assert not no_move(unknown)
