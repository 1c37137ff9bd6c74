"""Making sure: nothing is answered before it is looked at, and what is found decides the way on.

After a resumption, a crash, a pause or another person the whole machine state is asked; whatever is
found, the walk goes on at a step that can be done, or by way of being made safe, to its end.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import product
from types import ModuleType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.plain import BadInput, Refusal
from guide.procedure.load import load
from guide.procedure.shelf import files
from guide.walk.fold import Fold
from guide.walk.looking import ASKED, answers, look_again
from guide.walk.setup import Setup
from guide.walk.state import MADE_SAFE, MAKING_SAFE, MAKING_SURE
from guide.walk.world import (
    ACTIONS,
    UNKNOWN,
    VARIABLES,
    World,
    after,
    all_hold,
    as_dict,
    changed,
    made_safe,
    value,
    with_values,
)

PROCEDURES = {path.stem: load(path) for path in files()}
FOLDS = {name: Fold(procedure) for name, procedure in PROCEDURES.items()}
NOSES = ("long", "camlock", "bolted", "threaded")
WORKED_OUT = {"swing", "reads", "series", "result", "gate"}
"""What no look can tell."""
LONGEST = 40


def started(name: str, nose: str, driver: ModuleType, memory: ModuleType) -> tuple[Setup, Mapping]:
    """A setup on a lathe with that nose, at its first step."""
    case = next(iter(driver.cases(PROCEDURES[name], (nose,))))
    walk = driver.opened(memory.Memory(), PROCEDURES[name])
    walk.fold = FOLDS[name]
    return walk, case.facts


Isolated = Callable[[str, str], list[Setup]]


@pytest.fixture(scope="module")
def isolated(driver: ModuleType, memory: ModuleType) -> Isolated:
    """The setup at each step at which the power is isolated, for a procedure and a nose."""
    kept: dict[tuple[str, str], list[Setup]] = {}

    def steps(name: str, nose: str) -> list[Setup]:
        if (name, nose) not in kept:
            walk, chosen = started(name, nose, driver, memory)
            walked = (driver.forked(each) for each in driver.go_on(walk, chosen, out=1))
            kept[name, nose] = [w for w in walked if value(w.state.world, "power") == "isolated"]
        return kept[name, nose]

    return steps


def looking(walk: Setup, driver: ModuleType) -> Setup:
    """The same setup, broken off and resumed: it stands at making sure."""
    other: Setup = driver.forked(walk)
    driver.do(other, ("resume", {}))
    assert other.state.place == MAKING_SURE
    return other


@pytest.fixture(scope="module")
def asking(driver: ModuleType, isolated: Isolated) -> Setup:
    """A setup that stands at making sure in the middle of the work."""
    steps = isolated("adjustable-chuck", "camlock")
    return looking(steps[len(steps) // 2], driver)


def found(walk: Setup, seen: Mapping[str, object]) -> None:
    """What was found, recorded."""
    walk.act("record", {"seen": seen}, person=walk.state.person, at="2030-01-31T09:00:00.000Z")


def test_every_variable_that_can_be_seen_is_asked() -> None:
    """All of the table but what follows from the rest or has to be done again."""
    assert set(VARIABLES) - set(ASKED) == WORKED_OUT


def test_nothing_is_answered_for_the_person(asking: Setup, driver: ModuleType) -> None:
    """A look with one line left out, or with no line at all, is refused naming the line."""
    whole = driver.as_recorded(asking.state)
    with pytest.raises(Refusal):
        found(driver.forked(asking), {})
    for name in ASKED:
        rest = {each: whole[each] for each in whole if each != name}
        with pytest.raises(BadInput, match=name):
            found(driver.forked(asking), rest)
    found(driver.forked(asking), whole)


def test_only_what_can_be_seen_may_be_answered(asking: Setup, driver: ModuleType) -> None:
    """Unknown, blank and another variable's value are refused for each line."""
    whole, facts = driver.as_recorded(asking.state), asking.state.facts
    for name in ASKED:
        may_be = answers(name, asking.state.world, facts)
        assert "unknown" not in may_be
        for each in ("unknown", "", "yes", "as recorded", may_be[0].upper(), None, list(may_be)):
            with pytest.raises(Refusal):
                found(driver.forked(asking), {**whole, name: each})


def test_making_sure_is_no_press_to_confirm(asking: Setup, driver: ModuleType) -> None:
    """No trigger but the record of what is seen leads on from there."""
    for trigger in ("done", "acknowledge", "again", "correct"):
        with pytest.raises(Refusal):
            driver.do(driver.forked(asking), (trigger, {"seen": driver.as_recorded(asking.state)}))


def test_what_only_a_wrench_tells_is_not_offered_while_the_power_is_on() -> None:
    """Locked, tight and nipped are answers only once the power is off."""
    for power in ("as-found", "restored"):
        world = changed(UNKNOWN, power=power)
        offered = {
            each for name in ("seat", "bolts", "screws") for each in answers(name, world, {})
        }
        assert not offered & {"locked", "tight", "nipped"}
    for power in ("off", "isolated"):
        world = changed(UNKNOWN, power=power)
        offered = {
            each for name in ("seat", "bolts", "screws") for each in answers(name, world, {})
        }
        assert {"locked", "tight", "nipped"} <= offered


@pytest.mark.parametrize("name", sorted(PROCEDURES))
def test_what_a_gate_confirmed_is_unconfirmed_wherever_work_is_broken_off(
    name: str, driver: ModuleType, isolated: Isolated
) -> None:
    """Dress, bystanders and the fresh gate count for nothing after a resumption or take-over."""
    opened = 0
    for walk in isolated(name, "camlock"):
        opened += value(walk.state.world, "gate") != "none"
        for act, person in ((("resume", {}), ""), (("take-over", {}), "B. Sample")):
            other = driver.forked(walk)
            driver.do(other, act, person)
            told = as_dict(other.state.world)
            confirmed = (told["gate"], told["dressed"], told["bystanders"])
            assert confirmed == ("none", "unknown", "unknown")
    assert opened or not any(step.opens for step in PROCEDURES[name].steps)


GOOD = with_values(
    UNKNOWN,
    {
        "power": "isolated", "controls": "neutral", "spindle": "free", "seat": "locked",
        "body": "on-plate", "bolts": "tight", "screws": "nipped", "carried": "nothing",
        "lifting-gear": "away", "chuck-key": "out", "screw-key": "out", "spanner": "out",
        "small-things": "cleared", "jaws": "on-bar", "indicator": "set", "guard": "open",
        "bystanders": "clear", "dressed": "for-turning", "swing": "checked", "reads": "fresh",
        "series": "open", "result": "valid", "gate": "none",
    },
)  # fmt: skip
"""A chuck that is trued and read, with a result."""


def look(**other: str) -> dict[str, str]:
    """What making sure makes of that chuck when something is found other than it was."""
    told = {name: each for name, each in as_dict(GOOD).items() if name in ASKED}
    told |= {name.replace("_", "-"): each for name, each in other.items()}
    return as_dict(look_again(GOOD, told))


def test_a_look_that_finds_all_as_it_was_keeps_the_result_and_asks_for_a_new_reading() -> None:
    """The result stands; the swing is turned again and the screw read again."""
    told = look()
    assert (told["result"], told["series"]) == ("valid", "open")
    assert (told["swing"], told["reads"], told["gate"]) == ("not", "void", "none")


@pytest.mark.parametrize(
    "other",
    [
        {"seat": "caught"}, {"seat": "off"}, {"bolts": "snug"}, {"bolts": "caught"},
        {"screws": "touching"}, {"screws": "free"}, {"body": "apart"},
    ],
    ids=str,
)  # fmt: skip
def test_a_bolt_a_screw_or_the_seat_found_other_voids_the_result(other: dict[str, str]) -> None:
    """As easing, turning or unlocking would have."""
    assert look(**other)["result"] == "void"


@pytest.mark.parametrize(
    "other", [{"jaws": "loose"}, {"jaws": "closed"}, {"indicator": "off"}], ids=str
)
def test_jaws_or_indicator_found_other_close_the_series(other: dict[str, str]) -> None:
    """As re-gripping or taking the indicator off would have; the result stands."""
    told = look(**other)
    assert (told["series"], told["reads"], told["result"]) == ("closed", "void", "valid")


TRACES = ("seat", "body", "bolts", "screws", "jaws", "indicator")
"""What shows afterwards that something was done to the chuck."""


@given(st.tuples(*(st.sampled_from(values) for values in VARIABLES.values())))
@settings(max_examples=250, deadline=None)
def test_a_change_that_is_found_voids_what_the_action_would_have_voided(world: World) -> None:
    """Whoever did unseen what could be done left no result, series or reading that counts."""
    for action in ACTIONS:
        done = after(action, world, {})
        seen = {name: each for name, each in as_dict(done).items() if name in ASKED}
        traced = any(value(world, name) != value(done, name) for name in TRACES)
        if not traced or not all_hold(ACTIONS[action].possible, world, {}):
            continue
        looked = as_dict(look_again(world, seen))
        for name, good in (("result", "valid"), ("reads", "fresh"), ("series", "open")):
            if value(done, name) != good:
                assert looked[name] != good, (action, name)


def test_work_found_no_longer_pulled_up_is_no_longer_centred() -> None:
    """The result was of that grip; a bar in a trued chuck may be let go and the result stands."""
    told = {name: each for name, each in as_dict(GOOD).items() if name in ASKED}
    work = with_values(GOOD, {"jaws": "on-work"})
    for jaws, result in (("on-work", "valid"), ("on-bar", "void"), ("closed", "void")):
        assert value(look_again(work, {**told, "jaws": jaws}), "result") == result
    assert value(look_again(GOOD, {**told, "jaws": "closed"}), "result") == "valid"


@pytest.mark.parametrize("kind", ["adjustable", "independent", ""])
def test_that_work_is_pulled_up_is_told_by_a_key_and_only_where_work_is_centred(kind: str) -> None:
    """Never with the power on, and never of a test bar in another job."""
    facts = {"chuck-kind": kind} if kind else {}
    for power in ("as-found", "off", "isolated", "restored"):
        offered = answers("jaws", with_values(GOOD, {"power": power}), facts)
        assert ("on-work" in offered) is (bool(kind) and power in ("off", "isolated"))
        assert {"loose", "on-bar", "closed"} <= set(offered)


def test_a_chuck_with_independent_jaws_has_no_screws_and_perhaps_bolts() -> None:
    """Whether it sits on a plate is seen by looking; that its jaws are no screws is known."""
    facts = {"chuck-kind": "independent"}
    assert answers("screws", GOOD, facts) == ("none",)
    assert {"none", "snug", "tight"} <= set(answers("bolts", GOOD, facts))
    assert "none" not in answers("bolts", GOOD, {"chuck-kind": "adjustable"})


FINDINGS: dict[str, dict[str, str]] = {
    "the chuck hangs uncaught": {
        "seat": "on-nose", "body": "on-plate", "bolts": "snug", "carried": "nothing",
    },
    "the nut is loose under a chuck": {
        "seat": "caught", "body": "on-plate", "bolts": "tight", "carried": "nothing",
    },
    "the plate hangs uncaught": {"seat": "on-nose", "body": "apart", "carried": "nothing"},
    "the body hangs on started bolts": {
        "seat": "locked", "body": "on-plate", "bolts": "caught", "carried": "nothing",
    },
    "a key is in": {"chuck-key": "in"},
    "keys and spanner are in": {"chuck-key": "in", "screw-key": "in", "spanner": "in"},
    "the power is on": {"power": "as-found"},
    "the spindle turns": {"power": "as-found", "spindle": "turning"},
    "the isolator is off and nothing is proven": {"power": "off", "controls": "other"},
    "a chuck is carried on a slack sling": {
        "seat": "caught", "body": "on-plate", "bolts": "caught", "carried": "chuck",
        "lifting-gear": "clear",
    },
    "everything at once": {
        "power": "as-found", "spindle": "turning", "seat": "on-nose", "body": "on-plate",
        "bolts": "caught", "carried": "nothing", "chuck-key": "in", "screw-key": "in",
        "spanner": "in", "jaws": "loose", "indicator": "set",
    },
}  # fmt: skip


@pytest.mark.parametrize("finding", FINDINGS)
@pytest.mark.parametrize(("name", "nose"), [*product(sorted(PROCEDURES), NOSES)])
def test_whatever_is_found_the_walk_is_made_safe_or_restored_and_finished(
    name: str, nose: str, finding: str, driver: ModuleType, isolated: Isolated, by_hand: ModuleType
) -> None:
    """No refusal on the way, no new danger in making safe, and the setup ends finished."""
    number = 3 + 5 * list(FINDINGS).index(finding) + 11 * NOSES.index(nose)
    steps = isolated(name, nose)
    walk, chosen = looking(steps[number % len(steps)], driver), steps[-1].state.facts
    present, whole = walk.state.present, driver.as_recorded(walk.state)
    found(walk, driver.answerable(walk.state, {**whole, **FINDINGS[finding]}))
    order = walk.procedure.order
    assert order.get(walk.state.place, -1) <= order[present]
    made, dangers = 0, by_hand.dangers(as_dict(walk.state.world))
    for each in driver.go_on(walk, chosen):
        made += each.state.place == MAKING_SAFE
        now = by_hand.dangers(as_dict(each.state.world))
        assert now <= dangers or each.state.place not in (MAKING_SAFE, MADE_SAFE)
        if each.state.place == MADE_SAFE:
            assert made_safe(each.state.world, each.state.facts)
            assert not now
        dangers = now
    assert walk.state.place == ends_with(walk, FINDINGS[finding])
    assert made <= 2 * LONGEST


def ends_with(walk: Setup, found: dict[str, str]) -> str:
    """No work is centred, and nothing is rechecked, in a chuck that is found in parts, no bare nose
    is read and no plate fitted with something on it: that setup ends, made safe. So does one after
    a crash, or at the jaws, when what was on the nose is found off it or not fast.
    """
    name = walk.procedure.name
    if name in ("after-a-crash", "jaw-service"):
        stopped = {"not-fast", "not-here"} & {entry.place for entry in walk.state.entries}
        assert {"seat", "body"} & set(found) or not stopped
        return "abandoned" if stopped else "finished"
    if name in ("spindle-health", "tailstock-alignment", "backplate-fitting"):
        not_bare = {"not-here", "not-bare"} & {entry.place for entry in walk.state.entries}
        assert "seat" in found or not not_bare
        return "abandoned" if not_bare else "finished"
    whole = ("quick-centring", "four-jaw-centring", "chuck-recheck")
    parted = name in whole and found.get("body") == "apart"
    return "abandoned" if parted else "finished"


@pytest.mark.parametrize("nose", NOSES)
def test_what_hangs_is_brought_to_rest_before_anything_else_is_done(
    nose: str, driver: ModuleType, isolated: Isolated
) -> None:
    """A chuck found on the nose uncaught: the walk makes safe, and no step is open until it is."""
    walk = looking(isolated("adjustable-chuck", nose)[-5], driver)
    hangs = FINDINGS["the chuck hangs uncaught"]
    found(walk, driver.answerable(walk.state, {**driver.as_recorded(walk.state), **hangs}))
    assert walk.state.place == MAKING_SAFE
    while walk.state.place == MAKING_SAFE:
        assert walk.step is None
        for trigger in ("done", "record", "acknowledge"):
            with pytest.raises(Refusal):
                driver.do(driver.forked(walk), (trigger, {"checks": ["1", "2", "3"]}))
        driver.do(walk, driver.beside(walk.state))
    assert walk.state.place == MADE_SAFE
    assert as_dict(walk.state.world)["seat"] in ("off", "locked")
    assert as_dict(walk.state.world)["carried"] == "nothing"


def test_a_need_that_no_longer_holds_leads_to_the_step_that_restores_it(
    driver: ModuleType, isolated: Isolated
) -> None:
    """A bar found out of the jaws is gripped again; nothing before that is asked again."""
    steps = isolated("adjustable-chuck", "camlock")
    gripped = [each for each in steps if value(each.state.world, "jaws") == "on-bar"]
    walk = looking(gripped[1], driver)
    order = walk.procedure.order
    present = order[walk.state.present]
    seen = {**driver.as_recorded(walk.state, dressed="for-turning"), "jaws": "closed"}
    found(walk, driver.answerable(walk.state, seen))
    back = walk.procedure.steps[order[walk.state.place]]
    assert order[back.name] < present
    assert any(doing.action == "grip bar" for doing in back.does)
