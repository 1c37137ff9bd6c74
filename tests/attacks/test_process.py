"""`verify` as a process of its own, as a supervisor would run it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

import guide


def verify(shop, *arguments: str) -> subprocess.CompletedProcess[str]:
    """The program run on the journal."""
    command = [sys.executable, "-c", "from guide.cli.main import run; run()", "verify"]
    environment = os.environ | {"PYTHONPATH": str(Path(guide.__file__).parents[1])}
    return subprocess.run(
        [*command, *arguments, "--journal", str(shop.file.parent)],
        capture_output=True, text=True, check=False, env=environment,
    )  # fmt: skip


def test_a_sound_journal_leaves_with_0_and_tells_its_head(shop) -> None:
    """And what the check cannot show."""
    said = verify(shop, "--head", shop.tool.head()[:20])
    assert (said.returncode, said.stderr) == (0, "")
    assert shop.tool.head() in said.stdout
    assert "That digest is event" in said.stdout
    assert "worked out again by whoever holds the journal file" in said.stdout


@pytest.mark.parametrize(
    ("spoil", "first"),
    [
        (
            lambda tool: tool.changed("pair", 7, lambda each: each.data(why="coffee")),
            "Event 7 of setup pair",
        ),
        (
            lambda tool: tool.run("DELETE FROM event WHERE setup = 'lone' AND sequence = 3"),
            "Event 3 of setup lone is missing.",
        ),
    ],
    ids=["forged", "taken out"],
)
def test_a_spoilt_one_leaves_with_1_and_names_the_first_event(shop, spoil, first: str) -> None:
    """On standard output, in the first line, with no traceback."""
    spoil(shop.tool)
    said = verify(shop)
    assert (said.returncode, said.stderr) == (1, "")
    assert said.stdout.startswith(first)


def test_a_cut_end_is_told_by_a_head_that_was_kept(shop) -> None:
    """Exit 0 without it, exit 1 with it."""
    kept = shop.tool.head()
    shop.tool.rewritten(shop.tool.pieces()[:-2])
    assert verify(shop).returncode == 0
    said = verify(shop, "--head", " ".join((kept[:8].upper(), kept[8:16])))
    assert said.returncode == 1
    assert said.stdout.startswith("No event of this journal has the digest")


@pytest.mark.parametrize("head", ["abc", "g" * 16, "", "a" * 65, "\x1b[2J"])
def test_what_is_no_digest_is_bad_input(shop, call, head: str) -> None:
    """Sixteen signs at least, so that nobody finds one by trying."""
    said = call("verify", "--head", head, "--journal", shop.file.parent)
    assert (said.code, said.out) == (2, "")
    assert len(said.err.splitlines()) == 1
    assert "\x1b" not in said.err
