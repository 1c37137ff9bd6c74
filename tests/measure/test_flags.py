"""The list of flags is closed, and every flag says what to do first."""

from __future__ import annotations

import pytest

from guide.measure.flags import FLAGS, in_order

CLOSED = [
    "beyond-travel",
    "tilt",
    "form",
    "few-positions",
    "zero-moved",
    "drifting",
    "spindle-limit",
    "wrong-way",
    "process-limited",
    "cannot-prove",
]


def test_the_list_is_the_designs():
    """The same keys in the same order."""
    assert list(FLAGS) == CLOSED


@pytest.mark.parametrize("flag", FLAGS.values(), ids=lambda flag: flag.key)
def test_each_flag_is_a_sentence_with_causes(flag):
    """One sentence, and at least two causes without a full stop."""
    assert flag.sentence.endswith(".")
    assert len(flag.causes) >= 2
    assert not any(cause.endswith(".") for cause in flag.causes)


def test_flags_come_in_the_order_of_the_list_and_no_others():
    """An unknown key is a mistake of ours."""
    assert in_order({"form", "tilt"}) == ("tilt", "form")
    with pytest.raises(KeyError):
        in_order({"bent"})
