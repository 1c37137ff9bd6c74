"""Pages come and go; setups do not: dropped links, two windows, many at once, and kills."""

from __future__ import annotations

import asyncio
import os
import signal
from collections.abc import AsyncIterator
from pathlib import Path
from types import ModuleType
from typing import Any

import aiohttp
import pytest

from guide.records.evidence import faults
from guide.serve.seats import FELL, FULL, GOING_AWAY, LEFT, MOST_PROGRAMS, TAKEN

MANY = 50
MAKING_SURE = "Make sure of the machine"
FALLING = """
import sys

if "guide.serve.program" in sys.orig_argv:
    from guide.screens.steps.making_sure import LookForm

    def fall(*_):
        raise ValueError("made to fall")

    LookForm.on_key = fall
"""
"""A program that fails at the first key at making sure."""
LEAVE = "\x1b[21~"
"""F10, as a terminal sends it."""


@pytest.fixture
async def client(by_socket: ModuleType) -> AsyncIterator[aiohttp.ClientSession]:
    """A browser."""
    async with by_socket.browser() as one:
        yield one


async def at_its_setup(server: Any, client: aiohttp.ClientSession, by_socket: ModuleType) -> Any:
    """A browser that opens the link and goes on with the one open setup."""
    page = await by_socket.Page.opened(server, client)
    await page.until(by_socket.START)
    await page.type("1")
    await goes_on(page, by_socket)
    return page


def whole(server: Any, by_socket: ModuleType) -> list[str]:
    """The events of the one setup, in a journal in which nothing is wrong."""
    with by_socket.Store.read(server.home / "journal.sqlite3") as store:
        assert [each.says for each in faults(store)] == []
    return list(server.events())


async def goes_on(page: Any, by_socket: ModuleType) -> None:
    """The page asks who goes on with the setup, and then makes sure of the machine."""
    await the_same_person(page, by_socket)
    await page.until(MAKING_SURE)


async def the_same_person(page: Any, by_socket: ModuleType) -> None:
    """Says to the page who goes on with the setup."""
    await page.until("Who goes on with it")
    await page.until("▸ Your name")
    await page.type("1")
    await asyncio.sleep(by_socket.QUIET)
    await page.type("\r")


async def test_a_link_that_comes_back_finds_the_program_as_it_was(
    serving, client, by_socket
) -> None:
    """The same process and the same screen, drawn anew; what was half typed is still there."""
    one = serving()
    page = await by_socket.Page.opened(one, client)
    await page.until(by_socket.START)
    await page.type("2")
    await page.until("▸ Your name")
    await page.type("A. Sam")
    await page.until("A. Sam")
    await asyncio.sleep(by_socket.QUIET)
    before, programs = page.text, one.programs
    await page.socket.close()
    again = await by_socket.Page.of(one, client)
    await again.until("A. Sam")
    await again.until("Back   *")
    assert again.text == before
    await again.type("ple\r")
    await again.until("A. Sample")
    assert one.programs == programs


async def test_a_link_that_stays_away_comes_back_to_the_same_setup_and_making_sure(
    serving, client, by_socket
) -> None:
    """Its program is closed after a while; a new one opens the setup, and nothing was lost."""
    one = serving(away=0.2)
    before = by_socket.at_work(one.home)
    page = await at_its_setup(one, client, by_socket)
    (program,) = one.programs
    await page.socket.close()
    assert await asyncio.to_thread(by_socket.gone, program)
    await goes_on(await by_socket.Page.of(one, client), by_socket)
    assert whole(one, by_socket) == [*before, "resume", "resume"]


async def test_a_killed_program_loses_nothing_and_comes_back_to_its_setup(
    serving, client, by_socket
) -> None:
    """The page is told that the program fell, and the next one makes sure of the machine."""
    one = serving()
    before = by_socket.at_work(one.home)
    page = await at_its_setup(one, client, by_socket)
    (program,) = one.programs
    os.kill(program, signal.SIGKILL)
    assert await page.closed() == FELL
    assert whole(one, by_socket) == [*before, "resume"]
    await goes_on(await by_socket.Page.of(one, client), by_socket)
    assert whole(one, by_socket) == [*before, "resume", "resume"]


async def test_a_program_with_an_error_of_its_own_comes_back_to_its_setup(
    serving, client, by_socket, tmp_path: Path
) -> None:
    """It closes its screens and says where; that is not taken for a person who left."""
    (tmp_path / "sitecustomize.py").write_text(FALLING, encoding="utf-8")
    one = serving(before=tmp_path)
    before = by_socket.at_work(one.home)
    page = await at_its_setup(one, client, by_socket)
    await page.type("z")
    assert await page.closed() == FELL
    again = await by_socket.Page.of(one, client)
    await again.until("Who goes on with it")
    assert whole(one, by_socket) == [*before, "resume"]
    assert any("made to fall" in line for line in one.end()[1])


async def test_what_a_person_entered_on_a_page_counts_and_is_there_after_a_kill(
    serving, client, by_socket
) -> None:
    """As soon as the next step is shown, the answers to the last one outlive the program.

    The journal says `serve`, and no page says that it was not typed at a terminal.
    """
    one = serving()
    page = await by_socket.Page.opened(one, client)
    await page.in_mid_setup()
    assert "NOT TYPED" not in page.text
    (program,) = one.programs
    os.kill(program, signal.SIGKILL)
    assert await page.closed() == FELL
    assert whole(one, by_socket) == ["open", "record"]
    with by_socket.Store.read(one.home / "journal.sqlite3") as store:
        (told,) = store.setups()
    assert (told.opening["mode"], told.opening["input"]) == ("real", "serve")
    again = await by_socket.Page.of(one, client)
    await the_same_person(again, by_socket)
    await again.until(by_socket.NEXT)


async def test_a_killed_server_leaves_no_program_and_loses_nothing(
    serving, client, by_socket
) -> None:
    """Every program ends by itself, the setup is free, and another run goes on with it."""
    one = serving()
    before = by_socket.at_work(one.home)
    await at_its_setup(one, client, by_socket)
    programs = one.programs
    assert programs
    one.kill()
    for each in programs:
        assert await asyncio.to_thread(by_socket.gone, each)
    assert whole(one, by_socket) == [*before, "resume"]
    two = serving()
    async with by_socket.browser() as other:
        await at_its_setup(two, other, by_socket)
    assert whole(two, by_socket) == [*before, "resume", "resume"]


async def test_a_stopped_program_does_not_outlive_a_killed_server(
    serving, client, by_socket
) -> None:
    """One that hangs cannot close its screens; it is ended all the same once it runs again."""
    one = serving()
    page = await by_socket.Page.opened(one, client)
    await page.until(by_socket.START)
    (program,) = one.programs
    os.kill(program, signal.SIGSTOP)
    one.kill()
    os.kill(program, signal.SIGCONT)
    assert await asyncio.to_thread(by_socket.gone, program)


async def test_ctrl_c_lets_every_page_go_and_ends_every_program(serving, client, by_socket) -> None:
    """Exit code 0, the page is told that the server goes away, no process is left."""
    one = serving()
    before = by_socket.at_work(one.home)
    page = await at_its_setup(one, client, by_socket)
    programs = one.programs
    code, said = await asyncio.to_thread(one.end)
    assert code == 0, said
    assert await page.closed() == GOING_AWAY
    for each in programs:
        assert by_socket.gone(each)
    assert whole(one, by_socket) == [*before, "resume"]


async def test_a_program_that_a_person_leaves_is_closed_and_opens_at_the_start(
    serving, client, by_socket
) -> None:
    """Left in mid-setup: the next page of the same browser shows the start page."""
    one = serving()
    by_socket.at_work(one.home)
    page = await at_its_setup(one, client, by_socket)
    await page.type(LEAVE)
    await page.until("Pause this setup")
    for _ in "blank", "yes":
        await page.type("\r")
        await asyncio.sleep(by_socket.QUIET)
    await page.until(by_socket.START)
    await page.type(LEAVE)
    assert await page.closed() == LEFT
    again = await by_socket.Page.of(one, client)
    await again.until(by_socket.START)


async def test_a_second_window_takes_the_setup_over_and_the_first_is_told(
    serving, client, by_socket
) -> None:
    """One program shows on one window: the newer one; keys of the older one are not taken."""
    one = serving()
    by_socket.at_work(one.home)
    first = await at_its_setup(one, client, by_socket)
    programs = one.programs
    second = await by_socket.Page.of(one, client)
    assert await first.closed() == TAKEN
    await second.until(MAKING_SURE)
    assert one.programs == programs
    page = await (await client.get(one.base + "/")).text()
    assert f'data-when="{TAKEN}">This was opened in another window' in page


async def test_another_browser_at_the_same_setup_is_told_who_has_it(
    serving, client, by_socket
) -> None:
    """The journal holds a setup for one process; the second says so in one sentence."""
    one = serving()
    before = by_socket.at_work(one.home)
    await at_its_setup(one, client, by_socket)
    async with by_socket.browser() as other:
        second = await by_socket.Page.opened(one, other)
        await second.until("Go on with an open setup")
        await second.type("1")
        await the_same_person(second, by_socket)
        await second.until("is open elsewhere")
    assert whole(one, by_socket) == [*before, "resume"]


async def test_fifty_browsers_at_once_are_survived(serving, client, by_socket) -> None:
    """As many programs as are allowed, a plain sentence for the rest, and the first still works."""
    one = serving()
    page = await by_socket.Page.opened(one, client)
    await page.until(by_socket.START)
    others = [by_socket.browser() for _ in range(MANY)]
    pages = await asyncio.gather(*(by_socket.Page.opened(one, each) for each in others))
    served = MOST_PROGRAMS - 1
    refused = [each for each in pages if not await still_open(each)]
    assert len(refused) == MANY - served
    assert {each.code for each in refused} == {FULL}
    assert len(one.programs) == MOST_PROGRAMS
    await page.type("2")
    await page.until("A new setup")
    for each in others:
        await each.close()
    text = await (await client.get(one.base + "/")).text()
    assert f'data-when="{FULL}">{MOST_PROGRAMS} pages are open' in text


async def still_open(page: Any) -> bool:
    """Whether a page is served: something is drawn on it before it is closed."""
    while page.code is None and not page.text.strip():
        await asyncio.sleep(0.02)
    return page.code is None


async def test_fifty_windows_of_one_browser_share_one_program(serving, client, by_socket) -> None:
    """Each takes over from the one before; the last one works."""
    one = serving()
    await by_socket.Page.opened(one, client)
    pages = await asyncio.gather(*(by_socket.Page.of(one, client) for _ in range(MANY)))
    left = pages
    while len(left) > 1:
        await asyncio.sleep(0.05)
        left = [each for each in pages if each.code is None]
    assert {each.code for each in pages if each is not left[0]} == {TAKEN}
    await left[0].until(by_socket.START)
    assert len(one.programs) == 1
