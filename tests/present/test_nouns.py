"""Of independent jaws nobody is ever sent to a screw."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from babel.messages.extract import extract_from_dir

from guide.present.nouns import OF_JAWS, centres_work, in_jaws, named, noun
from guide.walk.state import State

PLACE = r"\{[^}]*\}"
ROOT = Path(__file__).parents[2] / "guide"


def state(**facts: str) -> State:
    """A setup with some answers."""
    return State("one", "", "", facts={n.replace("_", "-"): each for n, each in facts.items()})


JAWS, SCREWS, CHUCK = state(chuck_kind="independent"), state(chuck_kind="adjustable"), state()


def test_the_noun_is_that_of_what_the_chuck_has() -> None:
    """Jaw only where each is moved by itself."""
    assert [noun(each) for each in (JAWS, SCREWS, CHUCK)] == ["jaw", "screw", "screw"]
    assert [in_jaws(each) for each in (JAWS, SCREWS, CHUCK)] == [True, False, False]
    assert [centres_work(each) for each in (JAWS, SCREWS, CHUCK)] == [True, True, False]


@pytest.mark.parametrize(
    "sentence",
    [
        *OF_JAWS,
        "This screw was just read: bring the dial to the value, a little at a time.",
        "Which screw was tightened?",
        "The screws are at their end.",
        "Nip every adjusting screw evenly.",
    ],
)
def test_a_sentence_about_a_screw_is_said_of_a_jaw(sentence: str) -> None:
    """With the same places for numbers and values, and unchanged of screws."""
    said = named(sentence, JAWS)
    assert "screw" not in re.sub(PLACE, "", said).lower()
    assert sorted(re.findall(PLACE, said)) == sorted(re.findall(PLACE, sentence))
    assert named(sentence, SCREWS) == named(sentence, CHUCK) == sentence


def test_every_sentence_that_has_its_own_of_a_jaw_is_still_said_somewhere() -> None:
    """None is kept of what the screens no longer say."""
    keywords = {"N_": None, "say": None}
    said = {
        message
        for name, _, message, _, _ in extract_from_dir(str(ROOT), keywords=keywords)
        if not name.endswith("nouns.py")
    }
    assert set(OF_JAWS) <= said
