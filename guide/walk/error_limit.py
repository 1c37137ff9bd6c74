"""The largest error that the indicator may have: known only where the equipment held it then."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guide.plain import N_, BadInput
from guide.procedure.model import Step
from guide.walk.answers import length
from guide.walk.state import State

KEPT = "error_limit"
"""Under this it stands beside the answers of the page that named the indicator, with its unit."""
INDICATOR = "indicator-name"


def error_limit(state: State) -> str:
    """As kept when the indicator was named; blank for none, or where another is named now."""
    for entry in reversed(state.entries):
        told = entry.data.get("facts")
        if entry.kind == "record" and isinstance(told, Mapping) and INDICATOR in told:
            same = told[INDICATOR] == state.facts.get(INDICATOR)
            return str(entry.data.get(KEPT, "")) if same else ""
    return ""


def refuse_no_limit(step: Step, data: Mapping[str, Any]) -> None:
    """Refuse (BadInput) a limit on a page that names no indicator, or one that is no length."""
    if KEPT not in data:
        return
    size = length(str(data[KEPT]), "in") if INDICATOR in step.ask else None
    if size is None or size <= 0:
        raise BadInput(
            N_("“{text}” is no error limit of an indicator."),
            N_("Give a length with its unit, such as 0.0002 in."),
            text=ascii(data[KEPT])[:60],
        )
