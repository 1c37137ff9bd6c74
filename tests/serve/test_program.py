"""A program that the server did not start cannot pass for one of its pages."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import asdict
from pathlib import Path

import pytest

from guide.plain import BadInput
from guide.serve.handing_over import Handover, taken

PROGRAM = [sys.executable, "-m", "guide.serve.program"]


def told(home: Path) -> Handover:
    """What a server would hand over."""
    return Handover(str(home), "", 80, 24)


def read(line: bytes, digest: str) -> Handover:
    """A handover through a pipe."""
    out, into = os.pipe()
    os.write(into, line)
    os.close(into)
    try:
        return taken(out, digest)
    finally:
        os.close(out)


def test_what_is_handed_over_arrives_and_nothing_behind_it_is_read(tmp_path: Path) -> None:
    """The screens' first bytes stand behind the line."""
    one = told(tmp_path)
    out, into = os.pipe()
    os.write(into, one.line + b"D\0\0\0\1q")
    assert taken(out, one.digest) == one
    assert os.read(out, 99) == b"D\0\0\0\1q"
    os.close(into)
    os.close(out)


@pytest.mark.parametrize("line", [b"", b"\n", b"{}\n", b"[]\n", b"null\n", b"x" * 9000, b"\xff\n"])
def test_what_is_no_handover_is_refused(line: bytes) -> None:
    """A sentence, whatever comes through the pipe."""
    with pytest.raises(BadInput, match="spindleside serve"):
        read(line, "")


def test_each_program_has_a_secret_of_its_own(tmp_path: Path) -> None:
    """That of one does not fit the digest of another, and neither can be seen in what is shown."""
    one, other = told(tmp_path), told(tmp_path)
    assert one.digest != other.digest
    assert one.secret not in repr(one)
    with pytest.raises(BadInput):
        read(one.line, other.digest)


def test_neither_the_environment_nor_an_argument_makes_a_program_a_page(tmp_path: Path) -> None:
    """A script that sets every variable the real one has, and knows a digest, is refused."""
    one = told(tmp_path)
    env = os.environ | {key.upper(): str(value) for key, value in asdict(one).items()}
    env |= {"TEXTUAL_DRIVER": "textual.drivers.web_driver:WebDriver", "TYPED_AT": "serve"}
    for given in ([], [one.digest]):
        ran = subprocess.run([*PROGRAM, *given], input=b"", env=env, capture_output=True)
        assert ran.returncode == 2
        assert ran.stderr.decode().count("\n") == 1
        assert "only when `spindleside serve` starts it" in ran.stderr.decode()
    assert not (tmp_path / "journal.sqlite3").exists()
