"""Who is not let in: every request is tried as a stranger, another page or another name would."""

from __future__ import annotations

import asyncio
import re
from collections.abc import AsyncIterator
from pathlib import Path
from types import ModuleType
from typing import Any

import aiohttp
import pytest

DOORS = ("/", "/socket", "/page.js", "/textual.js", "/nothing")
"""Addresses of every kind that the server knows, and one that it does not."""
CLIMBS = (
    "/../pyproject.toml", "/..%2fpyproject.toml", "/%2e%2e/pyproject.toml",
    "/%2e%2e%2f%2e%2e%2fetc%2fpasswd", "/..%5c..%5cetc%5cpasswd", "/page.js%00.css",
    "//etc/passwd", "/%2fetc%2fpasswd", "/....//....//etc/passwd", "/%252e%252e%252fetc%252fpasswd",
    "/static/../../etc/passwd", "/page.css/", "/.", "/..", "/screens.html", "/enter.html",
    "/web", "/web/", "/__init__.py", "/journal.sqlite3",
)  # fmt: skip
NONSENSE = ("{", "[]", '["stdin"]', '["stdin", 5]', '["resize", {"width": "x"}]', "[" * 9000,
            '["stdin", "\\ud800"]', "null", '{"stdin": 1}',
            '["resize", {"width": true}]')  # fmt: skip
"""Messages that no page of ours sends."""


@pytest.fixture
async def stranger(by_socket: ModuleType) -> AsyncIterator[aiohttp.ClientSession]:
    """A browser that has no cookie."""
    async with by_socket.browser() as client:
        yield client


@pytest.fixture
async def guest(server: Any, by_socket: ModuleType) -> AsyncIterator[aiohttp.ClientSession]:
    """A browser that came by the link."""
    async with by_socket.browser() as client:
        assert (await client.get(server.url)).status == 200
        yield client


def one_sentence(page: str) -> str:
    """What a refusal says: a page with one sentence and nothing of what was asked."""
    said = re.findall(r"<p>(.*?)</p>", page)
    assert len(said) == 1, page
    assert said[0].endswith("."), said
    return str(said[0])


async def raw(server: Any, request: str) -> tuple[int, str]:
    """An answer to bytes that no client would send: its status and all of it."""
    host, port = server.base.removeprefix("http://").split(":")
    reader, writer = await asyncio.open_connection(host, int(port))
    writer.write(request.replace("\n", "\r\n").encode())
    answer = (await asyncio.wait_for(reader.read(), 10)).decode(errors="replace")
    writer.close()
    return int(answer.split(" ")[1]), answer


@pytest.mark.parametrize("door", DOORS)
async def test_without_the_links_secret_nothing_opens(server, stranger, door: str) -> None:
    """The bare address of anything is refused with one sentence, the socket too."""
    answer = await stranger.get(server.base + door, headers={"Origin": server.base})
    assert answer.status == 403
    assert "open the whole link" in one_sentence(await answer.text())


@pytest.mark.parametrize("key", ["", "x", "é", "%00", "a" * 5000, "..%2f"])
async def test_a_wrong_secret_opens_nothing_and_gives_no_cookie(server, stranger, key) -> None:
    """Whatever is given as the secret, it is said to be wrong and is not said again."""
    answer = await stranger.get(f"{server.base}/?key={key}")
    assert answer.status == 403
    assert "wrong or of an earlier run" in one_sentence(await answer.text())
    assert "Set-Cookie" not in answer.headers


async def test_a_secret_and_a_cookie_of_an_earlier_run_open_nothing(
    serving, by_socket: ModuleType
) -> None:
    """On the very same port: link, cookie and socket of the run before are refused."""
    first = serving()
    port = first.base.rsplit(":", 1)[1]
    async with by_socket.browser() as client:
        assert (await client.get(first.url)).status == 200
        assert first.end()[0] == 0
        second = serving("--port", port)
        for url in (first.url, second.base + "/", second.base + "/socket"):
            answer = await client.get(url, headers={"Origin": second.base})
            assert answer.status == 403
            assert "of an earlier run" in one_sentence(await answer.text())
        assert (await client.get(second.url)).status == 200
    assert first.url != second.url


async def test_the_secret_is_left_behind_for_a_cookie_that_no_script_reads(server, guest) -> None:
    """The link's answer is a page that goes on to the bare address, with a strict cookie."""
    answer = await guest.get(server.url)
    cookie = answer.headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    assert server.url.split("key=")[1] not in cookie + await answer.text()
    assert 'location.replace("/")' in await (await guest.get(server.base + "/enter.js")).text()
    assert (await guest.get(server.base + "/")).status == 200


async def test_the_same_browser_keeps_its_seat_when_it_opens_the_link_again(server, guest) -> None:
    """Pointing the camera at the code once more gives the cookie that is there already."""
    first, second = [(await guest.get(server.url)).headers["Set-Cookie"] for _ in range(2)]
    assert first == second


@pytest.mark.parametrize("door", DOORS)
@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "https://{host}", "http://{host}.evil.example",
               "http://127.0.0.1", "http://127.0.0.1:1"],
)  # fmt: skip
async def test_a_page_of_another_origin_is_refused_with_a_good_cookie(
    server, guest, door: str, origin: str
) -> None:
    """Every door looks at who asks, the socket's before it opens."""
    told = origin.format(host=server.base.removeprefix("http://"))
    answer = await guest.get(server.base + door, headers={"Origin": told})
    assert answer.status == 403
    assert "Another page" in one_sentence(await answer.text())


async def test_a_socket_that_names_no_origin_is_refused(server, guest) -> None:
    """A browser always names it."""
    answer = await guest.get(server.base + "/socket")
    assert answer.status == 403
    with pytest.raises(aiohttp.WSServerHandshakeError, match="403"):
        await guest.ws_connect(server.base + "/socket", headers={"Origin": "http://evil.example"})


@pytest.mark.parametrize("door", [*DOORS, "/?key={key}"])
@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:{port}", "127.0.0.1", "[::1]:{port}",
             "127.0.0.1:{port}.evil.example", "0.0.0.0:{port}", ""],
)  # fmt: skip
async def test_a_name_that_somebody_pointed_here_is_refused(
    server, guest, door: str, host: str
) -> None:
    """Even with the cookie and the secret: the request's own name is the only one."""
    key, port = server.url.split("key=")[1], server.base.rsplit(":", 1)[1]
    answer = await guest.get(
        server.base + door.format(key=key), headers={"Host": host.format(port=port)}
    )
    assert answer.status == 403
    assert "not asked by that name" in one_sentence(await answer.text())


async def test_two_names_or_none_are_refused(server) -> None:
    """What a client library would not send."""
    own = server.base.removeprefix("http://")
    for names in (f"Host: {own}\nHost: evil.example\n", f"Host: evil.example\nHost: {own}\n", ""):
        status, answer = await raw(server, f"GET / HTTP/1.1\n{names}Connection: close\n\n")
        assert status in (400, 403), answer


@pytest.mark.parametrize("path", CLIMBS)
async def test_no_path_climbs_out_and_no_folder_is_listed(server, guest, path: str) -> None:
    """Asked byte by byte as written, with a good cookie: there is nothing, and it is said so."""
    (cookie,) = (f"{each.key}={each.value}" for each in guest.cookie_jar)
    own = server.base.removeprefix("http://")
    lines = f"Host: {own}\nCookie: {cookie}\nConnection: close\n\n"
    status, answer = await raw(server, f"GET {path} HTTP/1.1\n{lines}")
    assert status in (400, 403, 404), answer
    assert "root:" not in answer
    assert "<p>" in answer or status == 400, answer


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "HEAD", "TRACE"])
async def test_nothing_but_get_is_answered(server, guest, method: str) -> None:
    """Nothing can be sent but over the socket."""
    for door in DOORS:
        assert (await guest.request(method, server.base + door)).status in (403, 404, 405)


@pytest.mark.parametrize("door", [*DOORS, "/?key=x", "/mono.ttf"])
async def test_every_answer_says_what_a_browser_must_not_do(server, guest, door: str) -> None:
    """No outside source, no referrer, no guessing of types, no frame, nothing kept; good or bad."""
    for client_cookies in (True, False):
        async with aiohttp.ClientSession() as bare:
            told = (await (guest if client_cookies else bare).get(server.base + door)).headers
        policy = {each.split()[0]: each.split()[1:] for each in
                  told["Content-Security-Policy"].split(";")}  # fmt: skip
        assert policy["default-src"] == ["'self'"]
        assert policy["frame-ancestors"] == ["'none'"]
        assert "script-src" not in policy
        assert policy["connect-src"] == ["'self'", server.base.replace("http", "ws")]
        assert "*" not in told["Content-Security-Policy"]
        assert "unsafe-eval" not in told["Content-Security-Policy"]
        assert told["Referrer-Policy"] == "no-referrer"
        assert told["X-Content-Type-Options"] == "nosniff"
        assert told["Cache-Control"] == "no-store"
        assert "aiohttp" not in told["Server"]


async def test_nothing_that_the_page_loads_names_another_host(server, guest) -> None:
    """Neither the page nor its own files; what the terminal itself asks for a browser sees."""
    for door in ("/", "/page.css", "/page.js", "/enter.js", "/xterm.css"):
        text = await (await guest.get(server.base + door)).text()
        asked = re.findall(r"""(?:src|href|url\(|import|fetch\()\s*=?\s*["'(]*([^"')\s>]+)""", text)
        assert not [each for each in asked if re.match(r"(?:https?:)?//", each)], door


async def test_what_is_printed_holds_neither_keys_nor_cookies_nor_what_was_asked(
    serving, by_socket: ModuleType, tmp_path: Path
) -> None:
    """A PIN typed on a page, bad requests, a wrong secret: the server's output is its greeting."""
    one = serving()
    greeting = [*one.said]
    async with by_socket.browser() as client:
        page = await by_socket.Page.opened(one, client)
        await page.until(by_socket.START)
        await page.type("2")
        await page.until("▸ Your name")
        await page.type("four tin horses")
        for nonsense in NONSENSE:
            await page.socket.send_str(nonsense)
        await page.socket.send_bytes(b"four tin horses")
        await client.get(one.base + "/?key=wrong-secret")
        await raw(one, "four tin horses\n\n")
        await page.until("four tin horses")
    code, said = one.end()
    assert code == 0
    printed = "\n".join(said[len(greeting) :])
    assert "http" not in printed
    for secret in ("horses", "wrong-secret", "Traceback"):
        assert secret not in printed
    assert not (tmp_path / "log.txt").exists()
    assert not [f for f in tmp_path.rglob("*") if f.is_file() and b"tin horses" in f.read_bytes()]
