"""Why a walk is refused, in words for whoever writes the procedure."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from guide.plain import NotAllowed
from guide.walk.world import World

Spot = tuple[str, World]
"""A step and the whole machine state in which a walk stands there."""
AUTHOR_MAY = (
    "Let an earlier step make it so, write `… if …` behind the action, or `when:` at the step."
)
NOT_SAFE = "the walk may end there as abandoned, and the lathe is not made safe"
SEVERAL = "no step before it can be gone on from with the lathe like this"
"""Said where each step is refused for a reason that hangs on what was answered before."""
FAR = 400
"""Spots that are looked at for a reason; a walk that is refused is mostly refused near by."""


def to_author(refusal: NotAllowed) -> str:
    """What was refused, and what can be written so that it is not.

    The remedy that the refusal has is for whoever walks: it says where to go, not what to write.
    """
    return f"{refusal.sentence.format_map(dict(refusal.values))} {AUTHOR_MAY}"


def first_refused(
    start: Spot, onward: Callable[[Spot], Iterable[Spot]], may_end: Callable[[Spot], bool]
) -> tuple[str, str] | None:
    """The nearest step behind a spot that is refused, and why; None where none is found.

    `onward` raises `NotAllowed` at a step that is refused.
    """
    todo, seen = [start], {start}
    for here in todo:
        try:
            following = onward(here)
        except NotAllowed as refusal:
            return here[0], to_author(refusal)
        if not may_end(here):
            return here[0], NOT_SAFE
        new = [each for each in following if each not in seen]
        seen.update(new)
        todo += new[: max(0, FAR - len(todo))]
    return None
