"""Handling bar: what is asked, and how hard it is bent, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.bar import Bar, bar

PER_KSI = 6.894757293168361
WAYS = (
    ("both-ends", N_("both ends rest on something")),
    ("one-end", N_("held at one end, free at the other")),
)
NOT_SAID = N_(
    "It does not say that the bar is enough, or that the jaws hold it: a bar that slips or rolls"
    " drops the chuck. Keep hands and feet from under it; local rules and a competent person come"
    " first."
)


def work(typed: Typed) -> Answer:
    """Stress and sag."""
    found = bar(
        typed.mass("load"),
        typed.length("diameter"),
        typed.length("length"),
        typed.length("at") if typed.has("at") else None,
        way=typed.text("way"),
        bore_mm=typed.length("bore") if typed.has("bore") else 0.0,
        yield_mpa=typed.stress("yield") if typed.has("yield") else None,
    )
    return Answer(found.to_json(), tuple(_lines(found, typed)))


def _lines(found: Bar, typed: Typed) -> Iterator[str]:
    """Stress against yield, sag, and what is not in it."""
    if found.stress_mpa is None or found.sag_mm is None or found.own_kg is None:
        yield typed.say(N_("No figure for this bar."))
        yield from typed.remarks(found.why_not)
    else:
        yield typed.say(
            N_("Largest bending stress: {mpa} MPa ({ksi} ksi)."),
            mpa=typed.figure(found.stress_mpa, 1),
            ksi=typed.figure(found.stress_mpa / PER_KSI, 2),
        )
        if found.yield_ratio is not None:
            yield typed.say(
                N_("The yield strength given is {ratio} times that."),
                ratio=typed.figure(found.yield_ratio, 1),
            )
        yield typed.say(N_("It sags {sag} at the chuck."), sag=typed.long(found.sag_mm, 2))
        yield typed.say(
            N_("The bar itself, {kg} kg, is counted in."), kg=typed.figure(found.own_kg, 1)
        )
    yield from typed.remarks(found.notes)


BAR = Calculator(
    "bar",
    N_("Handling bar: bending and sag"),
    N_("A bar in the jaws or through the bore that carries the chuck."),
    (
        Asked("load", N_("What hangs on it"), "mass", N_("the heavier end of an estimate")),
        Asked("diameter", N_("Diameter of the bar"), "length"),
        Asked("bore", N_("Its bore"), "length", N_("leave it out for a solid bar"), needed=False),
        Asked("way", N_("How the bar is carried"), "choice", options=WAYS),
        Asked("length", N_("Length that is free"), "length", N_("between supports, or overhang")),
        Asked(
            "at", N_("Where the load hangs"), "length",
            N_("from the end that rests or is held; the middle or the free end unless given"),
            needed=False,
        ),
        Asked(
            "yield", N_("Yield strength of the bar"), "stress",
            N_("from its certificate: 350 MPa, 50 ksi"), needed=False,
        ),
    ),
    work,
    ("beam-tables", "steel-modulus", "density-steel"),
    caution=NOT_SAID,
    assumed=N_(
        "Assumed: round steel, straight, no notch or thread, the load at one place, lifted gently."
    ),
)  # fmt: skip
"""The calculator as it is asked."""
