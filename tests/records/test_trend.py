"""What finished setups say of a chuck over the years, whatever some of them leave out."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from guide.journal.store import Store
from guide.journal.summary import Summary
from guide.procedure.shelf import find
from guide.records.trend import histories, points_of
from guide.rehearse import read_answers, rehearse

READ = {
    "at": "2030-05-25", "judged": "0.0004", "expanded_uncertainty": "0.0001", "unit": "in",
    "verdict": "within", "tolerance": "0.001 in", "station": "3 in",
}  # fmt: skip
ON = {"seat": "locked", "body": "on-plate"}


def summed(
    outcome: dict[str, Any],
    *,
    mode: str = "real",
    typed_at: str = "terminal",
    lathe: str = "Lathe 2 (invented)",
    world: dict[str, str] | None = None,
) -> Summary:
    """The summary of a setup that ended."""
    return Summary(
        setup="one", opened_at="2030-05-25T06:00:00.000Z", opened_by="A. Sample",
        opening={"mode": mode, "input": typed_at, "facts": {"lathe": lathe}},
        last_at="2030-05-25T09:00:00.000Z", last_by="A. Sample", last_kind="sign", last_step="end",
        closing={"ends": "finished", "outcome": outcome, "world": ON if world is None else world},
        events=40,
    )  # fmt: skip


def test_both_results_are_read_with_their_day_unit_and_tolerance() -> None:
    """Figures exactly as they were written, the tolerance in the readings' unit."""
    told = {"chuck": "C 7", "as_found": READ, "recheck": "2031-05-25",
            "as_left": READ | {"unit": "mm", "judged": "0.005"}}  # fmt: skip
    (point,) = points_of([summed(told)])
    assert (point.chuck, point.lathe) == ("C 7", "Lathe 2 (invented)")
    assert point.found is not None
    assert point.left is not None
    assert (point.found.judged, point.found.tolerance) == (Decimal("0.0004"), Decimal("0.001"))
    assert point.left.tolerance == Decimal("0.0254")
    assert point.recheck == date(2031, 5, 25)
    assert point.found.in_unit(point.found.judged, "um") == pytest.approx(10.16)


@pytest.mark.parametrize(
    "other", [{"mode": "practice"}, {"mode": "rehearsal"}, {"typed_at": "program"}]
)
def test_what_nobody_did_at_a_lathe_is_left_out(other: dict[str, str]) -> None:
    """Practice, rehearsals, and what a program walked."""
    assert list(points_of([summed({"chuck": "C 7", "as_left": READ}, **other)])) == []


def test_what_a_person_did_on_a_page_at_the_lathe_counts() -> None:
    """As what was typed at a terminal does."""
    asked = {"chuck": "C 7", "as_left": READ}
    on_a_page, at_a_terminal = (summed(asked, typed_at=each) for each in ("serve", "terminal"))
    assert list(points_of([on_a_page])) == list(points_of([at_a_terminal])) != []


@pytest.mark.parametrize(
    "damage",
    [{"at": "yesterday"}, {"judged": "a lot"}, {"judged": "-1"}, {"unit": "cubit"},
     {"judged": "Infinity"}],
)  # fmt: skip
def test_a_reading_that_cannot_be_read_is_no_reading(damage: dict[str, str]) -> None:
    """Nothing is guessed, and the point stays."""
    (point,) = points_of([summed({"chuck": "C 7", "as_left": READ | damage})])
    assert point.left is None


@pytest.mark.parametrize("tolerance", ["", "unknown", "a hair", "0.001"])
def test_a_tolerance_that_is_no_length_is_unknown(tolerance: str) -> None:
    """The figure is still shown."""
    (point,) = points_of([summed({"chuck": "C 7", "as_left": READ | {"tolerance": tolerance}})])
    assert point.left is not None
    assert point.left.tolerance is None


def test_an_outcome_that_is_none_is_no_point() -> None:
    """A text or a list in its place, or a setup about no chuck."""
    for odd in ("text", ["list"], {}, {"chuck": ""}):
        assert list(points_of([summed(odd)])) == []  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("world", "there"), [(ON, True), (ON | {"seat": "off"}, False), (ON | {"body": "apart"}, False)]
)
def test_a_chuck_is_on_the_nose_where_plate_and_body_are(world, there: bool) -> None:
    """A plate that came off, or a body that came off it, is off."""
    (point,) = points_of([summed({"chuck": "C 7"}, world=world)])
    assert point.on_nose is there


def test_one_chuck_however_it_is_spelled_is_one_on_each_lathe() -> None:
    """Upper and lower case and idle spaces tell nobody apart; another lathe does."""
    told = [summed({"chuck": name}, lathe=lathe)
            for name, lathe in (("C 7", "L 1"), ("c  7", "l 1"), ("C 7", "L 2"))]  # fmt: skip
    found = histories(points_of(told))
    assert [(each.chuck, each.lathe, len(each.points)) for each in found] == [
        ("c  7", "l 1", 2), ("C 7", "L 2", 1)
    ]  # fmt: skip


def test_the_shipped_procedures_end_with_what_is_read_here(tmp_path: Path) -> None:
    """A truing and a later look at the same chuck, walked whole: found and left, in order."""
    with Store(tmp_path / "j.sqlite3") as store:
        for name in ("adjustable-chuck-inch", "chuck-recheck-inch"):
            answers = read_answers(Path(__file__).parents[1] / "answers" / f"{name}.yaml")
            rehearse(find(answers.procedure), answers, store, name)
        ended = sorted(store.setups(), key=lambda each: each.last_at)
    real = [
        Summary(each.setup, each.opened_at, each.opened_by,
                dict(each.opening) | {"mode": "real", "input": "terminal"}, each.last_at,
                each.last_by, each.last_kind, each.last_step, each.closing, each.events)
        for each in ended
    ]  # fmt: skip
    (history,) = histories(points_of(real))
    first, second = history.points
    assert (first.found, first.recheck) == (None, date(2026, 9, 2))
    assert first.left is not None
    assert second.found is not None
    assert first.left.verdict == second.found.verdict == "within"
    assert history.unit == "in"
