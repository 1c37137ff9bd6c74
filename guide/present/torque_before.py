"""Two torques for the same bolts: the one given before stands beside one that differs from it."""

from __future__ import annotations

from fractions import Fraction

from guide.measure.numerals import in_sign
from guide.plain import N_, Refusal
from guide.present.seen import Seen
from guide.present.words import say
from guide.walk.answers import quantity
from guide.walk.state import State

A_TENTH = Fraction(1, 10)
"""More than this is another torque: ±10 % is what torque limits allow (`tb-9-2320-279`)."""


def before_it(each: Seen, language: str = "en") -> str:
    """The torque that these bolts were given before, where it differs by more than a tenth."""
    before = _given(each.before)
    now, was = _in_nm(str(each.entry.data.get("torque", ""))), _in_nm(before)
    if now is None or was is None or abs(now - was) <= A_TENTH * was:
        return ""
    return say(N_("before: {torque}"), language, torque=in_sign(before, language))


def _given(state: State) -> str:
    """The torque that was last known, at the bolts or from the page that asked for it."""
    at_the_bolts = (str(each.data.get("torque", "")) for each in reversed(state.entries))
    asked = state.facts.get("bolt-torque", "")
    return next((each for each in (*at_the_bolts, asked) if _in_nm(each) is not None), "")


def _in_nm(typed: str) -> Fraction | None:
    """A torque in N·m, to be compared; none where it is not known."""
    try:
        return quantity("torque", typed).exactly("N·m")
    except Refusal:
        return None
