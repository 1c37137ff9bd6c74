"""Opening a practice setup: the lesson by what was picked, the hold, the id."""

from __future__ import annotations

from datetime import UTC, datetime
from secrets import randbelow

from guide.journal.holding import Hold
from guide.journal.store import Store
from guide.journal.wellformed import stamp
from guide.plain import N_, BadInput
from guide.practice.lesson import DRAWN, Lesson
from guide.practice.lessons import free, in_unit, lesson
from guide.practice.session import Practised, opened

SEEDS = 100_000
"""Seeds that are made up lie below this, so that they can be typed again."""


def wanted(name: str, seed: str, unit: str | None = None) -> tuple[Lesson, int]:
    """The lesson of a name or number, or a chuck drawn from a seed; blank or 0 makes one up.

    Lessons are the same every time: their seed is 1 unless another is given.
    """
    drawn = name in ("", DRAWN)
    number = seed_of(seed) if seed.strip() else 0
    if not number:
        number = 1 + randbelow(SEEDS) if drawn else 1
    if drawn:
        return free(number, unit or "in"), number
    return in_unit(lesson(name), unit), number


def seed_of(text: str) -> int:
    """A seed as typed; raises BadInput for one that is no whole number."""
    if text.strip().isdecimal():
        return int(text)
    raise BadInput(
        N_("“{text}” is not a seed."), N_("Write a whole number; 0 makes one up."), text=text
    )


def now() -> str:
    """The time as the journal writes it."""
    return stamp(datetime.now(UTC))


def begun(
    store: Store, one: Lesson, seed: int, person: str, typed_at: str
) -> tuple[Practised, Hold]:
    """A new practice setup and the hold on it."""
    name = fresh_id(set(store.names()))
    hold = store.hold(name, now())
    try:
        walk = opened(store, one, seed, setup=name, person=person, at=now(), typed_at=typed_at)
    except BaseException:
        hold.release()
        raise
    return walk, hold


def fresh_id(taken: set[str]) -> str:
    """A setup's id that says what it is: practice, the day, and a number where there are more."""
    start = f"practice-{datetime.now(UTC):%Y-%m-%d}"
    names = (start if number == 1 else f"{start}-{number}" for number in range(1, 10_000))
    return next(each for each in names if each not in taken)
