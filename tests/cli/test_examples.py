"""Every command says what it is for and gives an example, and the example works."""

from __future__ import annotations

import re
import shlex
import shutil
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import click
import pytest

from guide.cli.main import spindleside
from guide.journal import keys
from guide.journal.event import GENESIS, Event
from guide.journal.store import Store

Said = Any
"""What one call left behind: code, out, err."""

TOP = Path(__file__).parents[2]
AT_A_TERMINAL = {
    "start adjustable-chuck",
    "resume",
    "practice --lesson half-difference",
    "practice --seed 12345 --unit mm",
}
"""Examples that open the screens: here they are refused for want of a terminal, and for that
alone."""
RUN_ON = {"serve", "serve --address 192.168.1.20 --port 8600"}
"""Examples that go on until somebody stops them; here their options are read and no more."""
HAVE_A_WIRE = {'instruments try "Indicator 3"', 'instruments try "Indicator 3" --seconds 30'}
"""Examples that listen to an instrument: here the port is not there, which is said in one
sentence."""
SETUP = "20300131-0705-a1b2"
FIRST = 'people first "A. Sample"'
TWO = (FIRST, 'people add "B. Sample" --role apprentice --by "A. Sample"')
CHUCK = (FIRST, 'equipment add chuck "Chuck 7" --by "A. Sample"')
WALKED = (f"rehearse adjustable-chuck --setup {SETUP} --answers"
          f" {TOP}/tests/answers/adjustable-chuck-inch.yaml --journal",)  # fmt: skip
DIALS = (FIRST, *(f'equipment add indicator "Indicator {n}" --by "A. Sample"' for n in (3, 4)))
WIRED = (*DIALS, 'instruments set "Indicator 3" --port /dev/nothing-is-there --unit in')
BEGUN = ('procedures new chuck-cleaning --title "Clean it" --purpose "Often." --author "A. S."',)
BEFORE = {
    "people add": (FIRST,), "people new-": TWO, "people role": TWO, "people retire": TWO,
    "people rules --witness": (FIRST,),
    "equipment add": (FIRST,), "equipment change chuck": CHUCK, "equipment voided": CHUCK,
    "equipment calibrate": DIALS,
    "equipment retire bar": (FIRST, 'equipment add bar "Bar 1" --by "A. Sample"'),
    "export": WALKED, "label": WALKED, "verify": WALKED, "records show": WALKED,
    "records relist": WALKED,
    "procedures translate": BEGUN,
    "instruments set": DIALS, "instruments forget": WIRED, "instruments try": WIRED,
}  # fmt: skip
"""What a shop has done before it comes to an example; it has done nothing before any other."""
PINS = "four tin horses\n" * 9
FACTS = '{"facts": {"unit": "in", "tolerance": 0.001, "graduation": 0.0001}}\n'


def commands(
    command: click.Command = spindleside, path: tuple[str, ...] = ()
) -> Iterator[tuple[str, click.Command]]:
    """Every command with the words that call it."""
    yield " ".join(path), command
    if isinstance(command, click.Group):
        context = click.Context(command)
        for name in command.list_commands(context):
            found = command.get_command(context, name)
            assert found
            yield from commands(found, (*path, name))


def examples(command: click.Command) -> list[str]:
    """The lines of a command's help that can be pasted."""
    text = (command.help or "").replace("\\\n", " ").partition("Example")[2]
    if inline := re.match(r":? (spindleside .+?)\.?(?:\n\n|\Z)", text, re.S):
        return [" ".join(inline[1].split())]
    return re.findall(r"(?m)^\s*(spindleside(?: .*)?)$", text)


ALL = dict(commands())
EXAMPLES = sorted({
    line.removeprefix("spindleside ") for command in ALL.values() for line in examples(command)
})  # fmt: skip
TRIED = [each for each in EXAMPLES if each not in AT_A_TERMINAL | RUN_ON | HAVE_A_WIRE]


@pytest.fixture
def paste(call, home: Path, tmp_path: Path, monkeypatch) -> Callable[[str], Said]:
    """Pastes a line in a folder of its own, with PINs on standard input, after what comes first."""
    monkeypatch.setattr(keys, "COST", 2**10)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "tests").symlink_to(TOP / "tests")
    own = (TOP / "procedures" / "chuck-removal.yaml").read_text(encoding="utf-8")
    (tmp_path / "my-chuck.yaml").write_text(own, encoding="utf-8")
    (tmp_path / "answers.jsonl").write_text(FACTS)
    (tmp_path / "pins").write_text(PINS)

    def pasted(line: str) -> Said:
        typed, _, file = line.partition(" < ")
        with open(file or "pins", encoding="utf-8") as given:
            monkeypatch.setattr(sys, "stdin", given)
            return call(*shlex.split(typed))

    return pasted


@pytest.fixture
def walked(call, home: Path, made_once) -> Callable[[], None]:
    """Puts a journal into the shop's folder in which a setup was rehearsed."""

    def make(folder: Path) -> None:
        told = call(*shlex.split(WALKED[0]), folder)
        assert told.code == 0, told

    def put() -> None:
        shutil.copytree(made_once("walked", make), home, dirs_exist_ok=True)

    return put


def prepared(line: str, paste: Callable[[str], Said], home: Path, walked: Any = None) -> str:
    """The line, after what comes before it in a shop; a digest of that shop's own journal."""
    before = next((done for name, done in BEFORE.items() if line.startswith(name)), ())
    if before == WALKED:
        walked()
    for each in before if before != WALKED else ():
        told = paste(each)
        assert told.code == 0, told
    if line.startswith(('history "', "resume")):
        a_recheck(home, ended=line != "resume")
    if "--head " in line:
        with Store.read(home / "journal.sqlite3") as store:
            return f"verify --head {store.last(SETUP)[1][:16]}"
    return line


def a_recheck(home: Path, ended: bool) -> None:
    """A recheck on the chuck and lathe that the example names, perhaps open still."""
    turn = {"at": "2030-01-31", "judged": "0.0002", "expanded_uncertainty": "0.0001", "unit": "in",
            "verdict": "within", "tolerance": "0.001 in", "station": "3 in"}  # fmt: skip
    opening = {"mode": "real", "input": "terminal", "procedure": "chuck-recheck",
               "facts": {"lathe": "Lathe 2"}}  # fmt: skip
    closing = {"ends": "finished", "world": {"seat": "locked", "body": "on-plate"},
               "outcome": {"chuck": "Chuck 7", "as_left": turn}}  # fmt: skip
    who = ("A. Sample", "")
    first = Event(SETUP, 1, "2030-01-31T08:00:00.000Z", *who, "open", opening, GENESIS)
    last = Event(SETUP, 2, "2030-01-31T09:00:00.000Z", *who, "sign", closing, first.digest)
    with Store(home / "journal.sqlite3") as store:
        for each in (first, last) if ended else (first,):
            store.append(each)


@pytest.mark.parametrize("path", sorted(ALL))
def test_every_command_and_group_has_an_example_in_its_own_help(call, home, path) -> None:
    """The line begins with the program and this command, so that it can be pasted."""
    told = call(*path.split(), "--help")
    assert told.code == 0
    assert "Example" in told.out
    own = examples(ALL[path])
    assert own
    assert all(f"{each} ".startswith(f"spindleside {path}".strip() + " ") for each in own)


@pytest.mark.parametrize("line", TRIED)
def test_an_example_works_as_it_stands(paste, home, walked, line) -> None:
    """Pasted, with a folder of its own and what a shop has done before it comes to that."""
    told = paste(prepared(line, paste, home, walked))
    assert told.code == 0, told
    assert "Traceback" not in told.err


@pytest.mark.parametrize("line", sorted(AT_A_TERMINAL))
def test_an_example_that_opens_the_screens_lacks_nothing_but_a_terminal(paste, home, line) -> None:
    """Its options are right: what is said is that the screens need one."""
    told = paste(prepared(line, paste, home))
    assert told.code == 2
    assert told.in_one_sentence
    assert "need a terminal" in told.err


@pytest.mark.parametrize("line", sorted(HAVE_A_WIRE))
def test_an_example_that_listens_lacks_nothing_but_the_instrument(paste, home, line) -> None:
    """The port that was set is named, or the library that reads it."""
    told = paste(prepared(line, paste, home))
    assert told.code == 2
    assert told.in_one_sentence
    assert "/dev/nothing-is-there" in told.err


@pytest.mark.parametrize("line", sorted(RUN_ON))
def test_the_options_of_an_example_that_runs_on_are_right(line) -> None:
    """They are read as the program reads them."""
    name, *options = shlex.split(line)
    assert ALL[name].make_context(name, options).params


def test_every_example_is_tried_or_named_as_one_that_cannot_be() -> None:
    """None slips out because it is written in another way, and no name stands for nothing."""
    assert {*EXAMPLES} >= AT_A_TERMINAL | RUN_ON | HAVE_A_WIRE
    assert len(TRIED) >= 40
    assert all(any(each.startswith(name) for each in EXAMPLES) for name in BEFORE)
