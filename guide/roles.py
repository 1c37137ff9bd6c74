"""Floor 0: the three roles of persons, in rising order."""

from __future__ import annotations

APPRENTICE, MACHINIST, SUPERVISOR = ROLES = ("apprentice", "machinist", "supervisor")
"""Every role may do every step of a procedure; they differ in whom they may stand beside."""


def at_least(role: str, wanted: str) -> bool:
    """Whether a role is the wanted one or above it."""
    return role in ROLES and wanted in ROLES and ROLES.index(role) >= ROLES.index(wanted)
