"""Steps, gates and records in another language: one made by rule, so that what is missed shows."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from guide.front.as_recorded import as_recorded
from guide.front.questions import question, trouble
from guide.journal.store import Store
from guide.linear.gate import Gate
from guide.plain import BadInput
from guide.present.gate_text import NOT_REVIEWED, of_check, why_english
from guide.present.sheet import lines
from guide.present.step_text import step_text
from guide.present.tongue import SPOKEN, Spoken
from guide.present.words import catalogue, refused
from guide.procedure.shelf import files, find
from guide.records.of_setup import record_of
from guide.rehearse import read_answers, rehearse
from guide.screens.steps.gate import CheckRow, GateForm
from guide.settings import CHECKOUT, Settings, may_be
from guide.walk.answers import accepted
from tests.screens.made_tongue import BEGINS, TAG, checkout, pseudo

ANSWERS = CHECKOUT / "tests" / "answers" / "quick-centring-metric.yaml"
PLAIN = re.compile(r"[A-Za-z]{4,}")
"""A word that went through no catalogue: any of four letters has one with an accent there."""


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The language, made once."""
    return checkout(tmp_path_factory.mktemp("shelf"))


@pytest.fixture
def speaking(shelf: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str], None]]:
    """Lets the program speak a language."""
    monkeypatch.setattr("guide.settings.CHECKOUT", shelf)
    catalogue.cache_clear()
    token = SPOKEN.set(Spoken(TAG))

    def speak(language: str) -> None:
        SPOKEN.set(Spoken(language))

    yield speak
    SPOKEN.reset(token)
    catalogue.cache_clear()


def test_every_text_of_a_step_is_said_in_the_readers_language(speaking) -> None:
    """What to do, why, good and wrong, every caution, in full and in brief."""
    for file in files():
        procedure = find(file.stem)
        for step in procedure.steps:
            for detail in ("full", "brief"):
                text = step_text(procedure, step, detail)
                said = [text.stage, text.title, text.say, text.why, text.good, text.wrong]
                said += [part for each in text.cautions for part in (each.hazard, each.action)]
                assert [each for each in said if each and not each.startswith(BEGINS)] == []


def test_every_question_its_answers_and_its_help_are_too(speaking) -> None:
    """A choice is chosen by its words and kept by its name."""
    for file in files():
        for fact in find(file.stem).facts.values():
            asked = question(fact)
            said = [asked.ask, asked.help, *(words for _, words in asked.options)]
            assert [each for each in said if each and not each.startswith(BEGINS)] == []
            assert {value for value, _ in asked.options} >= set(fact.closed)


def test_a_gate_stands_in_english_too_until_a_machinist_has_reviewed_it(
    speaking, tmp_path, monkeypatch
) -> None:
    """Each check with its hazard and how to look, the words above them, and why so."""
    procedure = find("chuck-removal")
    step = next(each for each in procedure.steps if each.kind == "gate")
    told = of_check(step.checks[0], "A. Sample")
    assert told.say == pseudo(step.checks[0].say)
    assert told.english == " ".join(
        (step.checks[0].say, step.checks[0].hazard, step.checks[0].look)
    )
    assert why_english() == pseudo(NOT_REVIEWED)
    assert step.full in step_text(procedure, step).say
    monkeypatch.setattr("guide.settings.CHECKOUT", checkout(tmp_path / "two", reviewed="yes"))
    catalogue.cache_clear()
    assert of_check(step.checks[0], "").english == why_english() == ""
    assert step.full not in step_text(procedure, step).say


def test_english_needs_no_second_english(speaking) -> None:
    """Whatever English it is."""
    check = next(e for e in find("chuck-removal").steps if e.kind == "gate").checks[0]
    for tag in ("en", "en-GB"):
        speaking(tag)
        assert of_check(check, "").english == why_english() == ""


class Heard:
    """Stands where a gate talks; keeps what it says."""

    def __init__(self) -> None:
        self.said: list[tuple[str, dict[str, Any]]] = []
        self.keys = self

    def say(self, sentence: str, **values: Any) -> None:
        self.said.append((sentence, values))

    def drain(self) -> str:
        return ""

    def clock(self) -> float:
        return 0.0


def test_a_gate_in_lines_reads_the_english_out_as_well(speaking) -> None:
    """Before the number that confirms the check."""
    check = of_check(next(e for e in find("chuck-removal").steps if e.kind == "gate").checks[0], "")
    heard = Heard()
    Gate(heard, [check])._read_out(0)  # type: ignore[arg-type] # all of a talk that is used
    told = [values["english"] for _, values in heard.said if "english" in values]
    assert told == [check.english]
    assert "code" in heard.said[-1][1]


def test_one_record_reads_in_any_language(speaking, tmp_path) -> None:
    """A setup that was made in English: every line of it, its answers, checks and decisions."""
    with Store(tmp_path / "journal.sqlite3") as store:
        walk = rehearse(find("quick-centring"), read_answers(ANSWERS), store, "walk")
        english, other = (record_of(walk, store, each) for each in ("en", TAG))
        shown = lines(walk.state, walk.procedure, TAG)
    assert english.head == other.head
    assert [each.title for each in shown if not each.title.startswith(BEGINS)] == []
    assert [each.ask for each in other.answers if not each.ask.startswith(BEGINS)] == []
    assert [check for each in other.gates for check in each.checks
            if not check.startswith(BEGINS)] == []  # fmt: skip
    kinds = {each.name: each.kind for each in walk.procedure.steps}
    did = [line.value for line, entry in zip(shown, walk.state.entries, strict=True)
           if kinds.get(entry.place) in ("task", "gate", "verdict")]  # fmt: skip
    assert [each for each in did if each and (PLAIN.search(each) or BEGINS not in each)] == []


def test_what_is_picked_or_typed_in_another_language_is_recorded_as_in_english(speaking) -> None:
    """So that a record is the same whoever made it: figures with a point, offered words as written.

    What somebody typed in their own words stays theirs.
    """
    facts = find("adjustable-chuck").facts
    procedure = find("adjustable-chuck")
    picked = {"chuck": pseudo("the only adjustable chuck of this lathe"), "lathe": "Drehbank 2"}
    told = as_recorded({"facts": picked, "why": pseudo("a break")}, procedure)
    assert told == {
        "facts": {"chuck": "the only adjustable chuck of this lathe", "lathe": "Drehbank 2"},
        "why": "a break",
    }
    speaking("de")
    given = {"tolerance": "0,02 mm", "bolt-class": "8.8"}
    told = as_recorded({"facts": given, "torque": "60,5 N·m"}, procedure)
    assert told == {"facts": {"tolerance": "0.02 mm", "bolt-class": "8.8"}, "torque": "60.5 N·m"}
    assert accepted(facts["tolerance"], told["facts"]["tolerance"]) == "0.02 mm"


@pytest.mark.parametrize(
    ("language", "typed", "kept", "wrong"),
    [
        ("en", "0.02 mm", "0.02 mm", ""),
        ("en", "0,02 mm", "", "0.02"),
        ("en", "1,000 mm", "", "1 or 1000"),
        ("en", "1.000 mm", "1.000 mm", ""),
        ("de", "0,02 mm", "0.02 mm", ""),
        ("de", "0.02 mm", "0.02 mm", ""),
        ("de", "1,000 mm", "1.000 mm", ""),
        ("de", "1.250 mm", "", "1,25 oder 1250"),
        ("es", "0,02 mm", "0.02 mm", ""),
        ("es", "0.02 mm", "0.02 mm", ""),
        ("es", "1,000 mm", "1.000 mm", ""),
        ("es", "1.250 mm", "", "1,25 o 1250"),
        ("es-MX", "0.02 mm", "0.02 mm", ""),
        ("es-MX", "1,000 mm", "", "1 o 1000"),
    ],
)
def test_a_length_is_typed_as_the_language_writes_it(language, typed, kept, wrong) -> None:
    """What can be read two ways is refused, with a sentence that says how to write it."""
    token = SPOKEN.set(Spoken(language))
    fact = find("adjustable-chuck").facts["tolerance"]
    sentence = trouble(fact, typed)
    assert (sentence == "") == bool(kept)
    assert not wrong or wrong.split(" ")[0] in sentence
    if kept:
        assert accepted(fact, typed, language) == kept
        assert question(fact, kept).given == (typed if "," in typed or language[:2] == "en"
                                              or language == "es-MX" else "0,02 mm")  # fmt: skip
    SPOKEN.reset(token)


def test_only_a_language_that_says_it_is_whole_is_offered(shelf, tmp_path, monkeypatch) -> None:
    """Half a translation at a gate would be worse than none."""
    monkeypatch.setattr("guide.settings.CHECKOUT", shelf)
    assert may_be("language") == ("en", TAG)
    monkeypatch.setattr("guide.settings.CHECKOUT", checkout(tmp_path / "two", complete="no"))
    assert may_be("language") == ("en",)


async def test_the_screens_show_why_a_gate_is_in_two_languages(
    speaking, opened, quick, tmp_path
) -> None:
    """On the page of the gate, every check wholly in sight when its number counts."""
    opened.settings = replace(Settings(home=tmp_path), language=TAG)
    async with opened(quick) as at:
        await at.begin_quickly("chuck-removal")
        await at.to(GateForm)
        checks = [row.render().plain for row in at.form.query(CheckRow)]
        assert all("(en) " in each and BEGINS in each for each in checks)
        how = str(at.form.query_one(".how").render())
        assert pseudo(NOT_REVIEWED) in how


def test_a_refusal_names_step_and_question_in_the_readers_language(speaking) -> None:
    """Its values are texts of the procedure."""
    fact = find("adjustable-chuck").facts["tolerance"]
    with pytest.raises(BadInput) as refusal:
        accepted(fact, "")
    assert pseudo(fact.ask) in refused(refusal.value, TAG)
