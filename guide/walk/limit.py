"""The limit that a set of readings is judged by: one of its own, or the tolerance of the setup."""

from __future__ import annotations

from collections.abc import Mapping

TOLERANCE = "tolerance"


def limit_name(serves_as: str) -> str:
    """The fact that holds it: one for a reading and for the same one as it is left."""
    return f"{serves_as.removesuffix('-left')}-limit"


def limit_of(serves_as: str, facts: Mapping[str, str]) -> str:
    """The limit as it was told, blank where none was.

    A procedure that asks `axial-slip-limit` has axial slip judged by that, and by nothing else:
    where it was answered with `unknown`, there is no verdict. None is built in.
    """
    return facts.get(limit_name(serves_as), facts.get(TOLERANCE, ""))
