"""Long work tells how long it takes yet, on a terminal alone, and leaves the answer as it is."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pexpect
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.cli.progress import CLEAR, Progress, in_words, seconds_left

TOP = Path(__file__).parents[2]
SLOW = """
from guide.cli import progress
progress.LASTS = progress.OFTEN = -1
from guide.cli.main import run
run(["verify"])
"""


@given(st.integers(1, 10**6), st.integers(1, 10**6), st.floats(0, 10**5))
def test_the_time_left_is_the_pace_so_far_for_what_is_left(done, more, seconds) -> None:
    """Never below nothing; half-way it is as long as it took; at the end it is nothing."""
    left = seconds_left(done, done + more, seconds)
    assert left == pytest.approx(seconds / done * more)
    assert seconds_left(done, done, seconds) == 0
    assert seconds_left(done, 2 * done, seconds) == pytest.approx(seconds)
    assert in_words(left).split()[1] in ("s", "min")


def test_nothing_is_told_where_there_is_no_terminal(monkeypatch) -> None:
    """A file or a pipe gets no line of it."""
    into = io.StringIO()
    monkeypatch.setattr("sys.stderr", into)
    progress = Progress(10)
    progress.began -= 60
    progress.last -= 60
    progress.add(5)
    progress.clear()
    assert into.getvalue() == ""


def test_standard_output_is_the_same_with_it_and_without(call, home, tmp_path) -> None:
    """On a terminal the line comes and is gone at the end; the answer is byte by byte the same."""
    answers = TOP / "tests" / "answers" / "chuck-removal-inch.yaml"
    assert call("rehearse", "chuck-removal", "--answers", answers, "--journal", home).code == 0
    env = {**os.environ, "SPINDLESIDE_HOME": str(home), "PYTHONPATH": str(TOP)}
    plain = subprocess.run([sys.executable, "-c", SLOW], env=env, capture_output=True, check=True)
    out = tmp_path / "out.txt"
    child = pexpect.spawn("/bin/sh", ["-c", f'exec "{sys.executable}" -c "$SLOW" > "{out}"'],
                          env={**env, "SLOW": SLOW}, encoding="utf-8")  # fmt: skip
    told = child.read()
    child.close()
    assert out.read_bytes() == plain.stdout
    assert plain.stderr == b""
    assert "% · about" in told
    assert told.rstrip("\r\n").endswith(CLEAR)
