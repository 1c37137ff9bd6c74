"""Text that somebody typed, made safe to show: nothing unseen, nothing that steers a terminal."""

from __future__ import annotations

from unicodedata import category

UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
"""Unicode categories that are not shown: controls, formats such as direction marks, and no sign."""
JOINERS = frozenset("\u200c\u200d")
"""Unseen signs that some scripts cannot be written without; they steer nothing."""


def visible(text: object) -> str:
    """The text on one line, each unseen sign spelled as ⟨U+001B⟩; line ends and tabs become a gap.

    >>> visible("A.\\tSample\\x1b[2J")
    'A. Sample⟨U+001B⟩[2J'
    """
    return "".join(map(_shown, " ".join(str(text).replace("\t", " ").splitlines())))


def _shown(sign: str) -> str:
    """One sign, or its number where it is not one to be seen."""
    unseen = category(sign) in UNSEEN and sign not in JOINERS
    return f"⟨U+{ord(sign):04X}⟩" if unseen else sign
