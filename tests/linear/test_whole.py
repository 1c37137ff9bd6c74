"""A whole setup in lines, in a real terminal: the same events as the answers given directly."""

from __future__ import annotations

import re

from guide.journal.canonical import canonical
from guide.journal.event import Event
from guide.journal.store import Store
from guide.records.evidence import faults

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
