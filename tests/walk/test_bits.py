"""Machine states as integers mean what the table means, action by action, condition by condition.

Random worlds hold any value of any variable, unknown too; half of them are bent towards one action,
so that enough of the actions may be done.
"""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from guide.plain import NotAllowed
from guide.procedure.condition import Condition, condition
from guide.procedure.model import Doing
from guide.procedure.problem import Place
from guide.walk import bits
from guide.walk.flow import carry_out
from guide.walk.world import (
    ACTIONS,
    INDEX,
    RULES,
    TABLE_FACTS,
    VARIABLES,
    Facts,
    World,
    after,
    may,
    no_test,
    ready,
)

worlds = st.tuples(*(st.sampled_from(("unknown", *values)) for values in VARIABLES.values()))
facts = st.fixed_dictionaries(
    {}, optional={name: st.sampled_from(values) for name, values in TABLE_FACTS.items()}
)


@st.composite
def bent(draw: st.DrawFn) -> tuple[str, World, Facts]:
    """An action and a world in which most of its needs are met, one way or another."""
    action = draw(st.sampled_from(sorted(ACTIONS)))
    world, told = list(draw(worlds)), dict(draw(facts))
    for need in (RULES[action], *ACTIONS[action].possible, *ACTIONS[action].needs):
        for term in draw(st.sampled_from(need.either)):
            if term.name in INDEX and not term.negated:
                world[INDEX[term.name]] = draw(st.sampled_from(sorted(term.values)))
            elif term.name in TABLE_FACTS:
                told[term.name] = draw(st.sampled_from(sorted(term.values)))
    return action, tuple(world), told


def agree(action: str, world: World, told: Facts) -> bool:
    """Both say whether the action may be done and, if so, what comes of it."""
    new = bits.act(bits.ready_action(action, told), bits.encode(world))
    allowed = may(action, world, told)
    assert (new is not None) is allowed, action
    if new is not None:
        assert bits.decode(new) == after(action, world, told), action
    return allowed


@given(worlds, facts)
@settings(max_examples=150, deadline=None)
def test_every_action_means_the_same_in_any_world(world: World, told: Facts) -> None:
    """Allowed or not, and what comes of it, for all actions of the table."""
    for action in ACTIONS:
        agree(action, world, told)


@given(bent())
@settings(max_examples=800, deadline=None)
def test_an_action_means_the_same_where_it_is_likely_to_be_allowed(
    case: tuple[str, World, Facts],
) -> None:
    """Allowed or not, and what comes of it, near the edge between the two."""
    agree(*case)


def test_every_action_is_allowed_somewhere_and_means_the_same_there() -> None:
    """The agreement is no empty one: each action is tried in a world that allows it."""
    for action in ACTIONS:
        assert any(agree(action, *case) for case in every_way(action)), action


def every_way(action: str) -> list[tuple[World, Facts]]:
    """Worlds that meet all needs of an action, the first alternatives first."""
    found: list[tuple[World, Facts]] = [(("unknown",) * len(VARIABLES), {})]
    for need in (RULES[action], *ACTIONS[action].possible, *ACTIONS[action].needs):
        found = [met for case in found for met in _met(need, *case)][:300]
    return found


def _met(need: Condition, world: World, told: Facts) -> list[tuple[World, Facts]]:
    """The world changed so that a need is met, for each value that meets it."""
    if ready(need)(world, told, no_test):
        return [(world, told)]
    made = []
    for terms in need.either:
        new, facts_told = list(world), dict(told)
        for term in terms:
            if term.negated:
                continue
            each = min(term.values)
            if term.name not in INDEX:
                facts_told[term.name] = each
            elif new[INDEX[term.name]] not in term.values:
                new[INDEX[term.name]] = each
        made.append((tuple(new), facts_told))
    return made


@given(worlds)
@settings(deadline=None)
def test_a_world_comes_back_as_it_was(world: World) -> None:
    """One bit a variable, no two worlds alike."""
    assert bits.decode(bits.encode(world)) == world
    assert bits.encode(world).bit_count() == len(VARIABLES)


THINGS = {**VARIABLES, **TABLE_FACTS}


@st.composite
def terms(draw: st.DrawFn, name: str) -> str:
    """One look at a variable or fact, perhaps behind `not`, that some value answers."""
    values, negated = THINGS[name], draw(st.booleans())
    most = len(values) - 1 if negated else None
    wanted = draw(st.lists(st.sampled_from(values), min_size=1, max_size=most, unique=True))
    return f"{'not ' if negated else ''}{name}={'/'.join(wanted)}"


@st.composite
def conditions(draw: st.DrawFn) -> Condition:
    """Any condition over variables and facts: `or` of `and`s of terms."""
    some = st.lists(st.sampled_from(sorted(THINGS)), min_size=1, max_size=3, unique=True)
    either = [
        " and ".join(draw(terms(name)) for name in draw(some))
        for _ in range(draw(st.integers(1, 3)))
    ]
    return condition(" or ".join(either))


@given(st.lists(conditions(), max_size=4), worlds, facts)
@settings(max_examples=300, deadline=None)
def test_conditions_mean_the_same_alone_and_together(
    wanted: list[Condition], world: World, told: Facts
) -> None:
    """Negations, facts that nobody told, several that must all hold."""
    state = bits.encode(world)
    alone = [ready(each)(world, told, no_test) for each in wanted]
    assert [bits.holds(bits.made_ready(each, told), state) for each in wanted] == alone
    together = bits.all_of(wanted, told)
    assert all(bits.holds(each, state) for each in together) is all(alone)


@given(worlds, st.sampled_from(["body=apart and body=on-plate", "not body=apart/on-plate"]))
@settings(max_examples=40, deadline=None)
def test_a_need_that_nothing_can_meet_is_met_by_nothing(world: World, text: str) -> None:
    """Two values of one variable at once: never so, alone or beside other needs."""
    wanted = condition(text)
    for needs in ([wanted], [wanted, condition("seat=off/unknown or seat=locked")]):
        assert not all(bits.holds(each, bits.encode(world)) for each in bits.all_of(needs, {}))


@given(
    worlds, facts, st.lists(st.tuples(st.sampled_from(sorted(ACTIONS)), conditions()), max_size=3)
)
@settings(max_examples=200, deadline=None)
def test_a_step_of_several_actions_means_the_same(
    world: World, told: Facts, asked: list[tuple[str, Condition]]
) -> None:
    """In order, each where its own condition holds, and nothing at all where one is refused."""
    doings = [Doing(action, only_if, Place()) for action, only_if in asked]
    new = bits.carry_out(bits.ready_doings(doings, told), bits.encode(world))
    try:
        expected: World | None = carry_out(doings, world, told)
    except NotAllowed:
        expected = None
    assert (bits.decode(new) if new is not None else None) == expected
