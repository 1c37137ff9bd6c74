"""Readings: play, one screw, a turn with its watched sweep; and the move that follows."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from guide.front.correction import Advice, advice, nothing_to_turn, screws_moved
from guide.front.turn import (
    FAR,
    NEAR,
    Turn,
    move_doubt,
    pair_doubt,
    plain_turn,
    reading_doubt,
    reading_trouble,
    rolls_here,
    turn_at,
)
from guide.linear.ends import Back
from guide.linear.sheet import Sheet
from guide.linear.sitting import Sitting
from guide.linear.talk import Line
from guide.plain import N_, Refusal
from guide.present.chuck_face import positions
from guide.present.dial_text import dial_text
from guide.present.tongue import language, say
from guide.present.words import refused
from guide.procedure.model import Step
from guide.walk.advised import next_screw
from guide.walk.figures import unit_of

NOT_SURE = "not-sure"
Trouble = Callable[[str], str]


def number(typed: str, unit: str) -> tuple[str, str]:
    """The number alone and no sentence, or why it cannot be taken."""
    try:
        found = dial_text(typed, unit, language())
    except Refusal as refusal:
        return typed, refused(refusal, language())
    return found, reading_trouble(found)


def dial_line(name: str, ask: str, unit: str, alone: str = "", blank: bool = False) -> Line:
    """A question that is answered with what a dial shows."""

    def trouble(typed: str) -> str:
        return number(typed, unit)[1]

    return Line(name, ask, may_be_blank=blank, alone=alone, trouble=trouble)


def readings(at: Sitting, step: Step) -> None:
    """Play, along a bar, one screw, or a turn."""
    if step.take == "play":
        _play(at)
    elif step.take == "along":
        _along(at)
    elif step.take == "pair":
        _pair(at)
    else:
        TurnTalk(at, turn_at(step, at.state)).fill()


def _play(at: Sitting) -> None:
    """A push and a pull."""
    unit = unit_of(at.state)
    pushed = say(N_("Pushed toward the plunger by hand, it reads ({unit}):"), unit=unit)
    pulled = say(N_("Pulled away from the plunger by hand, it reads ({unit}):"), unit=unit)
    _two(at, unit, {"pushed": pushed, "pulled": pulled})


def _along(at: Sitting) -> None:
    """One value near the headstock and one near the tailstock."""
    unit = unit_of(at.state)
    _two(at, unit, {"near": say(NEAR, unit=unit), "far": say(FAR, unit=unit)})


def _two(at: Sitting, unit: str, asked: Mapping[str, str]) -> None:
    """Two values under their names."""
    lines = tuple(dial_line(name, ask, unit) for name, ask in asked.items())

    def enter(told: dict[str, str]) -> bool:
        return at.enter("record", {name: number(each, unit)[0] for name, each in told.items()})

    Sheet(at.talk, lines).fill(enter)


def _pair(at: Sitting) -> None:
    """One value at one screw."""
    unit, screw = unit_of(at.state), next_screw(at.state)
    ask = N_("Screw {screw} under the plunger, hands off: it reads ({unit}):")
    line = dial_line("value", plain_turn(at.state).say(ask, screw=screw, unit=unit), unit)
    doubt = pair_doubt(at.state)

    def enter(told: dict[str, str]) -> bool:
        value = number(told["value"], unit)[0]
        if sentence := doubt(value):
            at.tell(sentence)
            return False
        return at.enter("record", {"screw": screw, "value": value})

    Confirmed(at.talk, [line]).fill(enter)


class Confirmed(Sheet):
    """A single reading is read back too: what a dial typed by itself is not entered unheard."""

    def _confirmed(self) -> bool:
        self.talk.lines.tell("\n".join(self.read_back()))
        try:
            self.talk.choose(say(N_("Record it? / types it again.")), [("yes", say(N_("record")))])
        except Back:
            self._back()
            return False
        return True


def correction(at: Sitting) -> None:
    """What to do at the screw, what the dial came to; or leave it alone."""
    move, turn = advice(at.state), plain_turn(at.state)
    if move is None:
        at.talk.choose(nothing_to_turn(at.state), [("alone", say(N_("Leave this one alone")))])
        at.enter("record", {"left": "yes"})
        return
    _tell(at, move, turn)
    unit, told = turn.unit, Confirmed(at.talk, _asked(at, move, turn))
    doubt = move_doubt(at.state)

    def enter(found: dict[str, str]) -> bool:
        if found["got"] == ".":
            return at.enter("record", {"left": "yes"})
        if sentence := doubt(number(found["got"], unit)[0]):
            at.tell(sentence)
            return False
        screw = found.get("tightened", NOT_SURE)
        more = {} if screw == NOT_SURE else {"tightened": int(screw)}
        return at.enter("record", {"got": number(found["got"], unit)[0], **more})

    told.fill(enter)


def _tell(at: Sitting, move: Advice, turn: Turn) -> None:
    """Which screw, what to ease and tighten, the value to bring the dial to, and why."""
    under = N_("Screw {screw} is under the plunger and reads {reads} {unit}.")
    at.tell(turn.say(under, screw=move.screw, reads=move.reads, unit=turn.unit))
    if move.tighten:
        ease, then = N_("{sign} Ease first: {screws}."), N_("{sign} Then tighten: {screws}.")
        at.tell(turn.say(ease, sign="", screws=move.ease).strip())
        at.tell(turn.say(then, sign="", screws=move.tighten).strip())
    at.tell(say(N_("Bring the dial to {to} {unit}"), to=move.bring_to, unit=turn.unit))
    at.tell(say(N_("from {reads}: {by} {unit}"), reads=move.reads, by=move.by, unit=turn.unit))
    at.tell(move.why)


def _asked(at: Sitting, move: Advice, turn: Turn) -> list[Line]:
    """What the dial came to, and where it is to be learned which screw was tightened."""
    came = say(N_("The dial came to ({unit}):"), unit=turn.unit)
    alone = say(N_("A point alone: leave this one alone."))
    lines = [dial_line("got", came, turn.unit, alone)]
    if not move.tighten:
        options = [(str(n), turn.say(N_("screw {screw}"), screw=n)) for n in screws_moved(at.state)]
        options.append((NOT_SURE, say(N_("I am not sure"))))
        question = turn.say(N_("Which screw was tightened?"))
        lines.append(Line("tightened", question, tuple(options)))
    return lines


class TurnTalk:
    """One value after the other round a turn, the first one again, then what was watched."""

    def __init__(self, at: Sitting, turn: Turn) -> None:
        self.at, self.turn, self.talk = at, turn, at.talk
        self.rolls = rolls_here(at.state)
        self.count = turn.counts[0]
        self.values: list[str] = []
        self.doubted = ""

    @property
    def angles(self) -> tuple[str, ...]:
        """Every position in order."""
        return positions(self.count)

    def fill(self) -> None:
        """Ask until the turn is recorded."""
        for each in (*self.turn.told, self.turn.why):
            if each:
                self.at.tell(each)
        self._ask_count()
        while True:
            self._read()
            try:
                if self._recorded():
                    return
            except Back:
                self._one_back()

    def _recorded(self) -> bool:
        """Whether all of it was confirmed and taken."""
        data = self._whole()
        self._confirmed()
        return self.at.enter("record", data)

    def _ask_count(self) -> None:
        """How many positions; the advisor's own stands there."""
        counts = tuple((str(n), say(N_("at {count}"), count=n)) for n in sorted(self.turn.counts))
        while True:
            try:
                question = say(N_("How many positions round the turn?"))
                found = self.talk.answer(Line("count", question, counts), str(self.count))
            except Back:
                self.talk.say(N_("This is the first question here. Type * for what else can be"
                                 " done."))  # fmt: skip
                continue
            self.count, self.values = int(found), []
            return

    def _read(self) -> None:
        """Every position and the first one again."""
        while len(self.values) <= self.count:
            line = replace(
                dial_line("reading", self._ask(), self.turn.unit), help=self._read_back()
            )
            try:
                typed = self.talk.answer(line)
            except Back:
                self._one_back()
                continue
            value = number(typed, self.turn.unit)[0]
            if doubt := self._doubt_once(value):
                self.talk.lines.tell(doubt)
            else:
                self.doubted = ""
                self.values.append(value)

    def _one_back(self) -> None:
        """The last value is read again; before the first one, the positions are asked again."""
        if self.values:
            self.talk.say(N_("Taken back: {value}."), value=self.values.pop())
        else:
            self._ask_count()

    def _ask(self) -> str:
        """What is read next, and where."""
        at = len(self.values)
        if at == self.count:
            return say(N_("Back at {angle}°: what does it read now?"), angle="0")
        angle = float(self.angles[at])
        mark = self.turn.marks.get(angle)
        where = self.turn.say(N_(", screw {mark} under the plunger"), mark=mark) if mark else ""
        return say(N_("Turn to {angle}°{where}. Reads ({unit}):"), angle=f"{angle:g}", where=where,
                   unit=self.turn.unit)  # fmt: skip

    def _doubt_once(self, value: str) -> str:
        """A value far from its neighbours is asked about once; typed again it is believed."""
        if value == self.doubted:
            return ""
        self.doubted = value
        return reading_doubt(self.values, value)

    def _whole(self) -> dict[str, object]:
        """Everything as typed, with the watched sweep and whether the pointer went round."""
        data: dict[str, object] = {
            "angles": list(self.angles),
            "values": self.values[: self.count],
            "closing": self.values[self.count],
        }
        if self.rolls(self.values[: self.count]):
            went = N_("The pointer may have passed its zero on the way. Did it?")
            data["rolled_over"] = self.talk.choose(say(went), [
                ("yes", say(N_("yes, it went round"))), ("no", say(N_("no, read as typed")))
            ])  # fmt: skip
        watched = [self._watched(N_("Watched over a turn: lowest (or blank)"), "low")]
        if watched[0]:
            watched.append(self._watched(N_("Watched over a turn: highest (or blank)"), "high"))
        return {**data, **({"watched": watched} if any(watched) else {})}

    def _watched(self, ask: str, name: str) -> str:
        """The lowest or the highest that was seen over a whole turn; blank for none."""
        found = self.talk.answer(dial_line(name, say(ask), self.turn.unit, blank=True))
        return number(found, self.turn.unit)[0] if found else ""

    def _read_back(self) -> str:
        """Every value behind its angle."""
        told = zip((*self.angles, "0"), self.values, strict=False)
        return ", ".join(f"{at}° {each}" for at, each in told)

    def _confirmed(self) -> None:
        """All of it read back; raises `Back` where the last value is to be read again."""
        self.talk.say(N_("Read: {values}."), values=self._read_back())
        question = say(N_("Record these readings? / takes the last one back."))
        self.talk.choose(question, [("yes", say(N_("record")))])
