"""A whole removal in lines from a numeric keypad alone: digits, + - . / * and Enter."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from guide.present.questions import ANSWERS
from guide.present.usual import USUAL
from guide.procedure.model import Procedure

KEYS = set("0123456789+-./*")


class Keypad:
    """Types for each answer what a keypad has: its number in the list, or a figure and a unit."""

    def __init__(self, at: Any, procedure: Procedure) -> None:
        self.at, self.send, self.typed = at, at.send, []
        self.facts = procedure.facts

    def __call__(self, text: str) -> str:
        told = ""
        for keys in self._keys(text):
            assert {*keys} <= KEYS, (text, keys)
            self.typed.append(keys)
            told = self.send(keys)
        return told

    def _keys(self, text: str) -> Iterator[str]:
        """Line by line, by what is listed then."""
        figure = re.fullmatch(r"(\d[\d.]*) (\w+)", text)
        if {*text} <= KEYS or text == "":
            yield text
        elif number := self._number(text):
            yield number
        elif f"Stands there: {text}." in self.at.last:
            yield ""
        elif text == "unknown":
            yield "."
        else:
            assert figure, (text, self.at.last)
            yield figure[1]
            if "In which unit?" in self.at.last:
                yield self._number(figure[2])

    def _number(self, value: str) -> str:
        """The number that an answer has in the list that was read out last."""
        words = {value, *(each.of.get(value, value) for each in self.facts.values()),
                 *(each.get(value, value) for each in ANSWERS.values())}  # fmt: skip
        listed = re.findall(r"^(\d+): (.*)$", self.at.last, re.M)
        return next((number for number, told in listed if told in words), "")


@pytest.fixture
def by_keypad(home, terminal, person, quick) -> Callable[[str], Any]:
    """Somebody in an invented shop whose every answer a keypad can give."""

    def begin(procedure: str) -> Any:
        at = terminal(home, "start", procedure, "--plain", "--width", "0", before=quick)
        one = person(at, f"{procedure}-inch", lathe="Lathe 1", name="Person 1")
        facts = one.walk.procedure.facts
        for step, data in one.known.items():
            told = {n: v if facts[n].kind != "text" or n == "lathe" else
                    USUAL.get(n, ("unknown",))[0]
                    for n, v in data.get("facts", {}).items()}  # fmt: skip
            one.known[step] = {**data, **({"facts": told} if told else {})}
            if "lathe" in told:
                told["lathe"] = "Lathe 1"
        at.send = Keypad(at, one.walk.procedure)
        return one

    return begin


def test_a_removal_is_walked_to_its_end_by_keypad(by_keypad) -> None:
    """Names, facts, looks, gates, tasks and the signature; nothing was typed in words."""
    one = by_keypad("chuck-removal")
    one.begin()
    one.to("finished")
    assert "Finished" in one.at.last
    assert len(one.at.send.typed) > 80
