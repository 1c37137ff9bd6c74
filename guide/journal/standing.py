"""The chains that stand beside those of setups: each has its events in the same journal."""

from __future__ import annotations

PEOPLE = "people"
"""Who may act, with which key, and the shop's rules."""
EQUIPMENT = "equipment"
"""Lathes, chucks, indicators and bars."""
STANDING = (PEOPLE, EQUIPMENT)
"""Names that no setup may have."""
