"""The readings of a setup with their figures, and whether each still stands at its end."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from guide.measure.verdict import EDITIONS
from guide.plain import N_
from guide.present.labels import RULE, SERVES_AS, VERDICT
from guide.present.numbers import PLACES, figure, plain
from guide.present.read_out import as_typed, flags_of
from guide.present.seen import Seen
from guide.present.visible import visible
from guide.present.words import say
from guide.records.record import Result
from guide.walk.world import value


def results_of(met: Sequence[Seen], language: str) -> Iterator[Result]:
    """Every set of readings but those of one screw."""
    for number, each in enumerate(met):
        if each.step and each.step.kind == "readings" and each.step.take != "pair":
            yield _result(each, _stands(met[number:], language), language)


def _result(each: Seen, stands: str, language: str) -> Result:
    """One set of readings and its figures."""
    data, entry = each.entry.data, each.entry
    figures = data.get("figures", {})
    unit = str(figures.get("unit", ""))
    off = figures.get("fitted_tir") not in (None, "0", "0.0")
    verdict = figures.get("verdict")
    return Result(
        what=say(SERVES_AS[each.step.serves_as], language) if each.step else "",
        sequence=entry.sequence,
        at=entry.at,
        person=visible(entry.person),
        readings=visible(as_typed(data, language)),
        judged=figure(figures.get("judged", figures.get("play")), unit, language),
        uncertainty=_uncertainty(figures, unit, language),
        at_most=figure(figures.get("at_most"), unit, language),
        tolerance=visible(each.before.facts.get("tolerance", "")) if verdict else "",
        verdict=say(VERDICT[verdict], language) if verdict else "",
        rule=_rule(figures, language),
        high=f"{plain(figures.get('high_at_deg'), 0, language)}°" if off else "",
        flags=flags_of(data, language),
        stands=stands,
    )


def _uncertainty(figures: Mapping[str, Any], unit: str, language: str) -> str:
    """U, and the standard uncertainties of one reading that it comes from."""
    expanded = figures.get("expanded_uncertainty")
    parts = figures.get("uncertainty_parts", {}).items()
    if expanded is None:
        return ""
    told = ", ".join(f"{name} {plain(u, PLACES[unit] + 1, language)}" for name, u in parts)
    whole = figure(expanded, unit, language)
    return say(N_("{whole}, from {parts}"), language, whole=whole, parts=told) if told else whole


def _rule(figures: Mapping[str, Any], language: str) -> str:
    """The decision rule and its factor."""
    rule = figures.get("rule")
    if rule not in RULE:
        return ""
    factor = plain(figures.get("factor"), 3, language)
    return say(
        N_("{rule}, factor {factor}"), language, rule=say(RULE[rule], language), factor=factor
    )


def rules_of(met: Sequence[Seen], language: str) -> tuple[str, ...]:
    """What each rule that was used is named after, with its edition."""
    used = dict.fromkeys(each.entry.data.get("figures", {}).get("rule") for each in met)
    return tuple(say(EDITIONS[rule], language) for rule in used if rule in EDITIONS)


def _stands(onward: Sequence[Seen], language: str) -> str:
    """Whether a result stands to the end, or which event voided it; blank where it never stood."""
    if "judged" not in onward[0].entry.data.get("figures", {}):
        return ""
    valid = [value(each.after.world, "result") == "valid" for each in onward]
    if not valid[0]:
        return ""
    if all(valid):
        return say(N_("yes"), language)
    voided = onward[valid.index(False)].entry.sequence
    return say(N_("voided by event {event}"), language, event=voided)
