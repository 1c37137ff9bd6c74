"""Wrong answers: each one clear sentence and the same question again, and nothing is lost."""

from __future__ import annotations

import re

import pytest

KEYPAD = set("0123456789+-./*")


@pytest.fixture
def asked(home, terminal):
    """A terminal at the first question of a setup, with lines that are never wrapped."""
    at = terminal(home, "start", "chuck-removal", "--plain", "--width", "0")
    at.prompt()
    at.send("A. Sample")
    at.send("Lathe 2 (invented)")
    at.send("")
    return at


def question(told: str) -> str:
    """The question that was asked last."""
    lines = told.rstrip("> \n").splitlines()
    asks = [line for line in lines if line.endswith(("?", ":"))]
    return asks[-1]


def test_what_is_no_answer_is_said_in_one_sentence_and_asked_again(asked) -> None:
    """A number that is not there, a word, a value, nothing at all: the same question follows."""
    first = question(asked.last)
    for text in ("9", "0", "nonsense", "0.0012", ""):
        told = asked.send(text)
        assert question(told) == first
        sentence = told.splitlines()[1]
        assert "Type one of these: 1, 2, 3, 4." in sentence
        assert text in sentence
    assert "Recorded" not in asked.all


def test_a_point_where_it_has_to_be_known_says_what_to_do(asked) -> None:
    """Look at the plate or the paper, ask, else pause; and the same question follows."""
    first = question(asked.last)
    told = asked.send(".")
    assert question(told) == first
    assert "has to be known" in told.splitlines()[1]


def test_a_question_says_all_with_its_detail_and_stays(asked) -> None:
    """`?`, and `+` for a keypad that has none: the page, why, what good looks like, the help."""
    for sign in "?+":
        told = asked.send(sign)
        assert re.search(r"^Step 1 of about \d+, .*: .*\.$", told, re.M)
        assert re.search(r"^Why: ", told, re.M)
        assert question(told) == question(asked.last)


def test_back_asks_the_question_before_with_its_answer_standing_there(asked) -> None:
    """`/`, and Enter takes what stands there; at the first question it is said."""
    told = asked.send("/")
    assert "Which lathe is it?" in told
    assert "Stands there: Lathe 2 (invented). Enter takes it." in told
    told = asked.send("/")
    assert "This is the first question here." in told
    assert "How does the chuck" in asked.send("")


def test_each_page_begins_with_where_one_is_and_what_can_hurt(asked) -> None:
    """The place first, then marks, dangers, what to do; the question last. No line is wrapped."""
    page = asked.send("?").splitlines()
    where = next(n for n, line in enumerate(page) if line.startswith("Step 1 of about"))
    assert page[where + 1] == "NOT SIGNED: sign-on was off."
    assert max(map(len, page)) > 120


def test_figures_are_asked_for_their_unit_and_a_point_is_not_known(home, terminal, person) -> None:
    """A weight without a unit: by number; below nothing: one sentence and the question again."""
    at = terminal(home, "start", "chuck-removal", "--plain", "--width", "0")
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.to("chuck-facts")
    at.send("Chuck 7")
    told = at.send("-50")
    assert "In which unit?" in told
    assert "cannot be" in at.send("1")
    at.send("50")
    told = at.send("1")
    assert re.search(r"2: .* 50 lb$", told, re.M)
    assert "0: record this." in told


def test_signs_that_a_terminal_lacks_are_spelled(home, terminal, person) -> None:
    """In a locale without UTF-8 every sign that is written is ASCII."""
    at = terminal(home, "start", "chuck-removal", "--plain", LC_ALL="C", PYTHONUTF8="0",
                  PYTHONCOERCECLOCALE="0")  # fmt: skip
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.to("lock-gate")
    assert at.all.isascii()
    assert re.findall(r"[^\n\x20-\x7e]", at.all) == []


def test_what_a_dial_cannot_show_is_said_and_the_last_value_can_be_taken_back(
    home, terminal, person, quick
) -> None:
    """A word, another unit, a slip of the point asked about once; `/` reads the last one anew."""
    at = terminal(home, "start", "adjustable-chuck", "--plain", "--width", "0", before=quick)
    one = person(at, "adjustable-chuck-inch")
    one.begin()
    one.to("nose-runout")
    at.send("4")
    for text in ("word", "0.02 mm", "1e-4", "-"):
        assert question(at.send(text)) == "Turn to 0°. Reads (in):"
    for value in ("0.0000", "0.0001"):
        at.send(value)
    assert "Turn to 180°" in at.send("0.1500")
    assert "Turn to 270°" in at.send("0.1500")
    told = at.send("/")
    assert "Taken back: 0.1500." in told
    assert "Turn to 180°" in told
    assert "Turn to 270°" in at.send("0.0000")
    assert "0° 0.0000, 90° 0.0001, 180° 0.0000" in at.send("?")


def test_along_a_bar_two_values_come_to_how_far_the_tailstock_is_off(
    home, terminal, person, quick
) -> None:
    """Near and far are asked under their names, read back, and judged on the next page."""
    at = terminal(home, "start", "tailstock-alignment", "--plain", "--width", "0", before=quick)
    one = person(at, "tailstock-alignment-inch")
    one.begin()
    one.to("tail-height")
    assert question(at.last) == "Near the headstock it reads (in):"
    one.to("height-verdict")
    assert "out of line +0.0003 in from near to far" in at.last
    assert "tailstock centre off by +0.00036 in" in at.last
    assert "accept it" in at.last
