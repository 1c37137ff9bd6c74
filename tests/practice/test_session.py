"""A practice setup is a real walk: same gates, same fold, and what the bench says is written."""

from __future__ import annotations

from dataclasses import replace

import pytest

from guide.journal.verify import findings
from guide.plain import NotAllowed
from guide.practice.lesson import LATHE
from guide.practice.lessons import LESSONS
from guide.practice.session import gone_on, practised
from guide.walk.setup import lathe_before, replayed

AT = "2030-02-01T07:05:00.000Z"


def to(one, place: str):
    """A learner who has come to a step."""
    for _ in range(80):
        if one.walk.state.place == place:
            return one
        if not one.walk.fill(one.at()):
            one.step()
    raise AssertionError(one.walk.state.place)


@pytest.fixture
def beginner(room, learner, with_care):
    """Somebody in the second lesson."""
    return learner(room.open("two-pairs"), with_care)


def test_a_finished_practice_verifies_and_says_practice(room) -> None:
    """Its chain stands, the fold allows every event, and its mode is there for ever."""
    walk = room.walked("two-pairs")
    assert walk.state.place == "finished"
    assert not [*findings(room.store, walk.state.setup)]
    assert replayed(room.store, walk.state.setup).state == walk.state
    assert walk.state.not_real
    assert walk.state.opening["mode"] == "practice"


def test_every_gate_was_acknowledged_by_its_numbers(room) -> None:
    """Nothing is passed over because it is only practice."""
    walk = room.walked("two-pairs")
    gates = {each.place for each in walk.state.entries if "checks" in each.data}
    assert {"lock-gate", "ready-gate", "power-gate"} <= gates


def test_a_gate_cannot_be_filled_in(beginner) -> None:
    """The lesson answers facts and looks; a gate it never does."""
    to(beginner, "ready-gate")
    assert not beginner.walk.fill(beginner.at())
    with pytest.raises(NotAllowed):
        beginner.walk.act("acknowledge", {"checks": []}, person="A. Sample", at=AT)


def test_a_look_never_says_how_the_learner_is_dressed(beginner) -> None:
    """What is filled in is the lathe; dress and bystanders are left to the gates."""
    to(beginner, "ready-gate")
    look = next(e for e in beginner.walk.state.entries if "seen" in e.data)
    assert look.data["seen"]["dressed"] == "other"
    assert look.data["seen"]["bystanders"] == "near"
    assert look.data["practice"]["filled"] == "yes"


def test_no_reading_is_recorded_with_the_key_in(beginner) -> None:
    """The bench contradicts it, and says what to do."""
    to(beginner, "first-turn")
    data = beginner.read()
    beginner.walk.bench.key_in()
    with pytest.raises(NotAllowed, match="the key is still in screw 1"):
        beginner.walk.act("record", data, person="A. Sample", at=AT)
    beginner.walk.bench.key_out()
    beginner.walk.act("record", data, person="A. Sample", at=AT)


def test_bolts_are_not_recorded_as_eased_while_they_are_tight_nor_the_other_way(beginner) -> None:
    """What was not done on the bench is not true."""
    to(beginner, "ease")
    with pytest.raises(NotAllowed, match="still tight"):
        beginner.walk.act("record", {}, person="A. Sample", at=AT)
    to(beginner, "round-torque")
    done = {"torque": "33 ft-lb", "source": "invented", "wrench": "yes", "check_pass": "yes"}
    with pytest.raises(NotAllowed, match="not tight"):
        beginner.walk.act("record", done, person="A. Sample", at=AT)


def test_what_was_to_be_read_is_written_beside_what_was_typed(beginner) -> None:
    """Angle, nearest division and exact needle of each value."""
    to(beginner, "first-verdict")
    entry = beginner.walk.state.entries[-1]
    shown = entry.data["practice"]["shown"]
    assert [each[1] for each in shown] == [*entry.data["values"], entry.data["closing"]]
    assert [each[0] for each in shown] == [*entry.data["angles"], "0"]


def test_hints_are_written_with_the_next_entry_and_begin_anew(beginner) -> None:
    """Counted once each."""
    to(beginner, "first-turn")
    beginner.walk.hints = 2
    beginner.step()
    assert beginner.walk.state.entries[-1].data["practice"]["hints"] == "2"
    assert beginner.walk.hints == 0


@pytest.mark.parametrize("name", ["two-pairs", "knock", "bolts", "four-jaws"])
def test_a_practice_that_was_left_and_taken_up_again_is_the_same(
    name: str, room, learner, with_care
) -> None:
    """Replayed before every step, it ends with the same readings as one that never was."""
    whole = room.walked(name, decide=with_care)
    one = learner(room.open(name), with_care)
    while not one.walk.state.ended:
        one.walk = practised(replayed(room.store, one.walk.state.setup))
        if not one.walk.fill(one.at()):
            one.step()

    def values(walk) -> list[object]:
        names = ("values", "closing", "value", "got")
        return [e.data[name] for e in walk.state.entries for name in names if name in e.data]

    assert values(one.walk) == values(whole)


def test_after_a_pause_the_lathe_is_looked_at_and_the_gates_come_again(beginner, room) -> None:
    """Resuming fills in the look, and leads by way of a gate to the step that was left."""
    to(beginner, "first-named")
    beginner.walk.act("pause", {"why": "dinner"}, person="A. Sample", at=AT)
    beginner.walk = gone_on(room.store, beginner.walk.state.setup, person="A. Sample", at=AT)
    assert beginner.walk.state.place == "making-sure"
    assert beginner.walk.fill(AT)
    assert beginner.walk.state.place == "dressed-to-correct"
    beginner.step()
    assert beginner.walk.state.place == "first-named"
    assert beginner.go().state.place == "finished"


def test_practice_is_never_how_a_lathe_was_left(room) -> None:
    """A real setup on a lathe of the same name begins as if no practice had ever been."""
    room.walked("one-offset")
    assert lathe_before(room.store, LATHE, "real") == {}
    room.open("one-offset")
    assert lathe_before(room.store, LATHE, "real") == {}


def test_two_practices_may_be_open_at_once(room) -> None:
    """There is no lathe that only one can have."""
    room.open("one-offset")
    assert room.open("two-pairs").state.place


@pytest.mark.parametrize("one", LESSONS, ids=lambda each: each.name)
def test_the_lesson_answers_every_fact_before_the_dial(one, room, learner, with_care) -> None:
    """No question is left to be answered by hand."""
    beginner = to(learner(room.open(one), with_care), "first-turn")
    asked = [each for each in beginner.walk.state.entries if each.data.get("facts")]
    assert all(e.data.get("practice", {}).get("filled") for e in asked if e.kind == "record")


def test_a_metric_lesson_is_typed_in_millimetres(room, learner, with_care) -> None:
    """The truth is in inches and the learner never sees one."""
    beginner = to(learner(room.open("metric"), with_care), "first-verdict")
    assert beginner.walk.state.facts["unit"] == "mm"
    values = [float(each) for each in beginner.walk.state.turn.data["values"]]
    assert max(values) - min(values) == pytest.approx(2 * 0.0045 * 25.4, abs=0.03)


def test_a_lesson_in_another_unit_hides_the_same(room) -> None:
    """The door turns it, nothing else."""
    inch, metric = (room.open(replace(LESSONS[0], unit=unit)) for unit in ("in", "mm"))
    assert inch.bench.truth == metric.bench.truth
    assert inch.bench.dial.unit != metric.bench.dial.unit
