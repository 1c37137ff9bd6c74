"""Lists of setups from the derived list, which is believed only where it is as it was kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from heapq import nlargest
from operator import attrgetter
from pathlib import Path
from typing import Any, NamedTuple

from guide.journal import schema, trouble
from guide.journal.base import Base
from guide.journal.glance import LISTED, TALLY, Listed, from_events, tally
from guide.journal.summary import Summary, summary

DAMAGE = ("SQLITE_CORRUPT", "SQLITE_ERROR", "SQLITE_NOTADB")
"""What SQLite says where the list or its tally cannot be read at all."""
Moment = tuple[int, int]
"""Changes with whatever is written, by this program or by another."""


class Kept(NamedTuple):
    """The list as it was at some moment."""

    moment: Moment
    rows: list[Listed]


Which = Callable[[Sequence[Listed]], Sequence[Listed]]


class Lists:
    """Lists of the setups of one open journal, each setup at a glance."""

    def __init__(self, base: Base, path: Path, version: int) -> None:
        self._base, self._path, self._tallied = base, path, version > schema.UNTALLIED
        self._kept: Kept | None = None
        self.sound = True
        """Whether all that was given so far came of a list that is as it was kept and fits the
        events; a list that is not was read from the events, which is as right and takes longer."""

    def given(self, which: Which) -> tuple[Summary, ...]:
        """The summaries of some of the setups."""
        with self._at_one_moment():
            told = tuple(filter(None, map(self._told, which(self._now().rows))))
            self.sound = self.sound and all(map(_fits, told))
            return told

    def streamed(self, which: Which) -> Iterator[Summary]:
        """The same one by one, of many."""
        with self._at_one_moment():
            rows = which(self._now().rows)
        return filter(None, map(self._told, rows))

    def stands(self) -> bool:
        """Whether the list is as it was kept, by its tally."""
        return not self._tallied or self._rows() is not None

    def ends(self) -> tuple[tuple[Any, ...], ...]:
        """Of each setup what `schema.ENDS` tells, from the events alone, the latest first.

        CheckFailed where an index of the file is damaged and a setup's events are not found by it:
        left out, a setup that is open would be taken for none.
        """
        found = tuple(self._base.execute(schema.ENDS))
        if any(None in columns for columns in found):
            raise trouble.damaged(self._path)
        names = {str(setup).encode() for setup, *_ in found}
        for each in (self._rows() or ()) if self._tallied else ():
            if each.setup not in names:
                self._must_be_gone(each)
        return found

    def _now(self) -> Kept:
        """The list as it is at this moment, read once for all that is asked at it."""
        moment = self._base.execute(schema.MOMENT).fetchone()[0], self._base.total_changes
        if self._kept is None or self._kept.moment != moment:
            rows = self._rows() if self._tallied else None
            self.sound = self.sound and (rows is not None or not self._tallied)
            self._kept = Kept(moment, list(from_events(self.ends())) if rows is None else rows)
        return self._kept

    def _rows(self) -> list[Listed] | None:
        """The list, None where its tally is another."""
        try:
            rows = self._base.execute(LISTED).fetchall()
            kept = self._base.execute(TALLY).fetchall()
        except Exception as error:
            if not getattr(error, "sqlite_errorname", "").startswith(DAMAGE):
                raise
            return None
        return list(map(Listed._make, rows)) if kept == [tally(rows)] else None

    def _told(self, each: Listed) -> Summary | None:
        """What the events say of one, None where there is not one of them any more."""
        setup = each.setup.decode("utf-8", "replace")
        row = self._base.execute(schema.SUMMARY, (setup, each.opened)).fetchone()
        if None not in row:
            return summary(setup, *row)
        self._must_be_gone(each)
        self.sound = False
        return None

    def _must_be_gone(self, each: Listed) -> None:
        """CheckFailed where events of a setup are there which the file's index does not find."""
        setup = each.setup.decode("utf-8", "replace")
        if self._base.execute(schema.ANYWHERE, (setup,)).fetchone():
            raise trouble.damaged(self._path)

    @contextmanager
    def _at_one_moment(self) -> Iterator[None]:
        """Nothing that another writes meanwhile is seen."""
        if self._base.in_transaction:
            yield
            return
        self._base.execute("BEGIN")
        try:
            yield
        finally:
            if self._base.in_transaction:
                self._base.execute("COMMIT")


def _fits(told: Summary) -> bool:
    """Whether neither the first nor the last event of a setup says that it is of another."""
    return {told.of_first, told.of_last} <= {told.setup, ""}


def still_open(rows: Iterable[Listed]) -> list[Listed]:
    """Those that have not ended, the one opened last first."""
    told = (each for each in rows if each.ended is None)
    return sorted(told, key=attrgetter("opened"), reverse=True)


def ended(rows: Iterable[Listed], limit: int) -> list[Listed]:
    """Those that have ended, the latest first, of so many at most, -1 for all."""
    told = [each for each in rows if each.ended is not None]
    return nlargest(limit if limit >= 0 else len(told), told, key=_ended)


def with_outcome(rows: Iterable[Listed], chuck: str = "") -> list[Listed]:
    """Those of a chuck, or of every chuck, that ended with an outcome, in that order."""
    wanted = chuck.encode("utf-8", "replace")
    told = (each for each in rows if each.chuck and each.ended is not None)
    return sorted((each for each in told if wanted in (b"", each.chuck)), key=_ended)


def latest(rows: Iterable[Listed]) -> list[Listed]:
    """Of each chuck on each lathe the setup that ended last with an outcome."""
    last = {(each.chuck, each.lathe): each for each in with_outcome(rows)}
    return sorted(last.values(), key=_ended)


def last_of(rows: Iterable[Listed], chuck: str, lathe: str, limit: int) -> list[Listed]:
    """Those of a chuck on a lathe that ended last with an outcome, the latest first."""
    here = lathe.encode("utf-8", "replace")
    return [each for each in with_outcome(rows, chuck) if each.lathe == here][::-1][:limit]


_ended: Callable[[Listed], int] = attrgetter("ended")
