"""The trade's words that stand in a text, each explained in a sentence or two.

The meanings are in `trade/`, each with what it rests on. A place in the text belongs to the longest
word that is written there: “witness mark” is no witness, a “guard band” no guard.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from guide.present.trade.deciding import DECIDING
from guide.present.trade.measuring import MEASURING
from guide.present.trade.parts import PARTS
from guide.present.trade.word import Word
from guide.present.trade.working import WORKING

WORDS = (*MEASURING, *DECIDING, *PARTS, *WORKING)
"""All that are explained."""
Place = tuple[int, int, Word]
"""From where to where in a text a word stands."""


@lru_cache(maxsize=1)
def _patterns() -> tuple[tuple[Word, re.Pattern[str]], ...]:
    """Each word with what finds it: whole words, in small or capital letters."""
    return tuple((each, re.compile(rf"(?<![\w-])(?:{each.written})(?!\w)", re.I)) for each in WORDS)


def words_in(text: str) -> tuple[Word, ...]:
    """The words that stand in a text, each once, those that stand first in it first."""
    told = " ".join(text.split())
    return tuple(dict.fromkeys(word for _, _, word in sorted(_longest(told), key=lambda p: p[0])))


def _longest(text: str) -> Iterator[Place]:
    """Every place of a word that lies in no place of a longer one."""
    taken = bytearray(len(text))
    for start, end, word in sorted(_places(text), key=lambda place: place[0] - place[1]):
        if not any(taken[start:end]):
            taken[start:end] = b"\1" * (end - start)
            yield start, end, word


def _places(text: str) -> Iterator[Place]:
    """Every place of every word."""
    for word, pattern in _patterns():
        yield from ((*match.span(), word) for match in pattern.finditer(text))
