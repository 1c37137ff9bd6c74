"""All of standard output: text for people, JSON for programs."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping


def say(*lines: str) -> None:
    """Print lines as they are."""
    for line in lines:
        print(line)


def say_now(answer: Mapping[str, object]) -> None:
    """Print one JSON object on one line, for whoever waits for it."""
    print(json.dumps(answer, ensure_ascii=False), flush=True)


def emit(answer: Mapping[str, object], as_json: bool, lines: Iterable[str]) -> None:
    """Print the answer as one JSON object, or the lines made of it for a person."""
    if as_json:
        say(json.dumps(answer, ensure_ascii=False))
    else:
        say(*lines)
