"""The words that a procedure is written in, listed from the tables that give them their meaning."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain
from textwrap import fill

from guide.plain import N_
from guide.present.labels import DECISION, SERVES_AS
from guide.present.questions import ANSWERS, ASKS
from guide.present.words import say, written
from guide.present.written.known_facts import KNOWN_FACTS, TAKEN
from guide.walk.branch_tests import MEANS, WAYS_OUT
from guide.walk.flow import LOOK
from guide.walk.table import DRESSING
from guide.walk.world import ACTIONS, Action

WIDTH, INDENT = 92, "    "
MACHINE = N_("The lathe, in `when`, `needs`, `confirms` and `if` (name=value/value):")
ACTIONS_HEAD = N_("Actions, in `does`; a step is refused where a need is not so:")
LOOKING = N_("alone in a task; every line of the lathe is answered with what is seen")
TESTS = N_("Tests, in `when` and `if`, by their name alone; * may open a way back:")
FACTS = N_("Facts that are taken by their name:")
TAKES = N_("What a reading takes, in `take`:")
READINGS = N_("What readings are kept as, in `serves-as`:")
DECIDED = N_("What a verdict may offer, in `decisions`:")
PARTS = N_("Parts, in `- include: NAME`; two with a step of the same name do not go together:")
JOINED = N_(
    "Conditions are joined by `and`; `or` stands between whole alternatives; `not` before one term."
)


def as_words(parts: Mapping[str, str], language: str = "en") -> Iterator[str]:
    """Every word, under the key that it may stand in; `parts` are names and what each is for."""
    yield from _section(MACHINE, _machine(language), language)
    yield fill(say(JOINED, language), WIDTH)
    yield ""
    looking = f"{LOOK}: {say(LOOKING, language)}"
    yield from _section(ACTIONS_HEAD, chain((looking,), _actions()), language)
    yield from _section(TESTS, _tests(language), language)
    yield from _section(FACTS, _told(KNOWN_FACTS, language), language)
    yield from _section(TAKES, _told(TAKEN, language), language)
    yield from _section(READINGS, _told(SERVES_AS, language), language)
    yield from _section(DECIDED, _told(DECISION, language), language)
    purposes = (f"{name}: {written(purpose, language)}" for name, purpose in parts.items())
    yield from _section(PARTS, purposes, language)


def _section(head: str, lines: Iterable[str], language: str) -> Iterator[str]:
    """A head, its lines, and a blank one."""
    yield say(head, language)
    for each in lines:
        yield fill(each, WIDTH, initial_indent=INDENT, subsequent_indent=INDENT * 2,
                   break_on_hyphens=False)  # fmt: skip
    yield ""


def _machine(language: str) -> Iterator[str]:
    """Each variable, what it is, and each of its values."""
    for name, values in ANSWERS.items():
        told = "; ".join(f"{value} ({say(words, language)})" for value, words in values.items())
        yield f"{name}: {say(ASKS[name], language)}. {told}"


def _actions() -> Iterator[str]:
    """Every action that a step may do; dressing and clearing people are a gate's to confirm."""
    return (_action(each) for name, each in ACTIONS.items() if name not in DRESSING)


def _action(action: Action) -> str:
    """An action as the table has it: from which state, with which needs, to which state."""
    needs = [each.text for each in (*action.possible, *action.needs)]
    then = [f"{name}={to}" + (f" if {only.text}" if only else "") for name, to, only in action.then]
    return f"{action.name}: {'; '.join(needs) or '–'} → {', '.join(then) or '–'}"


def _tests(language: str) -> Iterator[str]:
    """Each branch test, marked where it may open a way back."""
    for name, means in MEANS.items():
        yield f"{name}{'*' if name in WAYS_OUT else ''}: {say(means, language)}"


def _told(words: Mapping[str, str], language: str) -> Iterator[str]:
    """A name and what it means."""
    return (f"{name}: {say(means, language)}" for name, means in words.items())
