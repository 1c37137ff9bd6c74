"""The command: what it prints, what it says of the risk, what it refuses."""

from __future__ import annotations

import socket
from ipaddress import ip_address
from types import ModuleType

import pytest
from click.testing import CliRunner

from guide.cli.main import spindleside
from guide.plain import BadInput
from guide.records.qr import QUIET, modules
from guide.serve.link import Link, one_address, square_code

HALVES = {"█": (0, 0), "▀": (0, 1), "▄": (1, 0), " ": (1, 1)}


def said(*arguments: str) -> str:
    """What the command says, or why it does not run."""
    ran = CliRunner().invoke(spindleside, ["serve", *arguments])
    return ran.output + str(ran.exception or "")


def test_help_says_who_can_open_it_and_that_nothing_is_encrypted() -> None:
    """Before anyone runs it: this machine only, unless an address is named; PINs included."""
    text = " ".join(said("--help").split())
    assert "Only this machine can open the page unless you name an address" in text
    assert "nothing is encrypted on the way, PINs included" in text
    assert "spindleside serve --address 192.168.1.20 --port 8600" in text


def test_it_listens_on_this_machine_alone_and_says_so(serving) -> None:
    """By default 127.0.0.1 and a free port; another address of the machine is not answered."""
    one = serving()
    assert one.url.startswith("http://127.0.0.1:")
    port = int(one.base.rsplit(":", 1)[1])
    with socket.socket() as other:
        assert other.connect_ex(("127.0.0.2", port)) != 0
    _, lines = one.end()
    assert any("Only this machine can open it" in line for line in lines)
    assert not any("encrypted" in line for line in lines)


def test_at_another_address_it_says_that_nothing_is_encrypted(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """PINs included, in one sentence beside the link."""
    monkeypatch.setattr(
        "guide.serve.serving.serve",
        lambda here, address, port, opened: opened(Link(address, port)),
    )
    text = said("--address", "192.0.2.7", "--port", "8600")
    assert "http://192.0.2.7:8600/?key=" in text
    assert "Nothing on the way is encrypted, PINs included" in text
    assert "Only this machine" not in text


@pytest.mark.parametrize("text", ["0.0.0.0", "::", "224.0.0.1", "shop", "", "127.0.0.1:80", "1"])
def test_what_is_not_one_address_is_refused_in_one_sentence(text: str) -> None:
    """Every address at once too: its requests could not be checked for the name they ask by."""
    with pytest.raises(BadInput):
        one_address(text)


def test_a_port_in_use_is_said_plainly(by_socket: ModuleType) -> None:
    """No traceback."""
    with socket.socket() as busy:
        busy.bind(("127.0.0.1", 0))
        busy.listen()
        port = busy.getsockname()[1]
        assert f"Port {port} is in use already." in said("--port", str(port))


def test_an_address_of_another_machine_is_said_plainly() -> None:
    """One of those that stand in books only (RFC 5737)."""
    assert "203.0.113.9 is not an address of this machine." in said("--address", "203.0.113.9")


def test_missing_libraries_are_named(monkeypatch: pytest.MonkeyPatch) -> None:
    """With the command that brings them."""
    monkeypatch.setattr("guide.cli.serve.find_spec", lambda name: None)
    assert "`pip install aiohttp textual-serve`" in said()


def test_every_run_has_another_secret_and_it_is_long() -> None:
    """At least 128 bits, and not in what is shown of a link by accident."""
    links = [Link(ip_address("127.0.0.1"), 80) for _ in range(99)]
    assert len({each.secret for each in links}) == len(links)
    assert all(len(each.secret) * 6 >= 128 for each in links)
    assert links[0].secret not in repr(links[0])
    assert links[0].opens(links[0].secret)
    assert not links[0].opens(links[1].secret)


def test_an_address_of_six_is_written_in_brackets_and_port_80_is_not_written() -> None:
    """As a browser names it (RFC 9110, 7.2; RFC 3986, 3.2.2)."""
    assert Link(ip_address("::1"), 8600).host == "[::1]:8600"
    assert Link(ip_address("192.0.2.7"), 80).host == "192.0.2.7"


def test_the_printed_code_has_every_module_of_the_link_and_its_quiet_zone() -> None:
    """Half blocks are taken apart again: the rows are those of the code, with light all round."""
    url = Link(ip_address("192.168.1.20"), 8600).url
    lines = square_code(url)
    rows = [[HALVES[sign][half] for sign in line] for line in lines for half in (0, 1)]
    code = modules(url)
    size = len(code)
    middle = [row[QUIET : QUIET + size] for row in rows[QUIET : QUIET + size]]
    assert middle == [list(row) for row in code]
    assert sum(map(sum, rows)) == sum(map(sum, code))
    assert {len(row) for row in rows} == {size + 2 * QUIET}
    assert len(rows) >= size + 2 * QUIET
    assert max(map(len, lines)) < 80
