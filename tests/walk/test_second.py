"""The second person: who has to stand beside where, and who may not; who may allow a deviation."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from itertools import product
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from guide.journal.event import Event
from guide.journal.keys import public_of, signed_by
from guide.people.hand import Hand
from guide.plain import BadInput, NotAllowed, Refusal
from guide.procedure.load import read
from guide.procedure.model import Procedure
from guide.roles import ROLES, at_least
from guide.walk.second import unsigned_text, wanted_at
from guide.walk.setup import Setup, open_setup

AT = "2031-03-02T08:00:00.000Z"
RECORDS = Path(__file__).parents[1] / "records"
KINDS = ("gate", "verdict", "sign-off")
WITH_NONE = ("", *ROLES)
TEXT = (RECORDS / "paper.yaml").read_text(encoding="utf-8")
Act = tuple[str, Mapping[str, Any], str]


def hand(name: str, role: str, number: int) -> Hand:
    """Somebody with a key made of a number."""
    seed = bytes([number]) * 32
    return Hand(name, role, public_of(seed), seed)


ACTING = {role: hand("A. Sample", role, 1) for role in ROLES}
BESIDE = {role: hand("B. Sample", role, 2) for role in ROLES}


@pytest.fixture(scope="module")
def script() -> ModuleType:
    """Everything that is done in the short procedure."""
    spec = spec_from_file_location("walk_tests_script", RECORDS / "conftest.py")
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def asking(kind: str, role: str) -> Procedure:
    """The short procedure, each step of a kind asking for a witness of that role."""
    line = f"        kind: {kind}\n"
    return read(TEXT.replace(line, f"{line}        witness: {role}\n"), "paper.yaml")


@pytest.fixture
def opened(memory: ModuleType) -> Callable[..., Setup]:
    """A setup of A. Sample, signed unless told otherwise."""

    def make(
        procedure: Procedure, role: str = "machinist", signed: bool = True, **rules: str
    ) -> Setup:
        return open_setup(
            memory.Memory(), procedure, setup="walk", person="A. Sample", at=AT,
            lathe="Lathe 9 (invented)", mode="real" if signed else "practice",
            hand=ACTING[role] if signed else None, witness=rules,
        )  # fmt: skip

    return make


def acts(script: ModuleType, walk: Setup) -> Iterator[Act]:
    """What one person does in the short procedure, from the start to the end."""
    for number, act in enumerate(script.script(walk, "A. Sample", "dinner break", {})):
        if not 9 <= number <= 14:
            yield act


def refused(walk: Setup, trigger: str, data: Mapping[str, Any], **besides: Any) -> str:
    """Why an act is refused; nothing is written and nothing becomes true by it."""
    before, events = walk.state, walk.journal.events("walk")
    with pytest.raises(Refusal) as why:
        walk.act(trigger, data, person="A. Sample", at=AT, **besides)
    assert (walk.state, walk.journal.events("walk")) == (before, events)
    return str(why.value)


@pytest.mark.parametrize("kind", KINDS)
def test_of_the_roles_that_procedure_and_shop_ask_for_the_higher_counts(opened, kind: str) -> None:
    """All sixteen pairs, blank where neither asks."""
    walk = opened(read(TEXT, "paper.yaml"))
    step = next(each for each in walk.procedure.steps if each.kind == kind)
    for own, shop in product(WITH_NONE, WITH_NONE):
        opening = {"witnesses": {kind: shop}} if shop else {}
        state = replace(walk.state, opening=opening)
        wanted = wanted_at(replace(step, witness=own), state)
        assert wanted == max(own, shop, key=WITH_NONE.index)


@pytest.mark.parametrize("wanted", ROLES)
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("by", ["shop", "procedure"])
def test_a_witness_stands_beside_where_one_is_asked_for_and_nowhere_else(
    opened, script: ModuleType, by: str, kind: str, wanted: str
) -> None:
    """Through a whole walk: missing, oneself and too low a role are refused at each such step."""
    shop = {kind: wanted} if by == "shop" else {}
    walk = opened(read(TEXT, "paper.yaml") if by == "shop" else asking(kind, wanted), **shop)
    met = 0
    for trigger, data, _ in acts(script, walk):
        step = walk.step
        if step is None or step.kind != kind or trigger in ("pause", "resume", "correct"):
            walk.act(trigger, data, person="A. Sample", at=AT)
            continue
        met += 1
        assert "needs a second person" in refused(walk, trigger, data)
        mine = ACTING["supervisor"]
        assert "did themselves" in refused(walk, trigger, data, beside=mine)
        other_name = replace(mine, name="Z. Sample")
        assert "did themselves" in refused(walk, trigger, data, beside=other_name)
        for role, beside in BESIDE.items():
            if not at_least(role, wanted):
                assert f"is to be a {wanted} at least" in refused(
                    walk, trigger, data, beside=beside
                )
        walk.act(trigger, data, person="A. Sample", at=AT, beside=BESIDE[wanted])
        signed(walk.journal.events("walk")[-1], "witness", BESIDE[wanted])
    assert walk.state.place == "finished"
    assert met == {"gate": 1, "verdict": 2, "sign-off": 1}[kind]


def signed(event: Event, name: str, hand: Hand) -> None:
    """The second person signed this event and no other."""
    told = event.data[name]
    assert (told["person"], told["role"], told["key"]) == (hand.name, hand.role, hand.key)
    assert signed_by(hand.key, told["signature"], unsigned_text(event, name))
    other = replace(event, sequence=event.sequence + 1)
    assert not signed_by(hand.key, told["signature"], unsigned_text(other, name))


def test_somebody_may_witness_where_nobody_asks_for_it(opened, script: ModuleType) -> None:
    """An apprentice too, and never oneself."""
    walk = opened(read(TEXT, "paper.yaml"))
    for trigger, data, _ in acts(script, walk):
        beside = BESIDE["apprentice"] if trigger == "acknowledge" else None
        if beside:
            assert "did themselves" in refused(walk, trigger, data, beside=ACTING["apprentice"])
        walk.act(trigger, data, person="A. Sample", at=AT, beside=beside)
    assert walk.state.place == "finished"


def test_in_an_unsigned_setup_a_witness_is_a_name_that_is_not_ones_own(
    opened, script: ModuleType
) -> None:
    """Typed, and every page says that nothing was signed."""
    walk = opened(asking("gate", "supervisor"), signed=False)
    for trigger, data, _ in acts(script, walk):
        told = dict(data)
        if trigger == "acknowledge":
            assert "needs a second person" in refused(walk, trigger, data)
            for name in ("A. Sample", "a.  SAMPLE ", " A. Sample"):
                witness = {"witness": {"person": name}}
                assert "did themselves" in refused(walk, trigger, told | witness)
            for blank in ({}, {"person": " "}, "B. Sample", ["B. Sample"]):
                assert "has not signed" in refused(walk, trigger, told | {"witness": blank})
            told["witness"] = {"person": "B. Sample"}
        walk.act(trigger, told, person="A. Sample", at=AT)
    assert walk.state.place == "finished"


def before_a_task(walk: Setup, script: ModuleType) -> Setup:
    """The walk standing at a task that may be left."""
    for trigger, data, _ in acts(script, walk):
        if walk.state.place == "set-up":
            return walk
        walk.act(trigger, data, person="A. Sample", at=AT)
    raise AssertionError("the walk does not come to the task")


WHY = {"why": "the stand is lent out"}


@pytest.mark.parametrize("acting", ROLES)
@pytest.mark.parametrize("allowing", ROLES)
@pytest.mark.parametrize("oneself", [False, True])
def test_who_may_allow_a_deviation(
    opened, script: ModuleType, acting: str, allowing: str, oneself: bool
) -> None:
    """A machinist at least; what one does oneself, a supervisor only."""
    walk = before_a_task(opened(read(TEXT, "paper.yaml"), acting), script)
    by = ACTING[allowing] if oneself else BESIDE[allowing]
    least = "supervisor" if oneself else "machinist"
    if not at_least(allowing, least):
        assert f"a {least} at least has to" in refused(walk, "deviate", WHY, beside=by)
        return
    walk.act("deviate", WHY, person="A. Sample", at=AT, beside=by)
    signed(walk.journal.events("walk")[-1], "allowed", by)


@pytest.mark.parametrize("why", [{}, {"why": ""}, {"why": " \t"}])
def test_a_deviation_has_a_reason(opened, script: ModuleType, why: dict[str, str]) -> None:
    """Blank is none."""
    walk = before_a_task(opened(read(TEXT, "paper.yaml")), script)
    assert "needs a reason" in refused(walk, "deviate", why, beside=BESIDE["supervisor"])


def test_a_deviation_is_allowed_by_somebody(opened, script: ModuleType) -> None:
    """Typed where nobody signs; where everybody does a typed name does not count."""
    walk = before_a_task(opened(read(TEXT, "paper.yaml")), script)
    assert "allow a deviation" in refused(walk, "deviate", WHY)
    typed = {"allowed": {"person": "B. Sample", "role": "supervisor", "key": "ab" * 32}}
    assert "allow a deviation" in refused(walk, "deviate", WHY | typed)
    alone = before_a_task(opened(read(TEXT, "paper.yaml"), signed=False), script)
    assert "allow a deviation" in refused(alone, "deviate", WHY)
    assert "has not signed" in refused(alone, "deviate", WHY | {"allowed": {"person": ""}})
    alone.act("deviate", WHY | {"allowed": {"person": "A. Sample"}}, person="A. Sample", at=AT)


@pytest.mark.parametrize("role", ROLES)
def test_who_opens_and_who_takes_over_is_on_record_with_the_role(opened, role: str) -> None:
    """As they were signed on; what was typed as a role does not count."""
    walk = opened(read(TEXT, "paper.yaml"))
    walk.hands["B. Sample"] = BESIDE[role]
    walk.act("take-over", {"role": "boss"}, person="B. Sample", at=AT)
    first, last = walk.journal.events("walk")
    assert (first.data["role"], last.data["role"], last.key) == (
        "machinist", role, BESIDE[role].key,
    )  # fmt: skip


def test_only_who_has_signed_on_acts_in_a_signed_setup(opened) -> None:
    """Taking over and abandoning too."""
    walk = opened(read(TEXT, "paper.yaml"))
    for trigger, data in (("take-over", {}), ("abandon", {"why": "called away"})):
        with pytest.raises(NotAllowed, match=r"B\. Sample has not signed on"):
            walk.act(trigger, data, person="B. Sample", at=AT)
    assert len(walk.journal.events("walk")) == 1


@pytest.mark.parametrize("name", ["people", "equipment"])
def test_no_setup_has_the_name_of_a_standing_chain(opened, memory: ModuleType, name: str) -> None:
    """Else its events would stand among those of people."""
    journal = memory.Memory()
    with pytest.raises(BadInput, match="cannot name a setup"):
        open_setup(
            journal, read(TEXT, "paper.yaml"), setup=name, person="A. Sample", at=AT, lathe="L"
        )
    assert journal.written == {}


@pytest.mark.parametrize(
    "name", ["", "../x", "x/y", "x\\y", "A", "x y", "x.y", ".", "x\n", "é", "x" * 65, "\x00"]
)
def test_no_setup_has_a_name_that_could_lead_elsewhere(memory: ModuleType, name: str) -> None:
    """Small letters, digits and hyphens: it is part of a file's name."""
    journal = memory.Memory()
    with pytest.raises(BadInput):
        open_setup(
            journal, read(TEXT, "paper.yaml"), setup=name, person="A. Sample", at=AT, lathe="L"
        )
    assert journal.written == {}
