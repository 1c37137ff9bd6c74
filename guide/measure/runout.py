"""Runout at one station: the one door from readings to a judged figure and a verdict."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from guide.measure.angles import SAME, apart, even, refuse_equal, turned
from guide.measure.budget import Budget, budget, of_one_reading
from guide.measure.directions import refuse_screws
from guide.measure.findings import contradicts, flags
from guide.measure.harmonic import Fit, fit
from guide.measure.judged import judged, sweep_limit
from guide.measure.limits import Limits, Number, as_decimal
from guide.measure.quantity import Length
from guide.measure.reading import Series, Surface, Sweep, sign_of
from guide.measure.rounding import tidy
from guide.measure.targets import Target, targets
from guide.measure.uncertainty import Part, near_zero, one_sided_limit
from guide.measure.verdict import Decision, decide
from guide.plain import N_, BadInput


@dataclass(frozen=True, slots=True)
class Runout:
    """The result at one station; lengths in `unit`. Two readings give the pair's fields only."""

    unit: str
    positions: int
    mean: float | None = None
    eccentricity: float | None = None
    high_at_deg: float | None = None
    """Where the body is furthest out, 0 ≤ angle < 360 from screw 1; 0 without eccentricity."""
    fitted_tir: float | None = None
    observed_tir: float | None = None
    form: float | None = None
    judged: float | None = None
    expanded_uncertainty: float | None = None
    verdict: str | None = None
    targets: tuple[Target, ...] | None = None
    flags: tuple[str, ...] | None = None
    pair_error: float | None = None
    """Half the difference of one pair, without sign; only for two readings."""
    bring_to: float | None = None
    """The mean of one pair; only for two readings."""
    decision: Decision | None = None
    """The rule, factor and edition behind the verdict."""
    at_most: float | None = None
    """Near zero, where the fitted TIR reads high: what 2e is below with 95 % confidence."""
    fit: Fit | None = None
    budget: Budget | None = None
    """What the fitted TIR is uncertain by; None where nothing is known of one reading."""
    contradicted: str | None = None
    """The flag of a watched sweep that does not agree, or None."""

    def to_json(self) -> dict[str, object]:
        """Exactly the contract's keys, and the pair's two where there were only two readings."""
        answer: dict[str, object] = {key: getattr(self, key) for key in KEYS}
        answer["targets"] = self.targets and [target.to_json() for target in self.targets]
        answer["flags"] = None if self.flags is None else list(self.flags)
        if self.pair_error is not None:
            answer |= {"pair_error": self.pair_error, "bring_to": self.bring_to}
        return answer


KEYS = (
    "unit", "positions", "mean", "eccentricity", "high_at_deg", "fitted_tir", "observed_tir",
    "form", "judged", "expanded_uncertainty", "verdict", "targets", "flags",
)  # fmt: skip
"""The keys of the answer, in order."""


def runout(
    readings: Sequence[Number],
    unit: str,
    angles: Sequence[float] | None = None,
    *,
    tolerance: Number | None = None,
    graduation: Number | None = None,
    u: Number | None = None,
    screws: int = 4,
    rule: str = "guarded",
    clearance: Number | None = None,
    play: Number | None = None,
    closure: Number | None = None,
    watched: Sweep | None = None,
    surface: Surface = "outside",
    parts: Sequence[Part] = (),
) -> Runout:
    """Runout from dial readings at known angles (degrees; even from screw 1 unless given).

    r = m + a·cos θ + b·sin θ by least squares, fitted TIR 2·√(a² + b²). `parts`, where given, are
    the whole uncertainty and stand before `u` and `graduation`. BadInput for fewer than three
    readings (save two half a turn apart), equal angles, or a number that cannot be.
    """
    Length.factor(unit)
    refuse_screws(screws)
    limits = Limits(tolerance, graduation, u, rule, clearance, play)
    values = tuple(as_decimal(value) for value in readings)
    if len(values) == 2 and angles is not None and _half_a_turn(angles):
        return _pair(values, unit)
    _refuse_few(values)
    places = tuple(turned(angle) for angle in (even(len(values)) if angles is None else angles))
    _refuse_mismatch(places, values)
    refuse_equal(places)
    found = fit(places, tuple(float(value) for value in values))
    closed = None if closure is None else float(as_decimal(closure))
    known = budget(found, parts) if parts else _plain(found, limits)
    limits = limits if known is None else replace(limits, u=known.u_reading)
    return _result(found, values, unit, limits, screws, sign_of(surface), closed, watched, known)


def of_series(series: Series, *, screws: int = 4, limits: Limits | None = None) -> Runout:
    """Runout of a series of readings, with its closure, watched sweep and surface."""
    known = limits or Limits()
    return runout(
        series.values,
        series.unit,
        series.angles,
        tolerance=known.tolerance,
        graduation=known.graduation,
        u=known.u,
        screws=screws,
        rule=known.rule,
        clearance=known.clearance,
        play=known.play,
        closure=series.closure,
        watched=series.watched,
        surface=series.surface,
    )


def _plain(found: Fit, limits: Limits) -> Budget | None:
    """The budget of a reading of which only u or the graduation is known."""
    return None if limits.u_reading is None else of_one_reading(found, limits.u_reading)


def _result(
    found: Fit,
    values: Sequence[Decimal],
    unit: str,
    limits: Limits,
    screws: int,
    sign: int,
    closure: float | None,
    watched: Sweep | None,
    known: Budget | None,
) -> Runout:
    """The result of three readings or more."""
    size = max(abs(value) for value in found.values)
    figure = tidy(judged(found, limits.u_reading), size)
    against = None
    if watched is not None and known is not None:
        against = contradicts(found, figure, known.u_reading, known.u_tir, watched)
    decision = _decision(figure, known, limits, watched if against else None)
    high = found.high_deg if sign > 0 or found.eccentricity == 0 else found.high_deg + 180
    return Runout(
        unit=unit,
        positions=len(values),
        mean=tidy(found.mean, size),
        eccentricity=tidy(found.eccentricity, size),
        high_at_deg=turned(high),
        fitted_tir=tidy(found.fitted_tir, size),
        observed_tir=tidy(found.observed_tir, size),
        form=None if found.form is None else tidy(found.form, size),
        judged=figure,
        expanded_uncertainty=None if known is None else tidy(known.expanded),
        verdict=None if decision is None else decision.verdict,
        targets=targets(found, values, screws),
        flags=flags(found, figure, limits, decision, closure, against, known),
        decision=decision,
        at_most=_at_most(found, known),
        fit=found,
        budget=known,
        contradicted=against,
    )


def _pair(values: Sequence[Decimal], unit: str) -> Runout:
    """Two readings half a turn apart: half the difference of one pair, and its mean."""
    one, other = values
    return Runout(
        unit=unit,
        positions=2,
        pair_error=tidy(float(abs(one - other) / 2)),
        bring_to=tidy(float((one + other) / 2)),
    )


def _half_a_turn(angles: Sequence[float]) -> bool:
    """Whether there are two angles, half a turn apart."""
    return len(angles) == 2 and abs(apart(angles[0], angles[1]) - 180.0) < SAME


def _refuse_few(values: Sequence[Decimal]) -> None:
    """Refuse fewer than three readings."""
    if len(values) < 3:
        raise BadInput(
            N_("Fewer than three readings cannot give a runout."),
            N_("Read at three positions or more, or two at 0 and 180 degrees for one pair."),
        )


def _refuse_mismatch(places: Sequence[float], values: Sequence[Decimal]) -> None:
    """Refuse lists of different lengths."""
    if len(places) != len(values):
        raise BadInput(
            N_("There are {readings} readings and {angles} angles."),
            N_("Give one angle for each reading."),
            readings=len(values),
            angles=len(places),
        )


def _decision(
    figure: float, known: Budget | None, limits: Limits, against: Sweep | None
) -> Decision | None:
    """The decision; one that a watched sweep contradicts is undecided, or outside by it."""
    if known is None or limits.tolerance is None:
        return None
    made = decide(figure, known.u_tir, float(limits.tolerance), limits.rule, known.freedom)
    if against is None:
        return made
    guard = made.factor * sweep_limit(known.u_reading, 0.0) / 2
    seen_out = float(against.width) - guard > float(limits.tolerance)
    return replace(made, verdict="outside" if seen_out else "undecided")


def _at_most(found: Fit, known: Budget | None) -> float | None:
    """The one-sided limit, near zero only."""
    if known is None or not near_zero(found.fitted_tir, known.u_widest):
        return None
    return tidy(one_sided_limit(found.fitted_tir, known.u_widest, known.freedom))
