"""Worked-out figures are shown as finely as a fine dial of their unit, and no finer."""

from __future__ import annotations

import pytest

from guide.present.numbers import figure, plain


@pytest.mark.parametrize(
    ("text", "unit", "shown"),
    [
        ("0.00169497102211", "in", "0.00169 in"),
        ("0.0421234", "mm", "0.0421 mm"),
        ("1.6949", "thou", "1.69 thou"),
        ("-0.000004", "in", "0 in"),
        ("0.00999924744318", "in", "0.01 in"),
        ("12", "um", "12 um"),
        (None, "in", ""),
    ],
)
def test_a_figure_is_rounded_for_its_unit(text, unit: str, shown: str) -> None:
    """Without idle zeros, without a minus before nothing, and blank where there is none."""
    assert figure(text, unit) == shown


def test_the_decimal_sign_is_the_readers() -> None:
    """A comma in German, as CLDR has it."""
    assert plain("0.00169", 5, "de") == "0,00169"


def test_what_is_no_number_stays_as_it_is() -> None:
    """A damaged record is shown, not a traceback."""
    assert plain("about two", 5) == "about two"
