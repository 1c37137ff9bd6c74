"""The staircase: longer where there is room, shorter where there is none, never on hope."""

from __future__ import annotations

import json
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.interval import LONGEST, SHORTEST, VERDICTS, AsFound, Interval, interval

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_interval.json").read_text(encoding="utf-8")
)
BEGUN = date(2030, 1, 1)
FIRST = st.integers(1, 1000)
SIZES = st.integers(0, 30).map(lambda tenths: Decimal(tenths).scaleb(-4))


def look(day: int, judged: str, uncertainty: str | None, verdict: str = "within") -> AsFound:
    """A result as found so many days after the first, against a tolerance of 0.001."""
    known = None if uncertainty is None else Decimal(uncertainty)
    return AsFound(BEGUN + timedelta(days=day), Decimal(judged), known, Decimal("0.001"), verdict)


@st.composite
def looks(draw: st.DrawFn) -> list[AsFound]:
    """Results in the order of their days."""
    days = sorted(draw(st.lists(st.integers(0, 4000), max_size=8)))
    one = st.builds(
        AsFound, st.just(BEGUN), SIZES, st.none() | SIZES, st.just(Decimal("0.001")),
        st.sampled_from(VERDICTS),
    )  # fmt: skip
    found = [draw(one) for _ in days]
    return [
        AsFound(BEGUN + timedelta(days=day), each.judged, each.expanded_uncertainty,
                each.tolerance, each.verdict)
        for day, each in zip(days, found, strict=True)
    ]  # fmt: skip


def days_of(*found: AsFound, first: int = 100) -> list[int]:
    """The interval after each result."""
    return [step.after for step in interval(first, BEGUN, found).steps]


@pytest.mark.parametrize("case", SEEN["method"]["found"], ids=lambda each: each["share"])
def test_the_direction_of_a_step_is_that_of_the_published_method(case) -> None:
    """Extended within 80 % of the limit, reduced outside it (ILAC-G24:2007, transcribed)."""
    judged = Decimal(case["share"]) * Decimal("0.001")
    (after,) = days_of(look(100, str(judged), "0", case["verdict"]))
    way = "longer" if after > 100 else "shorter" if after < 100 else "no longer"
    assert way == case["next"]


@pytest.mark.parametrize("verdict", SEEN["halving"]["verdicts"])
def test_halving_and_two_years_are_what_a_public_page_has(verdict: str) -> None:
    """One metrologist's own rule, seen; it is no standard's."""
    halved = SEEN["halving"]["factor"] * 100
    assert days_of(look(100, "0.001", "0.0001", verdict)) == [halved]
    assert SEEN["halving"]["most_months"] * 365 == 12 * LONGEST


def test_a_step_up_is_smaller_than_the_published_one() -> None:
    """Half as much again, common practice without a source, where the public page doubles."""
    (after,) = days_of(look(100, "0.0001", "0.0001"))
    assert after == SEEN["lengthening"]["factor"] * 100
    assert after <= SEEN["lengthening"]["published_at_most"] * 100


@pytest.mark.parametrize(
    ("begun", "days", "due"),
    [
        (date(2028, 2, 28), 1, date(2028, 2, 29)),
        (date(2028, 2, 29), 365, date(2029, 2, 28)),
        (date(2028, 1, 1), 366, date(2029, 1, 1)),
        (date(2030, 1, 1), 365, date(2031, 1, 1)),
        (date(2100, 2, 28), 1, date(2100, 3, 1)),
    ],
)
def test_days_are_counted_over_leap_years(begun: date, days: int, due: date) -> None:
    """Gregorian: 2028 has a 29 February, 2100 has none."""
    assert interval(days, begun, []).due == due


def test_without_a_result_the_users_own_interval_stands() -> None:
    """And it is said that nothing supports another."""
    found = interval(365, BEGUN, [])
    assert (found.days, found.due) == (365, BEGUN + timedelta(days=365))
    assert any("nothing supports another" in str(each) for each in found.assumptions)


@pytest.mark.parametrize(
    ("judged", "uncertainty", "after"),
    [("0.0006", "0.0002", 150), ("0.0006", "0.00020001", 100), ("0.0006", None, 100)],
)
def test_eight_tenths_of_the_tolerance_is_the_edge(judged, uncertainty, after) -> None:
    """0.0006 with 0.0002 of 0.001 lengthens; a hair more, or no uncertainty, does not."""
    assert days_of(look(100, judged, uncertainty)) == [after]


@pytest.mark.parametrize("verdict", ["outside", "undecided"])
def test_what_does_not_hold_halves_it(verdict: str) -> None:
    """A hundred days become fifty, and fifty become twenty-five."""
    found = look(100, "0.0012", "0.0001", verdict), look(150, "0.0012", "0.0001", verdict)
    assert days_of(*found) == [50, 25]


def test_looks_in_quick_succession_lengthen_nothing() -> None:
    """Held for a day is no reason to trust a hundred."""
    assert days_of(*(look(day, "0.0001", "0.0001") for day in (1, 2, 3))) == [100, 100, 100]


def test_an_interval_outlived_by_far_is_lengthened_once() -> None:
    """A look four times as late as due is one look."""
    assert days_of(look(400, "0.0001", "0.0001")) == [150]


def test_found_outside_soon_is_half_of_the_days_that_passed() -> None:
    """Outside after 20 of 100 days: 10, not 50; after 3 days no less than the shortest."""
    assert days_of(look(20, "0.002", "0.0001", "outside")) == [10]
    assert days_of(look(3, "0.002", "0.0001", "outside")) == [SHORTEST]


def test_a_voided_result_is_due_on_the_day_it_was_voided() -> None:
    """At once, and the reason says so."""
    day = BEGUN + timedelta(days=12)
    found = interval(365, BEGUN, [], voided=day)
    assert found.due == day
    assert any(day.isoformat() in str(each) for each in found.assumptions)


def test_it_runs_from_the_day_the_chuck_was_left_true_again() -> None:
    """Not from the day it was found."""
    left = BEGUN + timedelta(days=103)
    found = interval(100, BEGUN, [look(100, "0.0001", "0.0001")], since=left)
    assert found.due == left + timedelta(days=150)


@given(FIRST, looks())
def test_every_step_says_what_it_did(first: int, found: list[AsFound]) -> None:
    """One step for each result, each taking up where the last ended, with a whole sentence."""
    answer = interval(first, BEGUN, found)
    assert [step.day for step in answer.steps] == [each.day for each in found]
    assert [step.before for step in answer.steps] == [first, *_after(answer)][: len(found)]
    assert answer.days == [first, *_after(answer)][-1]
    for step in answer.steps:
        assert str(step.before) in str(step.reason)
        assert "{" not in str(step.reason)


@given(FIRST, looks())
def test_no_step_leaves_the_limits(first: int, found: list[AsFound]) -> None:
    """Between the shortest and the longest, unless the user's own was beyond already."""
    for step in interval(first, BEGUN, found).steps:
        assert min(first, SHORTEST) <= step.after <= max(first, LONGEST)


@given(FIRST, looks())
def test_only_a_result_within_lengthens_and_only_one_not_within_shortens(
    first: int, found: list[AsFound]
) -> None:
    """The direction of each step follows from the result alone, and never by more than half."""
    for step, each in zip(interval(first, BEGUN, found).steps, found, strict=True):
        if step.after > step.before:
            reached = each.judged + (each.expanded_uncertainty or 0)
            assert each.verdict == "within"
            assert each.expanded_uncertainty is not None
            assert reached <= Decimal("0.8") * each.tolerance
            assert step.after * 2 <= step.before * 3
        if step.after < step.before:
            assert each.verdict in ("outside", "undecided")
        if each.verdict == "outside":
            assert step.after <= max(step.before * 0.5, min(step.before, SHORTEST))


@given(FIRST, looks().filter(len), st.sampled_from(VERDICTS[1:]))
def test_a_worse_last_result_never_brings_a_later_date(first, found, verdict) -> None:
    """Whatever came before."""
    *before, last = found
    worse = AsFound(last.day, last.judged, last.expanded_uncertainty, last.tolerance, verdict)
    better = AsFound(last.day, last.judged, last.expanded_uncertainty, last.tolerance, "within")
    bad, good = (interval(first, BEGUN, [*before, each]) for each in (worse, better))
    assert bad.due <= good.due


def test_it_refuses_what_cannot_be() -> None:
    """No days, a date before the first, a negative size, a verdict nobody gives."""
    with pytest.raises(BadInput):
        interval(0, BEGUN, [])
    with pytest.raises(BadInput):
        interval(100, BEGUN, [look(5, "0.0001", None), look(4, "0.0001", None)])
    for judged, verdict in (("-0.1", "within"), ("NaN", "within"), ("0.0001", "accepted")):
        with pytest.raises(BadInput):
            look(1, judged, None, verdict)


def _after(answer: Interval) -> list[int]:
    """The days after each step."""
    return [step.after for step in answer.steps]
