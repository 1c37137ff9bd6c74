"""How the answers that belong to equipment are asked: as the procedures ask them."""

from __future__ import annotations

from collections.abc import Mapping

from guide.equipment.belongs import BELONGS, kind_of
from guide.procedure.model import Fact
from guide.procedure.shelf import find

ASKS_ALL = "adjustable-chuck"
"""The procedure that asks everything which belongs to something."""


def asked_of(kind: str) -> Mapping[str, Fact]:
    """The facts that belong to a kind, in their order; without those that no procedure asks."""
    facts = find(ASKS_ALL).facts
    return {name: facts[name] for name in BELONGS[kind_of(kind)] if name in facts}
