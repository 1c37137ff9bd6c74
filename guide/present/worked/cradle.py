"""Cradle: what is asked, and where its vee has to be, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.cradle import Cradle, cradle

NOT_SAID = N_(
    "It does not say that the cradle is strong or stands fast: it must not tip, slide or split with"
    " the chuck on it. Keep fingers out from between chuck, vee and ways; local rules and a"
    " competent person come first."
)


def work(typed: Typed) -> Answer:
    """Where the vee has to be."""
    found = cradle(
        typed.length("centre"),
        typed.length("diameter"),
        typed.degrees("vee") if typed.has("vee") else 90.0,
        opening_mm=typed.length("opening") if typed.has("opening") else None,
        least_root_mm=typed.length("under") if typed.has("under") else 0.0,
        varies_mm=typed.length("varies") if typed.has("varies") else 0.0,
    )
    return Answer(found.to_json(), tuple(_lines(found, typed)))


def _lines(found: Cradle, typed: Typed) -> Iterator[str]:
    """Heights, contact, shims, and what is not known."""
    if found.goes:
        yield from _sizes(found, typed)
    else:
        yield typed.say(N_("No such cradle goes here."))
        yield from typed.remarks(found.why_not)
    yield from typed.remarks(found.notes)


def _sizes(found: Cradle, typed: Typed) -> Iterator[str]:
    """The figures to make it by."""
    yield typed.say(
        N_("Root of the vee: {size} above the surface."), size=typed.long(found.root_mm, 1)
    )
    yield typed.say(
        N_("The chuck rests on two lines {width} apart, {height} up, {angle}° to each side."),
        width=typed.long(found.contact_width_mm, 1),
        height=typed.long(found.contact_height_mm, 1),
        angle=typed.figure(found.contact_half_angle_deg, 1),
    )
    yield typed.say(
        N_("Each flank touches {size} from the root: make it longer than that."),
        size=typed.long(found.flank_mm, 1),
    )
    yield typed.say(
        N_("Under the chuck: {under} to the surface, {gap} to the root."),
        under=typed.long(found.under_chuck_mm, 1),
        gap=typed.long(found.gap_mm, 1),
    )
    yield typed.say(
        N_("A shim of 1 under the whole cradle lifts the chuck by 1; under each flank by {rise}."),
        rise=typed.figure(found.rise_per_shim, 2),
    )
    yield typed.say(
        N_("Under one flank alone it goes up by {up} and sideways by {aside}."),
        up=typed.figure(found.one_flank[0], 2),
        aside=typed.figure(found.one_flank[1], 2),
    )


CRADLE = Calculator(
    "cradle",
    N_("Cradle: height and vee"),
    N_("So that the chuck's axis meets the nose."),
    (
        Asked(
            "centre", N_("Spindle's axis above the surface"), "length",
            N_("what the cradle stands on: the ways, the bed or a board on them"),
        ),
        Asked("diameter", N_("Diameter of the chuck body"), "length"),
        Asked(
            "vee", N_("Angle between the flanks"), "degrees", N_("90 unless given"), needed=False
        ),
        Asked("opening", N_("Width of the vee at its top"), "length", needed=False),
        Asked("under", N_("Least to be left under the root"), "length", needed=False),
        Asked(
            "varies", N_("What the diameter varies by"), "length",
            N_("largest less smallest"), needed=False,
        ),
    ),
    work,
    ("circle-in-vee", "trade"),
    caution=NOT_SAID,
    assumed=N_("Assumed: the body is round, the vee stands square under the spindle's axis."),
)  # fmt: skip
"""The calculator as it is asked."""
