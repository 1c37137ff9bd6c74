"""Quantities keep what was typed and convert exactly."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.quantity import LENGTHS, Length, Mass, Speed, Torque
from guide.plain import BadInput

units = st.sampled_from(sorted(LENGTHS))
decimals = st.decimals(
    allow_nan=False, allow_infinity=False, min_value=-999, max_value=999, places=5
)


@pytest.mark.parametrize(
    ("text", "unit", "other", "value"),
    [
        ("1", "thou", "um", "25.4"),
        ("1", "thou", "in", "0.001"),
        ("1", "tenth", "in", "0.0001"),
        ("1", "in", "mm", "25.4"),
        ("0.002", "in", "thou", "2"),
        ("25.4", "mm", "in", "1"),
        ("1 1/2", "in", "mm", "38.1"),
    ],
)
def test_lengths_convert_exactly(text, unit, other, value):
    """The inch is 25.4 mm by definition; a thou is 25.4 µm."""
    assert Length.parse(text, unit).to(other).value == Decimal(value)


def test_what_was_typed_is_kept():
    """The text stays as typed beside the exact number."""
    length = Length.parse("0,0020", "mm", "de")
    assert (length.text, length.value, str(length)) == ("0,0020", Decimal("0.0020"), "0,0020 mm")


def test_a_conversion_that_never_ends_is_refused_but_can_be_shown():
    """1 mm is 0.03937… in: exact as a fraction, rounded only for showing."""
    length = Length.parse("1", "mm")
    with pytest.raises(BadInput, match="not a finite decimal"):
        length.to("in")
    assert length.exactly("in") == Fraction(5, 127)
    assert length.rounded("in", 5) == Decimal("0.03937")


def test_sums_are_exact():
    """A tenth added ten times is one thou, which binary floats do not manage."""
    total = Length.of(0, "in")
    for _ in range(10):
        total += Length.parse("0.0001", "in")
    assert total == Length.parse("1", "thou")
    assert (Length.parse("0.1", "mm") + Length.parse("0.2", "mm")).value == Decimal("0.3")


def test_sums_across_units_stay_exact():
    """Inches plus a millimetre cannot end in inches, so the sum is in millimetres."""
    mixed = Length.parse("1", "in") + Length.parse("1", "mm")
    assert (mixed.value, mixed.unit) == (Decimal("26.4"), "mm")
    assert (Length.parse("1", "mm") - Length.parse("1", "in")).value == Decimal("-24.4")


@given(decimals, units, decimals, units)
def test_equal_size_is_equal_however_written(one, unit, other, unit2):
    """Order and equality follow the exact size."""
    a, b = Length.of(one, unit), Length.of(other, unit2)
    assert (a == b) == (a.exactly("um") == b.exactly("um"))
    assert (a < b) == (a.exactly("um") < b.exactly("um"))
    assert a <= a + b - b
    assert (a + b) - b == a
    assert hash((a + b) - b) == hash(a)


@pytest.mark.parametrize("kind", [Length, Mass, Torque, Speed])
def test_an_unknown_unit_is_refused_with_the_known_ones(kind):
    """A unit of another kind is unknown here."""
    with pytest.raises(BadInput, match="Use one of"):
        kind.parse("1", "furlong")


def test_pounds_and_foot_pounds_are_exact():
    """0.453 592 37 kg, and lb × 9.806 65 m/s² × 0.3048 m (from memory: NIST SP 811, appendix B)."""
    assert Mass.parse("50", "lb").to("kg").value == Decimal("22.6796185")
    product = Decimal("0.45359237") * Decimal("9.80665") * Decimal("0.3048")
    assert Torque.parse("1", "lbf·ft").to("N·m").value == product
    assert Torque.parse("1", "lbf·ft").rounded("N·m", 4) == Decimal("1.3558")


def test_only_inches_are_typed_as_fractions():
    """Half a millimetre is written 0.5."""
    with pytest.raises(BadInput):
        Length.parse("1/2", "mm")


def test_kinds_do_not_mix():
    """A kilogram is not a millimetre."""
    assert Mass.of(1, "kg") != Length.of(1, "mm")
    assert Length.of(1, "mm") != 1
