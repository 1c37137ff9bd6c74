"""Every gate of every shipped procedure, attacked: what stands behind it stays out of reach.

Each gate is attacked where a real walk stands before it. Nothing is asked of the gate's own code:
an attack is refused and writes nothing, or it leads aside, and the gate is still shut afterwards.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, datetime
from itertools import product
from pathlib import Path
from types import ModuleType
from typing import Any, NamedTuple

import pytest

from guide.journal.event import Event
from guide.journal.store import Store
from guide.plain import Refusal
from guide.procedure.load import load
from guide.procedure.model import Procedure
from guide.procedure.problem import Place
from guide.procedure.shelf import files
from guide.procedure.vocabulary import TRIGGER
from guide.rehearse import Answer, Answers, go_on, read_answers
from guide.walk.looking import UNSEEN
from guide.walk.machine import TRIGGERS
from guide.walk.recording import checks_of
from guide.walk.setup import Setup, replayed, resume_setup
from guide.walk.state import MAKING_SURE, PAUSED, State
from guide.walk.world import as_dict, value

PROCEDURES = {path.stem: load(path) for path in files()}
GATES = [
    (name, step.name)
    for name, procedure in PROCEDURES.items()
    for step in procedure.steps
    if step.kind == "gate"
]
each_gate = pytest.mark.parametrize(("name", "gate"), GATES, ids=[f"{p}-{g}" for p, g in GATES])
OTHER = "B. Sample"
TO_LOOK_AT = ("gate", "dressed", "bystanders", "swing", "reads", "series")
"""What a look, a pause or another person makes unconfirmed; the rest is the machine itself."""


class Shut(NamedTuple):
    """A walk that stands before a gate, the one it came from, and what is behind."""

    walk: Setup
    before: Setup
    chosen: Mapping[str, str]
    behind: str


Found = Callable[[str, str], Shut]
Act = tuple[str, Mapping[str, Any]]


@pytest.fixture(scope="module")
def found(driver: ModuleType, memory: ModuleType) -> Found:
    """For a gate, a walk that stands there: the first that comes to it, broken off or not."""
    kept: dict[str, dict[str, Shut]] = {}

    def at(name: str, gate: str) -> Shut:
        kept.setdefault(name, {})
        if gate not in kept[name]:
            for broken_off in (("never", "under power"), ("before a reading",)):
                if gate in kept[name]:
                    break
                for shut in _all_shut(PROCEDURES[name], driver, memory, broken_off):
                    kept[name].setdefault(shut.walk.state.place, shut)
        assert gate in kept[name], f"no walk comes to the gate {gate}"
        shut = kept[name][gate]
        return shut._replace(walk=driver.forked(shut.walk), before=driver.forked(shut.before))

    return at


def _all_shut(
    procedure: Procedure, driver: ModuleType, memory: ModuleType, broken_off: tuple[str, ...]
) -> Iterator[Shut]:
    """Every time that a walk stands before a gate, broken off in each of some ways."""
    gates = {step.name for step in procedure.steps if step.kind == "gate"}
    for case, way in product(driver.cases(procedure), broken_off):
        walk = driver.opened(memory.Memory(), procedure)
        before = walk
        while gates and not walk.state.ended:
            if walk.state.place in gates:
                gates.remove(walk.state.place)
                yield _shut(walk, before, case.facts, driver)
            before = driver.forked(walk)
            driver.do(walk, _next(walk, case.facts, way, driver))


def _next(walk: Setup, chosen: Mapping[str, str], broken_off: str, driver: ModuleType) -> Act:
    """The plausible act, but for one pause under power, or one before each kind of reading."""
    paused = {entry.place for entry in walk.state.entries if entry.kind == "pause"}
    powered = value(walk.state.world, "power") == "restored"
    if broken_off == "under power" and not paused and powered:
        return "pause", {"why": "invented"}
    reads = walk.step is not None and walk.step.kind == "readings"
    if broken_off == "before a reading" and reads and walk.state.place not in paused:
        return "pause", {"why": "invented"}
    if walk.state.place == MAKING_SURE:
        dressed = "other" if broken_off == "before a reading" else "for-turning"
        return "record", {"seen": driver.as_recorded(walk.state, dressed=dressed)}
    act: Act = driver.usual(walk, chosen, out=1)
    return act


def _shut(walk: Setup, before: Setup, chosen: Mapping[str, str], driver: ModuleType) -> Shut:
    """A walk before a gate, and where the gate leads when it is acknowledged."""
    passed = driver.forked(walk)
    driver.do(passed, driver.usual(passed, chosen))
    return Shut(driver.forked(walk), before, chosen, passed.state.place)


def refused(walk: Setup, trigger: str, data: Mapping[str, Any], person: str = "") -> None:
    """The act is refused, nothing is written and nothing has changed."""
    state, written = walk.state, walk.journal.events(walk.state.setup)
    with pytest.raises(Refusal):
        walk.act(trigger, data, person=person or state.person, at="2030-01-31T09:00:00.000Z")
    assert walk.state is state
    assert walk.journal.events(state.setup) == written


def still_shut(shut: Shut, gate: str, driver: ModuleType) -> None:
    """The walk is not past the gate, and there the act of the step behind it is refused."""
    back_at(shut.walk, gate)
    behind = shut.walk.procedure.by_name.get(shut.behind)
    if shut.walk.state.place == gate and behind is not None and behind.kind != "gate":
        refused(shut.walk, TRIGGER[behind.kind], driver.entered(shut.walk, behind, shut.chosen, 0))


def back_at(walk: Setup, gate: str) -> None:
    """The walk stands at a gate, or at a step before it, and not at one behind it."""
    order = walk.procedure.order
    assert walk.state.place in order, walk.state.place
    assert order[walk.state.place] <= order[gate]


@each_gate
def test_no_other_trigger_passes_a_gate(
    name: str, gate: str, found: Found, driver: ModuleType
) -> None:
    """Done, record and the rest are refused there, empty or with the gate's own answer."""
    shut = found(name, gate)
    checks = driver.usual(shut.walk, shut.chosen)[1]
    for trigger in sorted({*TRIGGERS, "to_finished", "open", ""} - {"acknowledge"}):
        for data in (
            {},
            checks,
            {**checks, "why": ""},
            {"seen": driver.as_recorded(shut.walk.state)},
        ):
            if trigger in ("pause", "resume"):
                continue
            refused(shut.walk, trigger, data)
    still_shut(shut, gate, driver)


def wrong_checks(count: int) -> Iterator[Any]:
    """Everything that is not each number once."""
    right = [str(number) for number in range(1, count + 1)]
    yield from ([*right[:n], *right[n + 1 :]] for n in range(count))
    yield from ([*right, each] for each in (str(count + 1), "0", "-1", "", "all", right[0]))
    yield from ([right[0]] * count, [*right, *right]) if count > 1 else ([[*right, *right]])
    yield from ([], None, "", "".join(right), ",".join(right), True, count, {"1": "yes"})
    yield from ([True] * count, [None] * count, [[each] for each in right], [right])
    yield from ([f"{each}.0" for each in right], [f" {each}" for each in right])
    yield [chr(0x0660 + number) for number in range(1, count + 1)]


@each_gate
def test_only_each_check_once_by_its_own_number_opens_a_gate(
    name: str, gate: str, found: Found, driver: ModuleType
) -> None:
    """Missing, extra, repeated, empty or of the wrong type: refused; then the right ones pass."""
    shut = found(name, gate)
    step = shut.walk.step
    assert step is not None
    count = len(checks_of(step, shut.walk.state))
    assert count >= 1
    for checks in wrong_checks(count):
        refused(shut.walk, "acknowledge", {"checks": checks})
        refused(shut.walk, "acknowledge", {"checks": checks, "seconds": "60", "confirmed": "yes"})
    refused(shut.walk, "acknowledge", {})
    driver.do(shut.walk, driver.usual(shut.walk, shut.chosen))
    assert shut.walk.state.place == shut.behind


@each_gate
def test_a_gate_is_not_acknowledged_before_the_walk_comes_to_it(
    name: str, gate: str, found: Found, driver: ModuleType
) -> None:
    """Its checks given at the step before are refused there or are no acknowledgement."""
    shut = found(name, gate)
    checks = driver.usual(shut.walk, shut.chosen)[1]
    early = shut.before
    if early.step is None or early.step.kind != "gate":
        refused(early, "acknowledge", checks)
    trigger, data = driver.usual(early, shut.chosen)
    if early.step is not None and "checks" not in data:
        driver.do(early, (trigger, {**data, **checks, "step": gate}))
        assert early.state.place == gate
        refused(early, TRIGGER["task"], {"checks": checks["checks"]})


@each_gate
def test_an_acknowledgement_given_elsewhere_or_earlier_does_not_count(
    name: str, gate: str, found: Found, driver: ModuleType, tmp_path: Path
) -> None:
    """An old event written again, and one that names the gate from the step before, are refused."""
    shut = found(name, gate)
    passed = driver.forked(shut.walk)
    driver.do(passed, driver.usual(passed, shut.chosen))
    old = passed.journal.events(passed.state.setup)[-1]
    with Store(tmp_path / "journal.sqlite3") as store:
        for event in passed.journal.events(passed.state.setup):
            store.append(event)
        with pytest.raises(Refusal):
            store.append(old)
    driver.do(passed, ("abandon", {"why": "invented"}))
    with pytest.raises(Refusal):
        passed.fold.after(passed.state, old)
    early = shut.before.state
    if shut.before.step is not None and shut.before.step.kind != "gate":
        forged = _event(early, "acknowledge", dict(old.data), gate)
        with pytest.raises(Refusal):
            shut.before.fold.after(early, forged)


def _event(state: State, kind: str, data: Mapping[str, Any], step: str) -> Event:
    """An event that was not made by the setup."""
    at = "2030-01-31T09:00:00.000Z"
    return Event(state.setup, state.sequence + 1, at, state.person, step, kind, data, "0" * 64)


@each_gate
def test_a_pause_or_a_crash_at_a_gate_leaves_it_shut(
    name: str, gate: str, found: Found, driver: ModuleType
) -> None:
    """Paused or not, everything seen as recorded, the walk comes back to the gate or before it."""
    for pause in (True, False):
        shut = found(name, gate)
        walk, was = shut.walk, shut.walk.state
        if pause:
            driver.do(walk, ("pause", {"why": "invented"}))
            assert walk.state.place == PAUSED
            refused(walk, "acknowledge", driver.usual(driver.forked(found(name, gate).walk), {})[1])
            refused(walk, "done", {})
            driver.do(walk, ("resume", {}))
        else:
            walk = resume_setup(walk.journal, was.setup, person=was.person, at=driver.AT)
        assert walk.state.place == MAKING_SURE
        refused(walk, "acknowledge", {"checks": driver.numbers(5)})
        driver.do(walk, driver.usual(walk, shut.chosen))
        same_machine(was, walk.state)
        still_shut(shut._replace(walk=walk), gate, driver)


def test_a_gate_right_before_the_landing_is_passed_again(
    driver: ModuleType, memory: ModuleType
) -> None:
    """Whatever is said of dress and bystanders, no gate is jumped that was perhaps never passed."""
    for procedure in PROCEDURES.values():
        landed = 0
        for case in driver.cases(procedure, ("camlock",)):
            walk = driver.opened(memory.Memory(), procedure)
            for each in driver.go_on(walk, case.facts):
                if as_dict(each.state.world)["power"] not in ("isolated", "restored"):
                    continue
                other = driver.forked(each)
                driver.do(other, ("pause", {"why": "invented"}))
                driver.do(other, ("resume", {}))
                ready = driver.as_recorded(other.state, dressed="for-turning", bystanders="clear")
                present = other.state.present
                driver.do(other, ("record", {"seen": ready}))
                step = other.step
                landed += step is not None
                if step is None or step.name == present or step.kind == "gate":
                    continue
                told = {**other.state.facts, **as_dict(other.state.world)}
                earlier = procedure.steps[: procedure.order[step.name]]
                let_in = [s for s in earlier if s.when is None or holds(s.when.text, told)]
                assert not let_in or let_in[-1].kind != "gate", (present, step.name)
        assert landed


def holds(text: str, told: Mapping[str, str]) -> bool:
    """A condition over machine state and facts, as written."""
    return any(
        all(told.get(n.strip(), "unknown") in v.split("/") for n, _, v in map(_parts, each))
        for each in (one.split(" and ") for one in text.split(" or "))
        if not any(term.strip().startswith("not ") for term in each)
    )


def _parts(term: str) -> tuple[str, str, str]:
    """A term's name, sign and values."""
    return term.partition("=")


def same_machine(was: State, now: State) -> None:
    """Nothing of the machine itself has changed, but for the power that a pause cuts.

    Where the power is on no wrench goes on anything, and what only a wrench tells is weaker.
    """
    before, after = as_dict(was.world), as_dict(now.world)
    aside = {
        *TO_LOOK_AT,
        *(("power", "spindle", "result") if before["power"] == "restored" else ()),
    }
    if before["power"] == "restored":
        before |= weakest(before)
        after |= weakest(after)
    looked_at = {name for name in before if before[name] != "unknown"}
    assert not {name for name in looked_at if before[name] != after[name]} - aside


@each_gate
def test_another_person_finds_the_gate_shut(
    name: str, gate: str, found: Found, driver: ModuleType
) -> None:
    """Who is not at the lathe acknowledges nothing; who takes over looks first, then the gate."""
    shut = found(name, gate)
    walk, was = shut.walk, shut.walk.state
    checks = driver.usual(walk, shut.chosen)[1]
    refused(walk, "acknowledge", checks, OTHER)
    driver.do(walk, ("take-over", {}), OTHER)
    assert walk.state.place == MAKING_SURE
    refused(walk, "acknowledge", checks)
    refused(walk, "record", {"seen": driver.as_recorded(walk.state)}, was.person)
    driver.do(walk, driver.usual(walk, shut.chosen))
    back_at(walk, gate)
    step = walk.procedure.by_name[gate]
    each = sum(check.each_person for check in step.checks)
    assert len(checks_of(step, walk.state)) == len(checks_of(step, was)) + each
    if each and walk.state.place == gate:
        refused(walk, "acknowledge", checks)


@each_gate
def test_a_step_done_again_or_a_fact_corrected_leads_back_to_the_gate(
    name: str, gate: str, found: Found, driver: ModuleType
) -> None:
    """Neither goes past it; whatever is corrected, the walk stands at the gate or before it.

    What an answer settled without being asked has no line to correct.
    """
    shut = found(name, gate)
    for step in shut.walk.procedure.steps:
        walk = driver.forked(shut.walk)
        try:
            driver.do(walk, ("again", {"step": step.name}))
        except Refusal:
            continue
        still_shut(shut._replace(walk=walk), gate, driver)
    asked = shut.walk.procedure.facts
    for fact, old in shut.walk.state.facts.items():
        described = asked.get(fact)
        if described is None:
            continue
        for new in described.closed or (old,):
            walk = driver.forked(shut.walk)
            try:
                driver.do(walk, ("correct", {"fact": fact, "old": old, "new": new, "why": "typed"}))
            except Refusal:
                continue
            if walk.state.place == MAKING_SURE:
                driver.do(walk, driver.usual(walk, shut.chosen))
            if walk.state.place in walk.procedure.order:
                still_shut(shut._replace(walk=walk), gate, driver)


@each_gate
def test_answers_that_leave_a_gate_out_stop_at_it(
    name: str, gate: str, found: Found, driver: ModuleType
) -> None:
    """The answers to all that follows are refused one by one, with and without their step."""
    shut = found(name, gate)
    passed = driver.forked(shut.walk)
    driver.do(passed, driver.usual(passed, shut.chosen))
    rest = []
    for walk in driver.go_on(passed, shut.chosen):
        if walk.step is not None and len(rest) < 3:
            trigger, data = driver.usual(walk, shut.chosen)
            rest += [(walk.state.place, trigger, data), ("", trigger, data)]
    for place, trigger, data in rest:
        if trigger == "acknowledge" and not place:
            continue
        walk = driver.forked(shut.walk)
        answer = Answer(place, trigger, walk.state.person, data, Place(1, 1))
        with pytest.raises(Refusal):
            go_on(walk, _answers(walk.procedure.name, driver), [answer])
        assert walk.state is shut.walk.state


def _answers(procedure: str, driver: ModuleType) -> Answers:
    """An answers file without any answers."""
    begins = datetime(2030, 1, 31, tzinfo=UTC)
    return Answers("answers.yaml", procedure, driver.PERSON, driver.LATHE, begins, ())


@each_gate
def test_the_step_behind_a_fresh_gate_is_not_done_once_the_gate_is_spent(
    name: str, gate: str, found: Found, driver: ModuleType
) -> None:
    """A pause behind a gate that opens something leads back to the gate or before it."""
    shut = found(name, gate)
    step = shut.walk.procedure.by_name[gate]
    driver.do(shut.walk, driver.usual(shut.walk, shut.chosen))
    assert value(shut.walk.state.world, "gate") == (step.opens or "none")
    driver.do(shut.walk, ("pause", {"why": "invented"}))
    assert value(shut.walk.state.world, "gate") == "none"
    driver.do(shut.walk, ("resume", {}))
    driver.do(shut.walk, driver.usual(shut.walk, shut.chosen))
    if step.opens:
        back_at(shut.walk, gate)


@pytest.mark.parametrize("name", sorted(PROCEDURES))
def test_a_whole_answers_file_stops_at_each_gate_that_it_leaves_out(
    name: str, driver: ModuleType, memory: ModuleType, tmp_path: Path
) -> None:
    """The journal ends at the gate: nothing behind it was written."""
    import json

    procedure = PROCEDURES[name]
    case = next(iter(driver.cases(procedure)))
    walk = driver.opened(memory.Memory(), procedure)
    given = []
    for each in driver.go_on(walk, case.facts):
        trigger, data = driver.usual(each, case.facts)
        given.append({"step": each.state.place, "do": trigger, **data})
    assert walk.state.place == "finished"
    gates = [n for n, g in enumerate(given) if g["do"] == "acknowledge"]
    assert len(gates) >= 3
    for number in gates[:: max(1, len(gates) // 4)]:
        file = tmp_path / f"{number}.yaml"
        top = {"procedure": name, "person": driver.PERSON, "lathe": driver.LATHE}
        left = [*given[:number], *given[number + 1 :]]
        file.write_text(json.dumps({**top, "begins": "2030-01-31T08:00", "answers": left}))
        answers = read_answers(file)
        attacked = driver.opened(memory.Memory(), procedure, mode="rehearsal")
        with pytest.raises(Refusal):
            go_on(attacked, answers, answers.answers)
        assert attacked.state.place == given[number]["step"]
        assert replayed(attacked.journal, "walk").state == attacked.state


def weakest(known: dict[str, str]) -> dict[str, str]:
    """What is recorded of a world where no wrench may go on: the weaker of what it would tell."""
    return {n: weak for n, (strong, weak) in UNSEEN.items() if known[n] == strong}
