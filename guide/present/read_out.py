"""Readings as typed, what they come to, and what a correction did, in a few words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from guide.measure.angles import even
from guide.measure.flags import FLAGS
from guide.measure.numerals import in_sign, parse_number
from guide.plain import N_, BadInput
from guide.present.labels import VERDICT
from guide.present.nouns import named
from guide.present.numbers import figure, plain
from guide.present.seen import Seen
from guide.present.words import say
from guide.procedure.model import Procedure
from guide.walk.figures import unit_of


def as_typed(data: Mapping[str, Any], language: str = "en") -> str:
    """The readings as they were typed, those of a turn each behind its angle."""
    return "; ".join(_typed(data, language))


def _typed(data: Mapping[str, Any], language: str) -> Iterator[str]:
    """A push and a pull, or a turn with what was read besides."""
    if "pushed" in data:
        yield say(N_("pushed {pushed}"), language, pushed=_typed_in(data["pushed"], language))
        yield say(N_("pulled {pulled}"), language, pulled=_typed_in(data.get("pulled"), language))
    if "near" in data:
        yield say(N_("near {near}"), language, near=_typed_in(data["near"], language))
        yield say(N_("far {far}"), language, far=_typed_in(data.get("far"), language))
    values: Sequence[object] = data.get("values", ())
    angles = data.get("angles") or [f"{at:g}" for at in even(len(values))]
    if values:
        told = ", ".join(f"{at}° {each}" for at, each in zip(angles, values, strict=False))
        yield _typed_in(told, language)
    if data.get("closing"):
        closing = _typed_in(data["closing"], language)
        yield say(N_("back at the first {closing}"), language, closing=closing)
    if data.get("watched"):
        low, high = (_typed_in(each, language) for each in data["watched"])
        yield say(N_("watched {low} to {high}"), language, low=low, high=high)


def _typed_in(value: object, language: str) -> str:
    """Figures of the record with the reader's decimal sign."""
    return in_sign(str(value), language)


def result(figures: Mapping[str, Any], unit: str, language: str = "en") -> str:
    """What readings come to: play, or judged runout, its uncertainty, high spot and verdict."""
    if "judged" not in figures and not figures.get("play"):
        return ""
    parts = [_size(figures, unit, language)]
    if figures.get("expanded_uncertainty"):
        parts.append(f"± {figure(figures['expanded_uncertainty'], unit, language)} (k = 2)")
    if figures.get("at_most"):
        limit = figure(figures["at_most"], unit, language)
        parts.append(say(N_("below {limit} at 95 %"), language, limit=limit))
    if Decimal(str(figures.get("eccentricity", "0"))):
        high = plain(figures.get("high_at_deg"), 0, language)
        parts.append(say(N_("high at {angle}°"), language, angle=high))
    if "range" in figures:
        parts.append(over_grips(figures, unit, language))
    if verdict := figures.get("verdict"):
        parts.append(say(VERDICT[verdict], language))
    return ", ".join(parts)


def range_of(figures: Mapping[str, Any], unit: str, language: str) -> str:
    """The range of runout over the grips of one bar."""
    size = figure(figures["range"], unit, language)
    return say(N_("range of {grips} grips {size}"), language, grips=figures["grips"], size=size)


def over_grips(figures: Mapping[str, Any], unit: str, language: str) -> str:
    """The range over the grips of one bar with its uncertainty, and how far its middle moved."""
    told, expanded = range_of(figures, unit, language), figures.get("range_uncertainty")
    if expanded:
        told = f"{told} ± {figure(expanded, unit, language)} (k = 2)"
    moved = figure(figures["middle_moved"], unit, language)
    return ", ".join((told, say(N_("its middle moved {moved}"), language, moved=moved)))


def _size(figures: Mapping[str, Any], unit: str, language: str) -> str:
    """Play, how far out of line, or runout."""
    if "play" in figures:
        return say(N_("play {play}"), language, play=figure(figures["play"], unit, language))
    if "along" not in figures:
        return say(
            N_("runout {judged}"), language, judged=figure(figures["judged"], unit, language)
        )
    return "; ".join(out_of_line(figures, unit, language))


def out_of_line(figures: Mapping[str, Any], unit: str, language: str) -> tuple[str, ...]:
    """From near to far, and what that is at the tailstock's centre where it is known."""
    along = signed(figures["along"], unit, language)
    told = say(N_("out of line {along} from near to far"), language, along=along)
    if "set_over" not in figures:
        return (told,)
    over = signed(figures["set_over"], unit, language)
    return told, say(N_("tailstock centre off by {over}"), language, over=over)


def signed(size: object, unit: str, language: str) -> str:
    """A length with its sign always shown: plus is toward the dial."""
    words = figure(str(size), unit, language)
    return words if Decimal(str(size)) <= 0 else f"+{words}"


def flags_of(data: Mapping[str, Any], language: str = "en") -> str:
    """The flags that the readings raised, in words."""
    keys = data.get("figures", {}).get("flags", ())
    return " ".join(say(FLAGS[key].sentence, language) for key in keys if key in FLAGS)


def readings(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """Readings as typed, and what they come to."""
    data, unit = each.entry.data, unit_of(each.before)
    if each.step and each.step.take == "pair":
        sentence = named(N_("screw {screw} reads {value} {unit}"), each.before)
        value = _typed_in(data.get("value"), language)
        return say(sentence, language, screw=data.get("screw"), value=value, unit=unit), ""
    worked_out = result(data.get("figures", {}), unit, language)
    return f"{as_typed(data, language)}: {worked_out}", _odd_or_flags(data, language)


def _odd_or_flags(data: Mapping[str, Any], language: str) -> str:
    """What the readings raised; for a push and a pull, that they cannot both be so."""
    if "pushed" not in data:
        return flags_of(data, language)
    try:
        pushed, pulled = (parse_number(str(data.get(each, ""))) for each in ("pushed", "pulled"))
    except BadInput:
        return ""
    return say(PULLED_ABOVE, language) if pulled > pushed else ""


PULLED_ABOVE = N_(
    "pulled reads above pushed, and plus is the plunger pushed in: a hand went the wrong way, or"
    " one was misread; read both again"
)


def correction(each: Seen, procedure: Procedure, language: str) -> tuple[str, str]:
    """What was advised and what the needle came to."""
    data, unit = each.entry.data, unit_of(each.before)
    screw = each.before.pair.get("screw", data.get("screw"))
    advised = data.get("advised") or {}
    parts = [say(named(N_("screw {screw}"), each.before), language, screw=screw)]
    if advised:
        parts.append(
            say(
                N_("bring to {to} (by {by})"),
                language,
                to=figure(advised.get("bring_to"), unit, language),
                by=figure(advised.get("by"), unit, language),
            )
        )
    if data.get("left"):
        return ", ".join(parts), say(N_("left alone"), language)
    if data.get("got") is not None:
        got = _typed_in(data["got"], language)
        parts.append(say(N_("came to {got} {unit}"), language, got=got, unit=unit))
    if data.get("tightened") is not None:
        tightened = named(N_("screw {screw} tightened"), each.before)
        parts.append(say(tightened, language, screw=data["tightened"]))
    return ", ".join(parts), _wrong_way(data, language)


def _wrong_way(data: Mapping[str, Any], language: str) -> str:
    """A needle that went the other way than the move was to take it."""
    moved, by = data.get("moved"), (data.get("advised") or {}).get("by")
    if moved is None or by is None or Decimal(moved) * Decimal(by) >= 0:
        return ""
    flag = FLAGS["wrong-way"]
    return say(flag.sentence, language)
