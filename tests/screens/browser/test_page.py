"""The page in a real browser of a tablet's size: it is opened, touched, dropped and taken over."""

from __future__ import annotations

import asyncio
import os
import signal
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from guide.serve.seats import TAKEN

NAME, LATHE = "A. Sample", "Lathe 2 (invented)"


async def begun(tablet: Any, server: Any) -> None:
    """A removal by touch, its two texts by the tablet's keyboard, as far as its first page."""
    await tablet.open(server.url)
    await tablet.touch("Another procedure")
    await tablet.touch("Take a chuck or a plate off")
    await tablet.until("A new setup")
    await tablet.type(NAME)
    await tablet.until(NAME)
    await tablet.drag(upward=120)
    await tablet.touch("Which lathe is it", below=5)
    await tablet.until("▸ Which lathe")
    await tablet.type(LATHE)
    await tablet.until("Lathe 2")
    await tablet.touch("Go on")
    await tablet.until("Say which lathe this is")


async def test_a_procedure_is_opened_and_walked_some_steps_by_touch(
    tablet: Any, server: Any, tmp_path: Path
) -> None:
    """What is touched is answered, the journal has it, and no other host was asked for anything."""
    await begun(tablet, server)
    assert await tablet.run("location.href") == server.base + "/"
    await tablet.screenshot(tmp_path / "first.png")
    await tablet.drag(upward=220)
    await tablet.touch("2 short taper")
    await tablet.touch("Which size is the nose", below=1)
    await tablet.until("▸ Which size")
    await tablet.type("D1-6")
    await tablet.drag(upward=300)
    await tablet.until("Is a chuck guard fitted")
    await tablet.touch("1 yes", last=True)
    await tablet.touch("Record this")
    await tablet.until("Say what is on the nose")
    await tablet.touch("2 a chuck that is bolted")
    await tablet.touch("Record this")
    await tablet.until("Say what is to come off")
    await tablet.screenshot(tmp_path / "third.png")
    assert server.events() == ["open", "record", "record"]
    assert len(tablet.requests) > 5
    assert {urlsplit(each).netloc for each in tablet.requests} == {urlsplit(server.base).netloc}
    assert [each for each in tablet.trouble if "WebGL" not in each] == []


async def test_writing_is_large_and_the_smallest_screens_fit(tablet: Any, server: Any) -> None:
    """At least 80 × 24 signs, each at least 11 px wide, and nothing of the page can be scrolled."""
    await tablet.open(server.url)
    await tablet.until("Begin at the lathe")
    columns, rows = await tablet.run("[window.seen.cols, window.seen.rows]")
    assert columns >= 80
    assert rows >= 24
    width = await tablet.run(
        "document.querySelector('.xterm-screen').getBoundingClientRect().width"
    )
    assert width / columns >= 11
    over = await tablet.run(
        "[document.documentElement.scrollWidth - innerWidth,"
        " document.documentElement.scrollHeight - innerHeight, visualViewport.scale]"
    )
    assert over == [0, 0, 1]


async def test_a_program_that_fell_is_opened_again_at_the_same_setup(
    tablet: Any, server: Any, tmp_path: Path
) -> None:
    """By a touch on the page's one button, or by itself where it had run for a while."""
    await begun(tablet, server)
    (program,) = server.programs
    os.kill(program, signal.SIGKILL)
    await tablet.screenshot(tmp_path / "fell.png")
    await tablet.open_again("The program ended by itself")
    await tablet.until("Who goes on with it")
    assert server.events() == ["open"]


async def test_a_page_whose_server_is_gone_says_so_and_a_later_run_refuses_it(
    tablet: Any, server: Any, by_socket: Any
) -> None:
    """It asks again by itself; a run with another secret tells it to open the new link."""
    await tablet.open(server.url)
    await tablet.until("Begin at the lathe")
    server.kill()
    await tablet.says("The link to the program is lost")
    port = server.base.rsplit(":", 1)[1]
    later = by_socket.Server(server.home, "--port", port)
    await tablet.says("open the link that is printed now")
    later.close()


async def test_a_link_that_breaks_comes_back_by_itself(tablet: Any, server: Any) -> None:
    """The page is loaded anew: the same program, the same screen, nobody touched anything."""
    await tablet.open(server.url)
    await tablet.touch("Mount an adjustable")
    await tablet.until("A new setup")
    programs, opened = server.programs, len(tablet.requests)
    await tablet.run("window.page.socket.close()")
    while len(tablet.requests) < opened + 3:
        await asyncio.sleep(0.05)
    await tablet.until("A new setup")
    assert server.programs == programs


async def test_a_second_window_tells_the_first_one_which_takes_it_back_at_a_touch(
    tablet: Any, server: Any, by_socket: Any
) -> None:
    """What is open stays open, whichever window shows it."""
    await tablet.open(server.url)
    await tablet.touch("Mount an adjustable")
    await tablet.until("A new setup")
    async with by_socket.browser() as client:
        client.cookie_jar.update_cookies(await tablet.cookies(server.base))
        other = await by_socket.Page.of(server, client)
        await other.until("A new setup")
        await tablet.open_again("This was opened in another window")
        await tablet.until("A new setup")
        assert await other.closed() == TAKEN
