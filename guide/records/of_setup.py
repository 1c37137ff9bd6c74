"""The record of a setup, worked out from its events and from nothing else."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

from guide.journal.store import Store
from guide.plain import N_
from guide.present.entered import marks
from guide.present.labels import NOT_SIGNED, PLACE
from guide.present.nouns import centres_work, in_jaws
from guide.present.questions import answers_to, asks
from guide.present.recorded import answered, in_full
from guide.present.seen import Seen
from guide.present.sheet import Line, line, seen
from guide.present.visible import visible
from guide.present.words import say, written
from guide.procedure.model import Fact
from guide.records.evidence import faults
from guide.records.of_dials import counted, dials_of
from guide.records.of_people import deviations_of, signatures_of, workers_of
from guide.records.record import Answer, Gate, Record
from guide.records.results import results_of, rules_of
from guide.shop.tightening import FEWEST, MOST, order
from guide.walk.answers import number
from guide.walk.looking import ASKED
from guide.walk.recording import checks_of
from guide.walk.second import is_signed
from guide.walk.setup import Setup
from guide.walk.state import State
from guide.walk.world import UNKNOWN, World, value

VOIDS = (
    N_("a crash, a jam, or work that slipped in the jaws"),
    N_("the chuck or its plate taken off, or the nose lock moved"),
    N_("a mounting bolt or an adjusting screw touched"),
    N_("a change of jaws, or jaws turned round"),
    N_("work of another diameter: it runs true at the diameter at which it was set"),
)
OF_ONE_GRIP = (
    N_("the work taken out, turned in the jaws, or gripped anew"),
    N_("a crash, a jam, or work that slipped in the jaws"),
    N_("a jaw, an adjusting screw or a mounting bolt touched"),
    N_("the chuck or its plate taken off, or the nose lock moved"),
)
"""What ends a result before its date; both lists are common practice, no source."""


def voids_of(state: State) -> tuple[str, ...]:
    """What ends the result of a setup: of a chuck that was trued, or of work that was centred."""
    return OF_ONE_GRIP if centres_work(state) else VOIDS


def does_not_stand(state: State) -> str:
    """Why the result of a setup holds nothing, as a sentence's part; blank where it stands."""
    if state.decision != "accept":
        return N_("it was not accepted")
    if state.verdict in ("outside", "undecided"):
        return N_("an answer that it rested on was corrected, and it is not within any more")
    if value(state.world, "result") != "valid":
        return N_("something was touched after it was read")
    return ""


def record_of(walk: Setup, store: Store, language: str = "en") -> Record:
    """The record of a setup as its events leave it; one that does not verify is marked so."""
    state, procedure = walk.state, walk.procedure
    met = tuple(seen(state, procedure))
    lines = {each.entry.sequence: line(each, procedure, language) for each in met}
    of = _Sorter(met, lines)
    events = store.events(state.setup)
    bolts = bolts_of(state)
    unsound = tuple(_unsound(state.setup, store, language))
    return Record(
        setup=state.setup,
        procedure=visible(procedure.name),
        title=visible(written(procedure.title, language)),
        revision=visible(procedure.revision),
        text=state.text,
        head=store.last(state.setup)[1],
        events=state.sequence,
        marks=tuple(
            dict.fromkeys((*marks(state, language), *_unsigned(state, language), *unsound))
        ),
        place=_place(walk, language),
        opened_at=state.entries[0].at,
        last_at=state.entries[-1].at,
        people=tuple(map(visible, state.people)),
        answers=tuple(_answers(walk, met, language)),
        results=tuple(results_of(met, language)),
        rules=rules_of(met, language),
        body_runout=_as_answered("body-runout", walk, language),
        ran_slowly=any("run slow" in each.entry.data.get("did", ()) for each in met),
        recheck=_as_answered("recheck-date", walk, language),
        one_grip=centres_work(state),
        voids=tuple(say(each, language) for each in voids_of(state)),
        fallen=say(does_not_stand(state), language),
        gates=tuple(_gates(met, lines, language)),
        corrections=of.kinds("correction", "pair"),
        torques=of.kinds("tightening"),
        verdicts=of.kinds("verdict"),
        interruptions=of.besides(),
        left=tuple(_left(state.world, language)),
        signatures=tuple(signatures_of(met, events, language)),
        lines=tuple(lines.values()),
        sign_on=is_signed(state),
        link=store.link(state.setup),
        workers=workers_of(events),
        deviations=tuple(deviations_of(met, language)),
        dials=tuple(dials_of(met, language)),
        screws=counted(state),
        in_jaws=in_jaws(state),
        reverse=state.facts.get("direction") == "reverse",
        bolts=bolts,
        order=_order(bolts) if of.torqued() else (),
        torqued=of.torqued(),
        sound=not unsound,
        ends=state.place if state.ended else "",
    )


def bolts_of(state: State) -> int:
    """How many mounting bolts, 0 where it is not known or no such ring is known here."""
    told = number(state.facts.get("bolt-count", ""))
    return int(told) if told is not None and FEWEST <= told <= MOST else 0


def _order(bolts: int) -> tuple[int, ...]:
    """The order of tightening that was shown, empty where the bolts are not known."""
    return order(bolts) if bolts else ()


class _Sorter:
    """Lines by what their steps are."""

    def __init__(self, met: Sequence[Seen], lines: dict[int, Line]) -> None:
        self.met = met
        self.lines = lines

    def kinds(self, *names: str) -> tuple[Line, ...]:
        """The lines of steps of these kinds, or that take readings in this way."""
        return tuple(
            self.lines[each.entry.sequence]
            for each in self.met
            if each.step and (each.step.kind in names or each.step.take in names)
        )

    def torqued(self) -> int:
        """The event that brought bolts to torque last, 0 where none did."""
        found = (e.entry.sequence for e in self.met if e.step and e.step.tighten == "torque")
        return max(found, default=0)

    def besides(self) -> tuple[Line, ...]:
        """The lines that belong to no step, but for the opening."""
        return tuple(
            self.lines[each.entry.sequence]
            for each in self.met
            if each.step is None and each.entry.kind != "open"
        )


def _unsigned(state: State, language: str) -> Iterator[str]:
    """The mark of a setup that nobody signs."""
    if not is_signed(state):
        yield say(NOT_SIGNED, language)


def _unsound(setup: str, store: Store, language: str) -> Iterator[str]:
    """The mark of a setup whose events do not stand as they were written."""
    for found in islice(faults(store, setup, language), 1):
        yield say(N_("DOES NOT VERIFY: {fault}"), language, fault=found.says)


def _place(walk: Setup, language: str) -> str:
    """Where the setup stands, in words."""
    place = walk.state.place
    return visible(written(walk.step.title, language)) if walk.step else say(PLACE[place], language)


def _answers(walk: Setup, met: Sequence[Seen], language: str) -> Iterator[Answer]:
    """Every fact that a person answered as it stands, with what it was before."""
    given = {name for each in met for name in each.entry.data.get("facts", {})}
    for name, answer in walk.state.facts.items():
        if name not in given:
            continue
        fact = walk.procedure.facts.get(name)
        words = in_full(fact, answer, language)
        ask = written(fact.ask, language) if fact else name
        yield Answer(
            visible(name), visible(ask), visible(words), visible(_before(fact, name, met, language))
        )


def _as_answered(name: str, walk: Setup, language: str) -> str:
    """One answer as a line has it; blank where it was not asked."""
    answer = walk.state.facts.get(name, "")
    return visible(answered(walk.procedure.facts.get(name), answer, language)) if answer else ""


def _before(fact: Fact | None, name: str, met: Sequence[Seen], language: str) -> str:
    """The answers that were given before the one that stands."""
    old = [
        answered(fact, each.entry.data.get("old"), language)
        for each in met
        if each.entry.kind == "correct" and each.entry.data.get("fact") == name
    ]
    return ", ".join(old)


def _left(world: World, language: str) -> Iterator[tuple[str, str]]:
    """Each variable of the machine state and its value, in words."""
    if world != UNKNOWN:
        for name in ASKED:
            yield say(asks(name), language), say(answers_to(name, value(world, name)), language)


def _confirmed(words: str, person: str) -> str:
    """What a check said, and of whom."""
    return f"{words} ({person})" if person else words


def _gates(met: Sequence[Seen], lines: dict[int, Line], language: str) -> Iterator[Gate]:
    """Every gate that was acknowledged, with what its checks said."""
    for each in met:
        if each.step and each.step.kind == "gate":
            told = lines[each.entry.sequence]
            checks = (
                _confirmed(written(check.say, language), person)
                for check, person in checks_of(each.step, each.before)
            )
            yield Gate(
                sequence=told.sequence,
                at=told.at,
                person=told.person,
                title=told.title,
                checks=tuple(map(visible, checks)),
                seconds=visible(each.entry.data.get("seconds", "")),
                note=told.note,
            )
