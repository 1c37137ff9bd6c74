"""The debrief tells what was so, from the journal alone."""

from __future__ import annotations

import pytest

from guide.plain import BadInput
from guide.practice.debrief import debrief
from guide.practice.path import path
from guide.practice.telling import title
from guide.practice.telling import told as in_words
from guide.present.canvas import text_of
from guide.procedure.shelf import find
from guide.records.write import write
from guide.rehearse import read_answers, rehearse
from guide.walk.setup import replayed


def words(one) -> str:
    """Everything that is told."""
    return "\n".join(f"{sign} {line}" for _, lines in in_words(one) for sign, line in lines)


def test_a_good_walk_is_told_so(room, with_care) -> None:
    """Nothing wrong, the best beside it, and at the end what was hidden."""
    one = debrief(room.walked("half-difference", decide=with_care))
    assert one.well_ended
    assert "✗" not in words(one)
    assert "toward 166°" in words(one)
    assert "lesson 3" in title(one)


def test_years_later_it_says_the_same(room) -> None:
    """Replayed from the journal, nothing is lost."""
    walk = room.walked("bolts")
    assert words(debrief(replayed(room.store, walk.state.setup))) == words(debrief(walk))


def test_a_value_typed_beside_the_needle_is_misread(room, learner, with_care) -> None:
    """Six divisions off at one place: that one is told, with what the dial showed."""

    class Slipping(learner):  # type: ignore[misc] # a fixture's class
        def value(self) -> str:
            """The fourth value of all is a slip."""
            typed = super().value()
            return f"{float(typed) + 0.0006:.4f}" if len(self.typed) == 4 else typed

    one = debrief(Slipping(room.open("half-difference"), with_care).go())
    (slip,) = one.misread
    assert slip.angle == "135"
    assert float(slip.typed) - float(slip.shown) == pytest.approx(0.0006)
    assert f"you typed {slip.typed}; the dial showed {slip.shown}" in words(one)


def test_half_a_division_beside_is_no_misreading(room) -> None:
    """Between two divisions either is right."""

    def half(shown: str) -> str:
        return f"{float(shown) + 0.00005:.5f}"

    assert debrief(room.walked("one-offset", told=half)).misread == ()


def test_every_value_misread_is_told_when_all_are(room, with_care) -> None:
    """Two divisions too high at every place: as many as were typed."""

    def high(shown: str) -> str:
        return f"{float(shown) + 0.0003:.4f}"

    one = debrief(room.walked("one-offset", told=high))
    assert len(one.misread) == one.readings


def test_values_typed_without_turning_are_told(room, learner, with_care) -> None:
    """The spindle stood elsewhere than was asked for."""

    class Lazy(learner):  # type: ignore[misc] # a fixture's class
        def read(self) -> dict[str, object]:
            """Type the same needle again and again."""
            if self.walk.step.take == "pair":
                return super().read()
            self.to(1)
            values = [self.value() for _ in range(9)]
            angles = [f"{each * 45}" for each in range(8)]
            return {"angles": angles, "values": values[:-1], "closing": values[-1]}

    def stop(one) -> tuple[str, str]:
        return "stop", "enough"

    assert debrief(Lazy(room.open("one-offset"), stop).go()).elsewhere == 14


def test_keys_left_in_and_hints_are_told(room, learner, with_care) -> None:
    """Each as often as it happened."""

    class Careless(learner):  # type: ignore[misc] # a fixture's class
        def tighten(self) -> dict[str, str]:
            """A key left in, and a hint."""
            self.walk.hints += 1
            self.walk.bench.key_in()
            self.walk.bench.turn(15)
            self.walk.bench.key_out()
            return super().tighten()

    one = debrief(Careless(room.open("one-offset"), with_care).go())
    assert one.counts["key_in"] == one.hints == 3
    assert "Hints asked for: 3" in words(one)


@pytest.mark.parametrize(
    ("name", "decision", "why"),
    [
        ("one-offset", "stop", "stopped though it could be trued"),
        ("knock", "another-round", "corrected on a turn whose zero had moved"),
        ("three-lobes", "stop", "no screw cures this: {flag}"),
        ("bar-or-chuck", "another-round", "corrected what no screw cures: {flag}"),
    ],
)
def test_a_first_decision_is_judged_by_the_truth(name, decision, why, room) -> None:
    """Whatever the figures said."""

    def first(one) -> tuple[str, str]:
        return (decision if not one.walk.state.rounds else "stop"), "as told"

    assert debrief(room.walked(name, decide=first)).decisions[0].why == why


def test_correcting_what_is_within_is_correcting_noise(room) -> None:
    """One round more than was needed."""

    def more(one) -> tuple[str, str]:
        if one.walk.state.rounds < 2:
            return "another-round", ""
        return ("accept" if one.walk.state.verdict == "within" else "another-round"), ""

    told = debrief(room.walked("one-offset", decide=more)).decisions
    assert "corrected though it was within: only noise was left" in [each.why for each in told]


def test_a_setup_that_was_no_practice_has_no_debrief(room) -> None:
    """It is refused in one sentence."""
    from pathlib import Path

    answers = read_answers(Path(__file__).parents[1] / "answers" / "chuck-removal-inch.yaml")
    walk = rehearse(find("chuck-removal"), answers, room.store, "rehearsed")
    with pytest.raises(BadInput, match="was no practice"):
        debrief(walk)


def test_the_way_of_the_middle_is_drawn_from_first_to_last() -> None:
    """Each place by its number, the axis by a cross, what is allowed by a ring."""
    drawn = "\n".join(text_of(path([0.002 + 0j, 0.0005j, 0.0001 - 0.0009j], 0.0005, "plain")))
    assert {"0", "1", "2", "+", "."} <= set(drawn)


@pytest.mark.parametrize("ending", ["md", "html", "jsonl"])
def test_every_form_of_the_record_says_practice(ending: str, room, tmp_path) -> None:
    """Whoever reads it later cannot take it for a lathe."""
    walk = room.walked("one-offset")
    target = tmp_path / f"record.{ending}"
    write(walk, room.store, target)
    assert "practice" in target.read_text(encoding="utf-8").lower()


def test_the_printed_record_says_practice_in_words(room, tmp_path) -> None:
    """In the mark that a person reads first."""
    walk = room.walked("one-offset")
    for ending in ("md", "html"):
        target = tmp_path / f"record.{ending}"
        write(walk, room.store, target)
        assert "PRACTICE, not a real lathe" in target.read_text(encoding="utf-8")
