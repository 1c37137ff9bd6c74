"""Slings: what is asked, and the pull in each leg in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_, BadInput
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.sling import Sling, from_included, sling
from guide.shop.weight import KG_PER_LB

NOT_SAID = N_(
    "It does not say that the lift is safe, or that this sling is right: the tag, its inspection,"
    " local rules and a competent person come first. Nobody under or beside the load."
)


def work(typed: Typed) -> Answer:
    """The pull in each leg."""
    unit = _unit(typed)
    kg = typed.mass("load")
    found = sling(
        kg if unit == "kg" else kg / KG_PER_LB, typed.whole("legs"), _angle(typed), unit=unit
    )
    return Answer(found.to_json(), tuple(_lines(found, typed)))


def _unit(typed: Typed) -> str:
    """The load's own unit."""
    said = typed.text("load").rstrip("s").lower()
    return "lb" if said.endswith("lb") or (typed.system == "inch" and said[-1:].isdigit()) else "kg"


def _angle(typed: Typed) -> float | None:
    """From the horizontal, whichever way it was measured; None for neither."""
    if typed.has("angle") and typed.has("included"):
        raise BadInput(
            N_("The angle is given twice."),
            N_("Give it from the horizontal, or between the legs, not both."),
        )
    if typed.has("included"):
        return from_included(typed.degrees("included"))
    return typed.degrees("angle") if typed.has("angle") else None


def _lines(found: Sling, typed: Typed) -> Iterator[str]:
    """The pull, what it rests on, and what it does not say."""
    if found.leg is None or found.sideways is None or found.factor is None:
        yield typed.say(N_("No figure for this sling."))
        yield from typed.remarks(found.why_not)
    else:
        yield typed.say(
            N_("Each leg pulls {leg} {unit}, {factor} times what it would pull hanging straight."),
            leg=typed.figure(found.leg, 1),
            unit=found.unit,
            factor=typed.figure(found.factor, 3),
        )
        yield typed.say(
            N_(
                "{angle}° from the horizontal is {between}° between the legs; each pulls {side}"
                " {unit} inward."
            ),
            angle=typed.figure(found.angle_deg, 1),
            between=typed.figure(2 * (90 - found.angle_deg), 1),
            side=typed.figure(found.sideways, 1),
            unit=found.unit,
        )
        yield from typed.remarks(found.notes)


SLING = Calculator(
    "sling",
    N_("Sling: the pull in each leg"),
    N_("The pull grows as the legs lean; of three or four only two are counted."),
    (
        Asked("load", N_("What hangs, all of it"), "mass", N_("chuck, plate, bar, board and gear")),
        Asked("legs", N_("Legs of the sling"), "whole", N_("1 to 4")),
        Asked(
            "angle", N_("Angle from the horizontal"), "degrees",
            N_("90 hangs straight; leave it out for one leg"), needed=False,
        ),
        Asked(
            "included", N_("Or the angle between two legs"), "degrees",
            N_("as UK tables count"), needed=False,
        ),
    ),
    work,
    ("sling-angle", "navy-rigging", "asme-b30-9"),
    caution=NOT_SAID,
    assumed=N_(
        "Assumed: legs of one length, the hook over the middle of the load, no jerk, no choke."
    ),
)  # fmt: skip
"""The calculator as it is asked."""
