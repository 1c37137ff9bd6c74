"""Machine states as integers, one bit a value: the same table, fast enough for the proof.

Every variable has exactly one bit set (`unknown` has one too, and what can no longer matter has
none), so a conjunction over k variables holds when k bits stand under its mask. That this agrees
with `world` on every action is shown by a property test.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from guide.procedure.condition import Condition, Term
from guide.procedure.model import Doing
from guide.walk import table
from guide.walk.world import ACTIONS, RULES, TABLE_FACTS, VARIABLES, VOIDED, Facts, World

_PAIRS = [(name, each) for name in VARIABLES for each in ("unknown", *VARIABLES[name])]
BIT = {pair: 1 << place for place, pair in enumerate(_PAIRS)}
MASK = {
    name: sum(bit for (variable, _), bit in BIT.items() if variable == name) for name in VARIABLES
}
Wanted = tuple[tuple[int, int], ...]
"""Alternatives of (mask, bits that must stand under it); none is false, (0, 0) is true."""
TRUE: Wanted = ((0, 0),)


def encode(world: World) -> int:
    """A world as an integer."""
    return sum(map(BIT.__getitem__, zip(VARIABLES, world, strict=True)))


def decode(bits: int) -> World:
    """The world of an integer; a variable without a bit comes back empty."""
    return tuple(
        next((each for each in ("unknown", *VARIABLES[name]) if bits & BIT[name, each]), "")
        for name in VARIABLES
    )


def holds(wanted: Wanted, bits: int) -> bool:
    """Whether one of the alternatives holds."""
    for mask, count in wanted:  # noqa: SIM110 - a plain loop is twice as fast as any()
        if (bits & mask).bit_count() == count:
            return True
    return False


def made_ready(condition: Condition | None, facts: Facts) -> Wanted:
    """A condition with its facts answered; branch tests have to be taken out before."""
    if condition is None:
        return TRUE
    found = (_conjunction(all_of, facts) for all_of in condition.either)
    return tuple(each for each in found if each is not None)


def _conjunction(all_of: tuple[Term, ...], facts: Facts) -> tuple[int, int] | None:
    """One alternative; None when a fact makes it false, or when no value can meet it."""
    masks: dict[str, int] = {}
    for term in all_of:
        if term.name not in VARIABLES:
            if (facts.get(term.name, "unknown") in term.values) is term.negated:
                return None
            continue
        mask = sum(BIT[term.name, each] for each in term.values)
        if term.negated:
            mask = MASK[term.name] & ~(mask | BIT[term.name, "unknown"])
        masks[term.name] = masks.get(term.name, mask) & mask
        if not masks[term.name]:
            return None
    return sum(masks.values()), len(masks)


def all_of(conditions: Iterable[Condition], facts: Facts) -> tuple[Wanted, ...]:
    """Several conditions that must all hold, the plain ones merged into one."""
    ready = [made_ready(each, facts) for each in conditions]
    if () in ready:
        return ((),)
    per_variable: dict[str, int] = {}
    for mask, _ in (each[0] for each in ready if len(each) == 1):
        for name, whole in MASK.items():
            if mask & whole:
                per_variable[name] = per_variable.get(name, whole) & mask
    merged = sum(per_variable.values()), len(per_variable)
    return ((merged,), *(each for each in ready if len(each) > 1))


@dataclass(frozen=True, slots=True)
class Ready:
    """One action under given facts: what it needs and what it does to the bits."""

    needs: tuple[Wanted, ...]
    sets: tuple[tuple[Wanted, int, int], ...]
    """When, what to clear, what to set."""


def ready_action(name: str, facts: Facts) -> Ready:
    """An action of the table under given facts."""
    return _ready_action(name, tuple((each, facts.get(each, "unknown")) for each in TABLE_FACTS))


@cache
def _ready_action(name: str, told: tuple[tuple[str, str], ...]) -> Ready:
    """The table looks at few facts, so each action is made ready a few times only."""
    facts = dict(told)
    action = ACTIONS[name]
    sets: list[tuple[Wanted, int, int]] = []
    if name not in table.NOT_WORK:
        sets += (_setting("swing", "not"), _setting("bystanders", "unknown"))
    for variable, new, only_if in action.then:
        sets.append(_setting(variable, new, made_ready(only_if, facts)))
    for variable in action.voids:
        was, becomes = VOIDED[variable]
        sets.append(_setting(variable, becomes, ((BIT[variable, was], 1),)))
    sets.append(_setting("gate", "none"))
    return Ready(all_of((RULES[name], *action.possible, *action.needs), facts), _merged(sets))


def _setting(variable: str, new: str, when: Wanted = TRUE) -> tuple[Wanted, int, int]:
    """One effect."""
    return when, MASK[variable], BIT[variable, new]


def _merged(
    sets: list[tuple[Wanted, int, int]],
) -> tuple[tuple[Wanted, int, int], ...]:
    """Neighbouring effects that always happen become one."""
    made: list[tuple[Wanted, int, int]] = []
    for when, clear, new in sets:
        if made and when == TRUE and made[-1][0] == TRUE:
            _, before, old = made.pop()
            new, clear = (old & ~clear) | new, before | clear
        made.append((when, clear, new))
    return tuple(made)


def act(action: Ready, bits: int) -> int | None:
    """The state after an action, or None where it may not be done."""
    for wanted in action.needs:
        for mask, count in wanted:
            if (bits & mask).bit_count() == count:
                break
        else:
            return None
    for when, clear, new in action.sets:
        if when is TRUE or holds(when, bits):
            bits = bits & ~clear | new
    return bits


Doings = tuple[tuple[Wanted, Ready], ...]


def ready_doings(doings: Iterable[Doing], facts: Facts) -> Doings:
    """A step's actions with their conditions."""
    return tuple((made_ready(d.only_if, facts), ready_action(d.action, facts)) for d in doings)


def carry_out(doings: Doings, bits: int) -> int | None:
    """The state after some actions, or None at the first that may not be done."""
    new: int | None = bits
    for when, action in doings:
        if new is not None and (when is TRUE or holds(when, new)):
            new = act(action, new)
    return new
