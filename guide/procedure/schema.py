"""What a procedure file may hold, as a JSON Schema (2020-12) for editors that complete and mark.

It knows shapes and closed sets; what a walk would meet is known to `check` alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from guide.procedure.load import NEEDED, ONLY_IN
from guide.procedure.vocabulary import (
    DECISIONS,
    FACT_KINDS,
    GATE_OPENS,
    GATE_SETS,
    KINDS,
    SERVES_AS,
    TAKES,
    TIGHTENS,
)
from guide.roles import ROLES

DIALECT = "https://json-schema.org/draft/2020-12/schema"
NAME = {"type": "string", "pattern": "^[a-z][a-z0-9]*(-[a-z0-9]+)*$"}
TEXT = {"type": "string", "minLength": 1}
SCALAR = {"type": ["string", "number", "boolean"]}
"""A value that editors read as another kind, such as yes or 1, is loaded as text."""
ANY = {"type": "string"}
YES_NO = {"enum": ["yes", "no", True, False]}


def schema() -> dict[str, Any]:
    """The whole schema."""
    return {
        "$schema": DIALECT,
        "title": "A procedure of spindleside",
        **_closed(
            {
                "procedure": NAME, "revision": SCALAR, "title": TEXT, "purpose": TEXT,
                "author": ANY, "approved-by": ANY, "approved-on": ANY,
                "rests-on": _some(TEXT), "facts": _facts(), "stages": _some(_stage()),
            },
            ("procedure", "revision", "title", "rests-on", "stages"),
        ),
    }  # fmt: skip


def _closed(keys: dict[str, Any], needed: Iterable[str]) -> dict[str, Any]:
    """A mapping of these keys and no others."""
    return {
        "type": "object", "properties": keys, "required": list(needed),
        "additionalProperties": False,
    }  # fmt: skip


def _some(item: dict[str, Any]) -> dict[str, Any]:
    """A list, or one alone."""
    return {"oneOf": [{"type": "array", "items": item, "minItems": 1}, item]}


def _among(values: Iterable[str]) -> dict[str, Any]:
    """One of a closed set."""
    return {"enum": [each for each in values if each]}


def _facts() -> dict[str, Any]:
    """What may be asked, by name."""
    return {"type": "object", "additionalProperties": _fact(), "propertyNames": NAME}


def _fact() -> dict[str, Any]:
    """One thing that is asked."""
    keys = {
        "ask": TEXT, "kind": _among(FACT_KINDS), "help": TEXT, "usual": SCALAR,
        "of": {"type": "object", "additionalProperties": TEXT, "minProperties": 2},
        "unknown": YES_NO,
    }  # fmt: skip
    of_choice = {"if": {"properties": {"kind": {"const": "choice"}}, "required": ["kind"]},
                 "then": {"required": ["of"]}}  # fmt: skip
    return {**_closed(keys, ("ask",)), **of_choice}


def _stage() -> dict[str, Any]:
    """A part of the job."""
    include = _closed({"include": NAME}, ("include",))
    steps = {"type": "array", "minItems": 1, "items": {"oneOf": [_step(), include]}}
    return _closed({"stage": NAME, "title": TEXT, "steps": steps}, ("stage", "title", "steps"))


def _step() -> dict[str, Any]:
    """One step; a key that belongs to one kind stands nowhere else."""
    keys: dict[str, Any] = {
        "step": NAME, "kind": _among(KINDS), "title": TEXT, "full": TEXT, "brief": TEXT,
        "why": TEXT, "good": TEXT, "wrong": TEXT, "when": TEXT, "witness": _among(ROLES),
        "cautions": _some(_closed({"hazard": TEXT, "action": TEXT}, ("hazard", "action"))),
        "does": _some(TEXT), "needs": _some(TEXT),
        "again": {"type": ["array", "string"], "items": TEXT},
        "go": _some(_closed({"if": TEXT, "to": NAME}, ("to",))),
        "checks": _some(_check()), "opens": _among(GATE_OPENS), "ask": _some(NAME),
        "take": _among(TAKES), "serves-as": _among(SERVES_AS), "tighten": _among(TIGHTENS),
        "decisions": _some(_among(DECISIONS)),
    }  # fmt: skip
    of_kind = [
        {"if": {"properties": {"kind": {"const": kind}}}, "then": {"required": [key]}}
        for kind, key in NEEDED.items()
    ]
    elsewhere = [
        {
            "if": {"properties": {"kind": {"not": {"const": kind}}}},
            "then": {"not": {"required": [key]}},
        }
        for key, kind in ONLY_IN.items()
    ]  # fmt: skip
    return {
        **_closed(keys, ("step", "kind", "title", "full", "brief")),
        "allOf": [*of_kind, *elsewhere],
    }


def _check() -> dict[str, Any]:
    """One line of a gate."""
    keys = {
        "say": TEXT, "hazard": TEXT, "look": TEXT, "sets": _among(GATE_SETS), "confirms": TEXT,
        "each-person": YES_NO,
    }  # fmt: skip
    return _closed(keys, ("say", "hazard", "look"))
