"""What the calculators at the dial share: the units of a dial, and flags as sentences."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guide.measure.flags import FLAGS
from guide.plain import N_
from guide.present.asked import Asked, Typed
from guide.present.numbers import PLACES

UNITS = (
    ("in", N_("inches")),
    ("mm", N_("millimetres")),
    ("thou", N_("thousandths of an inch")),
    ("tenth", N_("ten-thousandths of an inch")),
    ("um", N_("micrometres")),
)
UNIT = Asked("unit", N_("Unit of every figure"), "choice", options=UNITS)
GRADUATION = Asked("graduation", N_("One division of the dial"), needed=False)
TOLERANCE = Asked("tolerance", N_("The largest full runout allowed"), needed=False)
BY_HAND = N_(
    "It does not see the lathe: isolate it, take every key out, and turn the spindle by hand. The "
    "maker's manual, local rules and a competent person come first."
)


def in_unit(size: float, unit: str, typed: Typed, finer: int = 0) -> str:
    """A length in the dial's unit."""
    return f"{typed.figure(size, PLACES[unit] + finer)} {unit}"


def maybe(typed: Typed, name: str) -> float | None:
    """A number, or None where none was given."""
    return typed.number(name) if typed.has(name) else None


def flags(keys: Iterable[str], typed: Typed) -> Iterator[str]:
    """Each flag, and what to check in order."""
    for key in keys:
        yield "! " + typed.say(FLAGS[key].sentence)
        for number, cause in enumerate(FLAGS[key].causes, start=1):
            yield f"    {number}. {typed.say(cause)}"
