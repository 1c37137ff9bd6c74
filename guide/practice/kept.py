"""What is hidden, as text for the journal and back: a setup's truth can be told years later."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from decimal import Decimal
from typing import Any

from guide.plain import N_, BadInput
from guide.practice.dial import Dial
from guide.practice.truth import Truth


def place_text(place: complex) -> str:
    """A place in the plane as two numbers."""
    return f"{place.real!r} {place.imag!r}"


def place(text: object) -> complex:
    """A place from its two numbers."""
    across, up = str(text).split()
    return complex(float(across), float(up))


def truth_text(truth: Truth) -> dict[str, Any]:
    """A truth as text, without what is as it usually is."""
    usual = Truth()
    return {
        each.name: _text(getattr(truth, each.name))
        for each in fields(Truth)
        if getattr(truth, each.name) != getattr(usual, each.name)
    }


def _text(value: object) -> Any:
    """One value as text."""
    if isinstance(value, complex):
        return place_text(value)
    if isinstance(value, Mapping):
        return {str(order): place_text(lobe) for order, lobe in value.items()}
    if isinstance(value, tuple):
        return [str(each) for each in value]
    return repr(value) if isinstance(value, float) else str(value)


def truth(told: Mapping[str, Any]) -> Truth:
    """A truth from its text; raises BadInput where it is not one."""
    usual = Truth()
    try:
        made = {name: _value(getattr(usual, name), text) for name, text in told.items()}
        return Truth(**made)
    except (AttributeError, TypeError, ValueError):
        raise BadInput(
            N_("What was hidden in this practice setup cannot be read."),
            N_("`spindleside verify` says whether the journal is whole."),
        ) from None


def _value(usual: object, text: Any) -> Any:
    """One value from its text, of the kind that it usually is."""
    if isinstance(usual, complex):
        return place(text)
    if isinstance(usual, Mapping):
        return {int(order): place(lobe) for order, lobe in text.items()}
    if isinstance(usual, tuple):
        return tuple(int(each) for each in text)
    return str(text) if isinstance(usual, str) else type(usual)(text)  # type: ignore[call-arg]


def dial_text(dial: Dial) -> dict[str, str]:
    """A dial as text."""
    return {each.name: str(getattr(dial, each.name)) for each in fields(Dial)}


def dial(told: Mapping[str, str]) -> Dial:
    """A dial from its text."""
    return Dial(
        str(told["unit"]),
        Decimal(told["graduation"]),
        Decimal(told["per_turn"]),
        "continuous" if told["numbering"] == "continuous" else "balanced",
        told["digital"] == "True",
    )
