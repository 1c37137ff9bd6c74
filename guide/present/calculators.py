"""The shop calculators in the order in which a job meets them; to add one is to add it here."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from guide.plain import Refusal
from guide.present.asked import Answer, Asked, Calculator, Typed
from guide.present.words import refused
from guide.present.worked.balance import BALANCE
from guide.present.worked.bar import BAR
from guide.present.worked.cradle import CRADLE
from guide.present.worked.fit import FIT
from guide.present.worked.lever import LEVER
from guide.present.worked.lift import LIFT
from guide.present.worked.nose import NOSE
from guide.present.worked.play import PLAY
from guide.present.worked.runout import RUNOUT
from guide.present.worked.sling import SLING
from guide.present.worked.speed import SPEED
from guide.present.worked.tilt import TILT
from guide.present.worked.torque import TORQUE
from guide.present.worked.weight import WEIGHT

CALCULATORS: Mapping[str, Calculator] = MappingProxyType(
    {
        each.name: each
        for each in (
            *(WEIGHT, LIFT, SLING, BAR, CRADLE, NOSE, FIT),
            *(RUNOUT, TILT, PLAY, LEVER, TORQUE, BALANCE, SPEED),
        )
    }
)
"""Every calculator by its name."""


def wrong(asked: Asked, typed: Typed) -> str:
    """What is wrong with one answer, as a sentence; blank when nothing is, or when it is blank."""
    if not typed.has(asked.name):
        return ""
    try:
        typed.read(asked)
    except Refusal as refusal:
        return refused(refusal, typed.language)
    return ""


def missing(calculator: Calculator, typed: Typed) -> Asked | None:
    """The first question that needs an answer and has none."""
    return next(
        (each for each in calculator.asks if each.needed and not typed.has(each.name)), None
    )


def answered(calculator: Calculator, typed: Typed) -> Answer | str:
    """The answer, or why there is none, as a sentence."""
    try:
        return calculator.work(typed)
    except Refusal as refusal:
        return refused(refusal, typed.language)
