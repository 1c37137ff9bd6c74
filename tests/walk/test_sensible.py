"""An answer that the trade hardly has is asked once more; one that it has is taken at once."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from guide.walk.sensible import newly_odd, oddities, told_with

DIAL = {"unit": "in", "graduation": "0.0005 in", "range-per-turn": "0.04 in"}
BOLT = {"bolt-thread": "3/8-16", "bolt-class": "grade 8"}


def said(facts: Mapping[str, str]) -> list[str]:
    """The sentences about what is odd."""
    return [str(each.refusal()) for each in oddities(facts)]


@pytest.mark.parametrize(
    ("facts", "about"),
    [
        ({**DIAL, "graduation": ".0005 mm"}, "another unit"),
        ({**DIAL, "unit": "mm"}, "another unit"),
        ({"unit": "in", "graduation": "0.0007 in"}, "Hardly any dial"),
        ({"unit": "mm", "graduation": "1 mm"}, "Hardly any dial"),
        ({"unit": "in", "graduation": "0.000001 in"}, "Hardly any dial"),
        ({**DIAL, "range-per-turn": "1.04 in"}, "Hardly any needle"),
        ({**DIAL, "range-per-turn": "0.0402 in"}, "no whole number of divisions"),
        ({**DIAL, "tolerance": "4 in"}, "far more than runout"),
        ({"tolerance": "1.5 mm"}, "far more than runout"),
        ({**DIAL, "nose-runout-limit": "0.00004 in"}, "less than a tenth"),
        ({**BOLT, "bolt-torque": "330 ft-lb"}, "far above what tables come to"),
        ({**BOLT, "bolt-torque": "95 N·m"}, "far above what tables come to"),
        ({"marked-speed": "25000 rpm"}, "Hardly any chuck is marked"),
        ({"marked-speed": "20 rpm"}, "Hardly any chuck is marked"),
        ({"mass": "2000 kg"}, "Hardly any chuck weighs"),
        ({"damage": "none", "marks-now": "moved", "drive": "as-they-should"}, "is a finding"),
        ({"damage": "none", "marks-now": "in-line", "drive": "not-seen"}, "is a finding"),
    ],
)
def test_what_is_odd_is_said_in_one_sentence_with_the_way_on(
    facts: dict[str, str], about: str
) -> None:
    """One thing is odd there, and saying it once more is offered."""
    (sentence,) = said(facts)
    assert about in sentence
    assert sentence.endswith("if it is right, say it once more.")


@pytest.mark.parametrize(
    "facts",
    [
        DIAL,
        {"unit": "in", "graduation": "1 tenth", "range-per-turn": "8 thou"},
        {"unit": "in", "graduation": "0.001 in", "range-per-turn": "0.1 in", "tolerance": "1 thou"},
        {"unit": "in", "graduation": "0.00005 in", "range-per-turn": "unknown"},
        {"unit": "mm", "graduation": "0.01 mm", "range-per-turn": "1 mm", "tolerance": "0.02 mm"},
        {"unit": "mm", "graduation": "1 um", "range-per-turn": "0.2 mm"},
        {**DIAL, "tolerance": "0.02 mm"},
        {**BOLT, "bolt-torque": "44 ft-lb"},
        {**BOLT, "bolt-torque": "60 N·m"},
        {"bolt-thread": "none that is known", "bolt-class": "8.8", "bolt-torque": "330 ft-lb"},
        {"bolt-thread": "M12", "bolt-class": "12.9", "bolt-torque": "130 N·m"},
        {"marked-speed": "2500 rpm", "mass": "110 lb", "tolerance": "unknown"},
        {},
    ],
)
def test_what_a_shop_has_is_taken_at_once(facts: dict[str, str]) -> None:
    """A question too many at every page would be passed over without being read."""
    assert said(facts) == []


def test_a_correction_that_makes_another_answer_odd_says_so() -> None:
    """The unit is put right, and the division that was told in the other one now is not."""
    before = {**DIAL, "graduation": "0.0005 in"}
    (found,) = newly_odd(before, {**before, "unit": "mm"})
    assert "another unit" in found.sentence
    assert newly_odd({**before, "unit": "mm"}, {**before, "unit": "mm", "lathe": "2"}) == ()


@pytest.mark.parametrize(
    ("unit", "data", "about"),
    [
        ("in", {"value": "11111111111"}, "Hardly any dial goes as far as 11111111111 in"),
        ("mm", {"near": "-51", "far": "0.1"}, "Hardly any dial goes as far as -51 mm"),
        ("in", {"values": ["0.001", "0.300", "0.002"]}, "moves by 0.299 in"),
        ("in", {"pushed": "2", "pulled": "0"}, "Hardly any spindle gives by 2 in"),
        ("mm", {"pushed": "1.2", "pulled": "-0.1"}, "Hardly any spindle gives by 1.3 mm"),
        ("mm", {"values": ["0.1", "0.2", "0.1"], "watched": ["0.1", "99"]}, "as far as 99 mm"),
    ],
)
def test_what_no_dial_shows_is_asked_once_more(
    unit: str, data: Mapping[str, object], about: str
) -> None:
    """A value beyond any plunger, a turn that is out by more than an eye can see, such play."""
    facts = {"unit": unit}
    (odd,) = newly_odd(facts, told_with(facts, "record", data, "2026-11-28T08:00:00Z"))
    assert about in str(odd.refusal())


@pytest.mark.parametrize(
    "data",
    [
        {"values": ["0.0000", "0.0120", "0.0200", "0.0080"], "watched": ["-0.0001", "0.0201"]},
        {"values": ["0.0", "", "no number"]},
        {"pushed": "0.0003", "pulled": "0.0001"},
        {"value": "1.9000"},
        {"facts": {"recheck-date": "2026-11-28"}},
        {"facts": {"next-check": "2027-05-25"}},
        {"facts": {"calibration-due": "2025-01-01"}},
    ],
)
def test_what_is_read_every_day_is_taken_at_once(data: Mapping[str, object]) -> None:
    """So is a check that is due today, and a calibration that was due: the record says so."""
    facts = {"unit": "in"}
    assert not newly_odd(facts, told_with(facts, "record", data, "2026-11-28T08:00:00Z"))


@pytest.mark.parametrize(
    ("trigger", "data"),
    [
        ("record", {"facts": {"recheck-date": "2026-11-27"}}),
        ("correct", {"fact": "next-check", "new": "2025-12-01"}),
    ],
)
def test_a_check_still_to_come_is_on_no_day_that_has_gone_by(
    trigger: str, data: Mapping[str, object]
) -> None:
    """It is asked about when it is entered, and never again for having gone by since."""
    at = "2026-11-28T08:00:00Z"
    (odd,) = newly_odd({}, told_with({}, trigger, data, at))
    assert "gone by" in str(odd.refusal())
    later = {"recheck-date": "2026-11-27"}
    assert not newly_odd(later, told_with(later, "record", {"values": ["0.001", "0.002"]}, at))
