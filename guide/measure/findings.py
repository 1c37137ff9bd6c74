"""The flags that readings raise by themselves."""

from __future__ import annotations

from guide.measure.budget import Budget
from guide.measure.coarse import all_equal, unseen_at
from guide.measure.flags import in_order
from guide.measure.harmonic import LARGEST_SPREAD, Fit, can_hide_lobes
from guide.measure.judged import form_above_noise, sweep_limit
from guide.measure.limits import Limits, Number
from guide.measure.reading import Sweep
from guide.measure.verdict import Decision
from guide.measure.zero import allowed, zero_flag
from guide.plain import N_

SWEEP = {
    "agrees": N_("The watched sweep agrees with the judged runout."),
    "form": N_(
        "The watched sweep contradicts: more was seen over the turn than these readings show."
    ),
    "cannot-prove": N_(
        "The watched sweep contradicts: less was seen over the turn than between the readings."
    ),
    "unknown": N_("Without an uncertainty the watched sweep cannot be compared."),
}
"""What a watched sweep says, by the flag that it raises."""


def contradicts(found: Fit, figure: float, u: float, u_tir: float, watched: Sweep) -> str | None:
    """The flag of a sweep that does not agree: more than judged, or less than was read."""
    width, limit = float(watched.width), sweep_limit(u, u_tir)
    if width > figure + limit:
        return "form"
    return "cannot-prove" if width < found.observed_tir - sweep_limit(u, 0.0) else None


def flags(
    found: Fit,
    figure: float,
    limits: Limits,
    decision: Decision | None,
    closure: float | None,
    against: str | None,
    known: Budget | None,
) -> tuple[str, ...]:
    """The flags that these readings raise by themselves, in the order of the closed list.

    `against` is the flag of a watched sweep that does not agree, or None.
    """
    u = limits.u_reading
    keys = {hidden(found), form(found, u), _travel(found, limits), _proof(limits, known), against}
    keys |= {_spindle(figure, limits, decision), _coarse(found, limits)}
    if closure is not None:
        limit = allowed(u, None if limits.graduation is None else float(limits.graduation))
        keys.add(zero_flag(found.values[0], (closure,), limit))
    return in_order({key for key in keys if key is not None})


def hidden(found: Fit) -> str | None:
    """Positions that can hide three lobes, or that all but leave the centre free."""
    loose = found.spread() > LARGEST_SPREAD
    return "few-positions" if loose or can_hide_lobes(found.angles) else None


def form(found: Fit, u: float | None) -> str | None:
    """Residuals that noise does not explain."""
    return "form" if form_above_noise(found, u) > 0 else None


def _travel(found: Fit, limits: Limits) -> str | None:
    """An eccentricity of more than half the diametral clearance."""
    if limits.clearance is None:
        return None
    travel = float(limits.clearance) / 2
    return "beyond-travel" if found.eccentricity > travel * (1 + 1e-12) else None


def _proof(limits: Limits, known: Budget | None) -> str | None:
    """An expanded uncertainty larger than the tolerance, with which nothing could be shown."""
    if known is None or limits.tolerance is None:
        return None
    return "cannot-prove" if known.expanded > limits.tolerance else None


def _coarse(found: Fit, limits: Limits) -> str | None:
    """Equal readings of a dial whose one division can hide more than the tolerance."""
    if limits.graduation is None or limits.tolerance is None or not all_equal(found.values):
        return None
    hides = unseen_at(float(limits.graduation), found.angles)
    return "cannot-prove" if hides > float(limits.tolerance) * (1 + 1e-12) else None


def spindle_limit(play: Number | None, limits: Limits) -> bool:
    """Whether play at the bare nose is larger than the tolerance."""
    return play is not None and limits.tolerance is not None and play > limits.tolerance


def _spindle(figure: float, limits: Limits, decision: Decision | None) -> str | None:
    """Play larger than the tolerance, or a result not within it that play alone could make."""
    not_within = decision is not None and decision.verdict != "within"
    as_good = not_within and limits.play is not None and figure <= limits.play
    return "spindle-limit" if as_good or spindle_limit(limits.play, limits) else None
