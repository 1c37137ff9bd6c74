"""Floor 0: a refusal in plain words, and the marker for sentences that are to be translated."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType


def N_(sentence: str) -> str:
    """Mark a sentence for the catalogue and give it back untranslated (Babel keyword `N_`)."""
    return sentence


class Refusal(Exception):
    """Something was not accepted: one sentence, the values in it, and what to do instead.

    `sentence` and `remedy` are catalogue entries with `{named}` places that `values` fill, so a
    screen in another language fills the same values into its own sentence.
    """

    def __init__(self, sentence: str, remedy: str = "", /, **values: object) -> None:
        super().__init__(sentence, remedy, values)
        self.sentence = sentence
        self.remedy = remedy
        self.values: Mapping[str, object] = MappingProxyType(values)

    def __str__(self) -> str:
        """The sentence and its remedy in English, values filled in."""
        return " ".join(
            part.format_map(dict(self.values)) for part in (self.sentence, self.remedy) if part
        )


class BadInput(Refusal):
    """The input cannot be used as typed (exit code 2)."""


class NotAllowed(Refusal):
    """The walk does not allow this here: a gate, an interlock, an order (exit code 1)."""


class CheckFailed(Refusal):
    """A check that was asked for was made and failed (exit code 1)."""
