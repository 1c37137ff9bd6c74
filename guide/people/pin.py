"""What a PIN or a passphrase has to be."""

from __future__ import annotations

from itertools import pairwise

from guide.plain import N_, BadInput

SHORTEST = 6


def chosen(pin: str) -> str:
    """The PIN if it may be one, else BadInput: six signs, not all alike, not in a row."""
    steps = {ord(after) - ord(before) for before, after in pairwise(pin)}
    if len(pin) < SHORTEST or not pin.isprintable():
        raise BadInput(
            N_("A PIN has at least {least} digits or letters."),
            N_("A passphrase of several words is better: a short PIN can be found by trying."),
            least=SHORTEST,
        )
    if steps in ({0}, {1}, {-1}):
        raise BadInput(
            N_("That PIN would be guessed first."), N_("Choose one that follows no order.")
        )
    return pin
