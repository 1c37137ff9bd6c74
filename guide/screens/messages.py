"""What widgets post; the setup sheet alone acts on it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from textual.message import Message


class Act(Message):
    """A person wants something entered: a trigger and its data."""

    def __init__(self, trigger: str, data: Mapping[str, Any], meant_for: int) -> None:
        super().__init__()
        self.trigger = trigger
        self.data = dict(data)
        self.meant_for = meant_for
        """The number of the event after which this was shown: pressed twice, it counts once."""


class Complaint(Message):
    """One plain sentence about what was not accepted; blank takes the last one away."""

    def __init__(self, sentence: str) -> None:
        super().__init__()
        self.sentence = sentence


class Picked(Message):
    """A row or a button was pressed."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.name = name


class Chosen(Message):
    """An answer was chosen on a line of answers."""

    def __init__(self, name: str, value: str, onward: bool) -> None:
        super().__init__()
        self.name = name
        self.value = value
        self.onward = onward
        """Whether to go on to the next line."""


class OfferChanged(Message):
    """The buttons below a page are to be others from now on."""
