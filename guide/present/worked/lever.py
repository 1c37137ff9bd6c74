"""Lever indicator: what is asked, and its readings put right, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from guide.measure.lever import Lever, lever
from guide.plain import N_
from guide.present.asked import Answer, Asked, Calculator, Typed

CORRECTIONS = (
    ("cosine", N_("correct for the angle")),
    ("none", N_("leave as read: an involute tip, or so chosen")),
)
NOT_SAID = N_(
    "It does not know the lever in your hand: its maker's sheet says at which angle it reads true"
    " and which tip it has. The angle is that between lever and surface, judged by eye."
)


def work(typed: Typed) -> Answer:
    """The readings, corrected where that was chosen."""
    correct = not typed.has("correction") or typed.text("correction") == "cosine"
    found = lever(
        typed.numbers("readings"),
        typed.degrees("angle"),
        correct=correct,
        true_at_deg=typed.degrees("true-at") if typed.has("true-at") else 0.0,
    )
    plain = {**found.to_json(), "correction": "cosine" if correct else "none"}
    return Answer(plain, tuple(_lines(found, typed)))


def _lines(found: Lever, typed: Typed) -> Iterator[str]:
    """Each reading, then what it rests on."""
    yield typed.say(
        N_("Multiply what the dial shows by {factor}."), factor=typed.figure(found.factor, 4)
    )
    for read, right in zip(found.read, found.corrected, strict=True):
        yield typed.say(
            N_("Shown {read}: moved {right}."),
            read=typed.figure(read, 6),
            right=typed.figure(right, 6),
        )
    yield typed.say(N_("A difference of two readings is corrected the same way."))


LEVER = Calculator(
    "lever",
    N_("Lever indicator: contact angle"),
    N_("A lever that leans to the surface reads too much; correcting it is a choice."),
    (
        Asked("readings", N_("What the dial shows"), "numbers", N_("one or more, any unit")),
        Asked("angle", N_("Angle of the lever to the surface"), "degrees", N_("0 to 60")),
        Asked(
            "correction", N_("Correction"), "choice", options=CORRECTIONS, needed=False,
            given="cosine",
        ),
        Asked(
            "true-at", N_("The angle at which it reads true"), "degrees",
            N_("0 unless its sheet says otherwise, such as 12"), needed=False,
        ),
    ),
    work,
    (),
    caution=NOT_SAID,
    assumed=N_("Source: makers' public tables of cosines, 0 to 60 degrees, seen."),
)  # fmt: skip
"""The calculator as it is asked."""
