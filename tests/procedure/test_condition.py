"""Conditions: an `or` of `and`s of looks, read and never evaluated."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.procedure.condition import Condition, Term, condition

NAMES = st.from_regex(r"[a-z][a-z0-9-]{0,8}", fullmatch=True).filter(
    lambda name: name not in ("and", "or", "not")
)
VALUES = st.from_regex(r"[a-z0-9-]{1,6}", fullmatch=True)
TERMS = st.builds(Term, NAMES, st.frozensets(VALUES, max_size=3), st.booleans())
EITHER = st.lists(st.lists(TERMS, min_size=1, max_size=3), min_size=1, max_size=3)


def written(term: Term) -> str:
    """A term in the spelling of the table."""
    values = f"={'/'.join(sorted(term.values))}" if term.values else ""
    return f"{'not ' if term.negated else ''}{term.name}{values}"


def test_or_binds_looser_than_and() -> None:
    """Two alternatives: the first of two terms, the second of one with two values."""
    assert condition("seat=locked and body=apart or bolts=snug/tight").either == (
        (Term("seat", frozenset({"locked"})), Term("body", frozenset({"apart"}))),
        (Term("bolts", frozenset({"snug", "tight"})),),
    )


def test_a_bare_name_is_a_branch_test() -> None:
    """It has no values to be compared with."""
    assert condition("more-rounds").terms == (Term("more-rounds", frozenset()),)


def test_not_stands_before_one_term_only() -> None:
    """It negates a look or a branch test, and never what follows the `and`."""
    assert condition("not seat=off/locked and not within and screws=free").terms == (
        Term("seat", frozenset({"off", "locked"}), negated=True),
        Term("within", frozenset(), negated=True),
        Term("screws", frozenset({"free"})),
    )


def test_a_value_may_be_a_number_and_a_name_may_have_hyphens() -> None:
    """As in the facts: three, four or six screws."""
    assert condition("guard-fitted=yes and screws=3/4").terms[1].values == {"3", "4"}


def test_blanks_and_line_ends_count_once() -> None:
    """A folded condition is the same as one on a single line."""
    folded = condition("  seat=locked\n   and  body=apart ")
    assert folded == condition("seat=locked and body=apart")
    assert folded.text == "seat=locked and body=apart"


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", ""),
        ("power = off", "power = off"),
        ("Power=off", "Power=off"),
        ("power=Off", "power=Off"),
        ("power=", "power="),
        ("power==off", "power==off"),
        ("power=off/", "power=off/"),
        ("power=/off", "power=/off"),
        ("=off", "=off"),
        ("power!=off", "power!=off"),
        ("(power=off)", "(power=off)"),
        ("power=off, seat=off", "power=off, seat=off"),
        ("1-screw=in", "1-screw=in"),
        ("not", "not"),
        ("not not within", "not not within"),
        ("and", "and"),
        ("power=off and", "power=off and"),
        ("or seat=off", "or seat=off"),
        ("power=off and and seat=off", "and seat=off"),
        ("seat=off && power=off", "seat=off && power=off"),
        ("__import__('os')", "__import__('os')"),
    ],
)
def test_what_cannot_be_read_is_refused_with_that_part(text: str, part: str) -> None:
    """The complaint can quote what is wrong, not the whole line around it."""
    with pytest.raises(ValueError) as caught:  # noqa: PT011 - the part is compared below
        condition(text)
    assert str(caught.value) == part


@given(EITHER)
def test_what_is_written_in_the_tables_spelling_is_read_as_it_was_meant(
    either: list[list[Term]],
) -> None:
    """Writing terms down and reading them gives the same terms."""
    text = " or ".join(" and ".join(map(written, all_of)) for all_of in either)
    read = condition(text)
    assert read == Condition(text, tuple(map(tuple, either)))
    assert read.terms == tuple(term for all_of in either for term in all_of)


def part_refused(text: str) -> str | None:
    """The part for which a text is refused, or None when it is a condition."""
    try:
        assert all(condition(text).either), "an alternative without a term"
    except ValueError as error:
        return str(error)
    return None


@given(st.text(alphabet="abnotr=/- \n()!", max_size=40) | st.text(max_size=40))
def test_any_text_is_a_condition_or_a_value_error(text: str) -> None:
    """Nothing else comes out, and the part that is refused stands in the text."""
    part = part_refused(text)
    assert part is None or part in " ".join(text.split())
