"""What one line of an indicator says: a value, that it is past its range, or nothing known."""

from __future__ import annotations

from dataclasses import dataclass

from guide.instruments.frames import Line
from guide.instruments.instrument import COMMA, OUT, Instrument
from guide.instruments.pattern import Found

OVER = frozenset({"OL", "OR", "OVER", "OVERRANGE", "OVERFLOW", "UNDER", "RANGE", "ERR", "ERROR"})
"""Words by which indicators say that they are past their range (common practice, no source)."""
STROKES = frozenset("-_*#")
"""A line of these alone says the same."""
FEWEST = 3
"""Strokes that are more than a sign."""
SHOWN = 60
"""Signs of a line that are shown."""


@dataclass(frozen=True, slots=True)
class Value:
    """A value as it goes on the reading line."""

    number: str
    """Plain digits with a point, minus for plunger out."""
    unit: str
    """As it was sent, else as it is set."""


@dataclass(frozen=True, slots=True)
class Over:
    """The indicator says that it is past its range."""

    raw: str


@dataclass(frozen=True, slots=True)
class Odd:
    """A line that was not understood, with every sign that is not plain spelled out."""

    raw: str


Told = Value | Over | Odd


def understood(line: Line, instrument: Instrument) -> Told:
    """What a line says by the settings of an indicator."""
    if line.whole and _is_over(line.text, instrument.over):
        return Over(escaped(line.text))
    found = instrument.form.found(line.text) if line.whole else None
    number = "" if found is None else _number(found, instrument)
    if found is None or not number:
        return Odd(escaped(line.text))
    return Value(number, found.unit or instrument.unit)


def _is_over(text: str, own: str) -> bool:
    """Whether a line says past its range, in the indicator's own words or in usual ones."""
    told = text.strip()
    strokes = len(told) >= FEWEST and set(told) <= STROKES
    return bool(told) and (told == own.strip() or told.upper().rstrip(".!") in OVER or strokes)


def _number(found: Found, instrument: Instrument) -> str:
    """The number in plain digits; blank where its decimal sign is not the one that is set."""
    sign, other = (",", ".") if instrument.decimal == COMMA else (".", ",")
    whole, _, part = found.digits.partition(sign)
    if other in found.digits or sign in part:
        return ""
    digits = f"{whole.lstrip('0') or '0'}{'.' if part else ''}{part}"
    zero = not digits.strip("0.")
    minus = found.minus != (instrument.positive == OUT) and not zero
    return f"{'-' if minus else ''}{digits}"


def escaped(text: str) -> str:
    """A line that steers no terminal, cut where it is long."""
    shown = "".join(sign if " " <= sign <= "~" else ascii(sign)[1:-1] for sign in text)
    return shown if len(shown) <= SHOWN else f"{shown[:SHOWN]}..."
