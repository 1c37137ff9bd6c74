"""The short record of work that was centred: what was read, for which grip, and nothing else."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.procedure.shelf import find
from guide.records.of_setup import record_of
from guide.records.record import Record
from guide.records.sections import sections
from guide.records.to_html import to_html
from guide.records.to_jsonl import to_jsonl
from guide.records.to_markdown import to_markdown
from guide.records.to_text import to_text
from guide.rehearse import read_answers, rehearse

ANSWERS = Path(__file__).parents[1] / "answers"
FORMS = [to_text, to_markdown, to_html]
Centred = Callable[[str], Record]


@pytest.fixture
def centred(tmp_path: Path) -> Iterator[Centred]:
    """The record of one of the two rehearsals."""
    with Store(tmp_path / "journal.sqlite3") as store:

        @cache
        def of(name: str) -> Record:
            answers = read_answers(ANSWERS / f"quick-centring-{name}.yaml")
            return record_of(rehearse(find("quick-centring"), answers, store, name), store)

        yield of


def titles(record: Record) -> list[str]:
    """The headings in order."""
    return [each.title for each in sections(record)]


def test_the_summary_names_the_work_the_chuck_and_the_dial(centred: Centred) -> None:
    """What is needed to know which piece in which chuck the figure is of."""
    rows = dict(sections(centred("inch"))[0].rows)
    assert rows["What is centred"] == "bar 1 in (invented)"
    assert rows["Indicator"] == "Indicator 2 (invented)"
    assert rows["Chuck"] == "adjusting screws round the rim shift the whole body"
    assert rows["Tolerance"] == "0.0020 in"


def test_sections_that_have_nothing_to_tell_are_left_out(centred: Centred) -> None:
    """Jaws by themselves: no bolts and screws; nobody broke the other one off."""
    assert "Bolts and screws" not in titles(centred("metric"))
    assert "Interruptions and corrected answers" not in titles(centred("inch"))
    assert "Bolts and screws" in titles(centred("inch"))


@pytest.mark.parametrize("name", ["metric", "inch"])
def test_it_holds_for_this_grip_and_has_no_date(centred: Centred, name: str) -> None:
    """No recheck, no body, no run: what ends it is the work being let go."""
    holds = next(each for each in sections(centred(name)) if each.title == "How long it holds")
    assert [row[0] for row in holds.rows] == ["Void at once after"]
    assert "gripped anew" in holds.rows[0][1]
    assert "this grip alone" in holds.said


@pytest.mark.parametrize("form", FORMS)
def test_of_independent_jaws_no_screw_is_told(centred: Centred, form) -> None:
    """Corrections name the jaw that was read and the one that was driven in."""
    told = " ".join(form(centred("metric")).split())
    assert "jaw 2 reads 0.32 mm" in told
    assert "jaw 2 driven in" in told
    assert "screw 2" not in told


@pytest.mark.parametrize("form", FORMS)
def test_what_nobody_was_asked_is_no_answer(centred: Centred, form) -> None:
    """The sense of jaws is settled, so the record does not say that a person told it."""
    record = centred("metric")
    assert not {"sense", "screw-count"} & {each.name for each in record.answers}
    assert "adjusting screws has the body" not in form(record)


@pytest.mark.parametrize("name", ["metric", "inch"])
def test_only_the_last_reading_stands(centred: Centred, name: str) -> None:
    """Pulling up made the others void; the last one was read with everything tight."""
    results = centred(name).results
    assert [each.what for each in results][::3] == ["as found", "as left"]
    assert results[-1].stands == "yes"
    assert all(each.stands != "yes" for each in results[:-1])


def test_the_first_look_is_told_whole(centred: Centred) -> None:
    """The power was cut before anything was looked at; the rest was new to everybody."""
    look = next(each for each in centred("metric").lines if each.title.startswith("Look at"))
    assert "The jaws: gripping a bar or work" in look.value
    assert "The mounting bolts, plate to body: tight" in look.value
    assert not look.note


def test_the_portable_form_holds_every_event(centred: Centred, tmp_path: Path) -> None:
    """One line for the setup and one for each event, with what the jaws did."""
    record = centred("metric")
    with Store.read(tmp_path / "journal.sqlite3") as store:
        head, *events = to_jsonl(record, store.rows("metric")).splitlines()
    assert json.loads(head)["procedure"] == "quick-centring"
    assert len(events) == record.events
    assert "jaws shift" in "".join(events)
