"""However it ends nothing is lost: end of input, Ctrl-C, SIGKILL; a pipe marks a setup for ever."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

from guide.journal.canonical import canonical
from guide.journal.store import Store
from guide.records.evidence import faults
from guide.rehearse import as_seen

TOP = Path(__file__).parents[2]
ASIDE = ("seconds", "faster_than_read")


def events(home: Path) -> list[tuple[str, str, str]]:
    """What the one setup of a journal has, in which nothing is wrong."""
    with Store.read(home / "journal.sqlite3") as store:
        assert [each.says for each in faults(store)] == []
        found = store.events(store.names()[0])
    return [
        (each.step, each.kind, canonical({n: v for n, v in each.data.items() if n not in ASIDE}))
        for each in found
    ]


def test_killed_at_once_it_goes_on_where_it_was_acknowledged(home, terminal, person, quick) -> None:
    """Killed at a gate with one check confirmed; resumed it looks again, and ends as the same."""
    at = terminal(home, "start", "chuck-removal", "--plain", before=quick)
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.to("lock-gate")
    at.confirm()
    os.kill(at.child.pid, signal.SIGKILL)
    at.child.wait()
    assert len(events(home)) == one.walk.state.sequence
    one.at = terminal(home, "resume", "--plain", before=quick)
    one.at.prompt()
    assert "A. Sample" in one.at.last
    one.at.send("1")
    one.act("resume")
    assert "Make sure of the machine" in one.at.last
    one.to("finished")
    one.at.child.send("1\r")
    one.at.end()
    beside = one.walk.journal.events("beside")
    assert events(home) == [
        (each.step, each.kind, canonical({n: v for n, v in each.data.items() if n not in ASIDE}))
        for each in beside
    ]


def test_ctrl_c_pauses_and_keeps_what_was_recorded(home, terminal, person, quick) -> None:
    """In the middle of a page of questions: those before are there, the setup is paused, exit 0."""
    at = terminal(home, "start", "chuck-removal", "--plain", before=quick)
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.answer()
    at.send("*")
    at.child.sendintr()
    told = at.end()
    assert "Recorded: Paused" in told
    assert "Traceback" not in told
    assert at.child.exitstatus == 0
    assert [kind for _, kind, _ in events(home)] == ["open", "record", "pause"]


def test_the_end_of_the_input_pauses_it_too(home, terminal, person, quick) -> None:
    """Ctrl-D at a question; what stood on an unfinished line counts for nothing."""
    at = terminal(home, "start", "chuck-removal", "--plain", before=quick)
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.answer()
    at.child.send("this-chuck")
    at.child.sendeof()
    at.child.sendeof()
    assert "Recorded: Paused" in at.end()
    assert [kind for _, kind, _ in events(home)] == ["open", "record", "pause"]


def piped(home: Path, text: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    """The program with a text as its whole input, and no terminal anywhere."""
    program = f"from guide.cli.main import run; run({[*arguments]})"
    env = {**os.environ, "SPINDLESIDE_HOME": str(home), "PYTHONPATH": str(TOP)}
    return subprocess.run(
        [sys.executable, "-c", program], input=text, env=env, capture_output=True, text=True,
        timeout=30, check=False,
    )  # fmt: skip


def test_a_pipe_is_marked_for_ever_and_opens_no_gate(home, person, terminal) -> None:
    """Answers and numbers in a row: facts are taken, the gate throws the rest away, it pauses."""
    lines = ["A. Sample", "Lathe 2", "1", "2"]
    said = piped(home, "\n".join((*lines, "")), "start", "chuck-removal", "--plain", "--width", "0")
    assert said.returncode == 0
    assert "NOT TYPED AT A TERMINAL." in said.stdout.splitlines()
    with Store.read(home / "journal.sqlite3") as store:
        (setup,) = store.setups()
    assert setup.opening["input"] == "program"


def test_numbers_in_a_pipe_never_come_to_a_check(home, terminal, person, quick) -> None:
    """A setup that stands at a gate, resumed by a pipe that holds every number there could be."""
    at = terminal(home, "start", "chuck-removal", "--plain", before=quick)
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.to("lock-gate")
    at.child.sendeof()
    at.end()
    seen = one.walk.state
    one.act("pause", why="")
    one.act("resume")
    assert seen.place == "lock-gate"
    looked = as_seen(one.walk, {"rest": "as-recorded", "dressed": "other", "bystanders": "near"})
    numbers = [str(number) for number in range(100, 1000)]
    text = "\n".join(("1", *looked.values(), "0", *numbers, ""))
    said = piped(home, text, "resume", "--plain")
    assert "What was typed before this check was read out is thrown away." in " ".join(
        said.stdout.split()
    )
    assert "Confirmed" not in said.stdout
    assert "acknowledge" not in [kind for _, kind, _ in events(home)]
    assert [kind for _, kind, _ in events(home)][-1] == "pause"


def test_the_same_words_are_refused_where_there_is_nothing_to_run(home) -> None:
    """`--plain` before a command, a width below nothing, a setup that is not there: exit 2."""
    for arguments in (["--plain", "records"], ["--plain", "--width", "-1"], ["resume", "--plain"]):
        said = piped(home, "", *arguments)
        assert (said.returncode, said.stdout) == (2, "")
        assert len(said.stderr.splitlines()) == 1
