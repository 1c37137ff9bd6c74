"""A reading as an indicator types it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.numerals import parse_number
from guide.plain import BadInput
from guide.present.dial_text import UNITS, dial_text

NUMBERS = st.decimals(-99, 99, places=4, allow_nan=False, allow_infinity=False)


@pytest.mark.parametrize(
    ("typed", "unit", "number"),
    [
        ("+0.0012", "in", "+0.0012"),
        ("  0.0012  ", "in", "0.0012"),
        ("-0.012mm", "mm", "-0.012"),
        ("-0.012 MM", "mm", "-0.012"),
        ('0.0012"', "in", "0.0012"),
        ("0,012", "mm", "0.012"),
        ("-,5", "mm", "-0.5"),
        ("-0,012 mm", "mm", "-0.012"),
        ("12", "thou", "12"),
        ("1,234", "mm", "1,234"),
        ("abc", "mm", "abc"),
        ("", "mm", ""),
    ],
)
def test_the_number_alone_is_left(typed: str, unit: str, number: str) -> None:
    """Spaces and the setup's own unit go; a comma that may be a grouping stays, to be refused."""
    assert dial_text(typed, unit) == number


@given(NUMBERS, st.sampled_from(sorted(UNITS)), st.sampled_from(["", " ", "  "]))
def test_a_number_with_the_setups_unit_has_the_value_that_was_typed(
    value: Decimal, spelled: str, gap: str
) -> None:
    """However the unit is spelled, no digit is lost."""
    assert parse_number(dial_text(f"{gap}{value}{gap}{spelled}{gap}", UNITS[spelled])) == value


@given(NUMBERS, st.sampled_from(sorted(UNITS)))
def test_another_unit_is_refused_with_both_named(value: Decimal, spelled: str) -> None:
    """A value in another unit is never taken for one of this."""
    for unit in {"in", "mm", "thou"} - {UNITS[spelled]}:
        with pytest.raises(BadInput, match=f"in {UNITS[spelled]}, and .* in {unit}"):
            dial_text(f"{value}{spelled}", unit)


@pytest.mark.parametrize("typed", ["1.2E-3", "1,2e3", "-1e5", "1.2E-3mm", "1 E 3"])
def test_a_power_of_ten_is_refused(typed: str) -> None:
    """With a sentence that says how to set the indicator."""
    with pytest.raises(BadInput, match="power of ten"):
        dial_text(typed, "mm")


def test_an_unknown_unit_is_refused() -> None:
    """Nobody guesses what it stands for."""
    with pytest.raises(BadInput, match="no unit known"):
        dial_text("0.12 furlong", "mm")
