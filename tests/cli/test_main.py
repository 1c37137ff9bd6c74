"""The command line as a whole: what is wrong with it is said in one sentence."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import click
import pytest

import guide
from guide.cli.calc import CALCULATORS
from guide.cli.main import COMMANDS, spindleside, usage


def alone(program: str, *, stdout: int = subprocess.PIPE, **environment: str):
    """A Python program as a process of its own."""
    here = {"PYTHONPATH": str(Path(guide.__file__).parents[1]), "PYTHONUNBUFFERED": ""}
    env = os.environ | here | environment
    return subprocess.run(
        [sys.executable, "-c", program], stdout=stdout, stderr=subprocess.PIPE, env=env, check=False
    )


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["nosuch"], "No such command 'nosuch'"),
        (["--nope"], "No such option '--nope'"),
        (["calc"], "Missing command"),
        (["calc", "runout", "--readings", "1"], "Missing option '--unit'"),
        (["calc", "runout", "--unit", "ell", "--readings", "1"], "'ell' is not one of"),
        (["export"], "Missing argument 'SETUP'"),
        (["export", "first"], "Missing option '--to'"),
        (["records", "show"], "Missing argument 'SETUP'"),
        (["rehearse", "adjustable-chuck"], "Missing option '--answers'"),
        (["verify", "one", "two"], "unexpected extra argument"),
    ],
)
def test_a_wrong_command_line_is_one_sentence_and_exit_2(call, arguments, said) -> None:
    """It says what is wrong and where to read on, without a traceback."""
    found = call(*arguments)
    assert (found.code, found.out, found.in_one_sentence) == (2, "", True), found.err
    assert said in found.err
    assert "--help`" in found.err


def test_choices_over_several_lines_come_on_one() -> None:
    """Some versions of the parser set one choice a line."""
    error = click.UsageError("Missing option '--unit'. Choose from:\n\tin,\n\tmm")
    assert usage(error) == "Missing option '--unit'. Choose from: in, mm"


@pytest.mark.parametrize("name", [*COMMANDS, *(f"calc {each}" for each in CALCULATORS)])
def test_every_command_has_help_with_an_example(call, name: str) -> None:
    """And the example begins with the program's own name."""
    found = call(*name.split(), "--help")
    assert found.code == 0
    assert "spindleside " + name.split()[0] in found.out.split("xample:", 1)[1]


def test_the_list_of_commands_is_the_one_that_is_there() -> None:
    """Every place that is named can be loaded."""
    ctx = click.Context(spindleside)
    for name in COMMANDS:
        command = spindleside.get_command(ctx, name)
        assert command is not None
        assert command.name == name


def test_a_command_that_needs_none_of_them_loads_no_heavy_library() -> None:
    """Terminal, YAML, database, state machine and locale data wait until they are needed."""
    heavy = "{'textual', 'rich', 'yaml', 'sqlite3', 'transitions', 'babel', 'numpy'}"
    program = (
        "import sys\nfrom guide.cli.main import run\n"
        "try: run(['calc', 'runout', '--readings', '0 1 2 1', '--unit', 'thou', '--json'])\n"
        f"except SystemExit: print(sorted({heavy} & set(sys.modules)))"
    )
    assert alone(program).stdout.splitlines()[-1] == b"[]"


def test_a_terminal_that_lacks_a_sign_gets_it_spelled_out(rehearsed: Path) -> None:
    """ASCII alone is enough to read a record; nothing breaks."""
    program = "from guide.cli.main import run; run(['records', 'show', 'first'])"
    home = {"SPINDLESIDE_HOME": str(rehearsed.parent), "PYTHONIOENCODING": "ascii"}
    found = alone(program, **home)
    assert (found.returncode, found.stderr) == (0, b"")
    assert b"REHEARSAL, not a real lathe \\xb7 NOT TYPED" in found.stdout


@pytest.mark.parametrize("arguments", [["records"], ["records", "show", "first"]])
def test_a_reader_that_leaves_early_is_no_trouble(rehearsed: Path, arguments) -> None:
    """As with `| head`, for an answer of two lines and for a long one: exit 1 and not a word."""
    program = f"from guide.cli.main import run; run({arguments})"
    reads, writes = os.pipe()
    os.close(reads)
    found = alone(program, stdout=writes, SPINDLESIDE_HOME=str(rehearsed.parent))
    os.close(writes)
    assert (found.returncode, found.stderr) == (1, b"")


def test_json_spells_signs_that_steer_a_terminal() -> None:
    """Controls past U+0080 and direction marks too; a program reads the same text."""
    from guide.cli.output import spelled

    told = {"name": "A\u009b2J\u202eB\x1b", "plain": "µ ≤ 1"}
    assert spelled(told).isprintable()
    assert json.loads(spelled(told)) == told
