"""Somebody who has signed on in this process, and can sign."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from guide.journal import keys


@dataclass(frozen=True, slots=True)
class Hand:
    """A person whose private key is open; it is never written and never shown."""

    name: str
    role: str
    key: str
    """Public key."""
    seed: bytes = field(repr=False)
    """Private key."""
    still: Callable[[], None] = field(default=lambda: None, repr=False, compare=False)
    """Refuses (NotAllowed) once the person may not act so any more."""

    def sign(self, text: str) -> str:
        """The signature of a text, as 128 hexadecimal digits; NotAllowed as `still` says."""
        self.still()
        return keys.sign(self.seed, text)
