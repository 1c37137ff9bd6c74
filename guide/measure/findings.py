"""The flags that readings raise by themselves."""

from __future__ import annotations

from guide.measure.flags import in_order
from guide.measure.harmonic import LARGEST_SPREAD, Fit, can_hide_lobes
from guide.measure.judged import form_above_noise, sweep_limit
from guide.measure.limits import Limits, Number
from guide.measure.reading import Sweep
from guide.measure.uncertainty import expanded, of_fitted_tir
from guide.measure.verdict import Decision
from guide.measure.zero import allowed, zero_flag


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
    watched: Sweep | None,
) -> tuple[str, ...]:
    """The flags that these readings raise by themselves, in the order of the closed list."""
    u = limits.u_reading
    keys = {hidden(found), form(found, u), _travel(found, limits), _proof(found, limits)}
    keys.add(_spindle(figure, limits, decision))
    if closure is not None:
        limit = allowed(u, None if limits.graduation is None else float(limits.graduation))
        keys.add(zero_flag(found.values[0], (closure,), limit))
    if watched is not None and u is not None:
        keys.add(contradicts(found, figure, u, of_fitted_tir(found, u), watched))
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


def _proof(found: Fit, limits: Limits) -> str | None:
    """An expanded uncertainty larger than the tolerance, with which nothing could be shown."""
    u = limits.u_reading
    if u is None or limits.tolerance is None:
        return None
    return "cannot-prove" if expanded(of_fitted_tir(found, u)) > limits.tolerance else None


def spindle_limit(play: Number | None, limits: Limits) -> bool:
    """Whether play at the bare nose is larger than the tolerance."""
    return play is not None and limits.tolerance is not None and play > limits.tolerance


def _spindle(figure: float, limits: Limits, decision: Decision | None) -> str | None:
    """Play larger than the tolerance, or a result not within it that play alone could make."""
    not_within = decision is not None and decision.verdict != "within"
    as_good = not_within and limits.play is not None and figure <= limits.play
    return "spindle-limit" if as_good or spindle_limit(limits.play, limits) else None
