"""The one advisor, claim by claim, on a body written from what a screw does to it."""

from __future__ import annotations

from cmath import exp
from dataclasses import dataclass, field, replace
from decimal import Decimal
from math import radians

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from guide.measure.advice import advise
from guide.measure.angles import across, of_screw
from guide.measure.truing.asked import Asked, Move, Read, Stop, Torque
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead, WasTorqued
from guide.plain import BadInput

offsets = st.tuples(st.integers(-90, 90), st.integers(-90, 90))
screw_counts = st.sampled_from((3, 4, 6))
senses = st.sampled_from(("toward", "away"))


@dataclass
class Body:
    """A body without noise: it goes as far as the screw that is turned, in tenths of a thou."""

    centre: complex
    screws: int = 4
    sense: str = "toward"
    surface: int = 1
    zero: float = 0.0
    per_inch: float = 1.0
    turned: list[int] = field(default_factory=list)

    def dial(self, angle: float) -> Decimal:
        """What the dial shows there, to a ten-thousandth."""
        off = (self.centre * exp(-1j * radians(angle))).real * self.surface
        return Decimal(repr(round((self.zero + off) * self.per_inch, 9)))

    def turn(self, move: Move) -> None:
        """The screw that is named is tightened as far as the dial is to change."""
        assert move.tighten is not None
        main = move.tighten[0]
        way = exp(1j * radians(of_screw(main, self.screws)))
        step = abs(float(move.by)) / self.per_inch
        if main not in (move.screw, across(move.screw, self.screws)):
            way, step = -exp(1j * radians(of_screw(move.screw, self.screws))), step
        self.turned.append(main)
        self.centre += way * step * (1 if self.sense == "toward" else -1)


def facts(body: Body, **more: object) -> Facts:
    """What is told of a body: 0.001 wanted, a dial of 0.0001, in inches."""
    told = {"tolerance": Decimal("0.001"), "graduation": Decimal("0.0001"), "screws": body.screws}
    surface = "outside" if body.surface > 0 else "inside"
    return Facts("in", **{**told, "sense": body.sense, "surface": surface, **more})  # type: ignore[arg-type]


def answer(asked: Asked, body: Body) -> Heard:
    """What the body makes of it."""
    if isinstance(asked, Read):
        values = tuple(body.dial(angle) for angle in asked.angles)
        return WasRead(asked.angles, values, asked.station)
    if isinstance(asked, Move):
        body.turn(asked)
        reads = body.dial(of_screw(asked.screw, body.screws))
        return WasMoved(asked.screw, asked.by, reads, bring_to=asked.bring_to)
    return WasTorqued()


def walked(body: Body, known: Facts) -> tuple[Stop, list[Asked]]:
    """Every question answered, to the stop."""
    heard: list[Heard] = []
    asked: list[Asked] = []
    for _ in range(60):
        asked.append(advise(known, heard))
        if isinstance(asked[-1], Stop):
            return asked[-1], asked
        heard.append(answer(asked[-1], body))
    raise AssertionError("it never stops")


@settings(deadline=None, max_examples=60)
@given(offsets, screw_counts, senses, st.sampled_from((1, -1)))
def test_without_noise_one_round_centres_any_body(
    off: tuple[int, int], screws: int, sense: str, surface: int
) -> None:
    """Whatever the screws, their sense and the surface: at most one torque, and truly within."""
    body = Body(complex(*off) / 20000, screws, sense, surface)
    stop, asked = walked(body, facts(body))
    assert stop.verdict == "within"
    assert 2 * abs(body.centre) <= 0.001
    assert sum(isinstance(each, Torque) for each in asked) <= 1


@settings(deadline=None, max_examples=40)
@given(offsets, screw_counts, st.integers(-50, 50))
def test_a_constant_on_the_dial_changes_no_advice(
    off: tuple[int, int], screws: int, added: int
) -> None:
    """The same moves and the same verdict, wherever the dial's zero is."""
    told = []
    for zero in (0.0, added / 1000):
        body = Body(complex(*off) / 20000, screws, zero=zero)
        stop, asked = walked(body, facts(body))
        told.append((stop.verdict, [(m.screw, m.by) for m in asked if isinstance(m, Move)]))
    assert told[0] == told[1]


@settings(deadline=None, max_examples=30)
@given(offsets, screw_counts)
def test_millimetres_get_the_same_advice_as_inches(off: tuple[int, int], screws: int) -> None:
    """Every length 25.4 times as large, the same screws in the same order."""
    told = []
    for unit, size in (("in", 1), ("mm", Decimal("25.4"))):
        body = Body(complex(*off) / 20000, screws, per_inch=float(size))
        known = Facts(
            unit, Decimal("0.001") * size, Decimal("0.0001") * size, screws, sense="toward"
        )
        stop, asked = walked(body, known)
        moves = [m for m in asked if isinstance(m, Move)]
        told.append((stop.verdict, [m.screw for m in moves]))
        told.append([float(m.by) / float(size) for m in moves])
    assert told[0] == told[2]
    assert told[1] == pytest.approx(told[3], abs=2e-5)


@settings(deadline=None, max_examples=30)
@given(offsets, st.integers(0, 3))
def test_turning_the_numbers_round_turns_the_advice_round(
    off: tuple[int, int], quarter: int
) -> None:
    """With screw 1 a quarter on, the same physical screws are turned by the same amount."""
    centre = complex(*off) / 20000
    assume(abs(abs(off[0]) - abs(off[1])) > 3 and min(abs(off[0]), abs(off[1])) > 3)
    plain, turned = Body(centre), Body(centre * exp(-1j * radians(90 * quarter)))
    first = [walked(body, facts(body))[1] for body in (plain, turned)]
    one, other = ([m for m in asked if isinstance(m, Move)] for asked in first)
    assert [(m.screw - 1) % 4 for m in one] == [(m.screw - 1 + quarter) % 4 for m in other]
    assert [float(m.by) for m in one] == pytest.approx([float(m.by) for m in other], abs=2e-5)


def test_the_larger_direction_is_moved_first_and_the_second_is_read_again() -> None:
    """Four thou before two; between them the second screw comes under the plunger."""
    body = Body(-0.002 - 0.001j)
    _, asked = walked(body, facts(body))
    kinds = [type(each).__name__ for each in asked]
    assert kinds[:5] == ["Read", "Move", "Read", "Move", "Torque"]
    first, again, second = asked[1:4]
    assert isinstance(first, Move)
    assert (first.screw, float(first.by)) == (1, pytest.approx(0.002, abs=1e-5))
    assert isinstance(again, Read)
    assert again.angles == (90.0,)
    assert isinstance(second, Move)
    assert (second.screw, second.reads) == (2, body_reads(second))


def body_reads(move: Move) -> Decimal:
    """A move counts from what was just read."""
    return move.bring_to - move.by


def test_a_pair_below_what_a_hand_sets_is_left_alone() -> None:
    """Out in one direction only: one move, no second one for the sake of a hair."""
    body = Body(-0.002 + 0.00001j)
    _, asked = walked(body, facts(body))
    assert sum(isinstance(each, Move) for each in asked) == 1


def test_the_sense_decides_which_screw_is_tightened() -> None:
    """Toward: the screw that the body is to come to; away: the one across from it."""
    for sense, screw in (("toward", 1), ("away", 3)):
        body = Body(-0.002 + 0j, sense=sense)
        move = advise(facts(body), [answer(advise(facts(body), []), body)])
        assert isinstance(move, Move)
        assert move.tighten == (screw,)
        assert move.ease == ({1: 3, 3: 1}[screw],)


def test_until_the_sense_is_known_the_move_is_small_and_no_screw_is_named() -> None:
    """Back both a hair, then watch the needle: half a thou at the most here."""
    body = Body(-0.004 + 0j)
    known = facts(body, sense="unknown")
    move = advise(known, [answer(advise(known, []), body)])
    assert isinstance(move, Move)
    assert (move.tighten, move.ease) == (None, None)
    assert abs(move.by) <= Decimal("0.0005")


@pytest.mark.parametrize("sense", ["toward", "away"])
def test_one_move_of_which_the_screw_is_said_teaches_the_sense(sense: str) -> None:
    """The needle rose or fell when that screw was tightened: known from then on."""
    body = Body(-0.004 + 0j)
    known = facts(body, sense="unknown")
    heard: list[Heard] = [answer(advise(known, []), body)]
    move = advise(known, heard)
    assert isinstance(move, Move)
    step = Decimal("0.0005") if sense == "toward" else Decimal("-0.0005")
    heard.append(
        WasMoved(move.screw, move.by, move.reads + step, bring_to=move.bring_to, named=False,
                 tightened=move.screw)
    )  # fmt: skip
    after = advise(known, heard)
    assert isinstance(after, Move)
    assert after.tighten is not None
    raises = (after.tighten[0] == after.screw) == (sense == "toward")
    assert raises == (after.by > 0)


@pytest.mark.parametrize("told", ["toward", "away"])
@pytest.mark.parametrize("centre", [0.0045 + 0j, -0.003 + 0.002j, -0.0045j])
def test_a_sense_told_wrongly_is_found_even_where_nobody_reads_the_moves(
    told: str, centre: complex
) -> None:
    """The next turn shows that it went the other way: it ends within, truly."""
    body = Body(centre, sense="away" if told == "toward" else "toward")
    known, heard = facts(body, sense=told), []
    for _ in range(60):
        asked = advise(known, heard)
        if isinstance(asked, Stop):
            break
        after = answer(asked, body)
        heard.append(replace(after, reads=None) if isinstance(after, WasMoved) else after)
    assert isinstance(asked, Stop)
    assert asked.verdict == "within"
    assert 2 * abs(body.centre) <= 0.001
    assert "wrong-way" in asked.flags


def test_a_screw_at_its_end_before_any_move_lets_the_other_sense_be_tried() -> None:
    """Told the wrong way round, it bottoms twice; then a small move the other way, and why."""
    body = Body(-0.004 + 0j)
    known = facts(body)
    heard: list[Heard] = [answer(advise(known, []), body)]
    first = advise(known, heard)
    assert isinstance(first, Move)
    bottomed = WasMoved(first.screw, first.by, None, False, "bottomed", first.bring_to)
    once = advise(known, [*heard, bottomed])
    assert isinstance(once, Move)
    assert once.tighten == first.tighten
    second = advise(known, [*heard, bottomed, bottomed])
    assert isinstance(second, Move)
    assert second.tighten == first.ease
    assert abs(second.by) < abs(first.by) / 4
    assert "perhaps these screws work in the other sense" in str(second.why)


def test_a_turned_sense_is_said_at_once() -> None:
    """However far the needle went the other way, the next move says that the sense is turned."""
    body = Body(-0.004 + 0j, sense="away")
    known = facts(body, sense="toward")
    heard: list[Heard] = [answer(advise(known, []), body)]
    move = advise(known, heard)
    heard.append(answer(move, body))
    assert "the screws work in the other sense" in str(advise(known, heard).why)


def test_readings_that_are_all_nought_say_nothing_of_the_bar() -> None:
    """On a dial that cannot prove it, the end speaks of the dial."""
    known = facts(Body(0j), tolerance=Decimal("0.0005"), graduation=Decimal("0.001"))
    asked, heard = advise(known, []), []
    while isinstance(asked, Read):
        heard.append(WasRead(asked.angles, (Decimal(0),) * len(asked.angles), asked.station))
        asked = advise(known, heard)
    assert isinstance(asked, Stop)
    assert "out of round" not in str(asked.why)


def test_near_the_tolerance_it_reads_more_positions_before_it_says_within() -> None:
    """Four screws cannot show three lobes: eight positions, and the first one again."""
    body = Body(0.0001 + 0j)
    stop, asked = walked(body, facts(body))
    places = {angle % 360 for each in asked if isinstance(each, Read) for angle in each.angles}
    assert stop.verdict == "within"
    assert places == {45.0 * k for k in range(8)}
    assert "few-positions" not in stop.flags


def test_a_zero_that_moved_is_read_again_before_anything_is_made_of_it() -> None:
    """The first position does not come back: the same turn again, and the flag at the end."""
    body = Body(0.002 + 0.001j)
    known = facts(body)
    read = advise(known, [])
    assert isinstance(read, Read)
    values = [*(body.dial(angle) for angle in read.angles[:-1]), Decimal("0.0030")]
    again = advise(known, [WasRead(read.angles, tuple(values), read.station)])
    assert isinstance(again, Read)
    assert again.angles == read.angles
    assert "zero moved, read again" in str(again.why)


@pytest.mark.parametrize(
    ("tolerance", "graduation", "can"),
    [
        ("0.001", "0.0001", True),
        ("0.001", "0.0005", True),
        ("0.0003", "0.0001", True),
        ("0.001", "0.001", False),
        ("0.0005", "0.0005", False),
        ("0.0005", "0.001", False),
    ],
)
def test_what_cannot_be_proved_is_said_before_the_first_reading(
    tolerance: str, graduation: str, can: bool
) -> None:
    """Two divisions at least; readings that are all the same can hide about one."""
    body = Body(0j)
    known = facts(body, tolerance=Decimal(tolerance), graduation=Decimal(graduation))
    first = advise(known, [])
    assert ("cannot prove" not in str(first.why)) == can


def test_what_cannot_be_proved_is_never_said_to_be_within() -> None:
    """Readings that are all nought on a coarse dial end undecided, with the flag."""
    body = Body(0j)
    stop, _ = walked(body, facts(body, tolerance=Decimal("0.0005"), graduation=Decimal("0.001")))
    assert stop.verdict == "undecided"
    assert "cannot-prove" in stop.flags


def test_play_larger_than_the_tolerance_is_said() -> None:
    """It may be as good as this spindle can show."""
    body = Body(0j)
    stop, _ = walked(body, facts(body, play=Decimal("0.002")))
    assert "spindle-limit" in stop.flags


def test_simple_acceptance_is_recorded_as_such() -> None:
    """Factor 0 with its rule; 1.645 by default."""
    for rule, factor in (("simple", 0.0), ("guarded", 1.645)):
        body = Body(0j)
        stop, _ = walked(body, facts(body, rule=rule))
        assert (stop.decision.rule, stop.decision.factor) == (rule, factor)


def test_the_same_story_gets_the_same_advice() -> None:
    """Nothing is drawn by lot, nothing is kept between two questions."""
    told = []
    for _ in range(2):
        body = Body(-0.003 + 0.002j)
        told.append(walked(body, facts(body)))
    assert told[0] == told[1]


@pytest.mark.parametrize(
    "wrong",
    [{"unit": "ell"}, {"screws": 2}, {"sense": "left"}, {"rule": "kind"}, {"stations": ()},
     {"tolerance": Decimal(0)}, {"graduation": Decimal(-1)}, {"play": Decimal(-1)}],
)  # fmt: skip
def test_facts_that_cannot_be_are_refused(wrong: dict[str, object]) -> None:
    """One sentence each."""
    right: dict[str, object] = {
        "unit": "in", "tolerance": Decimal("0.001"), "graduation": Decimal("0.0001")
    }  # fmt: skip
    with pytest.raises(BadInput):
        Facts(**{**right, **wrong})  # type: ignore[arg-type]
