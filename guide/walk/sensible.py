"""Answers that the trade hardly ever has, or that contradict another: each in one sentence.

They are never wrong by themselves: refused once with that sentence, and taken when said again.
All limits here are common practice, no source, but for torques, which come from published tables.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from guide.measure.numerals import parse_number
from guide.plain import N_, BadInput, Refusal
from guide.walk.answers import UNKNOWN_ANSWER, quantity

Facts = Mapping[str, str]

FINEST_DIVISION = {"in": Fraction("0.00005"), "mm": Fraction("0.0005")}
COARSEST_DIVISION = {"in": Fraction("0.01"), "mm": Fraction("0.1")}
STEPS = (Fraction(1), Fraction(2), Fraction("2.5"), Fraction(5))
"""Divisions are one of these times a power of ten: common practice, no source."""
LONGEST_TURN = {"in": Fraction("0.25"), "mm": Fraction(5)}
"""A needle's turn is no longer: common practice, no source."""
LOOSEST_LIMIT = {"in": Fraction("0.04"), "mm": Fraction(1)}
"""No runout or play is allowed beyond it: common practice, no source."""
OF_A_DIVISION = Fraction(1, 10)
"""A limit below this share of a division cannot be shown: common practice, no source."""
DRY = 0.20
"""The nut factor that gives the highest torque of the published range (`torque-tension`)."""
ABOVE_THE_TABLE = Fraction(3, 2)
"""So much above a table's torque is asked once more: common practice, no source."""
MARKED = (Fraction(100), Fraction(10000))
"""Lowest and highest speed marked on a chuck, in rev/min: common practice, no source."""
HEAVIEST_KG = Fraction(500)
"""A chuck that is mounted this way weighs less: common practice, no source."""
LONGEST_STROKE = {"in": Fraction(2), "mm": Fraction(50)}
"""No plunger goes further: common practice, no source."""
WIDEST_TURN = {"in": Fraction("0.25"), "mm": Fraction(6)}
"""What is read here is set nearer to true by eye before: common practice, no source."""
NEXT_CHECKS = ("recheck-date", "next-check")
"""Answers that are the day of a check still to come."""
DAY = len("2027-05-25")
"""Signs of a time as the journal writes it that are its day."""
GONE_BY = "gone-by"
"""Such a day that lies before it is entered, beside the answers: no name of a fact."""
FARTHEST, SPREAD, GIVES = "reads-farthest", "reads-spread", "gives"
"""What a dial just showed, beside the answers, with its unit: none of them is the name of a fact.
The value farthest from nothing, highest less lowest of a turn, and play."""
LOOK_AGAIN = N_("Look again; if it is right, say it once more.")


@dataclass(frozen=True, slots=True)
class Odd:
    """One answer that is odd: the sentence that says so, and the values in it."""

    sentence: str
    values: tuple[tuple[str, str], ...]

    def refusal(self) -> BadInput:
        """The same as it is said the first time."""
        return BadInput(self.sentence, LOOK_AGAIN, **dict(self.values))


def odd(sentence: str, **values: str) -> Odd:
    """What is odd, with the values in its sentence."""
    return Odd(sentence, tuple(values.items()))


def newly_odd(before: Facts, now: Facts) -> tuple[Odd, ...]:
    """What has become odd by answers just given or corrected."""
    if now == before:
        return ()
    known = set(oddities(before))
    return tuple(each for each in oddities(now) if each not in known)


def oddities(facts: Facts) -> Iterator[Odd]:
    """Everything that is odd about the answers as they stand."""
    for rule in RULES:
        yield from rule(facts)


def told_with(facts: Facts, trigger: str, data: Mapping[str, Any], at: str) -> Facts:
    """The answers as they stand with what is being entered at a time, as the journal writes it.

    A page, a correction, a torque, readings.
    """
    if trigger == "correct" and "new" in data:
        anew = {str(data.get("fact")): str(data["new"])}
        return {**facts, **anew, **_gone_by(anew, at)}
    if trigger != "record":
        return facts
    given = data.get("facts")
    page = {str(n): str(each) for n, each in given.items()} if isinstance(given, Mapping) else {}
    torque = {"bolt-torque": str(data["torque"])} if data.get("torque") else {}
    shown = _shown(data, facts.get("unit", "in"))
    return {**facts, **page, **_gone_by(page, at), **torque, **shown}


def _gone_by(page: Facts, at: str) -> Facts:
    """The day of a next check that is just entered and lies before it is entered."""
    days = [page[each] for each in NEXT_CHECKS if page.get(each, UNKNOWN_ANSWER) < at[:DAY]]
    return {GONE_BY: days[0]} if days else {}


def _shown(data: Mapping[str, Any], unit: str) -> Facts:
    """What the dial showed, as far as it is entered; nothing of what is no number."""
    turn, play = _numbers(data.get("values")), _numbers([data.get("pushed"), data.get("pulled")])
    told = {}
    ones = _numbers([data.get(each) for each in ("value", "near", "far", "closing")])
    if every := (*turn, *play, *ones, *_numbers(data.get("watched"))):
        told[FARTHEST] = f"{max(every, key=abs)} {unit}"
    if len(turn) > 1:
        told[SPREAD] = f"{max(turn) - min(turn)} {unit}"
    if len(play) > 1:
        told[GIVES] = f"{max(play) - min(play)} {unit}"
    return told


def _numbers(typed: object) -> tuple[Decimal, ...]:
    """Readings as typed, those that are numbers."""
    told = []
    for each in typed if isinstance(typed, (list, tuple)) else ():
        try:
            told.append(parse_number(str(each)))
        except Refusal:
            continue
    return tuple(told)


def _division(facts: Facts) -> Iterator[Odd]:
    """A division in the other unit, or one that dials do not have."""
    typed, unit = facts.get("graduation", ""), facts.get("unit", "")
    size = _size("length", typed, unit or "in")
    if size is None:
        return
    if unit and _system(typed) != unit:
        yield odd(
            N_("The dial is read in another unit ({unit}) than its division of {graduation}."),
            unit=unit,
            graduation=typed,
        )
    elif not _usual(_size("length", typed, _system(typed)) or size, _system(typed)):
        yield odd(N_("Hardly any dial has a division of {graduation}."), graduation=typed)


def _usual(size: Fraction, unit: str) -> bool:
    """Whether dials of a unit have such a division."""
    if not FINEST_DIVISION[unit] <= size <= COARSEST_DIVISION[unit]:
        return False
    while size < 1:
        size *= 10
    return size in STEPS


def _turn(facts: Facts) -> Iterator[Odd]:
    """A turn of the needle that is too long, or no whole number of divisions."""
    typed, division = facts.get("range-per-turn", ""), facts.get("graduation", "")
    size, one = _size("length", typed, "in"), _size("length", division, "in")
    unit = _system(typed)
    if size is None:
        return
    if (_size("length", typed, unit) or size) > LONGEST_TURN[unit]:
        yield odd(N_("Hardly any needle goes through {turn} in one turn."), turn=typed)
    elif one and (size / one).denominator != 1:
        yield odd(
            N_("A turn of {turn} is no whole number of divisions of {graduation}."),
            turn=typed,
            graduation=division,
        )


def _limits(facts: Facts) -> Iterator[Odd]:
    """A limit far beyond what runs true, or below what the dial can show."""
    division = facts.get("graduation", "")
    one = _size("length", division, "in")
    for name, typed in facts.items():
        size = _size("length", typed, "in") if _is_limit(name) else None
        if size is None:
            continue
        unit = _system(typed)
        if (_size("length", typed, unit) or size) > LOOSEST_LIMIT[unit]:
            yield odd(N_("{limit} is far more than runout or play is ever allowed."), limit=typed)
        elif one and size < OF_A_DIVISION * one:
            yield odd(
                N_("{limit} is less than a tenth of the dial's division of {graduation}."),
                limit=typed,
                graduation=division,
            )


def _is_limit(name: str) -> bool:
    """Whether a fact limits runout or play."""
    return name == "tolerance" or name.endswith("-limit")


def _torque(facts: Facts) -> Iterator[Odd]:
    """A torque far above what tables give for this bolt."""
    typed = facts.get("bolt-torque", "")
    size = _size("torque", typed, "N·m")
    table = of_the_table(facts.get("bolt-thread", ""), facts.get("bolt-class", ""))
    if size is None or table is None or size <= ABOVE_THE_TABLE * Fraction(table):
        return
    yield odd(
        N_(
            "{torque} is far above what tables come to for a bolt {thread} of class {grade}: about"
            " {nm} N·m ({ftlb} lbf·ft), for comparison only."
        ),
        torque=typed,
        thread=facts["bolt-thread"],
        grade=facts["bolt-class"].lower().removeprefix("grade").strip(),
        nm=f"{table:.0f}",
        ftlb=f"{table / _nm_per_lbf_ft():.0f}",
    )


def of_the_table(thread: str, grade: str) -> float | None:
    """The highest torque in N·m that published figures come to; None where the bolt is not known.

    75 % of proof load, dry (`torque-tension`).
    """
    from guide.shop.bolt_class import bolt_class
    from guide.shop.threads import parse_thread
    from guide.shop.torque_basis import NutFactor

    try:
        bolt = parse_thread(thread)
        known = bolt_class(grade.lower().removeprefix("grade").strip(), bolt)
    except Refusal:
        return None
    basis = NutFactor(DRY)
    return basis.torque_nm(bolt, basis.preload_n(bolt, known))


def _nm_per_lbf_ft() -> float:
    """One pound-foot in newton metres."""
    from guide.shop.torque import NM_PER_LBF_FT

    return NM_PER_LBF_FT


def _speed(facts: Facts) -> Iterator[Odd]:
    """A speed that no chuck is marked with."""
    typed = facts.get("marked-speed", "")
    size = _size("speed", typed, "rev/min")
    if size is not None and not MARKED[0] <= size <= MARKED[1]:
        yield odd(N_("Hardly any chuck is marked with {speed}."), speed=typed)


def _mass(facts: Facts) -> Iterator[Odd]:
    """A weight that is no chuck's."""
    typed = facts.get("mass", "")
    size = _size("mass", typed, "kg")
    if size is not None and size > HEAVIEST_KG:
        yield odd(N_("Hardly any chuck weighs {mass}."), mass=typed)


def _dial(facts: Facts) -> Iterator[Odd]:
    """A value that no dial shows, a turn that nothing is read over, play that no spindle has."""
    for name, most, sentence in (
        (FARTHEST, LONGEST_STROKE, N_("Hardly any dial goes as far as {reads}.")),
        (SPREAD, WIDEST_TURN, N_("Over one turn hardly any dial moves by {reads}.")),
        (GIVES, LOOSEST_LIMIT, N_("Hardly any spindle gives by {reads}.")),
    ):
        typed = facts.get(name, "")
        unit = _system(typed)
        size = _size("length", typed, unit)
        if size is not None and abs(size) > most[unit]:
            yield odd(sentence, reads=typed)


def _after_a_blow(facts: Facts) -> Iterator[Odd]:
    """Nothing found, where a mark moved or a drive gave way or was not seen."""
    slipped = facts.get("marks-now") == "moved" or facts.get("drive") in ("gave-way", "not-seen")
    if facts.get("damage") == "none" and slipped:
        yield odd(N_("A mark that moved, or a drive that gave way or was not seen, is a finding."))


def _next_check(facts: Facts) -> Iterator[Odd]:
    """A check still to come on a day that has gone by."""
    if day := facts.get(GONE_BY, ""):
        yield odd(N_("The next check cannot be on a day that has gone by: {day}."), day=day)


RULES: tuple[Callable[[Facts], Iterator[Odd]], ...] = (
    _division, _turn, _limits, _torque, _speed, _mass, _dial, _next_check, _after_a_blow,
)  # fmt: skip


def _size(kind: str, typed: str, unit: str) -> Fraction | None:
    """An answer in a unit; None where it is not known or is none."""
    if not typed or typed == UNKNOWN_ANSWER:
        return None
    try:
        return quantity(kind, typed).exactly(unit)
    except Refusal:
        return None


def _system(typed: str) -> str:
    """Whether a length is told in inches or in millimetres."""
    try:
        return "mm" if quantity("length", typed).unit in ("mm", "um") else "in"
    except Refusal:
        return "in"
