"""The proof finds nothing in what is shipped, and says the shortest way to what it finds."""

from __future__ import annotations

import pytest

from guide.procedure.load import read
from guide.procedure.model import Procedure
from guide.procedure.shelf import files, find
from guide.walk.closed import closed_facts
from guide.walk.proof import check

KEY_LEFT_IN = """
procedure: key-left-in
revision: "1"
title: A key is left in (invented)
rests-on: [invented]
facts:
  guard-fitted: {ask: Is a guard fitted?, kind: yes-no}
  nose: {ask: Which nose?, kind: choice, of: {camlock: cam-lock}}
  on-nose: {ask: What is on it?, kind: choice, of: {nothing: nothing}}
stages:
  - stage: all
    title: All of it
    steps:
      - {step: facts, kind: facts, title: T, full: F, brief: B, ask: [guard-fitted, nose, on-nose]}
      - {step: look-first, kind: task, title: T, full: F, brief: B, does: [look]}
      - {step: cut, kind: task, title: T, full: F, brief: B, does: [stop, isolate, see isolated]}
      - {step: key, kind: task, title: T, full: F, brief: B, does: [fit chuck-key]}
      - {step: sign, kind: sign-off, title: T, full: F, brief: B}
"""


@pytest.fixture(scope="module")
def mounting() -> Procedure:
    """The main procedure."""
    return find("adjustable-chuck")


def test_every_nose_plate_and_start_is_walked(mounting: Procedure) -> None:
    """Each nose with the plate loose, parted or assembled, and with plate or chuck on the nose."""
    told = {(f["nose"], f["on-nose"], f.get("plate")) for f in closed_facts(mounting)}
    for nose in ("long", "camlock", "bolted", "threaded"):
        for plate in ("loose", "bolted", "assembled"):
            assert (nose, "nothing", plate) in told
        assert (nose, "this-plate", None) in told
        assert (nose, "this-chuck", None) in told


@pytest.mark.parametrize("name", [path.stem for path in files()])
def test_nothing_is_found_in_what_is_shipped(name: str) -> None:
    """No refusal, no danger, no dead end, whatever making sure finds changed."""
    found = check(find(name))
    assert [each.text(name) for each in found.problems] == []
    assert found.spots > 800
    assert found.changes > 20_000


def test_a_finding_is_told_with_the_shortest_sequence_of_actions() -> None:
    """The steps that act, in order, with what each does; the step and line of the finding."""
    found = check(read(KEY_LEFT_IN, "key-left-in.yaml"))
    (finding,) = [each for each in found.problems if each.step == "sign"]
    said = finding.text("key-left-in.yaml")
    assert "chuck-key=out" in said
    assert said.startswith("key-left-in.yaml:18:9: sign:")
    way = "look-first (look) → cut (stop, isolate, see isolated) → key (fit chuck-key)"
    assert way in said
