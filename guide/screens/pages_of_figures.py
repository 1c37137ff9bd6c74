"""The forms that measure: readings, corrections, tightenings, verdicts and the sign-off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from guide.measure.angles import of_screw
from guide.measure.flags import FLAGS
from guide.measure.numerals import parse_number
from guide.measure.truing.asked import Why
from guide.plain import N_, Refusal
from guide.present.chuck_face import WAYS, allowed_counts, screw_marks
from guide.present.labels import RULE, SERVES_AS, TIGHTENING, VERDICT
from guide.present.numbers import figure, plain
from guide.present.sweep import sweep
from guide.present.visible import visible
from guide.present.words import refused
from guide.procedure.model import Procedure, Step
from guide.screens.steps.correction import Advice, CorrectionForm
from guide.screens.steps.form import Form
from guide.screens.steps.readings import Turn, TurnForm
from guide.screens.steps.readings_play import PairForm, PlayForm
from guide.screens.steps.sign_off import SignOffForm
from guide.screens.steps.tightening import Tightening, TighteningForm
from guide.screens.steps.verdict import Result, VerdictForm
from guide.screens.tongue import language, say
from guide.walk.answers import number, quantity
from guide.walk.advised import next_move, next_screw
from guide.walk.figures import rolls_over, screws_of, unit_of
from guide.walk.recording import TURNS_ON_THE_BAR, offered
from guide.walk.state import State, Taken


def figures_form(procedure: Procedure, step: Step, state: State) -> Form:
    """The form of a step that measures, judges or hands over."""
    if step.kind == "readings":
        return _readings(step, state)
    if step.kind == "correction":
        return _correction(state)
    if step.kind == "tightening":
        return _tightening(step, state)
    if step.kind == "verdict":
        return _verdict(step, state)
    return SignOffForm(_summary(state))


def reading_trouble(typed: str) -> str:
    """What is wrong with a reading as typed; blank when nothing is."""
    if not typed:
        return say(N_("Nothing is typed yet. Type what the dial shows."))
    try:
        parse_number(typed)
    except Refusal as refusal:
        return refused(refusal, language())
    return ""


def reading_doubt(values: Sequence[str], typed: str) -> str:
    """Why a value beside the others may be a slip of the point; blank when it may well be so."""
    from guide.measure.numerals import suspicious

    doubt = suspicious([parse_number(each) for each in values], parse_number(typed))
    return refused(doubt, language()) if doubt else ""


def high_spot(angles: Sequence[str], values: Sequence[str]) -> float | None:
    """The high spot of the readings so far, in degrees; None while it cannot be told."""
    try:
        numbers = [float(parse_number(each)) for each in values]
    except Refusal:
        return None
    return sweep([float(each) for each in angles], numbers).high


def _turn(state: State, on_bar: bool = True) -> Turn:
    """What a turn is read with."""
    screws = screws_of(state)
    way = WAYS[1] if state.facts.get("direction") == "reverse" else WAYS[0]
    marks = screw_marks(screws) if on_bar else {}
    return Turn(unit_of(state), marks, allowed_counts(screws), way)


def _readings(step: Step, state: State) -> Form:
    """Play, one screw, or a turn."""
    if step.take == "play":
        return PlayForm(unit_of(state), reading_trouble)
    if step.take == "pair":
        return PairForm(next_screw(state), unit_of(state), reading_trouble)
    turn = _turn(state, step.serves_as in TURNS_ON_THE_BAR)

    def rolls(values: Sequence[str]) -> bool:
        return rolls_over([parse_number(each) for each in values], state)

    return TurnForm(turn, reading_trouble, high_spot, reading_doubt, rolls)


def _correction(state: State) -> Form:
    """The move at the screw just read."""
    move = next_move(state)
    screws = screws_of(state)
    if move is None:
        return CorrectionForm(None, _turn(state), (), reading_trouble)
    unit = unit_of(state)
    told = Advice(
        screw=move.screw,
        reads=str(state.pair.get("value", "")),
        by=_signed(move.by, unit),
        bring_to=_bare(move.bring_to, unit),
        ease=_screws(move.ease),
        tighten=_screws(move.tighten),
        why=_why(move.why),
        angle=of_screw(move.screw, screws),
        high=_high(state),
        eases=tuple(move.ease or ()),
        tightens=tuple(move.tighten or ()),
    )
    across = (move.screw, move.across) if move.across else tuple(range(1, screws + 1))
    return CorrectionForm(told, _turn(state), across, reading_trouble)


def _why(why: Why) -> str:
    """A reason in the user's language."""
    return " ".join(say(each, **why.values) for each in why.sentences)


def _bare(value: object, unit: str) -> str:
    """A length without its unit."""
    return figure(value, unit, language()).removesuffix(unit).strip()


def _signed(value: object, unit: str) -> str:
    """A change with its sign."""
    text = _bare(value, unit)
    return text if text.startswith("-") else f"+{text}"


def _screws(numbers: Sequence[int] | None) -> str:
    """Screws by number."""
    return ", ".join(say(N_("screw {screw}"), screw=each) for each in numbers or ())


def _high(state: State) -> float | None:
    """The high spot of the latest turn."""
    told = state.turn.figures.get("high_at_deg") if state.turn else None
    return float(told) if told is not None else None


WHAT = {
    "ease": N_("Ease every mounting bolt one stage: from tight to snug, never slack."),
    "snug": N_("Bring every mounting bolt snug, a little at a time, in this order."),
    "torque": N_("Tighten every mounting bolt in this order, stage by stage."),
    "check": N_("Go round every mounting bolt at full torque until none moves."),
    "touch": N_("Bring every adjusting screw to touch, no more."),
    "nip": N_("Nip every adjusting screw evenly, a little at a time, one across from the other."),
}


def _tightening(step: Step, state: State) -> Form:
    """Order, stages, and for a torque what was given before."""
    before = _last_torque(state)
    told = Tightening(
        kind=step.tighten,
        what=say(WHAT.get(step.tighten, TIGHTENING[step.tighten])),
        torque=before.get("torque") or known(state, "bolt-torque"),
        source=before.get("source") or known(state, "bolt-torque-source"),
        comparison=_comparison(state),
    )
    return TighteningForm(told, lambda typed: passes(step, state, typed), torque_trouble)


def known(state: State, name: str) -> str:
    """A fact that was answered with something known, else blank."""
    told = state.facts.get(name, "")
    return "" if told == "unknown" else visible(told)


def _last_torque(state: State) -> Mapping[str, str]:
    """The torque and its source as last entered."""
    for entry in reversed(state.entries):
        if entry.data.get("torque"):
            return {each: visible(entry.data.get(each, "")) for each in ("torque", "source")}
    return {}


def passes(step: Step, state: State, typed: str) -> str:
    """The order of the bolts and the torque of every stage, as lines."""
    from guide.shop.tightening import stages

    if step.tighten in ("touch", "nip"):
        return ""
    count = number(state.facts.get("bolt-count", ""))
    if count is None:
        return say(N_("How many bolts there are is not recorded: go across, in small stages."))
    torque, unit = _torque(typed)
    try:
        told = stages(int(count), torque)
    except Refusal as refusal:
        return refused(refusal, language())
    if step.tighten in ("ease", "snug"):
        told = told[:1]
    lines = []
    for stage in told:
        order = "-".join(map(str, stage.order))
        share = f"{plain(stage.torque, 1, language())} {unit}" if stage.torque else ""
        name = say(N_("then round")) if stage.kind == "check" else f"{stage.percent} %"
        passed = name if step.tighten in ("torque", "check") else ""
        lines.append(f"  {order:<24} {passed:<12}{share}")
    return "\n".join(lines)


def _torque(typed: str) -> tuple[Decimal | None, str]:
    """A torque as typed and its unit; none while it cannot be read."""
    try:
        told = quantity("torque", typed)
    except Refusal:
        return None, ""
    return (told.value, told.unit) if told.value > 0 else (None, "")


def torque_trouble(typed: str) -> str:
    """What is wrong with a torque as typed; blank when nothing is."""
    try:
        quantity("torque", typed)
    except Refusal as refusal:
        return refused(refusal, language())
    return ""


def _comparison(state: State) -> str:
    """That the figure is the maker's, never a calculated one."""
    return say(N_("The maker's figure. One from `spindleside calc torque` is for comparison only."))


DECIDE = {
    "accept": N_("accept it"),
    "another-round": N_("correct it: another round"),
    "another-turn": N_("read another turn first"),
    "stop": N_("stop here"),
}
"""The decisions as they are offered."""


def _verdict(step: Step, state: State) -> Form:
    """The results that are judged here and the decisions that are open."""
    plate = step.decisions == ("accept", "stop")
    if plate:
        names = ("register-runout", "face-runout", "nose-runout")
        taken = [state.taken[name] for name in names if name in state.taken]
    else:
        taken = [state.turn] if state.turn else []
    decisions = [(each, say(DECIDE[each])) for each in offered(step, state)]
    return VerdictForm([_result(each, state) for each in taken], decisions)


def _result(taken: Taken, state: State) -> Result:
    """One set of readings as it was judged."""
    figures, unit = taken.figures, str(taken.figures.get("unit", unit_of(state)))
    verdict = str(figures.get("verdict") or "")
    none = say(N_("no verdict: tolerance or uncertainty is not known"))
    return Result(
        name=say(SERVES_AS.get(taken.serves_as, taken.serves_as)),
        lines=tuple(_figures(figures, unit, state)),
        verdict=say(VERDICT[verdict]) if verdict else none,
        flags=tuple(
            (say(FLAGS[key].sentence), tuple(say(each) for each in FLAGS[key].causes))
            for key in figures.get("flags", ())
            if key in FLAGS
        ),
    )


def _figures(figures: Mapping[str, Any], unit: str, state: State) -> list[str]:
    """Judged runout, uncertainty, tolerance and rule, high spot."""
    judged = figure(figures.get("judged"), unit, language())
    told = [say(N_("judged runout {judged}"), judged=judged)]
    if figures.get("expanded_uncertainty"):
        u = figure(figures["expanded_uncertainty"], unit, language())
        told.append(say(N_("expanded uncertainty U = {u} (k = 2)"), u=u))
    if tolerance := known(state, "tolerance"):
        rule = say(RULE.get(str(figures.get("rule")), N_("no rule applied")))
        told.append(say(N_("tolerance {tolerance}; {rule}"), tolerance=tolerance, rule=rule))
    off = figures.get("fitted_tir") not in (None, "0", "0.0")
    if off and figures.get("high_at_deg") is not None:
        angle = plain(figures["high_at_deg"], 0, language())
        told.append(say(N_("high spot at {angle}°"), angle=angle))
    return told


def _summary(state: State) -> list[tuple[str, str]]:
    """As mounted or found, as left, what voids it, when to look again."""
    from guide.records.of_setup import VOIDS

    told = []
    for name in ("as-found", "as-mounted", "as-left"):
        if name in state.taken:
            result = _result(state.taken[name], state)
            told.append((result.name, "; ".join((result.verdict, *result.lines))))
    if told:
        told.append((say(N_("It stands until")), "; ".join(say(each) for each in VOIDS)))
    if recheck := known(state, "recheck-date"):
        told.append((say(N_("Recheck")), recheck))
    told.append((say(N_("People")), ", ".join(map(visible, state.people))))
    return told
