"""Every trigger from every place, with nothing, with what is plausible and with what is hostile.

What may come of it is judged by hand: by dangers, by the ways that the procedure's text lays and
by the journal. What the code thinks of dangers and ways is not asked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from itertools import count, product
from types import ModuleType
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from hypothesis.stateful import run_state_machine_as_test as run_machine

from guide.plain import NotAllowed, Refusal
from guide.procedure.load import load
from guide.procedure.shelf import files
from guide.walk.fold import Fold
from guide.walk.looking import ASKED, answers
from guide.walk.machine import TRIGGERS, Course
from guide.walk.making_safe import wanted_to_safe
from guide.walk.setup import Setup
from guide.walk.state import BESIDES_STEPS, MAKING_SAFE, MAKING_SURE, State
from guide.walk.world import UNKNOWN, as_dict, value

PROCEDURES = {path.stem: load(path) for path in files()}
FOLDS = {name: Fold(procedure) for name, procedure in PROCEDURES.items()}
"""Kept from one random walk to the next: what a fold has found out about ways stays true."""
each_procedure = pytest.mark.parametrize("name", sorted(PROCEDURES))
OTHER = "B. Sample"
KNOWN_TRIGGERS = {
    "done", "acknowledge", "record", "deviate", "correct", "again", "pause", "resume", "take-over",
    "abandon",
}  # fmt: skip
FORGED = {
    "did": ["restore power"], "figures": {"verdict": "within", "judged": "forged"},
    "ends": "forged", "world": {"power": "isolated"}, "learned": "forged",
    "faster_than_read": "forged", "outcome": {"as_left": "forged"}, "role": "supervisor",
}  # fmt: skip
"""What only the tool may add to an event."""


def plausible(walk: Setup, before: str) -> dict[str, dict[str, Any]]:
    """For each trigger, what a person might really enter with it."""
    facts = walk.state.facts
    fact = next((each for each in facts if each != "lathe"), "nose")
    old = facts.get(fact, "")
    return {
        "again": {"step": before},
        "pause": {"why": "invented"},
        "deviate": {"why": "invented", "allowed": {"person": OTHER}},
        "abandon": {"why": "invented"},
        "correct": {"fact": fact, "old": old, "new": old, "why": "invented"},
    }


HOSTILE: tuple[dict[Any, Any], ...] = (
    {"seen": {}}, {"seen": "all well"}, {"seen": ["a"]}, {"left": "yes"},
    {"values": ["1", "2", "3"], "angles": ["x", "y", "z"]},
    {"values": ["1", "2", "3"], "angles": [None, [], {}]}, {"values": ["1"], "angles": "abc"},
    {"values": ["0", "0", "0"], "graduation": ["0.1 in"]}, {"got": "0.1", "tightened": "x"},
    {"values": ["0", "0", "0"], "graduation": "-1 in"}, {"got": "0.1", "tightened": ["1"]},
    {"got": "0.1", "tightened": 99}, {"got": "0.1", "tightened": "-1"},
    {"checks": []}, {"checks": {"1": "yes"}}, {"checks": ["1", "1"]},
    {"facts": "x"}, {"facts": {"nose": "threaded", "power": "isolated"}}, {"facts": {}},
    {"values": ["nan"]}, {"values": ["1", "2"], "angles": ["0"]}, {"values": ["1e999", "0", "0"]},
    {"values": ["1", "2", "3"], "angles": ["0", "0", "0"]}, {"values": [["1"], ["2"], ["3"]]},
    {"values": ["1", "2", "3"], "angles": ["nan", "inf", "0"]}, {"values": {"0": "1"}},
    {"pushed": "x", "pulled": "1"}, {"screw": 99, "value": "0"}, {"screw": "1", "value": "0"},
    {"screw": 1, "value": "x"}, {"got": "NaN"}, {"decision": "accept"}, {"decision": ["accept"]},
    {"decision": "stop"}, {"name": OTHER}, {"name": None}, {"why": "\ud800"}, {"why": ["x"]},
    {"n": 0.5}, {5: "x"}, {"n": 2**60}, {"n": object()}, {"step": "sign-off"}, {"step": ["a"]},
    {"fact": "nose", "old": "long", "new": "threaded"}, {"fact": "lathe", "old": "x", "new": "y"},
    {"fact": "power", "old": "restored", "new": "isolated"}, {"action": "restore power"},
    {"action": "release", "checks": ["1", "2"]}, {**FORGED}, {"place": "finished"},
    {"why": "x", "allowed": OTHER}, {"why": " ", "allowed": {"person": OTHER}}, {"witness": OTHER},
    {"witness": {"person": OTHER, "role": 3}}, {"why": "x", "allowed": {"person": ""}},
)  # fmt: skip
"""What nobody enters, or only in order to get past something."""

Judge = Callable[[Setup, State, str, Mapping[str, Any]], None]


@pytest.fixture(scope="module")
def judge(by_hand: ModuleType, by_the_book: ModuleType) -> Judge:
    """Judges an act that was accepted, by the state before it and the state that it made."""

    def judged(walk: Setup, before: State, trigger: str, data: Mapping[str, Any]) -> None:
        after = walk.state
        assert after.sequence == before.sequence + 1
        assert by_the_book.may_lead(walk.procedure, trigger, before, after), (
            before.place, trigger, after.place,
        )  # fmt: skip
        if "seen" not in data:
            new = by_hand.dangers(as_dict(after.world)) - by_hand.dangers(as_dict(before.world))
            assert not new, (before.place, trigger, new)
        if before.place in BESIDES_STEPS and before.place not in (MAKING_SAFE, MAKING_SURE):
            assert as_dict(after.world) == as_dict(before.world) | unconfirmed(after)
        written = walk.journal.events(after.setup)[-1].data
        forged = {name for name in FORGED if name in data and written.get(name) == data[name]}
        assert not forged, forged

    return judged


def unconfirmed(state: State) -> dict[str, str]:
    """What a pause, a resumption or another person makes of a gate's confirmations."""
    names = ("gate", "dressed", "bystanders")
    return {name: value(state.world, name) for name in names if state.world != UNKNOWN}


def tried(walk: Setup, trigger: str, data: Mapping[str, Any], person: str, judge: Judge) -> bool:
    """An act, judged where it is accepted; where it is refused nothing was written or changed."""
    before, events = walk.state, walk.journal.events(walk.state.setup)
    said = ""
    try:
        walk.act(trigger, data, person=person, at="2030-01-31T09:00:00.000Z")
    except Refusal as refusal:
        said = str(refusal)
    if said:
        assert walk.state is before
        assert walk.journal.events(before.setup) == events
    else:
        assert walk.journal.events(before.setup)[:-1] == events
        judge(walk, before, trigger, data)
    return not said


@each_procedure
def test_no_trigger_leads_from_any_place_to_a_danger_or_off_the_laid_ways(
    name: str, driver: ModuleType, memory: ModuleType, judge: Judge
) -> None:
    """Every place of the driven walks, every trigger, empty, plausible and hostile."""
    tried_at: set[str] = set()
    accepted, rotating = set(), count()
    for case in driver.cases(PROCEDURES[name]):
        walk = driver.opened(memory.Memory(), PROCEDURES[name])
        before = ""
        for _ in driver.go_on(walk, case.facts, out=1):
            place = walk.state.place
            if place not in tried_at:
                tried_at.add(place)
                for trigger, data, person in attempts(walk, before, case.facts, driver, rotating):
                    attacked = driver.forked(walk)
                    if tried(attacked, trigger, data, person, judge):
                        accepted.add((place, trigger))
            before = place
    assert {trigger for _, trigger in accepted} == KNOWN_TRIGGERS
    assert len(tried_at) > 0.7 * len(PROCEDURES[name].steps)


def attempts(
    walk: Setup, before: str, chosen: Mapping[str, str], driver: ModuleType, rotating: Iterator[int]
) -> Iterator[tuple[str, Mapping[Any, Any], str]]:
    """Acts to try: all that is hostile under the present trigger, some of it under the others."""
    trigger, data = driver.usual(walk, chosen)
    person = walk.state.person
    yield trigger, {**data, **FORGED}, person
    yield trigger, data, OTHER
    for each in HOSTILE:
        yield trigger, each, person
    for other in sorted(KNOWN_TRIGGERS - {trigger}):
        yield other, {}, person
        yield other, {**data, **plausible(walk, before).get(other, {})}, person
        yield other, HOSTILE[next(rotating) % len(HOSTILE)], person
    yield "take-over", {}, OTHER


@each_procedure
def test_the_machine_has_no_trigger_that_jumps(name: str) -> None:
    """No `to_…` exists on the machine or its model, and only the ten triggers do anything."""
    course = Course(PROCEDURES[name])
    for way in [*course.ways]:
        course.lay(*way)
    assert set(TRIGGERS) == KNOWN_TRIGGERS
    assert set(course.machine.events) == KNOWN_TRIGGERS
    for thing in (course.machine, course.standing):
        assert not [each for each in dir(thing) if each.startswith("to_")]
    for place in course.machine.states:
        assert set(course.machine.get_triggers(place)) <= KNOWN_TRIGGERS
        assert place not in ("finished", "abandoned") or not course.machine.get_triggers(place)


def test_the_course_goes_past_no_gate_whatever_the_fold_would_say() -> None:
    """From a gate nothing but its acknowledgement leads on, and nothing is written for the rest."""
    for procedure in PROCEDURES.values():
        course, written = Course(procedure), list[str]()
        names = [step.name for step in procedure.steps]
        ends = [each for each in BESIDES_STEPS if each in ("made-safe", "making-safe", "finished")]
        for number, step in enumerate(procedure.steps):
            behind = [*names[number + 1 :], *ends] if step.kind == "gate" else []
            for trigger, to in product(sorted(KNOWN_TRIGGERS - {"acknowledge"}), behind):
                with pytest.raises(NotAllowed):
                    course.go(step.name, trigger, to, partial(written.append, to))
        assert not written


def test_where_the_journal_cannot_be_written_nothing_has_happened(
    driver: ModuleType, memory: ModuleType
) -> None:
    """The journal is written before anything is true; when it refuses, the walk stands still."""
    for procedure in PROCEDURES.values():
        case = next(iter(driver.cases(procedure)))
        walk = driver.opened(memory.Memory(), procedure)
        for _ in driver.go_on(walk, case.facts):
            before, walk.journal.full = walk.state, True
            with pytest.raises(Refusal):
                driver.do(walk, driver.usual(walk, case.facts))
            assert walk.state is before
            walk.journal.full = False
        assert driver.replays_the_same(walk)


class Anything(RuleBasedStateMachine):
    """A setup to which anything is done, allowed or not, broken off and gone on with."""

    driver: ModuleType
    memory: ModuleType
    judge: Judge

    @initialize(data=st.data())
    def opens(self, data: st.DataObject) -> None:
        """A new setup on a lathe of any kind; it stands somewhere in the walk."""
        procedure = PROCEDURES[data.draw(st.sampled_from(sorted(PROCEDURES)))]
        case = data.draw(st.sampled_from(list(self.driver.cases(procedure))))
        self.chosen = case.facts
        self.walk = self.driver.opened(self.memory.Memory(), procedure)
        self.walk.fold = FOLDS[procedure.name]
        far = data.draw(st.integers(0, 80))
        for number, _ in enumerate(self.driver.go_on(self.walk, self.chosen, out=1)):
            if number == far:
                break

    @property
    def going(self) -> bool:
        """Whether the setup has not ended."""
        return not self.walk.state.ended

    def tried(self, trigger: str, data: Mapping[str, Any], person: str = "") -> None:
        """An act as the person at the lathe or another, judged."""
        tried(self.walk, trigger, data, person or self.walk.state.person, self.judge)

    @precondition(lambda self: self.going)
    @rule()
    def goes_on(self) -> None:
        """What a person would do here."""
        trigger, data = self.driver.usual(self.walk, self.chosen, out=1)
        self.tried(trigger, data)

    @rule(trigger=st.sampled_from(TRIGGERS), data=st.sampled_from(HOSTILE))
    def attacks(self, trigger: str, data: Mapping[Any, Any]) -> None:
        """Anything with anything; where the setup has ended nothing is accepted."""
        ended, before = self.walk.state.ended, self.walk.state
        self.tried(trigger, data)
        assert not ended or self.walk.state is before

    @precondition(lambda self: self.going)
    @rule(trigger=st.sampled_from(TRIGGERS))
    def presses(self, trigger: str) -> None:
        """Any trigger with what belongs to the present place."""
        _, data = self.driver.usual(self.walk, self.chosen, out=1)
        self.tried(
            trigger, {**data, **plausible(self.walk, self.walk.state.place).get(trigger, {})}
        )

    @precondition(lambda self: self.going)
    @rule()
    def pauses(self) -> None:
        """Work is broken off."""
        self.tried("pause", {"why": "invented"})

    @precondition(lambda self: self.going)
    @rule(person=st.sampled_from([OTHER, "C. Sample"]))
    def takes_over(self, person: str) -> None:
        """Another person comes, or the same one asks for it."""
        self.tried("take-over", {}, person)

    @precondition(lambda self: self.going)
    @rule()
    def crashes(self) -> None:
        """The process dies; another one goes on from the journal."""
        self.walk.state = self.driver.folded(self.walk)
        self.tried("resume", {})

    @precondition(lambda self: self.going and self.walk.state.place == MAKING_SURE)
    @rule(data=st.data())
    def finds_something_else(self, data: st.DataObject) -> None:
        """One or several things are found other than they were recorded."""
        state = self.walk.state
        seen = self.driver.as_recorded(state)
        for name in data.draw(st.lists(st.sampled_from(ASKED), min_size=1, max_size=5)):
            may_be = answers(name, state.world, state.facts)
            seen[name] = data.draw(st.sampled_from(may_be))
        self.tried("record", {"seen": self.driver.answerable(state, seen)})

    @precondition(lambda self: self.going and self.walk.state.place == MAKING_SAFE)
    @rule()
    def makes_safe_in_any_order(self) -> None:
        """Another action than the one that is wanted is refused."""
        wanted = wanted_to_safe(self.walk.state.world, self.walk.state.facts)
        for action in ("release", "restore power", "see isolated", "take off nose", "clear away"):
            if action != wanted.action:
                before = self.walk.state
                self.tried(wanted.trigger, {"action": action, "checks": ["1", "2"]})
                assert self.walk.state is before

    @invariant()
    def the_events_alone_make_the_state(self) -> None:
        """Whoever reads the journal has the same state, equal in everything."""
        assert self.driver.folded(self.walk) == self.walk.state

    def teardown(self) -> None:
        """At the end a new process reads the text and the events, and has the same state too."""
        if self.walk.state.sequence % 7 == 0:
            assert self.driver.replays_the_same(self.walk)


def test_whatever_is_done_in_any_order_leads_to_no_danger_and_replays_the_same(
    driver: ModuleType, memory: ModuleType, judge: Judge
) -> None:
    """Random acts, pauses, crashes, take-overs and findings; every act judged by hand."""
    bound = {"driver": driver, "memory": memory, "judge": staticmethod(judge)}
    machine = type("AnythingHere", (Anything,), bound)
    run_machine(
        machine,
        settings=settings(
            max_examples=40,
            stateful_step_count=25,
            deadline=None,
            phases=[Phase.explicit, Phase.generate],
            suppress_health_check=list(HealthCheck),
        ),
    )


@each_procedure
def test_only_the_step_just_done_is_done_again(
    name: str, driver: ModuleType, memory: ModuleType
) -> None:
    """Another one that might have led here under other facts is refused."""
    tried_any = 0
    for case in driver.cases(PROCEDURES[name], ("camlock",)):
        walk = driver.opened(memory.Memory(), PROCEDURES[name])
        last = ""
        for _ in driver.go_on(walk, case.facts, out=1):
            for step in PROCEDURES[name].steps:
                if step.name != last and step.kind in ("facts", "readings"):
                    tried_any += 1
                    with pytest.raises(NotAllowed):
                        driver.do(driver.forked(walk), ("again", {"step": step.name}))
            last = walk.state.place
    assert tried_any


@each_procedure
def test_what_a_step_does_is_written_whatever_else_is_entered(
    name: str, driver: ModuleType, memory: ModuleType
) -> None:
    """`left` belongs to a correction; at any other step the actions done stand in the record."""
    case = next(iter(driver.cases(PROCEDURES[name])))
    walk = driver.opened(memory.Memory(), PROCEDURES[name])
    for each in driver.go_on(walk, case.facts):
        if each.step is not None and each.step.kind == "task":
            trigger, data = driver.usual(each, case.facts)
            if "seen" not in data:
                other = driver.forked(each)
                driver.do(other, (trigger, {**data, "left": "yes"}))
                assert "did" in other.state.entries[-1].data
