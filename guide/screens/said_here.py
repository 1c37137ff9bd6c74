"""Everything that a screen says in words, for the help to explain."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from textual.content import Content
from textual.screen import Screen
from textual.widgets import Static

from guide.screens.steps.gate import CheckRow
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.screens.widgets.large import Large
from guide.screens.widgets.press import Press


def said_here(screen: Screen[Any], *parts: str) -> str:
    """What stands on a screen, on some parts of it or on all, in the order in which it stands."""
    roots = [screen.query_one(part) for part in parts] or [screen]
    return "\n".join(words for root in roots for words in _words(root))


def _words(root: object) -> Iterator[str]:
    """The words of every widget in sight."""
    for each in root.query("*"):  # type: ignore[attr-defined]
        if not each.display:
            continue
        if isinstance(each, Choices):
            yield " ".join((each.question, each.help, *(words for _, words in each.options)))
        elif isinstance(each, Field):
            yield f"{each.question} {each.help}"
        elif isinstance(each, CheckRow):
            yield f"{each.check.say} {each.check.hazard} {each.check.look}"
        elif isinstance(each, Large):
            yield from each.words
        elif isinstance(each, Press):
            yield each.label
        elif isinstance(each, Static):
            yield plain(each)


def plain(words: Static) -> str:
    """A text without its styles."""
    shown = words.visual
    return shown.plain if isinstance(shown, Content) else str(shown)
