"""Opening a setup and going on with one: the store, the hold against a second process, the id."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import UTC, datetime

from guide.front.shelf import RECHECK, STRAIGHT
from guide.front.sound import proven
from guide.journal.holding import Hold
from guide.journal.store import Store
from guide.journal.wellformed import stamp
from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.walk.going_on import carried_over
from guide.walk.remembered import remembered
from guide.walk.second import Signer, is_signed
from guide.walk.setup import Setup, open_setup, replayed, resume_setup
from guide.walk.state import NOTHING


def now() -> str:
    """The time as the journal writes it."""
    return stamp(datetime.now(UTC))


def begun(
    store: Store,
    procedure: str,
    person: str,
    lathe: str,
    typed_at: str,
    hand: Signer | None = None,
    witness: Mapping[str, str] = NOTHING,
    was_read: Procedure | None = None,
) -> tuple[Setup, Hold]:
    """A new setup and the hold on it; raises a Refusal when it may not be opened.

    `hand` and `witness` as `open_setup` takes them; `was_read` is the procedure, where it was found
    by its name already.
    """
    name = fresh_id(lathe, set(store.names()))
    at, found = now(), _of_the_shelf(procedure, was_read or find(procedure))
    offered = remembered if procedure in (STRAIGHT, RECHECK) else carried_over
    return _held(
        store,
        name,
        lambda: open_setup(
            store, found, setup=name, person=person, at=at, lathe=lathe, typed_at=typed_at,
            remembered=offered(store, found, lathe), hand=hand, witness=witness,
        ),
    )  # fmt: skip


def _of_the_shelf(name: str, found: Procedure) -> Procedure:
    """A procedure found by its name, checked where it is the shop's own.

    By a path, which comes from the command line alone, it was checked there.
    """
    return found if name.endswith((".yaml", ".yml")) else proven(name, found)


def gone_on(
    store: Store, setup: str, person: str, hand: Signer | None = None
) -> tuple[Setup, Hold]:
    """An open setup, resumed by a person, and the hold on it."""
    return _held(
        store, setup, lambda: resume_setup(store, setup, person=person, at=now(), hand=hand)
    )


def is_signed_one(store: Store, setup: str) -> bool:
    """Whether a setup's events are signed, so that a PIN is needed to go on with it."""
    return is_signed(replayed(store, setup).state)


def read(store: Store, setup: str) -> Setup:
    """A setup only to be read."""
    return replayed(store, setup)


def has_ended(store: Store, setup: str) -> bool:
    """Whether nothing can be added to a setup."""
    return replayed(store, setup).state.ended


def _held(store: Store, name: str, opened: Callable[[], Setup]) -> tuple[Setup, Hold]:
    """Held first, then opened; let go again when it cannot be."""
    hold = store.hold(name, now())
    try:
        return opened(), hold
    except BaseException:
        hold.release()
        raise


def fresh_id(lathe: str, taken: set[str]) -> str:
    """A setup's id: the lathe's name, the day, and a number where there are more."""
    slug = re.sub(r"[^a-z0-9]+", "-", lathe.lower()).strip("-")[:30].strip("-") or "lathe"
    start = f"{slug}-{datetime.now(UTC):%Y-%m-%d}"
    names = (start if number == 1 else f"{start}-{number}" for number in range(1, 10_000))
    return next(each for each in names if each not in taken)
