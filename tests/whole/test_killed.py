"""A setup that is killed at any event and resumed ends as one that was not."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from guide.journal.canonical import canonical
from guide.journal.event import Event
from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.procedure.vocabulary import TRIGGER
from guide.rehearse import Answers, as_seen, give, read_answers, rehearse
from guide.walk.flow import looks
from guide.walk.looking import ASKED, UNSEEN
from guide.walk.recording import checks_of
from guide.walk.setup import Setup, replayed, resume_setup
from guide.walk.state import MAKING_SURE, PAUSED
from guide.walk.world import as_dict, changed

ANSWERS = Path(__file__).parents[1] / "answers"
KILLS = (
    ("adjustable-chuck-inch", 1, 3), ("adjustable-chuck-inch", 2, 3),
    ("adjustable-chuck-inch", 3, 3), ("adjustable-chuck-metric", 1, 9),
    ("chuck-removal-inch", 1, 9), ("quick-centring-inch", 1, 3), ("quick-centring-metric", 1, 1),
    ("chuck-recheck-inch", 1, 3), ("chuck-recheck-metric", 1, 1), ("chuck-recheck-outside", 1, 5),
)  # fmt: skip
"""At which events each rehearsal is killed, from which on and how many further each time: every one
of some (of the longest in three parts), every third or ninth of others.
"""

KILLED = """
import os, signal, sys
from pathlib import Path
from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.rehearse import read_answers, rehearse

answers, home, count = read_answers(Path(sys.argv[1])), Path(sys.argv[2]), int(sys.argv[3])
procedure = find(answers.procedure)
with Store(home / "never" / "journal.sqlite3") as store:
    rehearse(procedure, answers, store, "never")

class Dying(Store):
    left = 0
    def append(self, event, signature=""):
        super().append(event, signature)
        self.left -= 1
        if self.left == 0:
            os.kill(os.getpid(), signal.SIGKILL)

for last in range(int(sys.argv[4]), count, int(sys.argv[5])):
    child = os.fork()
    if child == 0:
        store = Dying(home / str(last) / "journal.sqlite3")
        store.left = last
        rehearse(procedure, answers, store, "killed")
        os._exit(3)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGKILL, (last, status)
"""
"""Forks a rehearsal for each event and kills it with SIGKILL right after that event is written.

One that nobody kills goes before, so that what it finds out about ways is found out once.
"""


@pytest.mark.parametrize(("name", "first", "every"), KILLS)
def test_killed_at_any_event_it_ends_the_same(
    name: str, first: int, every: int, tmp_path: Path
) -> None:
    """Same readings, results and final state, and exactly the events a resumption must add."""
    file = ANSWERS / f"{name}.yaml"
    answers = read_answers(file)
    with Store(tmp_path / "whole.sqlite3") as store:
        whole = rehearse(find(answers.procedure), answers, store, "killed")
        events = store.events("killed")
    counts = map(str, (len(events), first, every))
    subprocess.run(
        [sys.executable, "-c", KILLED, str(file), str(tmp_path), *counts], check=True, timeout=240
    )
    for last in range(first, len(events), every):
        with Store(tmp_path / str(last) / "journal.sqlite3") as store:
            resumed = _resumed(store, answers, last)
            _ends_the_same(resumed, whole)
            _adds_only_what_it_must(store.events("killed"), events, last, answers)


def _resumed(store: Store, answers: Answers, last: int) -> Setup:
    """Go on after the kill: look, say what was recorded, and answer from where the walk stands."""
    before = replayed(store, "killed")
    number = last - 1
    if before.state.place == PAUSED:
        return _answered(before, answers, number)
    at = answers.at(last)
    walk = resume_setup(store, "killed", person=before.state.person, at=at)
    if walk.state.place == MAKING_SURE and before.state.place != MAKING_SURE:
        known = as_dict(before.state.world)
        if known["power"] == "restored":
            known |= {n: weak for n, (strong, weak) in UNSEEN.items() if known[n] == strong}
        weaker = {"bystanders": "near", "dressed": "other"}
        expected = as_seen(walk, {"rest": "as-expected"}) | weaker
        seen = {n: expected[n] if known[n] == "unknown" else known[n] for n in ASKED}
        walk.act("record", {"seen": seen}, person=walk.state.person, at=at)
    _answer_what_no_file_expects(walk, answers, at)
    if walk.state.place == before.state.place:
        return _answered(walk, answers, number)
    back = max(n for n in range(number + 1) if answers.answers[n].step == walk.state.place)
    again = [a for a in answers.answers[back:number] if a.step in walk.procedure.by_name]
    for answer in again:
        give(walk, replace(answer, person=walk.state.person), at)
    return _answered(walk, answers, number)


def _answer_what_no_file_expects(walk: Setup, answers: Answers, at: str) -> None:
    """Steps that only an interruption leads to: look, gates and tasks as they stand."""
    expected = {answer.step for answer in answers.answers}
    while walk.step is not None and walk.step.name not in expected:
        checks = [str(n) for n, _ in enumerate(checks_of(walk.step, walk.state), start=1)]
        data = {"checks": checks} if checks else {}
        if looks(walk.step):
            data = {"seen": as_seen(walk, {"rest": "as-expected"})}
        walk.act(TRIGGER[walk.step.kind], data, person=walk.state.person, at=at)


def _answered(walk: Setup, answers: Answers, number: int) -> Setup:
    """Give the answers from one on."""
    for answer in answers.answers[number:]:
        give(walk, answer, answers.at(len(answers.answers)))
    return walk


def _ends_the_same(resumed: Setup, whole: Setup) -> None:
    """Readings, figures, facts, rounds and machine state at the end.

    Bystanders are set aside: work made them unknown, and a resumption after it looked for them.
    """
    one, other = resumed.state, whole.state
    assert (one.place, one.facts) == (other.place, other.facts)
    assert changed(one.world, bystanders="") == changed(other.world, bystanders="")
    assert (one.rounds, one.decision, one.people) == (other.rounds, other.decision, other.people)
    assert _read(resumed) == _read(whole)


def _read(walk: Setup) -> dict[str, dict[str, object]]:
    """Every set of readings as typed, with its figures; not what was set up for it."""
    taken = walk.state.taken.items()
    return {k: {n: v for n, v in t.data.items() if n != "did"} for k, t in taken}


def _adds_only_what_it_must(
    found: tuple[Event, ...], events: tuple[Event, ...], last: int, answers: Answers
) -> None:
    """The resumption, the making sure, and what has to be had again before work goes on."""
    assert [_what(each) for each in found[:last]] == [_what(each) for each in events[:last]]
    rest = [_what(each) for each in events[last:]]
    assert [_what(each) for each in found[len(found) - len(rest) :]] == rest
    added = found[last : len(found) - len(rest)]
    kinds = [each.kind for each in added[:2] if each.kind == "resume" or each.step == MAKING_SURE]
    assert kinds in ([], ["resume"], ["resume", "record"])
    known = {_what(each)[1:] for each in events[:last]}
    expected = {answer.step for answer in answers.answers}
    for each in added[len(kinds) :]:
        assert _what(each)[1:] in known or each.step not in expected, each.step
    assert len(added) <= 14, [each.step for each in added]


def _what(event: Event) -> tuple[str, str, str, str]:
    """What an event says, without its number, time and place in the chain.

    Advice is set aside too: a screw that is read again before it is moved is heard twice.
    """
    aside = ("did", "world", "advised")
    data = {name: each for name, each in event.data.items() if name not in aside}
    return event.person, event.step, event.kind, canonical(data)
