"""Figures as a person reads them: rounded for their unit, in the reader's decimal sign."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal, InvalidOperation

PLACES = {"in": 5, "mm": 4, "thou": 2, "tenth": 1, "um": 1}
"""Decimals of a worked-out length: one finer than a fine dial of that unit shows."""


def figure(text: object, unit: str, language: str = "en") -> str:
    """A worked-out length with its unit; blank where there is none."""
    return f"{plain(text, PLACES.get(unit, 5), language)} {unit}" if text is not None else ""


def plain(text: object, places: int, language: str = "en") -> str:
    """A number rounded to some places, without idle zeros; text that is no number stays."""
    try:
        number = Decimal(str(text)).quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN)
    except InvalidOperation:
        return str(text)
    digits = f"{number:f}"
    short = digits.rstrip("0").rstrip(".") if "." in digits else digits
    return "0" if short == "-0" else short.replace(".", _decimal_sign(language))


def _decimal_sign(language: str) -> str:
    """The language's sign between the whole number and its fraction."""
    from guide.measure.numerals import signs

    return signs(language)[0]
