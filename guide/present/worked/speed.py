"""Speed: what is asked, and the lowest of the marks in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.shop.speed import M_PER_FT, Speed, speed

SET_BY = {
    "chuck": N_("the chuck's mark"),
    "lathe": N_("the lathe's mark"),
    "work": N_("what the workpiece may turn at"),
}
NOT_SAID = N_(
    "It does not say that any speed is right: a worn jaw, a long bar or a poor grip throws the work"
    " below every mark. Guard shut, key out, stand out of the swing; the maker's manual and local"
    " rules come first."
)


def work(typed: Typed) -> Answer:
    """The lowest of the marks, and the speed of a cut."""
    found = speed(
        chuck=typed.mark("chuck") if typed.has("chuck") else None,
        lathe=typed.mark("lathe") if typed.has("lathe") else None,
        work=typed.mark("work") if typed.has("work") else None,
        cutting_m_min=typed.cutting("cutting") if typed.has("cutting") else None,
        cut_mm=typed.length("diameter") if typed.has("diameter") else None,
        body_mm=typed.length("body") if typed.has("body") else None,
    )
    return Answer(found.to_json(), tuple(_lines(found, typed)))


def _lines(found: Speed, typed: Typed) -> Iterator[str]:
    """Marks first, then the cut, then the rim."""
    if found.why_not:
        yield typed.say(N_("No speed is worked out while a mark cannot be read."))
        yield from typed.remarks(found.why_not)
    if found.lowest_rpm is not None and found.set_by is not None:
        yield typed.say(
            N_("The lowest mark is {rpm} rev/min, {mark}."),
            rpm=typed.figure(found.lowest_rpm, 0),
            mark=typed.say(SET_BY[found.set_by]),
        )
    if found.rpm_for_cut is not None:
        yield typed.say(
            N_("The cutting speed is reached at {rpm} rev/min."),
            rpm=typed.figure(found.rpm_for_cut, 0),
        )
    if found.rim_m_min is not None and found.rim_at_rpm is not None:
        yield typed.say(
            N_("The body's rim then goes at {m} m/s ({ft} ft/min), at {rpm} rev/min."),
            m=typed.figure(found.rim_m_min / 60, 1),
            ft=typed.figure(found.rim_m_min / M_PER_FT, 0),
            rpm=typed.figure(found.rim_at_rpm, 0),
        )
    yield from typed.remarks(found.notes)


SPEED = Calculator(
    "speed",
    N_("Speed: the lowest mark, and a cut"),
    N_("A mark that is missing or damaged means no figure at all."),
    (
        Asked(
            "chuck", N_("Marked on the chuck"), "mark",
            N_("rev/min, or the word missing or damaged"), needed=False,
        ),
        Asked("lathe", N_("Highest of the lathe"), "mark", N_("the same"), needed=False),
        Asked(
            "work", N_("Of the work or a bar sticking out"), "mark",
            N_("leave it out where nothing sticks out"), needed=False,
        ),
        Asked("cutting", N_("Cutting speed"), "cutting", N_("30 m/min, 100 ft/min"), needed=False),
        Asked("diameter", N_("Diameter that is cut"), "length", needed=False),
        Asked("body", N_("Diameter of the chuck body"), "length", needed=False),
    ),
    work,
    ("cutting-speed", "trade"),
    caution=NOT_SAID,
)  # fmt: skip
"""The calculator as it is asked."""
