"""What a line that an indicator sends looks like: a template, read from left to right, once.

No regular expression is taken from outside, so that none can hang: nothing is tried twice, and a
line takes time by its length alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from guide.plain import N_, BadInput

NAMED: Mapping[str, str] = {
    "plain": "{value} {unit}",
    "labelled": "{label}{value} {unit}",
    "counted": "{count} {value} {unit}",
}
"""Usual forms of a line: a number, perhaps with its unit behind; the same behind a label without
digits (X= or Ch: ); the same behind a running number. Common practice, no source."""
VALUE = re.compile(r"(?P<before>[-+−]?) *(?P<digits>[0-9][0-9.,]*|[.,][0-9]+) *(?P<behind>[-+−]?)")
PARTS: Mapping[str, re.Pattern[str]] = {
    "value": VALUE,
    "unit": re.compile(r"[^\W\d_]{1,8}|[\"”″]|"),
    "label": re.compile(r"[^-+−0-9.,]*"),
    "count": re.compile(r"[0-9]+"),
}
"""What each name in braces takes, as much of it as there is."""
NAMES = re.compile(r"(\{[^{}]*\}| +)")
LONGEST = 60
"""Signs in a template."""


@dataclass(frozen=True, slots=True)
class Found:
    """What stood in a line."""

    minus: bool
    digits: str
    """The digits with their decimal sign, as they were sent."""
    unit: str


@dataclass(frozen=True, slots=True)
class Pattern:
    """A template in its parts: names in braces, blanks, and signs that stand for themselves."""

    parts: tuple[str, ...]

    def found(self, text: str) -> Found | None:
        """What stands in a whole line; None where it looks otherwise."""
        place, told = 0, {"unit": ""}
        for part in (" ", *self.parts, " "):
            taken = _taken(part, text, place)
            if taken is None:
                return None
            place, more = taken
            told |= more
        signs = told["before"] + told["behind"]
        if place < len(text) or len(signs) > 1:
            return None
        return Found(signs in ("-", "−"), told["digits"], told["unit"])


def _taken(part: str, text: str, place: int) -> tuple[int, dict[str, str]] | None:
    """How far one part of a template goes, and what it is; None where it does not stand there."""
    if part.isspace():
        return len(text) - len(text[place:].lstrip()), {}
    if not part.startswith("{"):
        return (place + len(part), {}) if text.startswith(part, place) else None
    name = part.strip("{}")
    found = PARTS[name].match(text, place)
    if found is None:
        return None
    return found.end(), found.groupdict() or ({name: found[0]} if name == "unit" else {})


@lru_cache(maxsize=32)
def pattern_of(told: str) -> Pattern:
    """The pattern of a name or a template, else BadInput."""
    parts = tuple(filter(None, NAMES.split(NAMED.get(told, told))))
    named = [each.strip("{}") for each in parts if each.startswith("{")]
    if sentence := next(_wrong(told, parts, named), ""):
        raise BadInput(
            sentence,
            N_("Write it such as X={{value}} {{unit}}, or name one of: {named}."),
            template=ascii(told)[:80],
            named=", ".join(NAMED),
        )
    return Pattern(parts)


def _wrong(told: str, parts: tuple[str, ...], named: list[str]) -> Iterator[str]:
    """What is wrong with a template."""
    if len(told) > LONGEST or not told.isprintable():
        yield N_("{template} is too long for a template, or has signs that cannot be printed.")
    rest = "".join(parts)
    for name in PARTS:
        rest = rest.replace(f"{{{name}}}", "")
    if "{" in rest or "}" in rest:
        yield N_("{template} has something in braces that is no part of a line.")
    if named.count("value") != 1 or len(set(named)) != len(named):
        yield N_("{template} has to hold the value once, and each other part once at the most.")
    beside = set(pairwise(parts))
    if beside & {("{count}", "{value}"), ("{value}", "{count}")}:
        yield N_("{template} does not say where a running number ends and the value begins.")
