"""Within, outside or undecided: the decision rule, and a record of which one it was."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

from guide.measure.rounding import tidy
from guide.measure.student import ONE_SIDED, one_sided
from guide.plain import N_, BadInput

Verdict = Literal["within", "outside", "undecided"]
Rule = Literal["guarded", "simple"]

FACTORS: dict[Rule, float] = {"guarded": ONE_SIDED, "simple": 0.0}
"""How many u(fitted TIR) the guard band is wide under each rule, where u is well known."""

EDITIONS: dict[Rule, str] = {
    "guarded": N_("guarded acceptance, 95 % conformance, after JCGM 106:2012 and ISO 14253-1:2017"),
    "simple": N_("simple acceptance, no guard band, after JCGM 106:2012"),
}
"""What each rule is named after (the 2017 edition's 95 % is from memory)."""

SAID: dict[Verdict, str] = {
    "within": N_("within tolerance"),
    "outside": N_("outside tolerance"),
    "undecided": N_("undecided: what was read does not decide it"),
}
"""The verdicts in words."""


@dataclass(frozen=True, slots=True)
class Decision:
    """A verdict with the rule that made it."""

    verdict: Verdict
    rule: Rule
    factor: float
    """Guard band over u(fitted TIR)."""
    guard: float
    """The guard band, in the readings' unit."""
    edition: str
    """What the rule is named after."""

    def to_json(self) -> dict[str, object]:
        """The decision as a record of how it was made."""
        return {
            "rule": self.rule,
            "factor": self.factor,
            "guard": tidy(self.guard),
            "edition": self.edition,
        }


def decide(
    judged: float, u_tir: float, tolerance: float, rule: str = "guarded", freedom: float = inf
) -> Decision:
    """The verdict on a judged runout; lengths in one unit, `u_tir` standard, tolerance full runout.

    Guard g = factor·u_tir: within if judged + g ≤ tolerance, outside if judged − g is above it,
    else undecided. With few degrees of freedom the guarded factor is Student's (`one_sided`).
    Numbers are compared at twelve digits, so that rounding decides nothing. At a true runout just
    on the tolerance, `within` is wrong at most 5 times in 100; `outside` is too, while the
    tolerance is many u_tir, but by Rice's distribution 7 times at two u_tir and 26 near none.
    """
    if rule not in FACTORS:
        raise BadInput(N_("The rule {rule} is not known."), N_("Say guarded or simple."), rule=rule)
    known: Rule = "simple" if rule == "simple" else "guarded"
    factor = FACTORS[known] if known == "simple" else one_sided(freedom)
    guard = factor * u_tir
    verdict: Verdict = "undecided"
    if _at_most(judged + guard, tolerance):
        verdict = "within"
    elif not _at_most(judged - guard, tolerance):
        verdict = "outside"
    return Decision(verdict, known, factor, guard, EDITIONS[known])


def _at_most(one: float, other: float) -> bool:
    """Not larger, at twelve digits of the larger one."""
    return one - other <= 1e-12 * max(abs(one), abs(other))
