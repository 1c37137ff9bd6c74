"""Register fit: what is asked, and how far the body can go, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.fit import EXPANSION, Fit, Part, fit

MATERIALS = (("steel", N_("steel")), ("cast-iron", N_("cast iron")))
INTERFERES = {
    "no": N_("By these figures the body goes over the register."),
    "yes": N_("The body is smaller than the register: it does not go on, and is not driven on."),
    "undecided": N_("Whether it goes on cannot be said: the measuring is not fine enough."),
}
REACHES = {
    "yes": N_("The body has to go {wanted}: that is within reach."),
    "no": N_("The body has to go {wanted}: that is beyond what the register lets it."),
    "undecided": N_("The body has to go {wanted}: whether it can, the measuring cannot say."),
}
WARM = frozenset({"expansion-steel", "expansion-cast-iron", "iso-1"})
"""Sources of the remark on temperatures."""
NOT_SAID = N_(
    "It does not know burrs, dirt, or a register that is not round: look at both faces first. Parts"
    " that are being fitted are heavy and sharp: hold them so that no finger is between."
)


def work(typed: Typed) -> Answer:
    """Clearance, travel and reach."""
    found = fit(
        _part(typed, "plate"),
        _part(typed, "body"),
        runout_mm=typed.length("runout") if typed.has("runout") else None,
    )
    cold = frozenset() if found.at_reference_mm else WARM
    return Answer(found.to_json(), tuple(_lines(found, typed)), cold)


def _part(typed: Typed, name: str) -> Part:
    """One of the two parts."""
    own, warm = f"{name}-material", f"{name}-temperature"
    return Part(
        typed.length(name),
        typed.length(f"{name}-u") if typed.has(f"{name}-u") else 0.0,
        typed.text(own) if typed.has(own) else next(iter(EXPANSION)),
        typed.celsius(warm) if typed.has(warm) else None,
    )


def _lines(found: Fit, typed: Typed) -> Iterator[str]:
    """Clearance, what it lets the body do, and what is not known."""
    yield typed.say(
        N_("Clearance across: {size}, ± {spread}.")
        if found.uncertainty_mm
        else N_("Clearance across: {size}; how sure that is was not given."),
        size=typed.long(found.clearance_mm, 3),
        spread=typed.long(found.uncertainty_mm, 3),
    )
    yield typed.say(INTERFERES[found.interference])
    if found.interference != "yes":
        yield typed.say(
            N_("From the middle the body can go {size} each way."),
            size=typed.long(found.travel_mm, 3),
        )
    if found.within_reach is not None and found.wanted_mm is not None:
        yield typed.say(REACHES[found.within_reach], wanted=typed.long(found.wanted_mm, 3))
    yield from typed.remarks(found.notes)


FIT = Calculator(
    "fit",
    N_("Fit: body on the plate's register"),
    N_("How far the body can be shifted, and whether a runout is within reach."),
    (
        Asked("plate", N_("Register of the plate, across"), "length"),
        Asked("plate-u", N_("Plate: ± as measured"), "length", needed=False),
        Asked("body", N_("Recess of the body, across"), "length"),
        Asked("body-u", N_("Body: ± as measured"), "length", needed=False),
        Asked(
            "runout", N_("Runout (TIR) to be taken out"), "length",
            N_("the body goes half of it"), needed=False,
        ),
        Asked("plate-material", N_("Plate is of"), "choice", options=MATERIALS, needed=False),
        Asked(
            "plate-temperature", N_("Temperature of the plate"), "celsius", N_("21 °C, 70 °F"),
            needed=False,
        ),
        Asked("body-material", N_("Body is of"), "choice", options=MATERIALS, needed=False),
        Asked("body-temperature", N_("Temperature of the body"), "celsius", needed=False),
    ),
    work,
    ("gum", "expansion-steel", "expansion-cast-iron", "iso-1"),
    caution=NOT_SAID,
    assumed=N_("Assumed: both measured at 20 °C unless temperatures are given; ± at k = 2."),
)  # fmt: skip
"""The calculator as it is asked."""
