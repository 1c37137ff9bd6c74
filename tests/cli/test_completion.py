"""Tab finishes what was begun, and loads no screens for it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
ASKS = """
import sys
from guide.cli.main import run
try:
    run([])
finally:
    print("SCREENS" if "textual" in sys.modules else "", file=sys.stderr)
"""


def offered(home: Path, *words: str) -> tuple[list[str], str]:
    """What is offered for the last of the words, and what else was said."""
    env = {**os.environ, "SPINDLESIDE_HOME": str(home), "PYTHONPATH": str(TOP),
           "_SPINDLESIDE_COMPLETE": "bash_complete", "COMP_CWORD": str(len(words)),
           "COMP_WORDS": " ".join(("spindleside", *words))}  # fmt: skip
    told = subprocess.run([sys.executable, "-c", ASKS], env=env, text=True, capture_output=True)
    lines = filter(None, told.stdout.splitlines())
    return [line.partition(",")[2] for line in lines], told.stderr.strip()


def test_commands_procedures_and_setups_are_offered_without_loading_the_screens(
    call, home, tmp_path
) -> None:
    """By what was begun; a journal that is not there offers nothing and is not made."""
    assert offered(home, "pra") == (["practice"], "")
    assert offered(home, "start", "adj") == (["adjustable-chuck"], "")
    assert offered(home, "resume", "") == ([], "")
    assert not home.exists()
    answers = TOP / "tests" / "answers" / "chuck-removal-inch.yaml"
    assert call("rehearse", "chuck-removal", "--answers", answers, "--setup", "first",
                "--journal", home).code == 0  # fmt: skip
    for command in (("resume",), ("verify",), ("export",), ("label",), ("records", "show")):
        assert offered(home, *command, "fir") == (["first"], "")


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_what_is_printed_for_a_shell_asks_the_program_back(call, home, shell) -> None:
    """In the way that this shell wants it."""
    told = call("completion", shell)
    assert told.code == 0
    assert f"_SPINDLESIDE_COMPLETE={shell}_complete" in told.out


def test_a_shell_that_is_not_known_is_one_sentence(call, home) -> None:
    """The sentence names those that are."""
    told = call("completion", "cmd")
    assert told.code == 2
    assert told.in_one_sentence
    assert "bash" in told.err
