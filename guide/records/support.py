"""What the results as found support, while somebody decides when to look again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from guide.journal.summary import Summary
from guide.records.recheck import staircase
from guide.records.trend import Point, known_as, points_of
from guide.shop.interval import Interval
from guide.walk.outcome import outcome
from guide.walk.state import State

if TYPE_CHECKING:
    from guide.journal.store import Store


def supported(store: Store, state: State) -> Interval | None:
    """The interval by all results as found, this open setup's among them.

    None where no such result counts yet: then it is for the user alone to say.
    """
    now = tuple(points_of((_as_if_ended(state),)))
    if not now:
        return None
    found = staircase((*_before(store, now[0]), *now))
    return found if found and found.steps else None


def _before(store: Store, now: Point) -> tuple[Point, ...]:
    """What finished setups told of the same chuck on the same lathe."""
    return tuple(
        each
        for each in points_of(store.outcomes())
        if known_as(each.chuck) == known_as(now.chuck)
        and known_as(each.lathe) == known_as(now.lathe)
    )


def _as_if_ended(state: State) -> Summary:
    """The summary of an open setup, were it to end as it stands."""
    last = state.entries[-1]
    return Summary(
        setup=state.setup, opened_at=state.entries[0].at, opened_by=state.entries[0].person,
        opening=state.opening, last_at=last.at, last_by=last.person, last_kind=last.kind,
        last_step=last.place, closing={"outcome": outcome(state)}, events=last.sequence,
    )  # fmt: skip
