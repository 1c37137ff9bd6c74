"""Answers to facts: what may be typed for each kind, kept as typed with its unit."""

from __future__ import annotations

import re
from decimal import Decimal

from guide.measure.numerals import in_point, parse_number
from guide.measure.quantity import Length, Mass, Quantity, Speed, Torque
from guide.plain import N_, BadInput
from guide.procedure.model import Fact

UNKNOWN_ANSWER = "unknown"
WRITTEN_AS_A_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")

SPELLINGS: dict[str, dict[str, str]] = {
    "length": {
        "in": "in", '"': "in", "inch": "in", "inches": "in", "mm": "mm", "thou": "thou",
        "tenth": "tenth", "tenths": "tenth", "um": "um", "µm": "um",
    },
    "mass": {"kg": "kg", "lb": "lb", "lbs": "lb"},
    "speed": {"rpm": "rev/min", "rev/min": "rev/min", "r/min": "rev/min", "U/min": "rev/min"},
    "torque": {
        "N·m": "N·m", "Nm": "N·m", "N.m": "N·m", "ft-lb": "lbf·ft", "lbf·ft": "lbf·ft",
        "ft·lb": "lbf·ft", "lb-ft": "lbf·ft",
    },
}  # fmt: skip
"""How people write units, and the unit each stands for."""

KIND: dict[str, type[Quantity]] = {
    "length": Length,
    "mass": Mass,
    "speed": Speed,
    "torque": Torque,
}


OF_THE_DIAL = ("graduation", "range-per-turn")
"""Lengths that are never nothing."""
FIGURES = frozenset({*KIND, "number"})
"""The kinds of answers that are figures: kept with a point, shown with the reader's sign."""


def accepted(fact: Fact, text: str, locale: str = "en") -> str:
    """The answer as it is kept; raises `BadInput` saying how to write it."""
    answer = " ".join(text.split())
    if not answer:
        raise BadInput(N_("“{ask}” has no answer yet."), N_("Answer it."), ask=fact.ask)
    if answer.lower() == UNKNOWN_ANSWER and fact.may_be_unknown:
        return UNKNOWN_ANSWER
    if fact.closed:
        return _closed(fact, answer)
    if fact.kind in KIND:
        _not_below_nothing(fact.kind, answer, locale)
        if fact.name in OF_THE_DIAL and quantity(fact.kind, answer, locale).value == 0:
            raise BadInput(
                N_("No dial has a division of {graduation}."),
                N_("Write what one division is worth, such as 0.0001 in."),
                graduation=answer,
            )
    elif fact.kind == "number":
        parse_number(answer, locale)
    elif fact.kind == "date":
        _date(answer)
    elif any(not each.isprintable() for each in answer):
        raise BadInput(N_("That text has signs that cannot be printed."), N_("Type it again."))
    return in_point(answer, locale) if fact.kind in FIGURES else answer


def _closed(fact: Fact, answer: str) -> str:
    """One of a closed set."""
    for each in fact.closed:
        if answer.lower() == each.lower():
            return each
    raise BadInput(
        N_("“{answer}” is not one of the answers to “{ask}”."),
        N_("Choose one of: {closed}."),
        answer=answer,
        ask=fact.ask,
        closed=", ".join(fact.closed),
    )


def quantity(kind: str, answer: str, locale: str = "en") -> Quantity:
    """A number and its unit, such as `0.001 in`; raises `BadInput` for anything else."""
    spellings = SPELLINGS[kind]
    for spelled in sorted(spellings, key=len, reverse=True):
        if answer.endswith(spelled):
            return KIND[kind].parse(answer[: -len(spelled)].strip(), spellings[spelled], locale)
    raise BadInput(
        N_("“{answer}” has no unit that is known here."),
        N_("Write the number and then one of: {units}."),
        answer=answer,
        units=", ".join(dict.fromkeys(spellings.values())),
    )


def _not_below_nothing(kind: str, answer: str, locale: str) -> None:
    """A length is never below nothing; a weight, a speed or a torque is always more than that."""
    size = quantity(kind, answer, locale).value
    if size < 0 or (size == 0 and kind != "length"):
        raise BadInput(
            N_("“{answer}” cannot be."),
            N_("Write what it is, with no minus sign, or `unknown` where that is offered."),
            answer=answer,
        )


def _date(answer: str) -> None:
    """A day written year-month-day."""
    from datetime import date

    try:
        date.fromisoformat(answer)
    except ValueError:
        no_such = WRITTEN_AS_A_DAY.fullmatch(answer)
        raise BadInput(
            N_("There is no such day as {answer}.")
            if no_such
            else N_("“{answer}” is not a date that can be read one way only."),
            N_("Write year, month, day, such as 2027-05-25."),
            answer=answer,
        ) from None


def number(answer: str) -> Decimal | None:
    """The bare number of an answer with or without a unit, or None."""
    text = answer.strip()
    units = {spelled for spellings in SPELLINGS.values() for spelled in spellings}
    longest = max((each for each in units if text.endswith(each)), key=len, default="")
    text = text.removesuffix(longest).strip()
    try:
        return parse_number(text)
    except BadInput:
        return None


def length(answer: str | None, unit: str) -> Decimal | None:
    """A length answer in a unit, or None where it was not answered or is unknown."""
    if not answer or answer == UNKNOWN_ANSWER:
        return None
    size = quantity("length", answer).exactly(unit)
    return Decimal(size.numerator) / Decimal(size.denominator)
