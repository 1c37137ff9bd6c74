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
    print(spelled(answer), flush=True)


def emit(answer: Mapping[str, object], as_json: bool, lines: Iterable[str]) -> None:
    """Print the answer as one JSON object, or the lines made of it for a person."""
    if as_json:
        say(spelled(answer))
    else:
        say(*lines)


def spelled(answer: Mapping[str, object]) -> str:
    """JSON on one line, in which every sign that is not one to be seen is spelled as its number."""
    text = json.dumps(answer, ensure_ascii=False)
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() else json.dumps(sign)[1:-1] for sign in text)
