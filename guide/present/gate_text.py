"""The checks of a gate as they are shown: translated, with the English where nobody reviewed that.

A gate in words that no machinist has read might say the wrong thing; until one has, the English
stands under it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from guide.plain import N_
from guide.present.questions import Confirming
from guide.present.tongue import language, say, written
from guide.present.visible import visible
from guide.present.words import reviewed
from guide.procedure.model import Check

NOT_REVIEWED = N_(
    "No machinist has reviewed this translation yet: so the English stands under each check, and"
    " where the two differ the English counts."
)


@dataclass(frozen=True, slots=True)
class CheckText:
    """One check of a gate."""

    say: str
    hazard: str
    look: str
    person: str = ""
    """Whom it is about, where it is asked for each person."""
    english: str = ""
    """All of it as it was written; blank where the reader's words are those, or are reviewed."""


def of_check(check: Check, person: str) -> CheckText:
    """A check of a procedure."""
    parts = (check.say, check.hazard, check.look)
    said, hazard, look = (visible(written(each)) for each in parts)
    return CheckText(said, hazard, look, visible(person), _english(*map(visible, parts)))


def of_confirming(line: Confirming) -> CheckText:
    """A check before an action towards made safe."""
    english = _english(line.say, line.hazard, line.look)
    return CheckText(say(line.say), say(line.hazard), say(line.look), english=english)


def with_english(text: str, shown: Callable[[str], str]) -> str:
    """The words of a gate, the English under them where nobody reviewed the translation."""
    told = shown(written(text))
    return f"{told}\n{shown(text)}" if not reviewed(language()) and told != shown(text) else told


def why_english() -> str:
    """Why a gate is shown in English too; blank where it is not."""
    return "" if reviewed(language()) else say(NOT_REVIEWED)


def _english(*parts: str) -> str:
    """A check in English, where that has to stand under it."""
    return "" if reviewed(language()) else " ".join(parts)
