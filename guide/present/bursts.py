"""A value that something typed in one burst, told from what a person types by the times of keys.

For every page that reads no dial. A key that may belong to a value waits until it is known whether
another one comes close behind it. The clock is an argument: every moment is given in seconds, from
whatever start.
"""

from __future__ import annotations

import re
from typing import Generic, TypeVar

from guide.present.value_keys import ENDS

GAP = 0.03
"""Seconds within which the next key of an instrument comes; hands are slower (common practice, no
source)."""
LONGEST = 24
"""Signs that a value has at most; what goes on longer is none."""
BEGUN = re.compile(r"[ ]*[-+−]?[ ]*[0-9.,'’]*[ ]*[-+−]?[ ]*(?:[^\W\d_]{0,5}|[\"”″])[ ]*")
"""What may still become a value: a number with a sign before or behind, perhaps a unit."""

Item = TypeVar("Item")


class Bursts(Generic[Item]):
    """Listens key by key, and keeps back what may be a value; `Item` stands for a key."""

    def __init__(self, gap: float = GAP) -> None:
        self.gap = gap
        self.text = ""
        """What has been typed of a value so far."""
        self.value = ""
        """The whole value that the last key ended, blank where it ended none."""
        self._held: list[Item] = []
        self._last = float("-inf")
        self._ended = False
        self._worded = False
        """Whether the burst began as no value: a number in a name is none."""

    def press(self, sign: str, at: float, item: Item) -> list[Item]:
        """A key, as a printed sign or by its name; gives back what goes on its way now, in order.

        A value that ends by Enter or Tab goes nowhere and is told in `value`.
        """
        near, self._last, self.value = at - self._last <= self.gap, at, ""
        freed = [] if near else self._let_go()
        self._worded = near and self._worded
        if near and self._ended and sign in ENDS:
            return freed
        self._ended = False
        if near and sign in ENDS and is_value(self.text):
            self.value, self._ended = self.text.strip(), True
            self._let_go()
            return freed
        return [*freed, *self._kept(sign, item)]

    def _kept(self, sign: str, item: Item) -> list[Item]:
        """A key that goes on a value is kept back; any other lets everything go."""
        begins = bool(self.text) or not sign.isalpha()
        if len(sign) == 1 and begins and not self._worded and may_be_value(self.text + sign):
            self.text += sign
            self._held.append(item)
            return []
        self._worded = len(sign) == 1
        return [*self._let_go(), item]

    def settle(self, now: float) -> list[Item]:
        """What no other key came close behind, once that is sure."""
        return self._let_go() if now - self._last > self.gap else []

    def _let_go(self) -> list[Item]:
        """Everything that was kept back; nothing of a value is heard any more."""
        freed, self._held, self.text = self._held, [], ""
        return freed

    def watch_only(self) -> list[Item]:
        """What was kept back goes at once; the text is watched on."""
        freed, self._held = self._held, []
        return freed

    def interrupted(self) -> list[Item]:
        """Something else than a key came: what was kept back goes first."""
        self._ended = False
        return self._let_go()

    @property
    def begins_alone(self) -> bool:
        """Whether no key is kept back but the last one."""
        return len(self._held) == 1

    @property
    def waiting(self) -> bool:
        """Whether any key is kept back."""
        return bool(self._held)


def may_be_value(text: str) -> bool:
    """Whether a text is a value or the beginning of one."""
    return len(text) <= LONGEST and BEGUN.fullmatch(text) is not None


def is_value(text: str) -> bool:
    """Whether a text is a whole value: it has a digit."""
    return may_be_value(text) and any(sign.isdigit() for sign in text)
