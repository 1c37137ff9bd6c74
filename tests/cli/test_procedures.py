"""`procedures` lists what can be walked."""

from __future__ import annotations

import json

from guide.procedure.shelf import files


def test_every_shipped_procedure_is_listed_with_its_title(call) -> None:
    """One a line, in the order of their names."""
    found = call("procedures")
    assert (found.code, found.err) == (0, "")
    names = [line.split()[0] for line in found.out.splitlines()]
    assert names == [path.stem for path in files()]


def test_as_json(call) -> None:
    """Name, title, revision, stages and the number of steps."""
    found = json.loads(call("procedures", "--json").out)
    for each in found["procedures"]:
        assert set(each) == {"name", "title", "revision", "stages", "steps"}
        assert each["steps"] > len(each["stages"]) > 0


def test_it_needs_no_journal_and_makes_none(call, home) -> None:
    """Listing leaves no trace."""
    call("procedures")
    assert not home.exists()
