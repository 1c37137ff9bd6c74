"""The limit that a set of readings is judged by: one of its own, or the tolerance of the setup."""

from __future__ import annotations

import re
from collections.abc import Mapping

TOLERANCE = "tolerance"
ALIKE = re.compile(r"-(?:left|[1-9])$")
"""How readings end that share one limit: as it is left, and one grip of several."""


def limit_name(serves_as: str) -> str:
    """The fact that holds it: one for a reading, the same one as it is left, and all its grips."""
    return f"{ALIKE.sub('', serves_as)}-limit"


def limit_of(serves_as: str, facts: Mapping[str, str]) -> str:
    """The limit as it was told, blank where none was.

    A procedure that asks `axial-slip-limit` has axial slip judged by that, and by nothing else:
    where it was answered with `unknown`, there is no verdict. None is built in.
    """
    return facts.get(limit_name(serves_as), facts.get(TOLERANCE, ""))
