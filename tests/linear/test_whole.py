"""A whole setup in lines, in a real terminal: the same events as the answers given directly."""

from __future__ import annotations

import re
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from guide.journal.canonical import canonical
from guide.journal.event import Event
from guide.journal.store import Store
from guide.records.evidence import faults
from guide.walk.recording import TURNS_ON_THE_BAR

KEPT = Path(__file__).parents[1] / "answers" / "one-setup.txt"
VALUES = r"^(\S+) values=(\S+)"
"""A turn that was read, and its values."""
ASIDE = ("seconds", "faster_than_read")
"""What hangs on how fast a person types."""


def what(event: Event) -> tuple[str, str, str, str]:
    """What an event says, without its time and its place in the chain."""
    data = {name: each for name, each in event.data.items() if name not in ASIDE}
    return event.person, event.step, event.kind, canonical(data)


def test_a_chuck_is_trued_in_lines_as_the_same_answers_do_it(home, terminal, person, quick) -> None:
    """Facts, looks, gates, readings, moves, torque, pause, take-over, signature; then within.

    Nothing is written that a terminal obeys, and the record says that a person typed it.
    """
    at = terminal(home, "start", "adjustable-chuck", "--plain", before=quick)
    one = person(at, "adjustable-chuck-inch")
    one.begin()
    one.to("second-pair")
    one.answer()
    one.besides("Pause; everything", "dinner break")
    one.act("pause", why="dinner break")
    at.send("1")
    one.act("resume")
    one.to("round-verdict")
    one.besides("Another person", "B. Sample")
    one.act("take-over", **{"from": one.person, "by": "B. Sample"})
    one.person = "B. Sample"
    one.to("finished")
    assert "Finished" in at.last
    at.child.send("1\r")
    at.end()
    assert re.findall(r"[^\n\x20-\x7e\xa0-\uffff]", at.all) == []
    with Store.read(home / "journal.sqlite3") as store:
        assert [each.says for each in faults(store)] == []
        (setup,) = store.setups()
        found = store.events(setup.setup)
    beside = one.walk.journal.events("beside")
    assert [what(each) for each in found] == [what(each) for each in beside]
    assert setup.opening["input"] == "terminal"
    assert one.walk.state.taken["as-left"].figures["verdict"] == "within"
    assert "another-round" in [each.data.get("decision") for each in found]


class OfTheOneSetup:
    """Hands at the invented chuck that all ways of entering are compared with."""

    def __init__(self, one: Any, chuck: Any) -> None:
        self.one, self.dial, self.chuck = one, chuck, self

    def read(self, angles: list[float]) -> list[float]:
        """What its dial shows, on the bar or on nose and plate."""
        step = self.one.walk.step
        at_a_screw = step.kind == "correction" or step.take == "pair"
        self.dial.on_bar = at_a_screw or step.serves_as in TURNS_ON_THE_BAR
        return [float(self.dial._dial(each)) for each in angles]

    def move(self, screw: int, by: float, tighten: list[int]) -> Any:
        """The body goes where the program wants it."""
        start = self.read([90.0 * (screw - 1)])[0]
        self.dial.screw, self.dial.bring = screw, start + by
        return SimpleNamespace(reads=float(self.dial._corrected()))

    def torque(self) -> None:
        """Nothing moves."""

    nip = turn_bar = torque


@pytest.mark.long
def test_a_chuck_is_trued_in_lines_with_the_readings_that_screens_and_wire_came_to(
    home, terminal, person, quick, as_kept, on_screens
) -> None:
    """Value by value the setup that keypad, mouse, touch and wire walk on the screens."""
    at = terminal(home, "start", "adjustable-chuck", "--plain", before=quick)
    one = person(at, "adjustable-chuck-inch")
    one.hands = OfTheOneSetup(one, on_screens.Chuck())
    turns = re.findall(VALUES, KEPT.read_text(), re.M)
    one.positions = {step: told.count(",") + 1 for step, told in turns}
    shop = on_screens.TOLD_FOR["adjustable-chuck"]
    for data in one.known.values():
        facts = data.get("facts", {})
        facts.update({name: shop[name] for name in facts if name in shop})
    one.begin()
    one.to("finished")
    at.child.send("1\r")
    at.end()
    with Store.read(home / "journal.sqlite3") as store:
        (setup,) = store.setups()
        as_kept(store.events(setup.setup))
