"""A value that an instrument types, told from single keys by the times between them.

An instrument that acts as a keyboard types a whole value and an Enter or a Tab within a moment. No
two keys of it are further apart than a gate's own rule allows (guide.present.gate_keys). The clock
is an argument: every moment is given in seconds, from whatever start.
"""

from __future__ import annotations

from guide.present.gate_keys import QUIET

STARTS = frozenset("0123456789+-−., ")
"""What a value may begin with; a space may also be a key of its own."""
ENDS = frozenset({"enter", "tab", "ctrl+j"})
"""What ends a value: carriage return, tab, and line feed as terminals call it."""
PART, END, TAIL, OTHER = "part", "end", "tail", "other"
"""A key is part of a value, ends one, comes right behind an end, or has nothing to do with one."""


class ValueKeys:
    """Listens key by key; `text` is what has been typed of the value so far."""

    def __init__(self, quiet: float = QUIET) -> None:
        self.quiet = quiet
        self.text = ""
        self.last = float("-inf")
        """When the last key came."""
        self.valued = float("-inf")
        """When the last key came that belonged to a value."""
        self.kind = OTHER
        """What the last key was."""

    def press(self, key: str, at: float, going_on: bool = False) -> str:
        """What a key is: a printed sign, or `enter`, `tab` or another name of a key.

        A pause ends what was typed before, unless the value is `going_on` by hand.
        """
        alone, self.last = at - self.last >= self.quiet, at
        if (alone and not going_on) or self.kind in (END, TAIL):
            self.text = ""
        self.kind = self._kind(key, alone)
        if self.kind == PART:
            self.text += key
        elif self.kind == OTHER:
            self.text = ""
        if self.kind != OTHER:
            self.valued = at
        return self.kind

    def _kind(self, key: str, alone: bool) -> str:
        """What the key is after those before it."""
        if len(key) == 1:
            inside = bool(self.text) and self.kind == PART
            return PART if inside or key in STARTS else OTHER
        if key not in ENDS:
            return OTHER
        if self.kind == PART and self.text.strip():
            return END
        return TAIL if self.kind in (END, TAIL) and not alone else OTHER

    @property
    def lone(self) -> bool:
        """Whether the one key of a value that was heard may still be a key of its own."""
        return self.kind == PART and len(self.text) == 1

    def forget(self) -> None:
        """Nothing of a value is heard any more."""
        self.text, self.kind = "", OTHER
