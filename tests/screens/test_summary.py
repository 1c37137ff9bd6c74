"""The page that hands over: what stands, until when, or why it does not."""

from __future__ import annotations

from pathlib import Path

from guide.front.results import summary
from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.rehearse import read_answers, rehearse
from guide.walk.state import State, altered
from guide.walk.world import with_values

ANSWERS = Path(__file__).parents[1] / "answers"
STANDS, FALLEN = "It stands until", "It does not stand"


def handed_over(answers: str, home: Path) -> State:
    """A rehearsed walk at its end."""
    told = read_answers(ANSWERS / f"{answers}.yaml")
    with Store(home / "journal.sqlite3") as store:
        return rehearse(find(told.procedure), told, store, "walk").state


def test_only_what_was_accepted_stands_until_something(tmp_path: Path) -> None:
    """A recheck that was accepted says what ends it."""
    told = dict(summary(handed_over("chuck-recheck-inch", tmp_path)))
    assert "a crash, a jam, or work that slipped in the jaws" in told[STANDS]
    assert FALLEN not in told


def test_what_was_not_accepted_does_not_stand(tmp_path: Path) -> None:
    """A recheck that found the chuck out says so, and names no day until which it stands."""
    told = dict(summary(handed_over("chuck-recheck-outside", tmp_path)))
    assert told[FALLEN] == "it was not accepted"
    assert STANDS not in told


def test_what_was_touched_since_does_not_stand(tmp_path: Path) -> None:
    """Accepted, and then something moved."""
    state = handed_over("chuck-recheck-inch", tmp_path)
    moved = altered(state, world=with_values(state.world, {"result": "void"}))
    assert dict(summary(moved))[FALLEN] == "something was touched after it was read"
