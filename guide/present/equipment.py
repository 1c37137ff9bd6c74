"""Equipment in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from guide.equipment.belongs import BAR, CHUCK, INDICATOR, LATHE
from guide.equipment.register import Thing
from guide.plain import N_
from guide.present.visible import visible
from guide.present.words import say

KIND = {
    LATHE: N_("lathe"),
    CHUCK: N_("chuck"),
    INDICATOR: N_("indicator"),
    BAR: N_("bar"),
}
"""The kinds."""


def of_thing(thing: Thing, today: date, language: str = "en") -> Iterator[str]:
    """One thing: what it is, since when, how its calibration stands, and what is known of it."""
    told = {"kind": say(KIND[thing.kind], language), "name": visible(thing.name)}
    since = say(N_("{name}, {kind}, since {day}"), language, **told, day=thing.since[:10])
    parts = (since, _retired(thing, language), calibration(thing, today, language))
    yield ", ".join(filter(None, parts))
    for name, answer in thing.facts.items():
        yield f"    {visible(name)}: {visible(answer)}"


def calibration(thing: Thing, today: date, language: str = "en") -> str:
    """How the calibration of an indicator in use stands; blank for anything else."""
    if thing.kind != INDICATOR or not thing.active:
        return ""
    if thing.due is None:
        return say(N_("no calibration date known"), language)
    sentence = N_("calibrated until {day}")
    if thing.is_overdue(today):
        sentence = N_("CALIBRATION OVERDUE since {day}")
    return say(sentence, language, day=thing.due.isoformat())


def _retired(thing: Thing, language: str) -> str:
    return say(N_("retired {day}"), language, day=thing.retired[:10]) if thing.retired else ""
