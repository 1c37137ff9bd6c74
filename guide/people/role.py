"""A role as somebody types it."""

from __future__ import annotations

from guide.plain import N_, BadInput
from guide.roles import ROLES


def role_of(text: str) -> str:
    """The role if there is one of that name, else BadInput."""
    role = text.strip().lower()
    if role in ROLES:
        return role
    raise BadInput(
        N_("There is no role “{role}”."),
        N_("The roles are: {roles}."),
        role=ascii(text),
        roles=", ".join(ROLES),
    )
