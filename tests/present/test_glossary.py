"""The trade's words are found where they stand, and each is explained in plain words."""

from __future__ import annotations

import re
from pathlib import Path
from string import Formatter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.present import trade
from guide.present.glossary import WORDS, words_in
from guide.present.trade.word import GROUNDS, OWN
from guide.procedure.shelf import files

TOP = Path(__file__).parents[2]
HARMS = re.compile(
    r"thrown?|strikes?|struck|crush|drops?|comes? off|let go|lets go|fly out|stands under|unscrew"
    r"|start|shock|breaks|cut a finger|at risk|larger strikes|hit"
)
"""What happens to somebody, in the words that are used for it."""
OF_MANUALS = {"pilot"}
"""Words that a maker's manual says and no page of ours."""
NAMED = {each.name: each for each in WORDS}


def names(text: str) -> list[str]:
    """The words of a text by name."""
    return [each.name for each in words_in(text)]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Read the TIR at both stations.", ["runout (TIR)", "station"]),
        ("The registers of NOSE and plate", ["register", "spindle nose", "backplate"]),
        ("Loosen the draw nut.", ["draw nut"]),
        ("The keyboard displays a stationary camera.", []),
        ("replay, over-zero, a bossy plateau", []),
        ("numbers and witness\n   marks on it", ["witness mark"]),
        ("U = 0.0001 in", ["uncertainty (U, k = 2)"]),
        ("", []),
    ],
)
def test_words_are_found_whole_in_the_order_in_which_they_stand(text, found) -> None:
    """In plural too, over the end of a line, and not inside other words."""
    assert names(text) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("witness mark", ["witness mark"]),
        ("A witness stands by.", ["witness (a person)"]),
        ("the witness sees the witness mark", ["witness (a person)", "witness mark"]),
        ("a guard band", ["guarded acceptance"]),
        ("shut the guard", ["guard"]),
        ("the lever indicator", ["lever indicator"]),
        ("the largest swing over the bed", ["swing over the bed"]),
        ("a test bar", ["test bar"]),
    ],
)
def test_a_place_belongs_to_the_longest_word_that_is_written_there(text, found) -> None:
    """A shorter word inside it is another thing; where it also stands alone it is told as well."""
    assert names(text) == found


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Each cam stops between its two marks.", "cam marks"),
        ("All jaws inside their marks", "jaw marks"),
        ("plate and body, witness marks in line", "witness mark"),
    ],
)
def test_three_kinds_of_marks_are_told_apart(text, kind) -> None:
    """Somebody who takes a cam's marks for witness marks loses the chuck."""
    assert [each for each in names(text) if "mark" in each] == [kind]


@pytest.mark.parametrize(
    "text",
    ["its key is on me", "The sealed key in the journal", "feel the key in your pocket",
     "what every key does"],
)  # fmt: skip
def test_the_key_of_a_lock_a_journal_or_a_keyboard_is_no_chuck_key(text) -> None:
    """The chuck key has entries of its own where it is put in or taken out."""
    assert "chuck key" not in names(text)
    assert "chuck key" in names(text + ", chuck key out")


@pytest.mark.parametrize("text", ["from the lathe's plates", "The name on its plate."])
def test_the_plate_with_the_lathes_name_is_no_backplate(text) -> None:
    """It is read, not mounted."""
    assert "backplate" not in names(text)
    assert "backplate" in names("wipe the plate")


def test_every_word_is_explained_in_one_to_three_short_sentences() -> None:
    """Short enough to be read at the lathe, ending as a sentence does."""
    for each in WORDS:
        assert 5 <= len(each.means.split()) <= 45, each.name
        assert len(re.findall(r"[.:;](?= [A-Z]|$)", each.means)) <= 3, each.name
        assert each.means.endswith("."), each.name
        assert not [name for _, name, _, _ in Formatter().parse(each.means) if name], each.name
    assert len(NAMED) == len(WORDS)


def test_every_word_says_what_its_meaning_rests_on() -> None:
    """Common practice where nothing else is named."""
    assert {each.rests_on for each in WORDS} == set(GROUNDS)


def test_every_word_finds_itself_by_its_own_name() -> None:
    """As it is headed, without what stands in brackets."""
    for each in WORDS:
        if each.rests_on != OWN:
            head = each.name.partition(" (")[0].split(", ")[0]
            assert each in words_in(head), each.name


def test_a_word_that_names_what_can_hurt_says_what_happens() -> None:
    """A key is thrown, somebody starts the lathe, a chuck comes off."""
    hurts = [each for each in WORDS if each.hurts]
    assert len(hurts) >= 25
    for each in hurts:
        assert HARMS.search(each.means), each.name


def test_no_word_that_can_hurt_is_taken_for_one_that_cannot() -> None:
    """Words of every caution's kind are among those that say how."""
    for name in ("chuck key", "cam-lock", "isolate", "own lock (lockout)", "sling", "cradle",
                 "jaws", "threaded nose", "snug", "support", "discharge time"):  # fmt: skip
        assert NAMED[name].hurts


def said_elsewhere() -> str:
    """All that the program says, without the explanations themselves."""
    own = {text for each in WORDS for text in (each.name, each.means)}
    catalogue = (TOP / "locales" / "spindleside.pot").read_text(encoding="utf-8")
    told = re.findall(r'^msgid ((?:".*"\n?)+)', catalogue, re.M)
    lines = {"".join(re.findall(r'"(.*)"', each)) for each in told} - own
    return " ".join(lines | {path.read_text(encoding="utf-8") for path in files()})


def test_every_word_stands_somewhere_in_what_the_program_says() -> None:
    """None is explained for nobody, save the few that a maker's manual says."""
    assert set(NAMED) - set(names(said_elsewhere())) == OF_MANUALS


@given(st.lists(st.sampled_from(WORDS), max_size=6), st.text("ab .,\n", max_size=5))
def test_a_word_is_told_once_and_the_same_for_the_same_text(words, between) -> None:
    """However often and however written."""
    text = f" {between} ".join(each.name.upper() for each in words)
    found = words_in(text)
    assert len(set(found)) == len(found)
    assert found == words_in(f"  {text}\n")
    assert set(found) == set(words_in(text.lower()))


def test_the_meanings_are_words_alone() -> None:
    """They import nothing that knows a terminal."""
    folder = Path(trade.__file__).parent
    told = " ".join(path.read_text(encoding="utf-8") for path in folder.glob("*.py"))
    assert "textual" not in told
    assert "rich" not in told.split()
