"""How a question is left without an answer."""

from __future__ import annotations


class Ended(Exception):
    """The input has ended, or Ctrl-C was pressed: nothing more is asked."""


class Back(Exception):
    """`/` was typed: back to the question before, or out of what was begun."""


class Elsewhere(Exception):
    """The setup stands somewhere else than where the question was asked."""


class Left(Exception):
    """The setup was left; what it was opened from goes on."""


class LeftAlone(Exception):
    """Nobody typed anything for the shop's idle time."""
