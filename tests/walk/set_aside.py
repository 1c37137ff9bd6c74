"""The table with some variables set aside: what depends on them alone is taken as granted.

Every way of the whole table is a way here too, so what cannot be reached here cannot be reached
there. States are the integers of `guide.walk.bits`, which `test_bits` shows to mean the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from itertools import product

from guide.walk import bits
from guide.walk.world import ACTIONS, UNKNOWN, VARIABLES, Facts, World, with_values

PUT_RIGHT = frozenset(
    {
        "controls", "small-things", "guard", "bystanders", "dressed", "swing", "reads", "series",
        "result", "gate",
    }
)  # fmt: skip
"""Variables that can be put right in every state, or that only a gate or a reading sets."""
CORE = frozenset(VARIABLES) - PUT_RIGHT


class Reduced:
    """The actions under some facts, looking at and setting nothing but what is kept."""

    def __init__(self, facts: Facts, kept: Iterable[str]) -> None:
        self.facts = facts
        self.kept = frozenset(kept)
        self.mask = sum(bits.MASK[name] for name in self.kept)
        self.actions = {name: self._action(name) for name in ACTIONS}

    def _action(self, name: str) -> bits.Ready:
        """One action."""
        whole = bits.ready_action(name, self.facts)
        needs = (self._wanted(each) for each in whole.needs)
        sets = (
            (self._wanted(when), clear & self.mask, new & self.mask)
            for when, clear, new in whole.sets
            if clear & self.mask
        )
        return bits.Ready(tuple(each for each in needs if each != bits.TRUE), tuple(sets))

    def _wanted(self, wanted: bits.Wanted) -> bits.Wanted:
        """A condition with what is set aside taken as granted."""
        kept = []
        for mask, count in wanted:
            aside = sum(bool(mask & bits.MASK[n]) for n in VARIABLES if n not in self.kept)
            kept.append((mask & self.mask, count - aside))
        return bits.TRUE if bits.TRUE[0] in kept else tuple(kept)

    def encode(self, world: World) -> int:
        """What is kept of a world."""
        return bits.encode(world) & self.mask

    def onward(self, state: int) -> Iterator[tuple[str, int]]:
        """Every action that may be done, with what comes of it."""
        for name, action in self.actions.items():
            new = bits.act(action, state)
            if new is not None:
                yield name, new

    def reachable(self, starts: Iterable[World]) -> dict[int, tuple[str, int] | None]:
        """Every state that actions lead to, with the action and the state it was reached by."""
        came: dict[int, tuple[str, int] | None] = {self.encode(world): None for world in starts}
        todo = list(came)
        for state in todo:
            for name, new in self.onward(state):
                if new not in came:
                    came[new] = name, state
                    todo.append(new)
        return came


@lru_cache(100_000)
def told(state: int) -> Mapping[str, str]:
    """What a state says, by variable; what is set aside is left out."""
    return {name: each for name, each in zip(VARIABLES, bits.decode(state), strict=True) if each}


def one_of_each(states: Iterable[int], names: Iterable[str]) -> Iterator[int]:
    """One state for each combination of some variables that occurs among states."""
    mask = sum(bits.MASK.get(name, 0) for name in names)
    yield from {state & mask: state for state in states}.values()


def every_world(kept: Iterable[str], **only: tuple[str, ...]) -> Iterator[World]:
    """Every combination of values of some variables that can be told of one lathe.

    `only` narrows a variable (`_` stands for `-`); the rest stay unknown.
    """
    values = {name: VARIABLES[name] for name in VARIABLES if name in set(kept)}
    values |= {name.replace("_", "-"): each for name, each in only.items()}
    for each in product(*values.values()):
        found = dict(zip(values, each, strict=True))
        if possible(found):
            yield with_values(UNKNOWN, found)


def possible(found: dict[str, str]) -> bool:
    """Whether one lathe can be like that: what is apart has no bolts in, a body has its bolts.

    A chuck in one piece has no screws; one whose jaws are moved by themselves has bolts at most.
    """
    body, bolts = found.get("body", ""), found.get("bolts", "")
    screws, carried = found.get("screws", ""), found.get("carried", "")
    if bolts == "none" and screws not in ("", "none"):
        return False
    if body == "apart":
        parted = bolts in ("", "none", "out") and screws in ("", "none", "free")
        return parted and carried != "chuck"
    if body == "on-plate" and bolts:
        loads = ("body",) if bolts == "out" else ("chuck",)
        return carried in ("", "nothing", *loads)
    return True
