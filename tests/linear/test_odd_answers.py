"""An odd answer in lines: its sentence is read out, nothing is lost, and `0` once more takes it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from guide.journal.event import Event
from guide.journal.store import Store

ODD = "The dial is read in another unit (in) than its division of .0005 mm."


def written(home: Path) -> tuple[Event, ...]:
    """The events of the only setup."""
    with Store.read(home / "journal.sqlite3") as store:
        (only,) = store.setups()
        return store.events(only.setup)


def test_an_odd_answer_is_recorded_only_when_it_is_confirmed_once_more(
    home: Path, terminal: Any, person: Any, quick: str
) -> None:
    """The page stands as it was answered; no line of it has to be typed again."""
    at = terminal(home, "start", "quick-centring", "--plain", "--width", "0", before=quick)
    one = person(at, "quick-centring-inch")
    one.begin()
    job = one.known["job"]["facts"]
    for name in one.walk.step.ask:
        at.send(".0005 mm" if name == "graduation" else str(job[name]))
    before = len(written(home))
    told = at.send("0")
    assert ODD in told
    assert "if it is right, say it once more" in told
    assert len(written(home)) == before
    at.send("0")
    assert written(home)[-1].data["facts"]["graduation"] == ".0005 mm"
