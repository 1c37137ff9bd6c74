"""Lifting by hand: what is asked, and the equation's answer in sentences."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict

from guide.plain import N_, BadInput
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.lift import End, Hands, Lift, lift
from guide.shop.lift_duration import Duration, duration, sessions
from guide.shop.lift_limits import OUTSIDE
from guide.shop.lift_multipliers import averaged_frequency

UNITS = (("metric", N_("cm and kg")), ("us", N_("in and lb")))
COUPLINGS = (
    ("good", N_("good: handles, or a good hold all round")),
    ("fair", N_("fair: fingers under it at 90°")),
    ("poor", N_("poor: neither")),
)
NOT_SAID = N_(
    "It does not say that the lift is safe. It counts one person, two hands, standing on a"
    " sound floor; not a slip, a pinch between chuck and bed, two people, or a hoist. Local"
    " rules and a competent person come first."
)
END = {"origin": N_("origin"), "destination": N_("destination")}
LASTS = {
    "short": N_("Counted as short: {work} minutes, then {rest} minutes of light work before more."),
    "moderate": N_(
        "Counted as moderate: {work} minutes, then {rest} minutes of light work before more."
    ),
    "long": N_("Counted as long: {work} minutes, with the day's ordinary breaks."),
}


def work(typed: Typed) -> Answer:
    """The limit and index of one person's lift."""
    lasts = _lasts(typed)
    found = lift(
        Hands(typed.number("h"), typed.number("v"), typed.number("a") if typed.has("a") else 0.0),
        typed.number("d") if typed.has("d") else None,
        unit=typed.text("unit"),
        coupling=typed.text("coupling"),
        per_minute=_often(typed),
        hours=lasts.hours,
        load=typed.number("load") if typed.has("load") else None,
        destination=_hands(typed) if typed.has("destination") else None,
        outside=typed.text("condition").split() if typed.has("condition") else (),
    )
    return Answer(found.to_json(), tuple(_lines(found, lasts, typed)))


def _often(typed: Typed) -> float:
    """Lifts a minute, averaged over 15 minutes where lifting fills only some of them."""
    often = typed.number("per-minute") if typed.has("per-minute") else 0.2
    if typed.has("for-minutes"):
        return averaged_frequency(often, typed.number("for-minutes"))
    return often


def _lasts(typed: Typed) -> Duration:
    """How long the lifting counts as going on."""
    if typed.has("sessions"):
        return sessions(typed.numbers("sessions"))
    return duration(typed.number("hours") if typed.has("hours") else 1.0)


def _hands(typed: Typed) -> Hands:
    """The "H V A" of the place where the load is set down; A may be left out."""
    sizes = typed.numbers("destination")
    if len(sizes) not in (2, 3):
        raise BadInput(
            N_("The destination {text} is not two or three numbers."),
            N_('Write H, V and A with spaces, such as "24 42 0".'),
            text=typed.text("destination")[:24],
        )
    return Hands(*sizes)


def _lines(found: Lift, lasts: Duration, typed: Typed) -> Iterator[str]:
    """The answer, what it rests on, and what it does not say."""
    if not found.applicable:
        yield typed.say(
            N_("The equation does not apply here, so there is no weight limit and no index.")
        )
        yield from typed.remarks(found.why_not)
        yield typed.say(
            N_("That is no pass: use gear that carries the load, and ask a competent person.")
        )
    else:
        yield from _figures(found, typed)
        yield typed.say(
            LASTS[lasts.kind],
            work=typed.figure(lasts.hours * 60, 0),
            rest=typed.figure((lasts.recovery_hours or 0) * 60, 0),
        )


def _figures(found: Lift, typed: Typed) -> Iterator[str]:
    """The limit, the index and the multipliers."""
    own, other = ("lb", "kg") if typed.text("unit") == "us" else ("kg", "lb")
    yield typed.say(
        N_("Recommended weight limit: {size} {own} ({else_size} {other}), set by the {end}."),
        size=typed.figure(_limit(found, own), 1),
        own=own,
        else_size=typed.figure(_limit(found, other), 1),
        other=other,
        end=typed.say(END[str(found.governs)]),
    )
    if found.lifting_index is not None:
        yield typed.say(
            N_("Lifting index: {index} for {load} {own}. {meaning}"),
            index=typed.figure(found.lifting_index, 2),
            load=typed.text("load"),
            own=own,
            meaning=typed.say(_meaning(found.lifting_index)),
        )
    if len(found.ends) > 1:
        yield typed.say(
            N_(
                "By themselves: {origin} {own} at the origin, {destination} {own} at the"
                " destination."
            ),
            origin=typed.figure(_limit(found.ends["origin"], own), 1),
            destination=typed.figure(_limit(found.ends["destination"], own), 1),
            own=own,
        )
    sizes = asdict(found.multipliers).items()
    listed = ", ".join(f"{name} {typed.figure(size, 3)}" for name, size in sizes)
    yield typed.say(N_("Multipliers: {listed}."), listed=listed)


def _limit(found: Lift | End, unit: str) -> float:
    """The limit in one unit."""
    return (found.rwl_lb if unit == "lb" else found.rwl_kg) or 0.0


def _meaning(index: float) -> str:
    """What an index above, or not above, 1 says."""
    if index > 1:
        return N_("Above 1: do not plan it as one person's lift; use a hoist or a cradle.")
    return N_("Not above 1; that is a comparison, not permission.")


LIFT = Calculator(
    "lift",
    N_("Lift by hand: one person"),
    N_("The revised NIOSH equation; two people or a hoist are outside it."),
    (
        Asked("unit", N_("Every figure in"), "choice", options=UNITS),
        Asked("load", N_("What it weighs"), "number", N_("the heavier end"), needed=False),
        Asked("h", N_("H: hands forward of the ankles"), "number"),
        Asked("v", N_("V: hands above the floor, at the start"), "number"),
        Asked("a", N_("A: degrees the body turns"), "number", needed=False),
        Asked("coupling", N_("Grip"), "choice", options=COUPLINGS),
        Asked(
            "destination", N_("Where it is set down with care"), "numbers",
            N_("H V A with spaces, such as 24 42 0"), needed=False,
        ),
        Asked(
            "d", N_("D: how far up or down"), "number",
            N_("only where it is not set down with care"), needed=False,
        ),
        Asked("per-minute", N_("Lifts a minute"), "number", N_("0.2 unless given"), needed=False),
        Asked(
            "for-minutes", N_("Minutes of lifting in any 15"), "number",
            N_("if not steady"), needed=False,
        ),
        Asked(
            "sessions", N_("Minutes lifting, resting, lifting"), "numbers",
            N_("such as 30 10 45; 60 unless given"), needed=False,
        ),
        Asked(
            "condition", N_("Anything that is outside the equation"), "choice",
            options=tuple(OUTSIDE.items()), needed=False, none=N_("none of these"),
        ),
    ),
    work,
    ("niosh", "niosh-duration"),
    caution=NOT_SAID,
)  # fmt: skip
"""The calculator as it is asked."""
