"""What the tests of the shipped procedures share: a walk over the table alone, and rehearsals."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from functools import cache
from pathlib import Path

from guide.journal.store import Store
from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.rehearse import read_answers, rehearse
from guide.walk.as_found import expected_at_look
from guide.walk.flow import doings, first_place, looks, next_place, performed, world_after
from guide.walk.looking import look_again
from guide.walk.setup import Setup
from guide.walk.world import UNKNOWN, World, as_dict

ANSWERS = Path(__file__).parents[1] / "answers"
NOT_SEEN = ("swing", "reads", "series", "result", "gate")
"""What of a world no look answers."""

Stood = tuple[str, World, tuple[str, ...]]
"""A step, the world behind it, and the actions it did; at the end the place alone."""


def nothing_said(place: str) -> Collection[str]:
    """No question on the record is answered with yes."""
    return ()


def as_expected(place: str) -> Mapping[str, str] | None:
    """Every look finds what is expected."""
    return None


def walked(
    procedure: Procedure,
    facts: Mapping[str, str],
    says: Callable[[str], Collection[str]] = nothing_said,
    found: Callable[[str], Mapping[str, str] | None] = as_expected,
) -> Iterator[Stood]:
    """Each step of a walk; `says` names the branch tests that hold behind a step."""
    world, place = UNKNOWN, first_place(procedure, UNKNOWN, facts, lambda name: False)
    while place in procedure.by_name:
        step = procedure.by_name[place]
        did = () if looks(step) else performed(doings(step), world, facts)
        if looks(step):
            world = seen_as(expected_at_look(world, facts), found(place))
        else:
            world = world_after(step, world, facts)
        yield place, world, did
        holds = says(place)
        place = next_place(procedure, step, world, facts, lambda name, holds=holds: name in holds)
    yield place, world, ()


def seen_as(world: World, found: Mapping[str, str] | None) -> World:
    """A world after a look that finds it so, but for what is found otherwise."""
    return world if found is None else look_again(world, {**as_seen(world), **found})


def as_seen(world: World) -> dict[str, str]:
    """What of a world is answered at a look."""
    return {name: each for name, each in as_dict(world).items() if name not in NOT_SEEN}


@cache
def rehearsed(name: str, which: str, folder: Path) -> Setup:
    """An answers file walked to its end, once."""
    answers = read_answers(ANSWERS / f"{name}-{which}.yaml")
    with Store(folder / f"{name}-{which}.sqlite3") as store:
        return rehearse(find(name), answers, store, which)
