"""Play at nose, plate and bar: what is asked, and which joint gives, in sentences."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from guide.measure.joints import Joint, Joints, joints
from guide.measure.play import Place, play
from guide.plain import N_, BadInput
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.present.worked.dial import BY_HAND, GRADUATION, UNIT, in_unit, maybe

PLACES: tuple[Place, ...] = ("nose", "plate", "bar")
AT = {"nose": N_("the bare nose"), "plate": N_("the plate"), "bar": N_("the bar")}
GIVES = {
    "spindle": N_("The spindle adds {added}."),
    "seat": N_("The seat adds {added}."),
    "grip": N_("The grip adds {added}."),
}


def work(typed: Typed) -> Answer:
    """The play at each place read, and what each joint adds."""
    plays = {place: _pairs(typed, place) for place in PLACES if typed.has(place)}
    found = joints(plays, graduation=maybe(typed, "graduation"))
    plain = {
        "plays": {place: float(each) for place, each in found.play.plays.items()},
        "looks_to": found.play.looks_to,
    }
    return Answer(plain, tuple(_lines(found, typed)))


def _pairs(typed: Typed, place: str) -> tuple[Decimal, ...]:
    """The play of each push and pull."""
    read = [Decimal(repr(each)) for each in typed.numbers(place)]
    if len(read) % 2:
        raise BadInput(
            N_("A push without its pull was given for {place}."),
            N_("Give both, such as -0.2 0.3."),
            place=typed.say(AT[place]),
        )
    return tuple(play(*pair) for pair in zip(read[::2], read[1::2], strict=True))


def _lines(found: Joints, typed: Typed) -> Iterator[str]:
    """Where to look first, then the figures."""
    unit = typed.text("unit")
    yield typed.say(found.play.why)
    for place, amount in found.play.plays.items():
        size = in_unit(float(amount), unit, typed)
        yield typed.say(N_("Play at {place}: {size}."), place=typed.say(AT[place]), size=size)
    for joint in found.joints:
        added = in_unit(joint.at_most, unit, typed)
        yield typed.say(GIVES[joint.gives], added=added) + _noise(joint, typed)


def _noise(joint: Joint, typed: Typed) -> str:
    """That it is no more than noise."""
    return "" if joint.stands_out else " " + typed.say(N_("That is no more than noise or reach."))


PLAY = Calculator(
    "play",
    N_("Play: spindle, seat or grip"),
    N_("Push and pull at the bare nose, on the plate and at the bar: the differences tell."),
    (
        UNIT,
        *(
            Asked(place, AT[place], "numbers", N_("pushed, pulled, perhaps again"), needed=False)
            for place in PLACES
        ),
        GRADUATION,
    ),
    work,
    ("trade",),
    caution=BY_HAND,
    assumed=N_("Push and pull about as hard everywhere; a bar magnifies by its length."),
)
"""The calculator as it is asked."""
