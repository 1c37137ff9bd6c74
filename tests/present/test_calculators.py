"""The mapping of calculators to questions and answers, without a screen."""

from __future__ import annotations

import json

import pytest

from guide.present.asked import Typed
from guide.present.calculators import CALCULATORS, answered, missing, wrong
from guide.shop.sources import SOURCES

GIVEN: dict[str, dict[str, str]] = {
    "weight": {
        "diameter": "8 in", "length": "85 mm", "material": "steel", "plate-diameter": "160 mm",
        "plate-length": "25 mm",
    },
    "lift": {
        "unit": "us", "h": "18", "v": "30", "a": "30", "destination": "24 42 0",
        "coupling": "fair", "load": "50",
    },
    "sling": {"load": "120 kg", "legs": "2", "included": "60"},
    "bar": {
        "load": "25 kg", "diameter": "40 mm", "way": "both-ends", "length": "600 mm",
        "yield": "350 MPa",
    },
    "nose": {
        "kind": "camlock", "diameter": "106.3 mm", "diameter-u": "0.05 mm", "pins": "6",
        "circle": "5.25 in",
    },
    "cradle": {"centre": "170 mm", "diameter": "200 mm"},
    "fit": {
        "plate": "160 mm", "body": "160.25 mm", "plate-temperature": "30 C",
        "body-temperature": "70 F",
    },
    "torque": {"thread": "M10", "bolts": "4", "maker-torque": "40 N·m"},
    "lever": {"readings": "0.2 0.1", "angle": "30"},
    "balance": {"grade": "6.3", "rpm": "1000", "mass": "20 kg", "shift": "0.05 mm"},
    "runout": {"readings": "0 12 20 8", "unit": "thou", "tolerance": "1", "graduation": "0.5"},
    "tilt": {
        "near": "0 1 2 1", "far": "0 3 6 3", "stations": "1 5", "unit": "thou",
        "working": "0.5 4", "tolerance": "2", "graduation": "0.5",
    },
    "play": {"unit": "thou", "nose": "-0.2 0.3", "plate": "-0.3 0.3", "bar": "-0.5 0.6"},
    "speed": {"chuck": "2000", "lathe": "1800", "cutting": "30 m/min", "diameter": "50 mm"},
}  # fmt: skip
"""Answers that each calculator can work with (invented)."""
MEASURED = ("runout", "tilt", "play")
PERMISSIONS = ("safe speed", "allowed", "permitted", "acceptable", "is safe", "may be lifted")


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_calculator_answers_with_what_it_rests_on_and_a_caution(name: str) -> None:
    """Lines first, sources between, the caution last; the plain values are JSON."""
    calculator = CALCULATORS[name]
    typed = Typed(GIVEN[name])
    found = answered(calculator, typed)
    assert not isinstance(found, str), found
    told = calculator.told(found)
    assert told[: len(found.lines)] == found.lines
    assert told[-1].startswith("It does not ")
    assert any("Source: " in line for line in told)
    assert json.loads(json.dumps(dict(found.plain))) == dict(found.plain)


@pytest.mark.parametrize("name", CALCULATORS)
def test_nothing_is_a_permission(name: str) -> None:
    """No line grants anything; the caution alone speaks of safe, and denies it."""
    calculator = CALCULATORS[name]
    found = answered(calculator, Typed(GIVEN[name]))
    said = " ".join(found.lines).lower()
    assert not [word for word in PERMISSIONS if word in said]
    assert not [key for key in found.plain if "safe" in key or "allow" in key]


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_source_named_is_in_the_bibliography(name: str) -> None:
    """And what an answer leaves out is one of them."""
    calculator = CALCULATORS[name]
    assert set(calculator.sources) <= SOURCES.keys()
    assert answered(calculator, Typed(GIVEN[name])).without <= set(calculator.sources)


@pytest.mark.parametrize("name", CALCULATORS)
def test_each_needed_answer_is_asked_for_in_turn(name: str) -> None:
    """Without one of them that one is missing, and no two questions share a name."""
    calculator = CALCULATORS[name]
    for asked in calculator.asks:
        if asked.needed:
            rest = {key: text for key, text in GIVEN[name].items() if key != asked.name}
            assert missing(calculator, Typed(rest)) == asked
    assert missing(calculator, Typed(GIVEN[name])) is None
    names = [asked.name for asked in calculator.asks]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_question_refuses_nonsense_with_a_sentence(name: str) -> None:
    """What cannot be read is said by each kind of question but free text and choices."""
    for asked in CALCULATORS[name].asks:
        typed = Typed({asked.name: "x?"})
        if asked.kind not in ("text", "choice"):
            assert wrong(asked, typed).endswith("."), asked.name
        assert wrong(asked, Typed({})) == ""


@pytest.mark.parametrize("name", CALCULATORS)
def test_options_of_a_choice_are_what_the_calculator_takes(name: str) -> None:
    """Each choice of a question, put in, is never refused as unknown."""
    calculator = CALCULATORS[name]
    for asked in calculator.asks:
        for value, words in asked.options:
            assert words
            found = answered(calculator, Typed(GIVEN[name] | {asked.name: value}))
            assert not isinstance(found, str) or "not a" not in found, (asked.name, found)


def test_bare_figures_take_the_system_that_was_chosen() -> None:
    """5 000 lb a leg, or kilograms, or a refusal while nothing was chosen."""
    given = {"load": "10000", "legs": "2", "angle": "90"}
    sling = CALCULATORS["sling"]
    inch, metric = (answered(sling, Typed(given, system=each)) for each in ("inch", "metric"))
    assert inch.plain["leg_tension_lb"] == 5000
    assert metric.plain["leg_tension_kg"] == 5000
    assert "has no unit" in answered(sling, Typed(given))


def test_another_language_has_its_own_decimal_sign() -> None:
    """A comma in, a comma out."""
    found = answered(CALCULATORS["lever"], Typed({"readings": "0,2", "angle": "30"}, "de"))
    assert "0,173205" in " ".join(found.lines)


def test_a_plate_adds_its_own_band_and_one_density_is_named() -> None:
    """Body and plate are added, each in the plain form; cast iron is not cited for steel."""
    weight = CALCULATORS["weight"]
    both = answered(weight, Typed(GIVEN["weight"]))
    parts = both.plain["parts"]
    for key in ("low_kg", "high_kg", "low_lb", "high_lb"):
        assert both.plain[key] == parts["body"][key] + parts["plate"][key]
    assert not any("cast iron" in line for line in weight.told(both))


def test_the_page_gives_the_figures_of_the_commands() -> None:
    """Runout, tilt and play are the same functions: half the difference, the lean, the joint."""
    runout, tilt, play = (answered(CALCULATORS[n], Typed(GIVEN[n])) for n in MEASURED)
    assert not isinstance(runout, str)
    assert runout.plain["fitted_tir"] == pytest.approx(20.396, abs=1e-3)
    assert "Screw 1: bring the dial to 10 thou." in runout.lines
    assert not isinstance(tilt, str)
    assert tilt.plain["slope"] == pytest.approx(0.5)
    assert not isinstance(play, str)
    assert play.plain["looks_to"] == "spindle"


@pytest.mark.parametrize(
    ("name", "wrong_one", "sentence"),
    [
        ("play", {"nose": "0.2"}, "push without its pull"),
        ("tilt", {"stations": "1"}, "Two distances"),
        ("tilt", {"working": "1 2 3"}, "One or two distances"),
        ("runout", {"readings": "1 2"}, "Fewer than three"),
    ],
)
def test_figures_that_do_not_fit_are_one_sentence(
    name: str, wrong_one: dict[str, str], sentence: str
) -> None:
    """What is wrong, and what to write."""
    found = answered(CALCULATORS[name], Typed({**GIVEN[name], **wrong_one}))
    assert isinstance(found, str)
    assert sentence in found
