"""A fact, as a question in lines."""

from __future__ import annotations

from collections.abc import Callable

from guide.front.questions import Question
from guide.linear.talk import Line


def line_of(asked: Question, trouble: Callable[[str], str]) -> Line:
    """The question, its answers by number, the units of a figure."""
    return Line(
        asked.name,
        asked.ask,
        options=asked.options,
        help=asked.help,
        usual=asked.usual,
        units=asked.units,
        may_be_unknown=asked.may_be_unknown,
        trouble=trouble,
    )
