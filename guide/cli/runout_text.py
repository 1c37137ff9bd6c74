"""The result of `calc runout` as a machinist reads it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import TYPE_CHECKING

from guide.cli.calc_runout import listed
from guide.cli.figures_said import bare, clock, factor, figure, flag_lines, rule_lines

if TYPE_CHECKING:
    from guide.measure.budget import Budget
    from guide.measure.runout import Runout


def lines(
    found: Runout,
    tolerance: Decimal | None,
    readings: tuple[Decimal, ...],
    more: Mapping[str, object],
) -> Iterator[str]:
    """The judged figure first, then where it is high, what to do, and what lies behind it.

    `more` names what was asked for beyond that: uncertainty, watched, orders.
    """
    if found.pair_error is not None:
        yield from _pair_lines(found)
        return
    yield from _headline(found, tolerance)
    yield from _high_spot(found)
    yield from _table(found)
    yield from _fineness(found)
    if "uncertainty" in more and found.budget is not None:
        yield from _parts(found.budget, found.unit)
    if "watched" in more:
        yield from _watched(found)
    if "orders" in more:
        yield from _orders(found)
    yield from _slips(readings)
    yield from flag_lines(found.flags or ())


def _pair_lines(found: Runout) -> Iterator[str]:
    """One pair only."""
    yield f"This pair is {figure(found.pair_error or 0, found.unit)} off."
    yield f"Bring the dial to {figure(found.bring_to or 0, found.unit)} at either screw."
    yield "Two readings say nothing of the other direction: read all the screws for the runout."


def _headline(found: Runout, tolerance: Decimal | None) -> Iterator[str]:
    """Judged runout and verdict."""
    from guide.measure.verdict import SAID

    judged = figure(found.judged or 0, found.unit)
    verdict = "" if found.decision is None else f", {SAID[found.decision.verdict].upper()}"
    against = "" if tolerance is None else f" (tolerance {figure(tolerance, found.unit)})"
    yield f"Judged runout {judged}{verdict}{against}"
    if tolerance is not None and found.decision is None:
        yield "No verdict without an uncertainty: give --graduation or --u."
    if found.at_most is not None:
        limit = figure(found.at_most, found.unit)
        yield f"So near zero the fit reads high: the fitted TIR is no more than {limit} (95 %)."


def _high_spot(found: Runout) -> Iterator[str]:
    """Where the high spot is, and by how much the centre is off."""
    from guide.measure.angles import nearest_screw

    angle, off = found.high_at_deg or 0.0, found.eccentricity or 0.0
    if not off:
        yield "No high spot: the centre is not off."
        return
    screw = nearest_screw(angle, len(found.targets or ()))
    yield f"High spot {angle:.0f}° from screw 1, nearest screw {screw}, about {clock(angle)}"
    yield "  with screw 1 at the top and the numbers running clockwise."
    yield f"The centre is {figure(off, found.unit)} off."


def _table(found: Runout) -> Iterator[str]:
    """What to bring the dial to at each screw."""
    yield ""
    yield f"  screw   reads      bring to   ({found.unit})"
    for target in found.targets or ():
        reads = "-" if target.reads is None else bare(target.reads, found.unit)
        bring = bare(target.bring_to, found.unit)
        yield f"  {target.screw:<7} {reads:<10} {bring}"


def _fineness(found: Runout) -> Iterator[str]:
    """What lies behind the judged figure."""
    unit = found.unit
    form = "not known" if found.form is None else figure(found.form, unit)
    yield ""
    yield f"Fitted TIR {figure(found.fitted_tir or 0, unit)}; form {form};"
    yield f"  range of the readings {figure(found.observed_tir or 0, unit)}."
    if found.budget is not None:
        spread, k = figure(found.budget.expanded, unit), factor(found.budget.k)
        yield f"Uncertainty of the fitted TIR U = {spread} (k = {k})."
    if found.decision is not None:
        yield from rule_lines(found.decision, unit)


def _parts(known: Budget, unit: str) -> Iterator[str]:
    """What the uncertainty is made of, as the standard uncertainty of each part."""
    yield ""
    yield f"  part               u ({unit})   degrees of freedom"
    for part in known.parts:
        freedom = "" if part.freedom == float("inf") else f"{part.freedom:.0f}"
        turn = "" if part.averaged else "   over the whole turn: more positions do not help"
        yield f"  {part.name:<18} {bare(part.u, unit, finer=1):<10} {freedom}{turn}".rstrip()
    if known.freedom != float("inf"):
        yield f"Few repeats: {factor(known.freedom, 1)} effective degrees of freedom,"
        yield f"  so k = {factor(known.k)} and a decision factor of {factor(known.factor)}."


def _watched(found: Runout) -> Iterator[str]:
    """Whether the watched sweep agrees."""
    from guide.measure.findings import SWEEP

    yield ""
    yield SWEEP["unknown" if found.budget is None else found.contradicted or "agrees"]


def _orders(found: Runout) -> Iterator[str]:
    """Each harmonic that the positions tell apart."""
    from guide.measure.orders import CALLED, UNTOLD, all_told

    told = listed(found)
    yield ""
    yield f"  order              amplitude   first high spot   ({found.unit})"
    for each in told:
        name = f"{each.order} {CALLED[each.order]}"
        noise = "   no more than noise" if each.stands_out is False else ""
        size = bare(each.amplitude, found.unit)
        if each.expanded_uncertainty is not None:
            size += f" ± {bare(each.expanded_uncertainty, found.unit)}"
        yield f"  {name:<18} {size:<11} {each.high_at_deg:.0f}°{noise}"
    if not all_told(told):
        yield f"! few-positions: {UNTOLD}"


def _slips(readings: tuple[Decimal, ...]) -> Iterator[str]:
    """Readings that look like a slipped decimal point."""
    from guide.measure.numerals import suspicious

    for i, reading in enumerate(readings):
        doubt = suspicious(readings[:i] + readings[i + 1 :], reading)
        if doubt is not None:
            yield ""
            yield str(doubt)
