"""Reversal: the bar turned half round in the jaws tells the bar's own runout from the chuck's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot, sqrt
from typing import Literal

from guide.measure.angles import even, refuse_equal, turned
from guide.measure.axis import STANDS_OUT
from guide.measure.findings import form, hidden
from guide.measure.flags import in_order
from guide.measure.harmonic import Fit, fit
from guide.measure.limits import Limits, Number, as_decimal
from guide.measure.quantity import Length
from guide.measure.reading import sign_of
from guide.measure.rounding import tidy
from guide.measure.uncertainty import angle_effect, expanded, rectangular
from guide.plain import N_, BadInput

Owner = Literal["bar", "chuck", "both", "neither", "unknown"]

WHY: Mapping[Owner, str] = {
    "bar": N_("The high spot follows the bar: it is the bar."),
    "chuck": N_("The high spot stays with the chuck: it is the chuck, not the bar."),
    "both": N_("Both stand out: part follows the bar and part stays with the chuck."),
    "neither": N_("Neither stands out from what the readings and the grip are uncertain by."),
    "unknown": N_("Without an uncertainty it cannot be said which part stands out."),
}
"""One sentence for each answer (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Share:
    """One part of the eccentricity, as it lay at the first turn; in the readings' unit."""

    eccentricity: float
    fitted_tir: float
    """Twice that: the full runout this part alone would show."""
    high_at_deg: float
    """From screw 1; the bar's part is half a turn from there after the reversal."""
    expanded_uncertainty: float | None
    """Two standard uncertainties of the full runout, or None without an uncertainty."""
    stands_out: bool | None
    """Whether it is more than noise, which passes for it one time in twenty; None unknown."""

    def to_json(self) -> dict[str, object]:
        """The part as `calc reversal` answers it."""
        u = self.expanded_uncertainty
        return {
            "eccentricity": tidy(self.eccentricity),
            "fitted_tir": tidy(self.fitted_tir),
            "high_at_deg": self.high_at_deg,
            "expanded_uncertainty": None if u is None else tidy(u),
            "stands_out": self.stands_out,
        }


@dataclass(frozen=True, slots=True)
class Reversal:
    """The eccentricity split into what follows the bar and what stays with the chuck."""

    unit: str
    bar: Share
    chuck: Share
    looks_to: Owner
    """Which part stands out."""
    larger: Literal["bar", "chuck"] | None
    """Which part is larger, where the difference is more than noise; else None."""
    flags: tuple[str, ...]

    @property
    def why(self) -> str:
        """The sentence for `looks_to`."""
        return WHY[self.looks_to]

    def to_json(self) -> dict[str, object]:
        """The answer of `calc reversal`."""
        return {
            "unit": self.unit,
            "bar": self.bar.to_json(),
            "chuck": self.chuck.to_json(),
            "looks_to": self.looks_to,
            "larger": self.larger,
            "why": self.why,
            "flags": list(self.flags),
        }


def reversal(
    before: Sequence[Number],
    after: Sequence[Number],
    unit: str,
    angles: Sequence[float] | None = None,
    *,
    graduation: Number | None = None,
    u: Number | None = None,
    grip: Number | None = None,
    turned_within_deg: float = 0.0,
    surface: str = "outside",
) -> Reversal:
    """The split from one turn before and one after the bar was turned half round in the jaws.

    Angles count from screw 1 both times. The centre is chuck + bar before and chuck − bar after,
    so the chuck's part is half the sum of the two fitted centres and the bar's half their
    difference (identity; the reversal technique of spindle metrology). `grip` is the whole width
    within which the centre may lie from one grip to the next, and counts twice; the half turn may
    be wrong by ± `turned_within_deg`, which moves a share of the bar's part by that angle.

    It assumes one station, the same place of the bar, and the rest untouched. It stops holding
    where the jaws grip a bar that is not round differently after the turn: unless `grip` says so,
    that appears in both parts. Chuck here is all that does not turn with the bar: jaws, body,
    plate and spindle. BadInput as for `runout`.
    """
    Length.factor(unit)
    known = Limits(graduation=graduation, u=u)
    sign, sway = sign_of(surface), _width(grip)
    one, other = (_fit(row, angles, sign) for row in (before, after))
    stays = ((one.a + other.a) / 2, (one.b + other.b) / 2)
    follows = ((one.a - other.a) / 2, (one.b - other.b) / 2)
    spread = None
    if known.u_reading is not None:
        slip = rectangular(angle_effect(hypot(*follows), turned_within_deg))
        each = (known.u_reading * one.widest(), known.u_reading * other.widest())
        spread = hypot(*each, sway, sway, slip) / 2
    bar, chuck = _share(follows, spread), _share(stays, spread)
    keys = {hidden(one), *(form(each_fit, known.u_reading) for each_fit in (one, other))}
    return Reversal(
        unit=unit,
        bar=bar,
        chuck=chuck,
        looks_to=_owner(bar, chuck),
        larger=_larger(bar, chuck, spread),
        flags=in_order({key for key in keys if key is not None}),
    )


def _fit(row: Sequence[Number], angles: Sequence[float] | None, sign: int) -> Fit:
    """The first harmonic of one turn, positive where the body is further out."""
    places = [turned(angle) for angle in (even(len(row)) if angles is None else angles)]
    refuse_equal(places)
    return fit(places, [sign * float(as_decimal(value)) for value in row])


def _width(grip: Number | None) -> float:
    """Standard uncertainty of one grip in any one direction."""
    width = 0.0 if grip is None else float(as_decimal(grip))
    if width < 0:
        raise BadInput(N_("A grip of {grip} cannot be."), N_("Give it without a sign."), grip=grip)
    return rectangular(width / 2)


def _share(part: tuple[float, float], spread: float | None) -> Share:
    """One part with its uncertainty."""
    size = hypot(*part)
    return Share(
        eccentricity=size,
        fitted_tir=2 * size,
        high_at_deg=turned(degrees(atan2(part[1], part[0]))),
        expanded_uncertainty=None if spread is None else expanded(2 * spread),
        stands_out=None if spread is None else size > STANDS_OUT * spread,
    )


def _owner(bar: Share, chuck: Share) -> Owner:
    """Which part stands out."""
    if bar.stands_out is None:
        return "unknown"
    if bar.stands_out:
        return "both" if chuck.stands_out else "bar"
    return "chuck" if chuck.stands_out else "neither"


def _larger(bar: Share, chuck: Share, spread: float | None) -> Literal["bar", "chuck"] | None:
    """The larger part, where they differ by more than two standard uncertainties of that."""
    if spread is None:
        return None
    difference = bar.eccentricity - chuck.eccentricity
    if abs(difference) <= expanded(sqrt(2) * spread):
        return None
    return "bar" if difference > 0 else "chuck"
