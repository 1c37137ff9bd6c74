"""The uncertainty budget: what the fitted TIR is uncertain by, part by part."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import inf

from guide.measure.harmonic import Fit
from guide.measure.rounding import tidy
from guide.measure.student import one_sided, student
from guide.measure.uncertainty import Part, combined, of_fitted_tir, widest_tir
from guide.plain import N_, BadInput


@dataclass(frozen=True, slots=True)
class Budget:
    """The parts and what they come to; lengths in the readings' unit."""

    parts: tuple[Part, ...]
    u_reading: float
    """Standard uncertainty of one reading from the parts that differ from reading to reading."""
    u_tir: float
    """Standard uncertainty of the fitted TIR, along the high spot."""
    u_widest: float
    """The same in the direction that the positions tell worst, for limits near zero."""
    freedom: float
    """Effective degrees of freedom of u_tir, endless where every part is a known limit."""

    @property
    def k(self) -> float:
        """The coverage factor at 95.45 %: 2, and more for few repeats."""
        return student(max(self.freedom, 1.0))

    @property
    def factor(self) -> float:
        """The decision factor, 95 % on one side: 1.645, and more for few repeats."""
        return one_sided(max(self.freedom, 1.0))

    @property
    def expanded(self) -> float:
        """The reported uncertainty of the fitted TIR, U = k·u."""
        return self.k * self.u_tir

    def to_json(self) -> dict[str, object]:
        """The budget as `calc runout` answers it; endless freedom is null."""
        return {
            "parts": [_json(part) for part in self.parts],
            "u_reading": tidy(self.u_reading),
            "u_fitted_tir": tidy(self.u_tir),
            "degrees_of_freedom": _countable(self.freedom),
            "k": self.k,
            "factor": self.factor,
        }


def budget(found: Fit, parts: Iterable[Part]) -> Budget:
    """The budget of the fitted TIR 2e, after JCGM 100:2008 (the GUM), 5.1.2 and G.4.1.

    It assumes independent parts. Those that differ from reading to reading count as the fit
    averages them, 2·u·√(2/n) with n even positions; those that stay over the whole turn count as
    2·u, since they can lie against each other across the turn and no number of positions helps.
    It stops holding where one division of the dial hides every reading (`coarse.unseen`), and
    near zero (`uncertainty.expanded`). BadInput where nothing is said of one reading.
    """
    known = tuple(parts)
    each = combined(part for part in known if part.averaged)
    whole = combined(part for part in known if not part.averaged)
    if each.u <= 0:
        raise BadInput(
            N_("Nothing is known of one reading, so there is no uncertainty."),
            N_("Give the dial's graduation, or repeats that differ."),
        )
    along = replace(each, u=of_fitted_tir(found, each.u))
    across = replace(each, u=widest_tir(found, each.u))
    stays = replace(whole, u=2 * whole.u)
    total = combined((along, stays))
    return Budget(known, each.u, total.u, combined((across, stays)).u, total.freedom)


def of_one_reading(found: Fit, u: float) -> Budget:
    """The budget where only the standard uncertainty of one reading is known, and well."""
    return budget(found, (Part("reading", u),))


def _json(part: Part) -> dict[str, object]:
    """One part as the answer names it."""
    return {
        "name": part.name,
        "u": tidy(part.u),
        "degrees_of_freedom": _countable(part.freedom),
        "averaged": part.averaged,
    }


def _countable(freedom: float) -> float | None:
    """Degrees of freedom as JSON has them: null where they are endless."""
    return None if freedom == inf else tidy(freedom)
