"""Spindle nose: what is asked, and which it is, or that nobody here can say so, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.nose import Measured, Nose, Size, included_angle_deg, nose

KINDS = (
    ("camlock", N_("cam-lock: short taper, cams round the rim of the flange")),
    ("long", N_("long taper with a key and a draw nut")),
    ("bolted", N_("short taper, bolts or nuts through the flange")),
    ("threaded", N_("threaded, with a plain register and a shoulder")),
)
AGAINST = {
    "pins": N_("The number of pins contradicts the taper."),
    "circle": N_("The circle of the pins contradicts the taper."),
}
NOT_SAID = N_(
    "It does not say that a plate fits: stamp, maker's manual and the seat itself come first. A"
    " plate that nearly fits lets go at speed. Measure with the lathe isolated, each one's own lock"
    " on, and try none on to see whether it fits."
)
USED = {
    "camlock": frozenset({"long-taper"}),
    "long": frozenset({"camlock-charts", "trade"}),
    "bolted": frozenset({"camlock-charts", "long-taper"}),
    "threaded": frozenset({"camlock-charts", "long-taper"}),
}
"""Sources that an answer about each kind does not use."""


def work(typed: Typed) -> Answer:
    """Which nose it is."""
    kind = typed.text("kind")
    found = nose(kind, _measured(typed))
    return Answer(found.to_json(), tuple(_lines(found, typed)), USED[kind])


def _measured(typed: Typed) -> Measured | None:
    """What was measured; nothing where the taper was not."""
    if not typed.has("diameter"):
        return None
    return Measured(
        typed.length("diameter"),
        typed.length("diameter-u") if typed.has("diameter-u") else 0.0,
        typed.whole("pins") if typed.has("pins") else None,
        typed.length("circle") if typed.has("circle") else None,
        typed.length("circle-u") if typed.has("circle-u") else 0.0,
    )


def _lines(found: Nose, typed: Typed) -> Iterator[str]:
    """The answer, what speaks against it, what was not measured."""
    if found.told == "one":
        yield from _of_one(found.sizes[0], typed)
    elif found.told == "undecided":
        yield typed.say(N_("Undecided between: {names}."), names=_names(found, typed))
    elif found.told == "none":
        yield typed.say(
            N_("None of these: the taper is that of none of the sizes D1-3 to D1-11 in the chart.")
        )
    elif found.kind == "long":
        yield typed.say(
            N_(
                "Long taper, L00 to L3: {taper} in on the foot, {angle}° in all. It releases"
                " itself, so only the draw nut holds a plate on it."
            ),
            taper="3 1/2",
            angle=typed.figure(included_angle_deg(), 3),
        )
    for each in found.against:
        yield typed.say(AGAINST[each])
    if found.told in ("undecided", "none"):
        yield typed.say(N_("Measure again; then the stamp and the maker's manual decide."))
    yield from typed.remarks(found.notes)


def _of_one(size: Size, typed: Typed) -> Iterator[str]:
    """The size, and its plate."""
    yield typed.say(
        N_("By what was measured it is {size}: taper {taper} in the chart."),
        size=size.name,
        taper=_both(size.taper_mm, typed),
    )
    yield typed.say(
        N_("Its plate is made for {size}: {count} pins of {pin} on a circle of {circle}."),
        size=size.name,
        count=size.pins,
        pin=typed.long(size.pin_mm, 1),
        circle=typed.long(size.circle_mm, 1),
    )


def _both(mm: float, typed: Typed) -> str:
    """A taper as the chart has it, and in inches."""
    return f"{typed.figure(mm, 3)} mm ({typed.figure(mm / 25.4, 4)} in)"


def _names(found: Nose, typed: Typed) -> str:
    """The sizes that it lies between, and perhaps none of them."""
    names = [each.name for each in found.sizes]
    return ", ".join((*names, *((typed.say(N_("none of these")),) if found.or_none else ())))


NOSE = Calculator(
    "nose",
    N_("Spindle nose: which one, which plate"),
    N_("By its taper, pins and circle; only some cam-lock sizes have a table here."),
    (
        Asked("kind", N_("Kind of nose"), "choice", options=KINDS),
        Asked(
            "diameter", N_("Short taper, across"), "length", N_("close to the face"), needed=False
        ),
        Asked("diameter-u", N_("Taper: ± as measured"), "length", needed=False),
        Asked(
            "pins", N_("Holes for pins"), "whole", N_("count the sockets of the cams"), needed=False
        ),
        Asked("circle", N_("Circle of the pin holes, across"), "length", needed=False),
        Asked("circle-u", N_("Circle: ± as measured"), "length", needed=False),
    ),
    work,
    ("camlock-charts", "long-taper", "trade"),
    caution=NOT_SAID,
    assumed=N_(
        "Assumed: clean metal, the taper measured close to the face, ± at k = 2. Up to 1.5 mm under"
        " and 0.5 mm over the chart counts as that size; outside the chart nothing is named."
    ),
)
"""The calculator as it is asked."""
