"""One word of the trade, and on what its meaning rests."""

from __future__ import annotations

from dataclasses import dataclass

TRADE = "common practice, no source"
RUNS_OUT = "ISO 1101 and ISO 230-1, from memory"
DOUBT = "JCGM 100 and JCGM 106, from memory"
ISOLATION = "29 CFR 1910.147(d), an example of one country's rules"
LIFT = "DHHS (NIOSH) 94-110, as transcribed"
THREAD = "ISO 898-1, as transcribed"
BALANCE = "ISO 21940-11, as transcribed"
OWN = "a word of this program"
GROUNDS = (TRADE, RUNS_OUT, DOUBT, ISOLATION, LIFT, THREAD, BALANCE, OWN)
"""All that a meaning may rest on."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word, how it may be written, and what it means."""

    name: str
    written: str
    """A pattern of its forms, without the ends of words."""
    means: str
    rests_on: str = TRADE
    hurts: bool = False
    """Whether it names what can hurt: then what it means says how."""
