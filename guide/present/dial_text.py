"""A reading as an indicator types it: a number, perhaps with spaces, a sign and a unit."""

from __future__ import annotations

import re

from guide.measure.numerals import shown, signs
from guide.plain import N_, BadInput
from guide.walk.answers import SPELLINGS

WITH_UNIT = re.compile(r"([-+−]?[0-9.,'’ ]*[0-9.,]) *([^0-9.,+\-− ][^0-9]*)")
POWER = re.compile(r"[-+−]?[0-9.,]+ *[eE] *[-+−]?[0-9]+.*")
COMMA = re.compile(r"([-+−]?) *([0-9]*),([0-9]+)")
GROUPED = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
"""What may be thousands; any other single comma can only be a decimal sign."""
UNITS = {spelled.casefold(): unit for spelled, unit in SPELLINGS["length"].items()}


def dial_text(typed: str, unit: str, language: str = "en") -> str:
    """The number alone, as typed but for a decimal comma that can be nothing else.

    In a language whose decimal sign is the comma one comma is always that. A point is a decimal
    point in every language: indicators type one, and no dial shows thousands set apart.

    Raises `BadInput` for a unit that is not the setup's, and for a power of ten. What is no number
    at all comes back as it is, for whoever reads numbers to say so.
    """
    text = typed.strip()
    if POWER.fullmatch(text):
        raise BadInput(
            N_("{text} has a power of ten in it, which is not taken here."),
            N_("Set the indicator to send plain digits, such as 0.0012."),
            text=shown(text),
        )
    if found := WITH_UNIT.fullmatch(text):
        _same_unit(found[2].strip(), unit, text)
        text = found[1].strip()
    return _with_point(text, signs(language)[0] == ",")


def _same_unit(written: str, unit: str, text: str) -> None:
    """Refuse a unit that is not the one the setup is read in."""
    told = UNITS.get(written.casefold())
    if told is None:
        raise BadInput(
            N_("{text} ends in something that is no unit known here."),
            N_("Send the number alone, or with {unit}."),
            text=shown(text),
            unit=unit,
        )
    if told != unit:
        raise BadInput(
            N_("{text} is in {other}, and this setup is read in {unit}."),
            N_("Set the indicator to {unit} and send it again."),
            text=shown(text),
            other=told,
            unit=unit,
        )


def _with_point(text: str, always: bool) -> str:
    """A comma that can only be a decimal sign becomes a point."""
    found = COMMA.fullmatch(text)
    if not found or (not always and GROUPED.fullmatch(f"{found[2]},{found[3]}")):
        return text
    return f"{found[1]}{found[2] or 0}.{found[3]}"
