"""An indicator has a say in readings alone, and the record says which of them it sent."""

from __future__ import annotations

from typing import Any

import pytest

from guide.plain import BadInput, NotAllowed, Refusal
from guide.procedure.load import load
from guide.procedure.model import Step
from guide.procedure.shelf import files, find
from guide.walk.sent_by import READ_AT, counted, readings_in, refuse_odd, sent_in
from guide.walk.setup import open_setup, replayed

STEPS = [step for path in files() for step in load(path).steps]
TURN = {"values": ["0.1", "0.2", "0.1"], "closing": "0.1", "watched": ["0.0", "0.2"],
        "angles": ["0", "120", "240"]}  # fmt: skip
SENT = {"instrument": "Indicator 3", "readings": ["value"]}
READS = next(step for step in STEPS if step.kind == "readings")


def test_readings_have_names() -> None:
    """Those of a turn are numbered, the others have names of their own."""
    assert readings_in(TURN) == {"1": "0.1", "2": "0.2", "3": "0.1", "closing": "0.1",
                                 "low": "0.0", "high": "0.2"}  # fmt: skip
    assert readings_in({"screw": 2, "value": "0.1"}) == {"value": "0.1"}
    assert readings_in({"left": "yes"}) == {}


def test_what_was_typed_over_is_a_person_s() -> None:
    """Only a value that stands as it came was sent; nothing is said where none was."""
    came = {"1": ("0.1", "I"), "2": ("0.9", "I"), "closing": ("0.1", "I")}
    assert sent_in(TURN, came) == {"sent_by": {"instrument": "I", "readings": ["1", "closing"]}}
    assert sent_in(TURN, {"2": ("0.9", "I")}) == {}
    assert sent_in({"left": "yes"}, {"got": ("0.1", "I")}) == {}


def test_an_event_without_it_is_counted_as_none() -> None:
    """So are all records from before."""
    assert counted(TURN) == ("", 0, 0)
    assert counted({**TURN, "sent_by": {"instrument": "I", "readings": ["1"]}}) == ("I", 1, 6)


@pytest.mark.parametrize("step", STEPS, ids=lambda step: f"{step.kind}-{step.name}")
def test_at_no_step_but_a_reading_s_does_an_indicator_have_a_say(step: Step) -> None:
    """Every step of every shipped procedure, by every trigger."""
    for kind in ("record", "done", "acknowledge", "pause", "correct", "deviate"):
        data = {"value": "0.1", "sent_by": SENT}
        if step.kind in READ_AT and kind == "record":
            refuse_odd(step, kind, data)
        else:
            with pytest.raises(NotAllowed, match="no say"):
                refuse_odd(step, kind, data)
        refuse_odd(step, kind, {"value": "0.1"})


@pytest.mark.parametrize(
    "told",
    ["Indicator 3", {}, {"instrument": "I"}, {"instrument": " ", "readings": ["value"]},
     {"instrument": "I", "readings": []}, {"instrument": "I", "readings": ["value", "value"]},
     {"instrument": "I", "readings": ["got"]}, {"instrument": "I", "readings": "value"},
     {"instrument": 3, "readings": ["value"]}, {**SENT, "more": "x"}, None],
)  # fmt: skip
def test_odd_names_are_refused(told: Any) -> None:
    """Nothing is written that says less or more than which readings, and from which indicator."""
    with pytest.raises(BadInput):
        refuse_odd(READS, "record", {"value": "0.1", "sent_by": told})


def test_where_it_has_no_say_nothing_is_written(memory) -> None:
    """The walk stays where it is."""
    journal = memory.Memory()
    walk = open_setup(journal, find("quick-centring"), setup="one", person="A. Sample",
                      lathe="Lathe 9", at="2030-01-31T08:00:00.000Z")  # fmt: skip
    for trigger in ("pause", "abandon"):
        with pytest.raises(Refusal, match="no say"):
            walk.act(trigger, {"why": "x", "sent_by": SENT}, person="A. Sample",
                     at="2030-01-31T08:01:00.000Z")  # fmt: skip
    assert replayed(journal, "one").state.sequence == 1
