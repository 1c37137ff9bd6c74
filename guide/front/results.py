"""What is judged and handed over, in words: results, what is advised, and the summary."""

from __future__ import annotations

from dataclasses import dataclass

from guide.measure.flags import FLAGS
from guide.plain import N_
from guide.present.labels import RULE, SERVES_AS, VERDICT, VERDICT_WORD
from guide.present.nouns import named
from guide.present.numbers import figure, plain
from guide.present.read_out import out_of_line
from guide.present.recorded_words import known, reason
from guide.present.tongue import language, say
from guide.present.visible import visible
from guide.procedure.model import Step
from guide.walk.advised import (
    decision,
    knows_aim,
)
from guide.walk.answers import UNKNOWN_ANSWER
from guide.walk.deciding import DIVISION, PLATE, not_known, offered
from guide.walk.figures import unit_of
from guide.walk.limit import limit_of
from guide.walk.state import State, Taken


@dataclass(frozen=True, slots=True)
class Result:
    """One judged result in words."""

    name: str
    lines: tuple[str, ...]
    """Judged runout, uncertainty, tolerance, rule."""
    verdict: str
    word: str
    """The verdict in one word; blank for none."""
    flags: tuple[tuple[str, tuple[str, ...]], ...]
    """Each flag's sentence and its likely causes in order."""


DECIDE = {
    "accept": N_("accept it"),
    "another-round": N_("correct it: another round"),
    "another-turn": N_("read another turn first"),
    "stop": N_("stop here"),
}
"""The decisions as they are offered."""

MEANINGS = {
    "did": N_("I did this work as recorded and hand the lathe over"),
    "saw": N_("I did part of this work, saw the rest, and hand the lathe over"),
}
"""What a name under the handing over may mean."""


NO_VERDICT = {
    (True, True): N_(
        "no verdict: neither its limit nor what one division of the dial is worth is known"
    ),
    (True, False): N_("no verdict: its limit is not known"),
    (False, True): N_("no verdict: what one division of the dial is worth is not known"),
    (False, False): N_("no verdict: read it again at three positions or more"),
}
"""Why readings have no verdict: whether the limit is not known, and the dial's division."""


def results(step: Step, state: State) -> tuple[Result, ...]:
    """The results that are judged at a step."""
    names = ("register-runout", "face-runout", "nose-runout")
    if of_plate(step):
        taken = [state.taken[name] for name in names if name in state.taken]
    else:
        taken = [state.turn] if state.turn else []
    return tuple(_result(each, state) for each in taken)


def decisions(step: Step, state: State) -> tuple[tuple[str, str], ...]:
    """The decisions that are open, each with its words."""
    return tuple((each, say(DECIDE[each])) for each in offered(step, state))


def of_plate(step: Step) -> bool:
    """Whether it is the plate that is judged, and not how the chuck runs."""
    return step.decisions == PLATE


def advised(step: Step, state: State) -> str:
    """What the advisor would decide, where that is open and the aim is known; and why."""
    if of_plate(step) or not (state.heard and knows_aim(state)):
        return ""
    open_ones = dict(decisions(step, state))
    name, why = decision(state)
    if name not in open_ones:
        return ""
    return say(N_("→ Advised: {decision}. {why}"), decision=open_ones[name], why=reason(why, state))


def _result(taken: Taken, state: State) -> Result:
    """One set of readings as it was judged."""
    figures, unit = taken.figures, str(taken.figures.get("unit", unit_of(state)))
    verdict = str(figures.get("verdict") or "")
    return Result(
        name=say(SERVES_AS.get(taken.serves_as, taken.serves_as)),
        lines=tuple(_figures(taken, unit, state)),
        verdict=say(VERDICT[verdict]) if verdict else _why_none(taken, state),
        word=say(VERDICT_WORD[verdict]) if verdict else "",
        flags=tuple(
            (
                say(named(FLAGS[key].sentence, state)),
                tuple(say(named(each, state)) for each in FLAGS[key].causes),
            )
            for key in figures.get("flags", ())
            if key in FLAGS
        ),
    )


def _why_none(taken: Taken, state: State) -> str:
    """Why readings have no verdict, by what is not known; they may be older than what is known."""
    missing = set(not_known(taken, state))
    return say(NO_VERDICT[bool(missing - {DIVISION}), DIVISION in missing])


def _figures(taken: Taken, unit: str, state: State) -> list[str]:
    """Judged runout or how far out of line, uncertainty, limit and rule, high spot."""
    figures = taken.figures
    judged = figure(figures.get("judged"), unit, language())
    told = [say(N_("judged runout {judged}"), judged=judged)]
    if "along" in figures:
        told = list(out_of_line(figures, unit, language()))
    if figures.get("expanded_uncertainty"):
        u = figure(figures["expanded_uncertainty"], unit, language())
        told.append(say(N_("expanded uncertainty U = {u} (k = 2)"), u=u))
    if tolerance := _limit(taken, state):
        none = N_("no rule applied")
        rule = say(RULE.get(str(figures.get("rule")), none))
        told.append(say(N_("tolerance {tolerance}; {rule}"), tolerance=tolerance, rule=rule))
    off = figures.get("fitted_tir") not in (None, "0", "0.0")
    if off and figures.get("high_at_deg") is not None:
        angle = plain(figures["high_at_deg"], 0, language())
        told.append(say(N_("high spot at {angle}°"), angle=angle))
    return told


def _limit(taken: Taken, state: State) -> str:
    """The limit that these readings are judged by; blank where it is not known."""
    told = limit_of(taken.serves_as, state.facts)
    return "" if told == UNKNOWN_ANSWER else visible(told)


SUMMED_UP = ("as-found", "as-mounted", "as-left", "tail-height-left", "tail-side-left")
"""What is read out once more at the handing over."""


def summary(state: State) -> list[tuple[str, str]]:
    """As mounted or found, as left, what voids it, when to look again."""
    told = []
    for name in SUMMED_UP:
        if name in state.taken:
            result = _result(state.taken[name], state)
            told.append((result.name, "; ".join((result.verdict, *result.lines))))
    if told:
        told.append(_how_long(state))
    if recheck := known(state, "recheck-date"):
        told.append((say(N_("Recheck")), recheck))
    told.append((say(N_("People")), ", ".join(map(visible, state.people))))
    return told


def _how_long(state: State) -> tuple[str, str]:
    """What ends an accepted result; why it does not stand where it was not accepted or is void."""
    from guide.records.of_setup import does_not_stand, voids_of

    if why := does_not_stand(state):
        return say(N_("It does not stand")), say(why)
    return say(N_("It stands until")), "; ".join(say(each) for each in voids_of(state))
