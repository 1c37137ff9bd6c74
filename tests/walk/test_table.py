"""The reviewed table read by what it lets happen, against dangers that are written by hand.

Two ways round: from every thinkable state without a danger no single action leads to one, and from
every lathe as found no sequence of actions does. `tests/studies/table.py` walks the whole set.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import product
from types import ModuleType

import pytest

from guide.walk.making_safe import next_to_safe, wanted_to_safe
from guide.walk.world import (
    ACTIONS,
    UNKNOWN,
    VARIABLES,
    Facts,
    World,
    after,
    as_dict,
    changed,
    do,
    finished,
    made_safe,
    may,
    value,
    with_values,
)

NOSES = ("long", "camlock", "bolted", "threaded")
each_nose = pytest.mark.parametrize("nose", NOSES)
LOAD = ("power", "spindle", "seat", "body", "bolts", "carried", "lifting-gear")
"""What decides whether something heavy can come down."""
NOT_IN_SIGHT = {
    "controls": "other", "small-things": "about", "guard": "open", "bystanders": "near",
    "dressed": "other", "swing": "not", "reads": "none", "series": "none", "result": "none",
    "gate": "none",
}  # fmt: skip
"""The worst of what is set aside, from which the ways to made safe and to finished begin."""
LONGEST = 40
"""Actions within which a lathe has to be made safe."""


def facts_of(nose: str, turns: str = "yes", kind: str = "independent") -> Facts:
    """The closed facts of a lathe; with independent jaws every action of the table is there."""
    return {"nose": nose, "support-turns": turns, "guard-fitted": "yes", "chuck-kind": kind}


def as_found() -> Iterator[World]:
    """A lathe as somebody left it: with and without plate or chuck, keys in or out, or running."""
    on_the_nose = (
        {"seat": ("off",), "body": ("apart",), "bolts": ("out",), "screws": ("free",)},
        {"seat": ("off",), "bolts": ("snug", "tight"), "screws": ("touching", "nipped")},
        {"seat": ("caught", "locked"), "body": ("apart",), "bolts": ("out",), "screws": ("free",)},
        {"seat": ("locked",), "bolts": ("snug", "tight"), "screws": ("free", "touching", "nipped")},
        {"seat": ("locked",), "bolts": ("none", "snug", "tight"), "screws": ("none",)},
    )
    whatever: dict[str, tuple[str, ...]] = {
        "power": ("as-found",), "spindle": VARIABLES["spindle"], "body": ("on-plate",),
        "carried": ("nothing",), "lifting-gear": ("clear", "away"), "chuck-key": ("in", "out"),
        "screw-key": ("in", "out"), "spanner": ("in", "out"), "jaws": VARIABLES["jaws"],
        "indicator": ("off", "set"),
    }  # fmt: skip
    for variant in on_the_nose:
        values = {**whatever, **variant}
        for found in product(*values.values()):
            yield with_values(UNKNOWN, dict(zip(values, found, strict=True)) | NOT_IN_SIGHT)


@pytest.fixture(scope="module")
def reached(set_aside: ModuleType) -> Callable[[str], dict[int, tuple[str, int] | None]]:
    """For a nose, every state that can be reached from a lathe as found."""
    kept: dict[str, dict[int, tuple[str, int] | None]] = {}

    def of_nose(nose: str) -> dict[int, tuple[str, int] | None]:
        if nose not in kept:
            table = set_aside.Reduced(facts_of(nose), set_aside.CORE)
            kept[nose] = table.reachable(as_found())
        return kept[nose]

    return of_nose


def way(came: dict[int, tuple[str, int] | None], state: int) -> list[str]:
    """The actions that led to a state."""
    actions: list[str] = []
    while (before := came[state]) is not None:
        actions.append(before[0])
        state = before[1]
    return actions[::-1]


@each_nose
def test_no_sequence_of_allowed_actions_reaches_a_danger(
    nose: str,
    reached: Callable[..., dict[int, tuple[str, int] | None]],
    by_hand: ModuleType,
    set_aside: ModuleType,
) -> None:
    """Every state reached from a lathe as found is free of every danger named by hand."""
    came = reached(nose)
    assert len(came) > 10_000
    for each in by_hand.DANGERS:
        for state in set_aside.one_of_each(came, by_hand.names(each)):
            told = set_aside.told(state)
            assert not by_hand.true(each, told), (each.__name__, way(came, state))


@each_nose
def test_the_walk_over_the_table_comes_to_every_part_of_the_job(
    nose: str, reached: Callable[..., dict[int, tuple[str, int] | None]], set_aside: ModuleType
) -> None:
    """The danger search is no empty one: lifting, hanging, powering and running are all reached."""
    seen = [set_aside.told(state) for state in reached(nose)]
    for part in (
        {"seat": "off", "carried": "chuck"},
        {"seat": "off", "carried": "plate"},
        {"seat": "on-nose", "carried": "chuck"},
        {"seat": "locked", "carried": "body", "bolts": "out"},
        {"seat": "locked", "carried": "chuck", "bolts": "caught"},
        {"seat": "locked", "carried": "nothing", "bolts": "tight", "screws": "nipped"},
        {"power": "restored", "seat": "locked", "body": "on-plate"},
        {"power": "restored", "spindle": "turning", "seat": "locked"},
        {"power": "off", "spindle": "turning"},
    ):
        assert any(part.items() <= told.items() for told in seen), part


@each_nose
def test_no_action_lets_a_load_come_down_from_any_thinkable_state(
    nose: str, by_hand: ModuleType, set_aside: ModuleType
) -> None:
    """Whatever making sure finds, as long as nothing hangs by itself yet, no action makes it so."""
    loads = [each for each in by_hand.DANGERS if set(by_hand.names(each)) <= set(LOAD)]
    assert len(loads) >= 6
    inductive(set_aside.Reduced(facts_of(nose), LOAD), loads, by_hand, set_aside)


@each_nose
def test_no_action_brings_power_to_what_would_hurt_from_any_thinkable_state(
    nose: str, by_hand: ModuleType, set_aside: ModuleType
) -> None:
    """Power restored, whatever else is true: keys, guard, load, jaws, bolts stay as they must."""
    powered = [each for each in by_hand.DANGERS if "power" in by_hand.names(each)]
    assert len(powered) >= 11
    for each in powered:
        kept = {*by_hand.names(each), "power", "spindle"}
        inductive(set_aside.Reduced(facts_of(nose), kept), [each], by_hand, set_aside)


def inductive(
    table: object, claims: list[Callable[..., bool]], by_hand: ModuleType, set_aside: ModuleType
) -> None:
    """From every state without these dangers no action leads to one of them."""
    states = (table.encode(world) for world in set_aside.every_world(table.kept))  # type: ignore[attr-defined]
    sound = [s for s in states if not any(by_hand.true(c, set_aside.told(s)) for c in claims)]
    assert sound
    known = set(sound)
    for state in sound:
        for action, new in table.onward(state):  # type: ignore[attr-defined]
            if new not in known:
                told = set_aside.told(new)
                led = [each.__name__ for each in claims if by_hand.true(each, told)]
                assert not led, (led, action, set_aside.told(state))


@each_nose
def test_an_action_is_done_only_at_its_moment(
    nose: str, by_hand: ModuleType, set_aside: ModuleType
) -> None:
    """What has to be so before an action by hand's list is so wherever the table allows it."""
    for action, turns in product(by_hand.MOMENTS, ("yes", "no")):
        facts = facts_of(nose, turns)
        for moment in by_hand.MOMENTS[action]:
            kept = {name for name in by_hand.names(moment) if name in VARIABLES}
            table = set_aside.Reduced(facts, kept)
            for world in set_aside.every_world(kept):
                state = table.encode(world)
                if any(name == action for name, _ in table.onward(state)):
                    told = set_aside.told(state)
                    assert by_hand.true(moment, {**told, **facts}), (action, moment, told)


def test_an_action_starts_only_from_what_it_changes_and_with_its_own_tool(
    by_hand: ModuleType, set_aside: ModuleType
) -> None:
    """No key is fitted twice, no bolt eased that is not tight, and none without its spanner."""
    for action, start in by_hand.FROM.items():
        for variable, values in start.items():
            table = set_aside.Reduced(facts_of("long"), {variable})
            for each in ("unknown", *VARIABLES[variable]):
                state = table.encode(with_values(UNKNOWN, {variable: each}))
                allowed = any(name == action for name, _ in table.onward(state))
                assert allowed is (each in values), (action, variable, each)


ALWAYS = {"set controls neutral", "set controls lowest-speed"}
DRESS = {"dress for lifting", "dress for turning", "bystanders clear"}
TAKE_OUT = {"remove chuck-key", "remove screw-key", "remove spanner", "remove indicator"}
TO_REST = {
    "hold spindle", "free spindle", "fit spanner", "catch", "lock", "bolts catch", "bolts snug",
    "bolts tighten", "set down", "release",
}  # fmt: skip


def allowed_while(power: str, spindle: str) -> set[str]:
    """What may be done at all, by hand, with the power and the spindle like that."""
    if spindle == "turning":
        return {"stop", "isolate"} - ({"isolate"} if power in ("off", "isolated") else set())
    if power == "as-found":
        return {*ALWAYS, *DRESS, *TAKE_OUT, "set controls other", "stop", "isolate"}
    if power == "off":
        proofs = {"try to start", "see isolated", "shut guard", "stop", "set controls other"}
        return {*ALWAYS, *DRESS, *TAKE_OUT, *TO_REST, *proofs}
    if power == "restored":
        return {*ALWAYS, *DRESS, "shut guard", "run slow", "stop", "isolate"}
    return set(ACTIONS) - {"isolate", "see isolated", "run slow"}


@pytest.mark.parametrize(
    ("power", "spindle"), [*product(VARIABLES["power"], VARIABLES["spindle"])], ids=str
)
def test_power_and_spindle_alone_decide_what_may_be_done_at_all(
    power: str, spindle: str, set_aside: ModuleType
) -> None:
    """As found, off, restored or turning, nothing goes but what is listed by hand."""
    table = set_aside.Reduced(facts_of("camlock"), {"power", "spindle"})
    state = table.encode(changed(UNKNOWN, power=power, spindle=spindle))
    allowed = {name for name, _ in table.onward(state)}
    expected = allowed_while(power, spindle)
    only_free = {"turn by hand", "hold spindle", "try to start", "restore power", "run slow"}
    expected -= only_free if spindle == "held" else {"free spindle"}
    assert allowed == expected


def test_nothing_is_done_to_a_lathe_of_which_nothing_is_known() -> None:
    """Unknown satisfies nothing: levers, switch and dress are all that is left."""
    facts = facts_of("long")
    allowed = {name for name in ACTIONS if may(name, UNKNOWN, facts)}
    assert allowed == {*ALWAYS, *DRESS, "stop", "isolate"}


def test_every_action_spends_a_fresh_gate() -> None:
    """Looking at a lever or dressing spends it as much as a lift does."""
    for action, gate in product(ACTIONS, VARIABLES["gate"]):
        assert value(after(action, changed(UNKNOWN, gate=gate), {}), "gate") == "none"


QUIET = {
    "set controls other", "set controls neutral", "set controls lowest-speed", "stop", "isolate",
    "try to start", "see isolated", "shut guard", "turn by hand", "restore power", "run slow",
}  # fmt: skip
"""What brings nothing near the spindle and nobody near the lathe."""


def test_any_work_makes_the_swing_unchecked_and_the_bystanders_unknown() -> None:
    """After anything was brought near, the spindle is turned once by hand again."""
    before = changed(UNKNOWN, swing="checked", bystanders="clear")
    for action in set(ACTIONS) - QUIET - DRESS:
        world = after(action, before, {})
        assert (value(world, "swing"), value(world, "bystanders")) == ("not", "unknown"), action
    for action in QUIET | DRESS:
        world = after(action, before, {})
        assert (value(world, "swing"), value(world, "bystanders")) == ("checked", "clear"), action


DISTURBING = {
    "put on nose", "lock", "unlock", "take off nose", "join", "part", "bolts catch", "bolts snug",
    "bolts tighten", "bolts ease", "bolts slacken", "take bolts out", "screws touch",
    "screws turn", "screws nip", "jaws shift", "jaws tighten",
}  # fmt: skip


def test_whatever_disturbs_the_chuck_voids_the_result() -> None:
    """A screw, a bolt, the nose lock or the plate: the figure that was signed no longer counts."""
    for action in ACTIONS:
        world = after(action, changed(UNKNOWN, result="valid"), {})
        assert value(world, "result") == ("void" if action in DISTURBING else "valid"), action


def test_easing_turning_and_moving_the_indicator_void_the_last_reading() -> None:
    """The screw is read again before it is moved."""
    for action in (
        "bolts snug", "screws touch", "screws nip", "lock", "unlock", "bolts ease",
        "bolts slacken", "bolts tighten", "screws turn", "remove indicator",
        "grip bar", "release bar", "jaws shift", "jaws tighten",
    ):  # fmt: skip
        world = after(action, changed(UNKNOWN, reads="fresh"), {})
        assert value(world, "reads") == "void", action


def test_regripping_or_moving_the_indicator_closes_the_series_and_keeps_the_result() -> None:
    """The result stands, for that grip and diameter."""
    for action in ("grip bar", "release bar", "remove indicator"):
        world = after(action, changed(UNKNOWN, series="open", result="valid"), {})
        assert (value(world, "series"), value(world, "result")) == ("closed", "valid"), action


@pytest.mark.parametrize("kind", ["adjustable", "independent"])
def test_work_that_is_let_go_is_no_longer_centred(kind: str) -> None:
    """Where a workpiece was centred the result is of that grip, and ends with it."""
    held = changed(UNKNOWN, result="valid", jaws="on-work")
    assert value(after("release bar", held, {"chuck-kind": kind}), "result") == "void"
    assert value(after("release bar", held, {}), "result") == "valid"


def test_moving_a_jaw_keeps_the_series_open_and_the_grip_unproven() -> None:
    """The next reading is of the same grip; what was pulled up before it counts no longer."""
    world = after("jaws shift", changed(UNKNOWN, series="open", jaws="on-work"), {})
    assert (value(world, "series"), value(world, "jaws")) == ("open", "on-bar")
    world = after("jaws tighten", changed(UNKNOWN, series="open", jaws="on-bar"), {})
    assert (value(world, "series"), value(world, "jaws")) == ("open", "on-work")


@pytest.mark.parametrize("kind", ["adjustable", "unknown"])
def test_only_independent_jaws_are_moved_one_by_one(kind: str) -> None:
    """A scroll has no jaw of its own; without the fact there is no centring of work at all."""
    told = {} if kind == "unknown" else {"chuck-kind": kind}
    for world in READY_TO_SHIFT:
        assert not may("jaws shift", world, told)
        assert may("jaws tighten", world, told) is (kind == "adjustable")
        assert may("jaws shift", world, {"chuck-kind": "independent"})


READY_TO_SHIFT = tuple(
    changed(
        UNKNOWN, power="isolated", spindle="free", seat="locked", body="on-plate", bolts=bolts,
        screws="none", carried="nothing", chuck_key="in", jaws=jaws, reads="fresh",
    )
    for bolts in ("tight", "none")
    for jaws in ("on-bar", "on-work")
)  # fmt: skip
"""A chuck that is fast, work in its jaws, just read, the key in."""


@each_nose
def test_a_result_is_valid_only_of_a_chuck_that_is_fast(nose: str, set_aside: ModuleType) -> None:
    """In every state reached with a valid result the seat is locked, bolts tight, screws nipped.

    Of work in independent jaws: seat and bolts as well, and every jaw pulled up.
    """
    kept = ("seat", "body", "bolts", "screws", "jaws", "indicator", "reads", "series", "result")
    table = set_aside.Reduced(facts_of(nose), kept)
    valid = set()
    for state in table.reachable(as_found()):
        told = set_aside.told(state)
        if told["result"] == "valid":
            valid.add(told["screws"])
            assert (told["seat"], told["body"]) == ("locked", "on-plate"), told
            by_screws = (told["bolts"], told["screws"]) == ("tight", "nipped")
            by_jaws = told["bolts"] in ("tight", "none") and told["screws"] == "none"
            assert by_screws or (by_jaws and told["jaws"] == "on-work"), told
        if told["reads"] == "fresh" or told["series"] == "open":
            assert told["indicator"] == "set", told
    assert valid == {"nipped", "none"}


def steps_to_safe(world: World, facts: Facts, known: dict[World, int]) -> int:
    """Actions from a state to made safe, every gate on the way acknowledged."""
    chain: list[tuple[World, int]] = []
    while world not in known:
        assert len(chain) <= 2 * LONGEST, ("it goes round", as_dict(world))
        if next_to_safe(world, facts) is None:
            assert made_safe(world, facts)
            known[world] = 0
            break
        wanted = wanted_to_safe(world, facts)
        acts = wanted.trigger == "done"
        chain.append((world, acts))
        world = do(wanted.action, world, facts) if acts else wanted.through(world, facts)
    steps = known[world]
    for passed, acted in reversed(chain):
        steps += acted
        known[passed] = steps
    return steps


def whole(states: Iterable[int], set_aside: ModuleType) -> set[World]:
    """States with what was set aside at its worst, and with what no danger depends on left out."""
    worlds = set()
    for state in states:
        told = {**set_aside.told(state), **NOT_IN_SIGHT}
        told["screws"] = {"none": "none"}.get(told["screws"], "free")
        told["lifting-gear"] = {"away": "clear"}.get(told["lifting-gear"], told["lifting-gear"])
        worlds.add(with_values(UNKNOWN, told))
    return worlds


@pytest.mark.parametrize("turns", ["yes", "no"])
@each_nose
def test_every_reached_state_can_be_made_safe_and_then_finished(
    nose: str,
    turns: str,
    reached: Callable[..., dict[int, tuple[str, int] | None]],
    set_aside: ModuleType,
) -> None:
    """The next action towards made safe is always allowed, arrives, and finished follows."""
    facts, known = facts_of(nose, turns), dict[World, int]()
    worlds = whole(reached(nose), set_aside)
    assert len(worlds) > 1500
    assert max(steps_to_safe(world, facts, known) for world in worlds) <= LONGEST
    safe = {world for world, steps in known.items() if steps == 0}
    assert len(safe) > 20
    assert all(can_be_finished(world, facts) for world in safe)


FINISHING = (
    "remove indicator", "fit chuck-key", "release bar", "close jaws", "remove chuck-key",
    "clear away", "shut guard", "set controls neutral",
)  # fmt: skip


def can_be_finished(world: World, facts: Facts) -> bool:
    """Breadth first over the few actions that put away; a planner of this test's own."""
    seen = {world}
    todo = [world]
    for here in todo:
        if finished(here, facts):
            return True
        onward = {after(each, here, facts) for each in FINISHING if may(each, here, facts)}
        todo += onward - seen
        seen |= onward
    return False


def test_finished_means_nothing_is_left_about() -> None:
    """By hand: isolated, standing, nothing carried or left in, guard shut, jaws on nothing."""
    good = with_values(
        UNKNOWN,
        {
            "power": "isolated", "spindle": "free", "carried": "nothing", "chuck-key": "out",
            "screw-key": "out", "spanner": "out", "seat": "locked", "body": "on-plate",
            "bolts": "tight", "lifting-gear": "away", "small-things": "cleared",
            "indicator": "off", "guard": "shut", "controls": "neutral", "jaws": "closed",
        },
    )  # fmt: skip
    assert finished(good, {})
    for wrong in (
        {"power": "off"}, {"power": "restored"}, {"power": "unknown"}, {"spindle": "turning"},
        {"carried": "chuck"}, {"chuck-key": "in"}, {"screw-key": "in"}, {"spanner": "in"},
        {"seat": "caught"}, {"seat": "on-nose"}, {"bolts": "caught"}, {"bolts": "out"},
        {"lifting-gear": "rigged"}, {"lifting-gear": "clear"}, {"small-things": "about"},
        {"indicator": "set"}, {"guard": "open"}, {"controls": "other"}, {"jaws": "on-bar"},
        {"jaws": "loose"},
    ):  # fmt: skip
        assert not finished(with_values(good, wrong), {}), wrong


LEFT_AS_IT_IS = (
    {"power": "off"}, {"power": "as-found"}, {"power": "restored"}, {"spindle": "turning"},
    {"carried": "plate"}, {"carried": "chuck"}, {"chuck-key": "in"}, {"screw-key": "in"},
    {"spanner": "in"}, {"seat": "caught"}, {"seat": "on-nose"}, {"bolts": "caught"},
    {"bolts": "out"},
)  # fmt: skip


@pytest.mark.parametrize("wrong", LEFT_AS_IT_IS, ids=str)
def test_made_safe_is_never_said_of_a_lathe_that_could_hurt(wrong: dict[str, str]) -> None:
    """One thing wrong is enough."""
    good = changed(
        UNKNOWN, power="isolated", spindle="free", carried="nothing", chuck_key="out",
        screw_key="out", spanner="out", seat="locked", body="on-plate", bolts="snug",
    )  # fmt: skip
    assert made_safe(good, {})
    assert not made_safe(with_values(good, wrong), {})
