"""A tightening in words: order, stages, and for a torque what was given before."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from guide.front.questions import POINT, must_be_known
from guide.measure.numerals import in_sign
from guide.plain import N_, Refusal
from guide.present.labels import TIGHTENING
from guide.present.nouns import named
from guide.present.numbers import plain
from guide.present.recorded_words import known
from guide.present.tongue import language, say
from guide.present.visible import visible
from guide.present.words import recorded, refused
from guide.procedure.model import Step
from guide.walk.answers import number, quantity
from guide.walk.state import State

if TYPE_CHECKING:
    from guide.shop.tightening import Stage


@dataclass(frozen=True, slots=True)
class Tightening:
    """What a tightening step is told: plain values."""

    kind: str
    what: str
    """What is done, in words."""
    torque: str
    """As given before, blank for not yet."""
    source: str
    comparison: str
    """The calculated figure for comparison, blank where it cannot be calculated."""

    @property
    def with_torque(self) -> bool:
        """Whether a torque is asked."""
        return self.kind in ("torque", "check")


WHAT = {
    "ease": N_("Ease every mounting bolt one stage: from tight to snug, never slack."),
    "snug": N_("Bring every mounting bolt snug, a little at a time, in this order."),
    "torque": N_("Tighten every mounting bolt in this order, stage by stage."),
    "check": N_("Go round every mounting bolt at full torque until none moves."),
    "touch": N_("Bring every adjusting screw to touch, no more."),
    "nip": N_("Nip every adjusting screw evenly, a little at a time, one across from the other."),
}


def tightening(step: Step, state: State) -> Tightening:
    """What is done, and for a torque what was given before."""
    before = _last_torque(state)
    return Tightening(
        kind=step.tighten,
        what=say(named(WHAT.get(step.tighten, TIGHTENING[step.tighten]), state)),
        torque=in_sign(before.get("torque") or known(state, "bolt-torque"), language()),
        source=recorded(before.get("source") or known(state, "bolt-torque-source"), language()),
        comparison=_comparison(state),
    )


def _last_torque(state: State) -> Mapping[str, str]:
    """The torque and its source as last entered."""
    for entry in reversed(state.entries):
        if entry.data.get("torque"):
            return {each: visible(entry.data.get(each, "")) for each in ("torque", "source")}
    return {}


def passes(step: Step, state: State, typed: str) -> str:
    """The order of the bolts and the torque of every stage, as lines."""
    from guide.shop.tightening import stages

    if step.tighten in ("touch", "nip"):
        return ""
    count = number(state.facts.get("bolt-count", ""))
    if count is None:
        return say(N_("How many bolts there are is not recorded: go across, in small stages."))
    torque, unit = _torque(typed)
    try:
        told = _of_kind(step.tighten, stages(int(count), torque))
    except Refusal as refusal:
        return refused(refusal, language())
    lines = []
    for stage in told:
        order = "-".join(map(str, stage.order))
        share = f"{plain(stage.torque, 1, language())} {unit}" if stage.torque else ""
        name = say(N_("then round")) if stage.kind == "check" else f"{stage.percent} %"
        passed = name if step.tighten == "torque" else ""
        lines.append(f"  {order:<24} {passed:<12}{share}")
    return "\n".join(lines)


def _of_kind(kind: str, told: tuple[Stage, ...]) -> tuple[Stage, ...]:
    """The passes of one kind of tightening.

    Snug is a feel and no share of the torque; bolts that are tight are gone round at all of it.
    """
    if kind in ("ease", "snug"):
        return (replace(told[0], torque=None),)
    return told[-1:] if kind == "check" else told


def _torque(typed: str) -> tuple[Decimal | None, str]:
    """A torque as typed and its unit; none while it cannot be read."""
    try:
        told = quantity("torque", typed, language())
    except Refusal:
        return None, ""
    return (told.value, told.unit) if told.value > 0 else (None, "")


def torque_trouble(typed: str) -> str:
    """What is wrong with a torque as typed; blank when nothing is."""
    if typed.strip() == POINT:
        return must_be_known()
    try:
        quantity("torque", typed, language())
    except Refusal as refusal:
        return refused(refusal, language())
    return ""


def _comparison(state: State) -> str:
    """That the figure is the maker's, never a calculated one."""
    return say(N_("The maker's figure. One from `spindleside calc torque` is for comparison only."))
