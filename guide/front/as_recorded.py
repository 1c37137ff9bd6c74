"""What is entered, as the record keeps it: figures with a point, offered words as they are written.

So a record is the same whatever language it was made in, and reads in any.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guide.measure.numerals import in_point
from guide.present.tongue import language, say
from guide.present.usual import OFFERED
from guide.procedure.model import Fact, Procedure
from guide.walk.answers import FIGURES

IN_WORDS = ("why", "source")
"""What is picked from usual words or typed."""


def as_recorded(data: Mapping[str, Any], procedure: Procedure) -> Mapping[str, Any]:
    """An entry in the words and signs of the record; nothing of it changes in English."""
    if language() == "en":
        return data
    kept = {**data, **{name: _offered(str(data[name])) for name in IN_WORDS if name in data}}
    if "torque" in data:
        kept["torque"] = in_point(str(data["torque"]), language())
    if "facts" in data:
        kept["facts"] = {n: kept_as(procedure.facts[n], each) for n, each in data["facts"].items()}
    if "new" in data and data.get("fact") in procedure.facts:
        kept["new"] = kept_as(procedure.facts[data["fact"]], data["new"])
    return kept


def kept_as(fact: Fact, text: str) -> str:
    """One answer: a figure with a point, an offered word as it is written."""
    if fact.kind in FIGURES:
        return in_point(text, language())
    return _offered(text) if fact.kind == "text" else text


def _offered(text: str) -> str:
    """The sentence that was offered in these words; what was typed stays as it was typed."""
    return next((each for each in OFFERED if say(each) == text), text)
