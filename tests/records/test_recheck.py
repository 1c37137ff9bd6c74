"""When to look again: the day somebody gave, an earlier one by the results, or at once."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.records.recheck import Recheck, Voided, rechecks, staircase
from guide.records.trend import Judged, Point

BEGUN = date(2030, 1, 1)


def judged(day: date, size: str = "0.0004", verdict: str = "within") -> Judged:
    """A turn of readings against a tolerance of 0.001 in."""
    return Judged(day, Decimal(size), Decimal("0.0001"), Decimal("0.001"), verdict, "in")


def point(
    day: int,
    found: tuple[str, str] | None = None,
    *,
    left: bool = True,
    again: int | None = 100,
    chuck: str = "C 7",
    lathe: str = "L 1",
    on_nose: bool = True,
) -> Point:
    """A setup that ended so many days after the first; to be looked at `again` days later."""
    then = BEGUN + timedelta(days=day)
    return Point(
        f"setup-{day}", f"{then.isoformat()}T12:00:00.000Z", chuck, lathe,
        judged(then, *found) if found else None, judged(then) if left else None,
        then + timedelta(days=again) if again and left else None, on_nose, day * 10,
    )  # fmt: skip


WELL, OUT = ("0.0002", "within"), ("0.0015", "outside")
SIZES_LEFT = [("0", "within"), ("0.0009", "within"), ("0.0012", "undecided"), ("0.003", "outside")]


def only(*points: Point, voided: tuple[Voided, ...] = ()) -> Recheck:
    """Where the one chuck stands."""
    (found,) = rechecks(points, voided)
    return found


def after(days: int) -> date:
    """So many days after the first."""
    return BEGUN + timedelta(days=days)


def test_the_day_somebody_gave_stands_without_a_result_as_found() -> None:
    """Due on it, not the day before."""
    found = only(point(0))
    assert (found.state, found.due) == ("dated", after(100))
    assert not found.is_due(after(99))
    assert found.is_due(after(100))


def test_the_staircase_may_only_bring_it_forward() -> None:
    """Found outside: 50 days, though somebody gave 100; found well within: the 100 given, though
    the results support 150."""
    assert only(point(0), point(100, OUT)).due == after(150)
    found = only(point(0), point(100, WELL))
    assert found.due == after(200)
    assert found.interval is not None
    assert found.interval.due == after(250)


def test_the_steps_are_told_with_the_day() -> None:
    """What the person reads says why."""
    told = " ".join(str(each) for each in only(point(0), point(100, OUT)).why)
    assert after(150).isoformat() in told
    assert "100 days become 50" in told


@given(st.lists(st.tuples(st.integers(1, 300), st.sampled_from([WELL, OUT]),
                          st.sampled_from(SIZES_LEFT), st.sampled_from(SIZES_LEFT)),
                min_size=1, max_size=6))  # fmt: skip
def test_how_true_a_chuck_was_left_says_nothing_of_when_to_look_again(told) -> None:
    """Only what was found: other figures as left, the same interval and the same day."""

    def walked(place: int) -> list[Point]:
        points, day = [point(0)], 0
        for each in told:
            day += each[0]
            one = point(day, each[1])
            points.append(replace(one, left=judged(BEGUN + timedelta(days=day), *each[place])))
        return points

    assert staircase(walked(2)) == staircase(walked(3))


def test_a_chuck_put_up_anew_begins_anew() -> None:
    """Left true with nothing read before: the steps of its earlier life are not counted."""
    found = only(point(0), point(100, OUT), point(150, OUT), point(160, again=300))
    assert found.due == after(460)
    assert found.interval is not None
    assert found.interval.steps == ()


def test_a_result_that_ceased_to_count_is_due_at_once() -> None:
    """Only a mark later than the last setup, and only for that chuck."""
    late, early = f"{after(5)}T08:00:00.000Z", f"{after(0)}T08:00:00.000Z"
    found = only(point(0), voided=(Voided("c 7", late, "a crash (invented)", 51),))
    assert (found.state, found.due) == ("voided", after(5))
    assert "a crash (invented)" in str(found.why[0])
    for mark in (Voided("C 7", early, "before", -1), Voided("C 8", late, "another", 51)):
        assert only(point(0), voided=(mark,)).state == "dated"


def test_a_setup_that_left_no_result_is_due_at_once() -> None:
    """Whatever an earlier one gave."""
    found = only(point(0), point(20, OUT, left=False))
    assert (found.state, found.due) == ("unproven", after(20))
    assert found.is_due(after(20))


def test_a_chuck_off_the_nose_is_not_looked_at_there() -> None:
    """It says so, and nobody is sent to an empty spindle."""
    found = only(point(0), point(20, left=False, on_nose=False))
    assert found.state == "off"
    assert not found.is_due(after(2000))


def test_a_chuck_on_another_lathe_is_looked_at_there() -> None:
    """The first lathe's line says where it went."""
    first, second = rechecks([point(0), point(20, lathe="L 2")])
    assert (first.state, second.state) == ("moved", "dated")
    assert "L 2" in str(first.why[0])
    assert not first.is_due(after(2000))


def test_no_day_given_is_said_and_not_made_up() -> None:
    """Undated is not due."""
    found = only(point(0, again=None))
    assert (found.state, found.due) == ("undated", None)


@pytest.mark.parametrize("again", [-3, 0])
def test_a_day_that_is_no_later_gives_no_interval(again: int) -> None:
    """The day itself stands."""
    one = point(0)
    odd = Point(*(getattr(one, name) for name in ("setup", "ended_at", "chuck", "lathe", "found",
                  "left")), after(again), True)  # fmt: skip
    assert staircase([odd]) is None
    assert only(odd).due == after(again)


@given(st.lists(st.tuples(st.integers(1, 300), st.sampled_from([None, WELL, OUT]), st.booleans(),
                          st.booleans()), max_size=8))  # fmt: skip
def test_a_day_is_never_later_than_the_one_given(told) -> None:
    """Whatever happened, and every answer has a reason in whole sentences."""
    points, day = [point(0)], 0
    for passed, found, left, on_nose in told:
        day += passed
        points.append(point(day, found, left=left, on_nose=on_nose))
    (answer,) = rechecks(points)
    if answer.state == "dated":
        assert answer.due is not None
        assert answer.due <= (points[-1].recheck or answer.due)
    assert answer.why
    assert "{" not in " ".join(str(each) for each in answer.why)
