"""Weight: what is asked, and the band of a chuck or plate in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.weight import Weight, weight

MATERIALS = (("steel", N_("steel")), ("cast-iron", N_("cast iron")))
NOT_SAID = N_(
    "It does not say what hangs with it: a plate not counted here, a bar in the jaws, the board"
    " and the lifting gear come on top. It does not say that the lift is safe."
)


def work(typed: Typed) -> Answer:
    """The band of the body with its jaws, and of the plate where it hangs on."""
    body = weight(
        typed.length("diameter"),
        typed.length("length"),
        typed.length("bore") if typed.has("bore") else 0.0,
        material=typed.text("material"),
        jaws=typed.whole("jaws") if typed.has("jaws") else 3,
    )
    plate = _plate(typed)
    found = body if plate is None else body + plate
    plain = {
        **found.to_json(),
        "parts": {"body": body.to_json(), "plate": None if plate is None else plate.to_json()},
    }
    return Answer(plain, tuple(_lines(found, plate, typed)), _unused(typed))


def _unused(typed: Typed) -> frozenset[str]:
    """The density that this answer does not rest on."""
    used = {typed.values.get(name) for name in ("material", "plate-material")}
    return frozenset(f"density-{name}" for name, _ in MATERIALS if name not in used)


def _plate(typed: Typed) -> Weight | None:
    """The plate by itself; None where its size was not given."""
    if not typed.has("plate-diameter") and not typed.has("plate-length"):
        return None
    own = "plate-material" if typed.has("plate-material") else "material"
    return weight(
        typed.length("plate-diameter"),
        typed.length("plate-length"),
        typed.length("plate-bore") if typed.has("plate-bore") else 0.0,
        material=typed.text(own),
        jaws=0,
    )


def _lines(found: Weight, plate: Weight | None, typed: Typed) -> Iterator[str]:
    """The band, the end to plan with, and what is not in it."""
    yield typed.say(
        N_("Between {low} and {high} kg ({low_lb} and {high_lb} lb), estimated from its size."),
        low=found.low_kg,
        high=found.high_kg,
        low_lb=found.low_lb,
        high_lb=found.high_lb,
    )
    yield typed.say(
        N_("Plan the lift with the heavier end: {kg} kg ({lb} lb)."),
        kg=found.high_kg,
        lb=found.high_lb,
    )
    yield typed.say(N_("A mark on the part, the maker's figure or scales beat this estimate."))
    if plate is not None:
        yield typed.say(
            N_("Of that the plate is between {low} and {high} kg."),
            low=plate.low_kg,
            high=plate.high_kg,
        )


WEIGHT = Calculator(
    "weight",
    N_("Weight of a chuck or plate"),
    N_("Between what and what it weighs, from its size."),
    (
        Asked("diameter", N_("Diameter of the body"), "length", N_("200 mm, 8 in")),
        Asked("length", N_("Front to back, without jaws"), "length", N_("85 mm, 3 3/8 in")),
        Asked(
            "bore", N_("Bore right through"), "length", N_("leave it out if there is none"),
            needed=False,
        ),
        Asked("material", N_("Body is of"), "choice", options=MATERIALS),
        Asked(
            "jaws", N_("Jaws fitted"), "whole", N_("0 for a plain plate"), needed=False, given="3"
        ),
        Asked("plate-diameter", N_("Plate that hangs with it, across"), "length", needed=False),
        Asked("plate-length", N_("Plate front to back"), "length", needed=False),
        Asked("plate-bore", N_("Bore of the plate"), "length", needed=False),
        Asked("plate-material", N_("Plate is of"), "choice", options=MATERIALS, needed=False),
    ),
    work,
    ("density-steel", "density-cast-iron", "trade"),
    caution=NOT_SAID,
    assumed=N_("Assumed: a cylinder less its bore, slots and pockets by judgement, jaws on top."),
)  # fmt: skip
"""The calculator as it is asked."""
