"""Every procedure checked, rehearsed, exported and tampered with."""

from __future__ import annotations

import html
import re
import shutil
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide.journal.event import Event
from guide.journal.store import Store
from guide.procedure.model import Procedure
from guide.procedure.shelf import files, find
from guide.rehearse import read_answers

FOLDER = Path(__file__).parents[1] / "answers"
ANSWERS = sorted(FOLDER.glob("*.yaml"))
SETUP = "whole"
DECIDED = {
    "accept": "accepted",
    "another-round": "another round",
    "another-turn": "another turn to read",
    "stop": "stopped",
}


class Rehearsed(NamedTuple):
    """One answers file walked to its end, and what was written of it."""

    procedure: Procedure
    home: Path
    events: tuple[Event, ...]
    records: Mapping[str, str]
    """What a person reads in each form, gaps evened out."""


@pytest.fixture(scope="module", params=ANSWERS, ids=lambda file: file.stem)
def rehearsed(request, call, made_once, tmp_path_factory) -> Rehearsed:
    """Checked, rehearsed and exported through the command line, in a folder of its own."""
    name, home = read_answers(request.param).procedure, tmp_path_factory.mktemp("home")

    def make(folder: Path) -> None:
        asked = ("rehearse", name, "--answers", request.param, "--setup", SETUP)
        said = call(*asked, "--journal", folder)
        assert said.code == 0, said
        for ending in ("html", "md", "jsonl"):
            to = folder / f"record.{ending}"
            assert call("export", SETUP, "--to", to, "--journal", folder).code == 0
        shown = call("records", "show", SETUP, "--journal", folder).out
        (folder / "record.txt").write_text(shown, encoding="utf-8")

    shutil.copytree(made_once(f"whole-{request.param.stem}", make), home, dirs_exist_ok=True)
    with Store.read(home / "journal.sqlite3") as store:
        events = store.events(SETUP)
    told = {each: (home / f"record.{each}").read_text("utf-8") for each in ("html", "md", "txt")}
    records = {
        "html": html.unescape(re.sub(r"<[^>]*>", " ", told["html"])),
        "md": re.sub(r"\\([!-/:-@\[-`{-~])", r"\1", told["md"]),
        "text": told["txt"],
    }
    evened = {form: " ".join(text.split()) for form, text in records.items()}
    return Rehearsed(find(name), home, events, evened)


@pytest.mark.parametrize("path", files(), ids=lambda path: path.stem)
def test_every_shipped_procedure_passes_its_check(call, path: Path) -> None:
    """No problem in any walk, machine state or change."""
    said = call("check", path.stem)
    assert said.code == 0, said.out
    assert f"{path.stem}: problems: 0; walked" in said.out


def test_every_shipped_procedure_has_a_rehearsal() -> None:
    """Each is walked to its end by at least one answers file."""
    assert {path.stem for path in files()} == {read_answers(path).procedure for path in ANSWERS}


@pytest.mark.parametrize("form", ["html", "md", "text"])
def test_the_record_names_all_that_was_done(rehearsed: Rehearsed, form: str) -> None:
    """Every step, person, time, reading, correction, torque and verdict of the journal."""
    told = rehearsed.records[form]
    for event in rehearsed.events:
        for piece in _pieces(event, rehearsed.procedure):
            words = "not known" if piece == "unknown" else piece
            assert words in told, (event.sequence, piece)


def _pieces(event: Event, procedure: Procedure) -> Iterator[str]:
    """What the record has to name of one event, taken from the event alone."""
    data: Mapping[str, Any] = event.data
    yield event.person
    yield f"{event.at[:10]} {event.at[11:19]}Z"
    step = procedure.by_name.get(event.step)
    if step is not None:
        yield " ".join(step.title.split())
    yield from (str(data[name]) for name in ("torque", "source", "why") if data.get(name))
    yield from (str(data[name]) for name in ("value", "got", "pushed", "pulled") if name in data)
    angles = data.get("angles", ())
    yield from (f"{at}° {each}" for at, each in zip(angles, data.get("values", ()), strict=True))
    yield from map(str, data.get("facts", {}).values())
    if "decision" in data:
        yield DECIDED[data["decision"]]
    if data.get("figures", {}).get("verdict"):
        verdict = {"within": "within tolerance", "outside": "outside tolerance"}
        yield verdict.get(data["figures"]["verdict"], "undecided: what was read")
    if "meaning" in data:
        yield f"{data['name']}: {data['meaning']}"


def test_every_page_says_that_it_was_a_rehearsal(rehearsed: Rehearsed) -> None:
    """In each form, and in the first line of the portable one."""
    for told in rehearsed.records.values():
        assert "REHEARSAL, not a real lathe · NOT TYPED AT A TERMINAL" in told
    portable = (rehearsed.home / "record.jsonl").read_text(encoding="utf-8")
    assert "REHEARSAL" in portable.splitlines()[0]


def test_the_journal_verifies(call, rehearsed: Rehearsed) -> None:
    """As it was written, and every event allowed where it stands."""
    said = call("verify", "--journal", rehearsed.home)
    assert (said.code, said.err) == (0, "")
    assert f"events: {len(rehearsed.events)}, faults: 0." in said.out


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_one_changed_sign_in_one_event_is_found_and_named(call, rehearsed, data) -> None:
    """Any sign of any event's body, changed with a plain UPDATE: exit 1, naming that event."""
    event = data.draw(st.sampled_from(rehearsed.events))
    place = data.draw(st.integers(0, len(event.body()) - 1))
    body = event.body()
    other = data.draw(st.sampled_from('x0 "}').filter(lambda sign: sign != body[place]))
    _update(rehearsed.home, event.sequence, body[:place] + other + body[place + 1 :])
    said = call("verify", SETUP, "--journal", rehearsed.home)
    _update(rehearsed.home, event.sequence, body)
    assert said.code == 1
    assert said.out.startswith(f"Event {event.sequence} of setup {SETUP} ")
    assert "was changed" in said.out.splitlines()[0]


def _update(home: Path, sequence: int, body: str) -> None:
    """Another text for one event, by somebody with a database tool."""
    with closing(sqlite3.connect(home / "journal.sqlite3")) as base, base:
        base.execute("UPDATE event SET body = ? WHERE sequence = ?", (body, sequence))
