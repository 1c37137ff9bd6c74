"""Readings that come by wire: on their line, recorded as sent, and nothing else moves."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import asynccontextmanager
from functools import partial
from typing import Any

import pytest
from textual.widgets import Static

from guide.instruments.instrument import Instrument
from guide.instruments.kept import FILE, keep
from guide.instruments.link import Link
from guide.instruments.pace import Pace
from guide.journal.store import Store
from guide.records.evidence import faults
from guide.screens.modals.help import HelpScreen
from guide.screens.sheet import SetupSheet
from guide.screens.steps.besides import EndForm
from guide.screens.steps.correction import CorrectionForm
from guide.screens.steps.gate import CheckRow, GateForm
from guide.screens.steps.readings import TurnForm
from guide.screens.steps.readings_play import PairForm, PlayForm
from guide.screens.steps.task import TaskForm
from guide.screens.widgets.notice import Notice
from guide.walk.state import altered

NAME = "Indicator 3 (invented)"


@pytest.fixture(autouse=True)
def tried_soon(monkeypatch: pytest.MonkeyPatch) -> None:
    """A lost port is tried again at once."""
    monkeypatch.setattr(Link, "again", 0.05)


@pytest.fixture
def at_the_dial(opened, quick, small, tmp_path, indicator) -> Callable[..., Any]:
    """The small procedure at a page, with a simulated indicator on a wire."""

    @asynccontextmanager
    async def begin(kind: type = TurnForm, **more: Any) -> Any:
        far = indicator()
        port = tmp_path / "port"
        port.symlink_to(far.port)
        keep(tmp_path, Instrument(NAME, str(port), **more))
        async with opened(quick, procedure=small) as at:
            at.answers["tolerance"] = "0.001 in"
            at.port = port
            await at.named()
            await at.to(kind)
            await until(at, lambda: all(each.listens.is_set() for each in at.sheet.wires.links))
            yield at, far

    return begin


async def until(at: Any, holds: Callable[[], bool], seconds: float = 20) -> None:
    """Wait until something is so."""
    for _ in range(int(seconds / 0.02)):
        if holds():
            return
        await at.pilot.pause(0.02)
    raise AssertionError(said(at))


def said(at: Any) -> str:
    """What stands in the lines for sentences."""
    lines = at.app.screen.query("#complaint, Notice").results(Static)
    return "\n".join(str(each.render()) for each in lines if each.display)


async def says(at: Any, *words: str) -> None:
    """Wait until these words are said."""
    await until(at, lambda: all(each in said(at) for each in words))


async def test_a_value_goes_on_the_line_and_the_next_position_is_asked(at_the_dial) -> None:
    """Two in one piece are two readings; nothing is recorded by the last one."""
    async with at_the_dial() as (at, far):
        far.sends(b"+0.0012\r\n")
        await until(at, lambda: at.form.values == ["0.0012"])
        far.sends(b"-0.0001 in\r0.0002-\r")
        await until(at, lambda: at.form.values == ["0.0012", "-0.0001", "-0.0002"])
        assert at.form._field("reading").question.startswith("Turn to 135°")
        assert at.complaint == ""
        await at.pilot.pause(1)
        for _ in range(6):
            await at.pilot.pause(0.6)
            far.sends(b"0.0001\r")
        await until(at, lambda: at.form.complete)
        sequence = at.sheet.state.sequence
        await at.pilot.pause(0.2)
        at.button("record").focus()
        await until(at, lambda: at.app.focused is at.button("record"))
        far.sends(b"0.0009\r")
        await says(at, "Everything is read here")
        assert at.sheet.state.sequence == sequence


async def test_which_readings_came_by_wire_is_recorded(at_the_dial, tmp_path) -> None:
    """One that was typed, or taken back and typed, is a person's; the record shows the count."""
    async with at_the_dial() as (at, far):
        at.form._recount(4)
        for number, value in enumerate(("0.0000", "0.0001", "0.0000"), start=1):
            far.sends(f"{value}\r".encode())
            await until(at, lambda n=number: len(at.form.values) == n)
            await at.pilot.pause(0.2)
        at.form.action_one_back()
        for value in ("0.0000", "0.0001"):
            await at.type(at._line("reading"), value)
        far.sends(b"0.0000\r")
        await until(at, lambda: at.form.complete)
        await at.pilot.pause(0.1)
        await at.press("record")
        await at.settle()
        assert f"3 of 5 sent by {NAME}" in at.sheet.lines[-1].note
    with Store.read(tmp_path / "journal.sqlite3") as store:
        (name,) = store.names()
        event = store.events(name)[-1]
        assert list(faults(store)) == []
    assert event.data["sent_by"] == {"instrument": NAME, "readings": ("1", "2", "closing")}


@pytest.mark.parametrize("kind", [GateForm, TaskForm], ids=["gate", "task"])
async def test_at_another_page_a_value_does_nothing_and_is_not_kept(at_the_dial, kind) -> None:
    """No check is confirmed, no button pressed; at the dial that follows nothing stands."""
    async with at_the_dial(kind) as (at, far):
        sequence = at.sheet.state.sequence
        far.sends(b"1\r")
        await says(at, f"{NAME} sent 1 in, which was not taken", "where a dial is read")
        await at.pilot.pause(0.5)
        assert {row.state for row in at.form.query(CheckRow)} <= {"open"}
        assert at.sheet.state.sequence == sequence
        await at.to(TurnForm)
        await at.pilot.pause(0.1)
        assert (at.form.values, at.form._entry.value) == ([], "")


async def test_under_a_window_a_value_is_not_taken(at_the_dial) -> None:
    """And the page below does not have it afterwards."""
    async with at_the_dial() as (at, far):
        form = at.form
        await at.pilot.press("f1")
        await at.until(HelpScreen)
        far.sends(b"0.0012\r")
        await says(at, "was not taken")
        await at.pilot.press("escape")
        await at.until(SetupSheet)
        assert form.values == []


async def test_another_unit_is_neither_taken_nor_converted(at_the_dial) -> None:
    """Whether the line names it or the indicator is set so; what was typed so far stays."""
    async with at_the_dial() as (at, far):
        at.form._entry.value = "0.00"
        far.sends(b"0.4 mm\r")
        await says(at, "0.4 mm is in mm, and this setup is read in in")
        assert (at.form.values, at.form._entry.value) == ([], "0.00")


async def test_an_indicator_set_to_another_unit_is_refused(at_the_dial) -> None:
    """Its bare numbers are millimetres."""
    async with at_the_dial(unit="mm") as (at, far):
        far.sends(b"0.4\r")
        await says(at, "0.4 mm is in mm")
        assert at.form.values == []


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"OL\r", ("is past its range (OL)", "nothing was taken")),
        (b"\x1b[2J\xe9what\r", (r"sent \x1b[2J\xe9what", "not understood")),
        (b"0.1\r" * 9, ("sends without pause",)),
    ],
    ids=["over", "garbage", "stream"],
)
async def test_what_is_no_value_is_one_sentence(at_the_dial, data: bytes, words) -> None:
    """Plain, with odd signs spelled out."""
    async with at_the_dial() as (at, far):
        far.sends(data)
        await says(at, NAME, *words)
        assert len(at.form.values) <= 4


async def test_a_lost_link_keeps_what_was_read_and_says_when_it_is_back(
    at_the_dial, indicator, monkeypatch
) -> None:
    """In the middle of a turn, with half a line under way; by hand it goes on meanwhile."""
    monkeypatch.setattr(Link, "again", 1.5)
    async with at_the_dial() as (at, far):
        far.sends(b"0.0012\r0.00")
        await until(at, lambda: at.form.values == ["0.0012"])
        far.unplug()
        await says(at, f"{NAME}: the link on", "is lost", "what was read stays")
        await at.type(at._line("reading"), "0.0003")
        assert at.form.values == ["0.0012", "0.0003"]
        assert "no port" in said(at) or "lost" in said(at)
        again = indicator()
        at.port.unlink()
        at.port.symlink_to(again.port)
        await says(at, f"{NAME} is back: go on.")
        assert not at.sheet.query_one(Notice).display
        again.sends(b"0.0005\r")
        await until(at, lambda: at.form.values == ["0.0012", "0.0003", "0.0005"])


async def test_no_such_port_is_said_and_stays_said(opened, quick, small, tmp_path) -> None:
    """From page to page, while readings are typed by hand; so is a file that cannot be read."""
    keep(tmp_path, Instrument(NAME, "/dev/no-such-port"))
    async with opened(quick, procedure=small) as at:
        at.answers["tolerance"] = "0.001 in"
        await at.named()
        await says(at, f"{NAME}: there is no port /dev/no-such-port on this machine.")
        await at.to(TurnForm)
        await says(at, "there is no port")
    (tmp_path / FILE).write_text("{")
    at_again = opened(quick, procedure=small, answers={"lathe": "Lathe 9 (invented)"})
    async with at_again as at:
        await at.named()
        await says(at, "cannot be read as settings of indicators")


async def test_a_port_that_another_program_uses_is_said(at_the_dial, indicator, tmp_path) -> None:
    """And the first to have it is not disturbed."""
    async with at_the_dial() as (at, far):
        others = []
        second = Link(Instrument("Second", str(at.port)), others.append)
        second.start()
        await until(at, lambda: bool(others))
        assert "another program is using the port" in str(others[0].why)
        second.stop()
        far.sends(b"0.0012\r")
        await until(at, lambda: at.form.values == ["0.0012"])


async def test_an_indicator_that_has_to_be_asked_is_asked_by_a_key(at_the_dial) -> None:
    """Offered at a dial alone; what it answers goes on the line."""
    async with at_the_dial(ask="R\\r") as (at, far):
        await at.pilot.press("f12")
        assert far.hears() == b"R\r"
        far.sends(b"0.0012\r")
        await until(at, lambda: at.form.values == ["0.0012"])
    assert far.hears(0) == b""


async def test_the_port_is_let_go_with_the_sheet(at_the_dial) -> None:
    """Another program can have it then."""
    async with at_the_dial() as (at, _):
        links = at.sheet.wires.links
        at.sheet.close()
        await at.pilot.pause(0.1)
        assert all(each.wait(1) for each in links)


async def test_a_value_of_another_indicator_than_the_setup_s_is_not_taken(at_the_dial) -> None:
    """The record names the one that was answered."""
    async with at_the_dial() as (at, far):
        facts = {**at.sheet.state.facts, "indicator-name": "Indicator 8"}
        at.sheet.setup.state = altered(at.sheet.state, facts=facts)
        far.sends(b"0.0012\r")
        await says(at, "which was not taken: this setup is read with Indicator 8")
        assert at.form.values == []


async def walked(at: Any, one: Any, put: Callable[[Any, str], Any]) -> None:
    """A chuck is trued to its end; every reading comes from its dial and is put in some way."""
    await at.begin_quickly("adjustable-chuck")
    at.decisions = ["accept", "another-round", *["accept"] * 4]
    for _ in range(200):
        if isinstance(at.form, EndForm):
            return
        form = at.form
        if isinstance(form, (TurnForm, PairForm, PlayForm, CorrectionForm)):
            if isinstance(form, CorrectionForm) and form.advice is None:
                await at.press("alone")
            else:
                await read(at, form, one.chuck, put)
            await at.settle()
        else:
            await at.quick_page()
        assert at.form is not form or type(form) is TaskForm, at.complaint
    raise AssertionError(at.text("#words"))


async def read(at: Any, form: Any, chuck: Any, put: Callable[[Any, str], Any]) -> None:
    """Every reading that a page asks for, then the button, by a person."""
    if isinstance(form, CorrectionForm):
        chuck.screw, chuck.bring = form.advice.screw, float(form.advice.bring_to)
    while form.line() is not None and not (form.line().value and not form.line().hands_over):
        await put(form, chuck.reads(form.line().question))
    await at.pilot.pause(0.1)
    await until(at, lambda: "record" in {each.name for each in at.sheet.query("ActionBar Press")})
    await at.press("record")


@pytest.mark.long
async def test_a_chuck_is_trued_to_its_end_with_every_reading_by_wire(
    opened, quick, reader, indicator, tmp_path, monkeypatch, as_kept
) -> None:
    """The same readings, moves and decisions as typed, each with who sent it.

    The spindle is turned faster than any spindle: the rule for streams is left out.
    """
    monkeypatch.setattr("guide.instruments.link.Pace", partial(Pace, most=1000))
    one, far = reader("adjustable-chuck"), indicator()
    keep(tmp_path, Instrument("Indicator 3 (invented)", far.port))
    async with opened(quick, answers=one.told) as at:

        async def put(form: Any, value: str) -> None:
            before = readings(form)
            far.sends(f"{value} in\r\n".encode())
            await until(at, lambda: readings(form) != before)

        await walked(at, one, put)
    with Store.read(tmp_path / "journal.sqlite3") as store:
        assert list(faults(store)) == []
        (name,) = store.names()
        events = store.events(name)
    as_kept(events)
    sent = [each for each in events if "sent_by" in each.data]
    read_at = [each for each in events if {"values", "value", "got", "pushed"} & {*each.data}]
    assert sent == read_at
    assert all(len(each.data["sent_by"]["readings"]) == count(each.data) for each in sent)
    assert events[-1].data["ends"] == "finished"


def readings(form: Any) -> list[str]:
    """What a form has of readings."""
    fields = [each.value for each in form.asked() if hasattr(each, "entry")]
    return [*getattr(form, "values", ()), *fields]


def count(data: Any) -> int:
    """How many readings an event has: a turn's with the one that closes it, else one or two."""
    return len(data["values"]) + 1 if "values" in data else len({"value", "got"} & {*data}) or 2
