"""A number is read one way or refused with a sentence that says how to write it."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.numerals import MOST_DIGITS, parse_many, parse_number, suspicious
from guide.plain import BadInput

GOOD = [
    ("0.002", "en", "0.002"),
    ("12", "en", "12"),
    (" -3 ", "en", "-3"),
    ("−3", "en", "-3"),
    ("+0.5", "en-GB", "0.5"),
    (".5", "en", "0.5"),
    ("5.", "en", "5"),
    ("1.000", "en", "1.000"),
    ("0,02", "de", "0.02"),
    ("0.02", "de", "0.02"),
    ("0.020", "de", "0.020"),
    ("12,5", "fr", "12.5"),
    ("1.25", "de_DE", "1.25"),
    ("−0,5", "sv", "-0.5"),
    ("0.5", "no-such-language", "0.5"),
    ("-0", "en", "0"),
]

BAD = [
    ("", "en", "A number is missing."),
    ("   ", "en", "A number is missing."),
    ("ten", "en", "is not a number"),
    ("1e3", "en", "is not a number"),
    ("inf", "en", "is not a number"),
    ("nan", "en", "is not a number"),
    ("1_000", "en", "is not a number"),
    ("0x10", "en", "is not a number"),
    ("--3", "en", "is not a number"),
    ("-", "en", "is not a number"),
    (".", "en", "is not a number"),
    ("1.2.3", "en", "is not a number"),
    ("٣", "en", "is not a number"),
    ("½", "en", "is not a number"),
    ("1/2", "en", "is not a number"),
    ("12 mm", "en", "is not a number"),
    ("1,000", "en", "can be read as 1 or as 1000. Write 1 or 1000."),
    ("1,250", "en", "can be read as 1.25 or as 1250. Write 1.25 or 1250."),
    ("1.250", "de", "can be read as 1,25 or as 1250. Write 1,25 or 1250."),
    ("0,02", "en", "Write 0.02."),
    ("12,5", "en", "Write 12.5."),
    ("1,234,567", "en", "Write 1234567."),
    ("1,234.5", "en", "Write 1234.5."),
    ("1.234,5", "de", "Write 1234,5."),
    ("1 000", "en", "Write 1000."),
    ("1’000", "de-CH", "Write 1000."),
    ("1\u00a0000", "fr", "is not a number"),
    ("5\n", "en", "cannot be seen"),
    ("\x00", "en", "cannot be seen"),
    ("5\u200b", "en", "cannot be seen"),
    ("1\t2", "en", "cannot be seen"),
    ("1" * (MOST_DIGITS + 1), "en", "more than 15 digits"),
    ("0." + "0" * MOST_DIGITS + "1", "en", "more than 15 digits"),
]


@pytest.mark.parametrize(("text", "locale", "number"), GOOD)
def test_a_plain_number_is_read_exactly(text, locale, number):
    """The locale's decimal sign is taken, the other one only where it cannot be a grouping."""
    found = parse_number(text, locale)
    assert found == Decimal(number)
    assert not found.is_signed() or found != 0


@pytest.mark.parametrize(("text", "locale", "said"), BAD)
def test_what_can_be_read_two_ways_or_none_is_refused(text, locale, said):
    """The sentence says what is wrong or how to write it, and shows no unseen character."""
    with pytest.raises(BadInput) as refusal:
        parse_number(text, locale)
    assert said in str(refusal.value)
    assert str(refusal.value).isprintable()


@pytest.mark.parametrize(
    ("text", "number"), [("1/2", "0.5"), ("1 1/2", "1.5"), ("-3/64", "-0.046875"), ("5/4", "1.25")]
)
def test_fractions_are_read_where_they_are_meant(text, number):
    """An inch may be typed as a rule shows it."""
    assert parse_number(text, fractions=True) == Decimal(number)


@pytest.mark.parametrize("text", ["1/3", "1/0", "1 3/2", "1/2/3", "1.5/2", "1/", "1/1e9"])
def test_fractions_that_no_rule_shows_are_refused(text):
    """Endless, improper or broken ones."""
    with pytest.raises(BadInput):
        parse_number(text, fractions=True)


@pytest.mark.parametrize(
    ("text", "locale"),
    [("0 12 20 8", "en"), ("0; 12; 20; 8", "en"), (" 0  12 20 8 ", "de"), ("0;12;20;8", "fr")],
)
def test_lists_are_parted_by_spaces_or_semicolons(text, locale):
    """Both ways give the same numbers."""
    assert parse_many(text, locale) == (0, 12, 20, 8)


def test_a_list_follows_the_locale():
    """A comma is a decimal sign in German."""
    assert parse_many("0,5 1,5; 2".replace(";", ""), "de") == (Decimal("0.5"), Decimal("1.5"), 2)


@pytest.mark.parametrize("text", ["", " ", ";", "1, 2, 3", "1,2,3", "1; ;2", "1 x", "1\n2"])
def test_lists_with_anything_else_are_refused(text):
    """A comma between numbers could be a decimal sign."""
    with pytest.raises(BadInput):
        parse_many(text)


@given(st.decimals(min_value=-999, max_value=999, places=4))
def test_every_decimal_comes_back_in_either_sign(number):
    """Typed with a dot in English or a comma in German it is the same exact number."""
    text = f"{number:f}"
    assert parse_number(text) == number
    assert parse_number(text.replace(".", ","), "de") == number


@given(st.text(max_size=30), st.sampled_from(["en", "de", "fr"]))
def test_any_text_gives_a_finite_number_or_a_refusal(text, locale):
    """Nothing a person or an instrument types gets past as anything else."""
    try:
        found = parse_number(text, locale, fractions=True)
    except BadInput:
        return
    assert found.is_finite()
    assert all(sign in "0123456789.,/+-− " for sign in text)


def test_a_slipped_point_is_doubted():
    """A value a hundred times its neighbours."""
    doubt = suspicious(parse_many("0 12 20"), Decimal(2000))
    assert doubt is not None
    assert "2000" in str(doubt)
    assert suspicious(parse_many("0.000 0.012"), Decimal(12)) is not None


@pytest.mark.parametrize(
    ("values", "new"), [("0", "12"), ("0 0 0", "20"), ("0.1 0.2", "8"), ("12 20", "-1900")]
)
def test_zeros_and_small_numbers_are_not_doubted(values, new):
    """The neighbours count as at least ten of the finest step typed."""
    assert suspicious(parse_many(values), Decimal(new)) is None
    assert suspicious((), Decimal(new)) is None


def test_the_floor_can_be_given():
    """A caller who knows the dial sets it."""
    assert suspicious((Decimal(0),), Decimal(12), floor=Decimal("0.1")) is not None
    assert suspicious((Decimal(0),), Decimal(12), floor=Decimal(1)) is None


def test_plain_english_numbers_load_no_locale_data():
    """Start-up does not pay for babel where a dot is a dot."""
    code = (
        "import sys; from guide.measure.numerals import parse_many; parse_many('0.5 12');"
        "sys.exit('babel' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
