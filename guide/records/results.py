"""The readings of a setup with their figures, and whether each still stands at its end."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from guide.measure.verdict import EDITIONS
from guide.plain import N_
from guide.present.labels import RULE, SERVES_AS, VERDICT
from guide.present.numbers import PLACES, figure, plain
from guide.present.read_out import as_typed, flags_of, over_grips, range_of
from guide.present.seen import Seen
from guide.present.visible import visible
from guide.present.words import say
from guide.records.chuck_picture import begun
from guide.records.of_dials import points
from guide.records.record import Result
from guide.walk.grips import is_grip
from guide.walk.judged_anew import KEPT
from guide.walk.limit import limit_of
from guide.walk.world import value


def results_of(met: Sequence[Seen], language: str) -> Iterator[Result]:
    """Every set of readings but those of one screw."""
    for number, each in enumerate(met):
        if each.step and each.step.kind == "readings" and each.step.take != "pair":
            yield _result(met[number:], language)


def _result(onward: Sequence[Seen], language: str) -> Result:
    """One set of readings and its figures."""
    each, stands = onward[0], _stands(onward, language)
    valid = bool(stands) and all(_is_valid(later) for later in onward)
    data, entry, judged_at = each.entry.data, each.entry, _judged_last(onward)
    figures = _figures_at(judged_at, each)
    unit = str(figures.get("unit", ""))
    off = figures.get("fitted_tir") not in (None, "0", "0.0")
    verdict = figures.get("verdict")
    return Result(
        what=say(SERVES_AS[each.step.serves_as], language) if each.step else "",
        sequence=entry.sequence,
        at=entry.at,
        person=visible(entry.person),
        readings=visible(as_typed(data, language)),
        judged=_size(figures, unit, language),
        uncertainty=_uncertainty(figures, unit, language),
        at_most=figure(figures.get("at_most"), unit, language),
        tolerance=visible(_limit(each, judged_at)) if verdict else "",
        verdict=say(VERDICT[verdict], language) if verdict else "",
        rule=_rule(figures, language),
        high=f"{plain(figures.get('high_at_deg'), 0, language)}°" if off else "",
        flags=_besides(figures, unit, judged_at, language),
        stands=stands,
        serves_as=each.step.serves_as if each.step else "",
        valid=valid,
        expanded=figure(figures.get("expanded_uncertainty"), unit, language),
        figures={name: v for name, v in figures.items() if isinstance(v, str)},
        points=tuple((visible(at), visible(value)) for at, value in points(data)),
    )


def _size(figures: Mapping[str, Any], unit: str, language: str) -> str:
    """Runout or play; behind it the range over the grips of one bar, which is what is judged."""
    size = figure(figures.get("judged", figures.get("play")), unit, language)
    return f"{size}; {range_of(figures, unit, language)}" if "range" in figures else size


def _judged_last(onward: Sequence[Seen]) -> Seen | None:
    """The correction that judged readings anew last; None where none did, or they were replaced."""
    each, found = onward[0], None
    serves_as = each.step.serves_as if each.step else ""
    for later in onward[1:]:
        if later.step and later.step.kind == "readings" and later.step.serves_as == serves_as:
            break
        if serves_as in later.entry.data.get(KEPT, {}):
            found = later
    return found


def _figures_at(judged_at: Seen | None, each: Seen) -> Mapping[str, Any]:
    """The figures of readings as they were judged last."""
    if judged_at is None or each.step is None:
        figures: Mapping[str, Any] = each.entry.data.get("figures", {})
        return figures
    anew: Mapping[str, Any] = judged_at.entry.data[KEPT][each.step.serves_as]
    return anew


def _besides(figures: Mapping[str, Any], unit: str, judged_at: Seen | None, language: str) -> str:
    """What a person must know about it: when it was judged anew, the range of grips, the flags."""
    told = f"{begun(over_grips(figures, unit, language))}." if "range" in figures else ""
    anew = N_("Judged anew by event {event}, a correction.")
    when = say(anew, language, event=judged_at.entry.sequence) if judged_at else ""
    return " ".join(filter(None, (when, told, flags_of({"figures": figures}, language))))


def _limit(each: Seen, judged_at: Seen | None) -> str:
    """The limit that the readings were judged by."""
    facts = judged_at.after.facts if judged_at else each.before.facts
    return limit_of(each.step.serves_as if each.step else "", facts)


def _uncertainty(figures: Mapping[str, Any], unit: str, language: str) -> str:
    """U, and the standard uncertainties of one reading that it comes from.

    The indicator's error stands there with its limit, or that nobody asked for it.
    """
    expanded = figures.get("expanded_uncertainty")
    parts = figures.get("uncertainty_parts", {}).items()
    if expanded is None:
        return ""
    each = [f"{name} {plain(u, PLACES[unit] + 1, language)}" for name, u in parts]
    told = ", ".join((*each, _error_limit(figures, language))) if each else ""
    whole = figure(expanded, unit, language)
    return say(N_("{whole}, from {parts}"), language, whole=whole, parts=told) if told else whole


def _error_limit(figures: Mapping[str, Any], language: str) -> str:
    """What the part of the indicator's error rests on."""
    limit = figures.get("error_limit")
    if not limit:
        return say(N_("indicator error not asked for"), language)
    sentence = N_("indicator error: anywhere within ±{limit} equally likely, {limit}/√3")
    return say(sentence, language, limit=visible(limit))


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
    """Whether a result stands to the end, or which event voided it; blank where it never stood.

    One grip of several says what jaws repeat to, and not how the chuck is left.
    """
    step = onward[0].step
    one_of_several = step is not None and is_grip(step.serves_as)
    if one_of_several or "judged" not in onward[0].entry.data.get("figures", {}):
        return ""
    valid = list(map(_is_valid, onward))
    if not valid[0]:
        return ""
    if all(valid):
        return say(N_("yes"), language)
    voided = onward[valid.index(False)].entry.sequence
    return say(N_("voided by event {event}"), language, event=voided)


def _is_valid(each: Seen) -> bool:
    """Whether the machine's result stands after an event."""
    return value(each.after.world, "result") == "valid"
