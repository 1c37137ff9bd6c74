"""What moves the work, by its name: an adjusting screw of the body, or an independent jaw."""

from __future__ import annotations

import re
from collections.abc import Mapping

from guide.measure.truing.helping import BOLTS
from guide.measure.truing.moves import LARGER, NONE_SET, ONE_SET, REFUSED, TORQUE, UNKNOWN_YET
from guide.measure.truing.stopping import BY_HAND, LIMITED
from guide.plain import N_
from guide.walk.state import State

SCREW, JAW = N_("screw"), N_("jaw")

OF_JAWS: Mapping[str, str] = {
    LARGER: N_(
        "This direction is the further out: ease the jaw across a hair while the others hold, "
        "drive this one in at once, and bring the dial to the value, a little at a time."
    ),
    TORQUE: N_(
        "Both directions are set: pull every jaw up evenly, a little at a time, then read and "
        "touch nothing."
    ),
    UNKNOWN_YET: N_(
        "Which way these jaws move the work is not known yet: ease the jaw across a hair while the "
        "others hold, drive this one in at once, and watch the needle."
    ),
    ONE_SET: N_(
        "One direction was all there was to set: pull every jaw up evenly, a little at a time, "
        "then read and touch nothing."
    ),
    REFUSED: N_(
        "A jaw would not go, and nothing else is to be set now: pull every jaw up evenly, a little "
        "at a time, then read and touch nothing."
    ),
    NONE_SET: N_(
        "Nothing is left that a jaw could set: pull every jaw up evenly, a little at a time, then "
        "read and touch nothing."
    ),
    LIMITED: N_(
        "After {rounds} rounds pulling the jaws up moves it about {spread} {unit} each time: "
        "one more round ends within in about {percent} of a hundred."
    ),
    BY_HAND: N_(
        "After {rounds} rounds the jaws still end about {spread} {unit} off each time: "
        "one more round ends within in about {percent} of a hundred."
    ),
    BOLTS: N_(
        "What would help most is the pulling up: it shifts the work about {size} {unit} each time. "
        "Go round every jaw evenly, a little at a time, one across from the other."
    ),
    SCREW: JAW,
    N_("screw {screw}"): N_("jaw {screw}"),
    N_("screw {mark}"): N_("jaw {mark}"),
    N_(", screw {mark} under the plunger"): N_(", jaw {mark} under the plunger"),
    N_("screw {screw} reads {value} {unit}"): N_("jaw {screw} reads {value} {unit}"),
    N_("screw {screw} tightened"): N_("jaw {screw} driven in"),
    N_("Screw {screw} under the plunger, hands off: it reads ({unit}):"): N_(
        "Jaw {screw} under the plunger, hands off: it reads ({unit}):"
    ),
    N_("Screw {screw} is under the plunger and reads {reads} {unit}."): N_(
        "Jaw {screw} is under the plunger and reads {reads} {unit}."
    ),
    N_("{sign} Ease first: {screws}."): N_("{sign} Ease a hair, the others hold: {screws}."),
    N_("{sign} Then tighten: {screws}."): N_("{sign} At once drive in: {screws}."),
}
"""Sentences about a screw and the same of a jaw, each whole, so that both can be translated."""


def in_jaws(state: State) -> bool:
    """Whether independent jaws move the work."""
    return state.facts.get("chuck-kind") == "independent"


def centres_work(state: State) -> bool:
    """Whether one workpiece is centred, and not a chuck trued for all that comes after."""
    return "chuck-kind" in state.facts


def noun(state: State) -> str:
    """A sentence of the catalogue: what stands under the plunger, `screw` or `jaw`."""
    return JAW if in_jaws(state) else SCREW


def named(sentence: str, state: State) -> str:
    """A sentence of the catalogue about a screw, as it is said of what this chuck has.

    One that has no sentence of its own about a jaw is said in its first language with the other
    noun: of independent jaws nobody is ever sent to a screw.
    """
    return spoken(sentence, jaws=in_jaws(state))


def spoken(sentence: str, *, jaws: bool) -> str:
    """The same by what is known of the chuck."""
    return (OF_JAWS.get(sentence) or _with_jaws(sentence)) if jaws else sentence


def _with_jaws(sentence: str) -> str:
    """The noun exchanged; what stands in braces is a name of the program's and stays."""
    parts = re.split(r"(\{[^}]*\})", sentence)
    return "".join(each if each.startswith("{") else _exchanged(each) for each in parts)


def _exchanged(words: str) -> str:
    """One piece of a sentence."""
    return re.sub(r"\b(?:adjusting )?screw(s?)\b", r"jaw\1", words).replace("Screw", "Jaw")
