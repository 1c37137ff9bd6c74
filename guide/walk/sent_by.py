"""Which readings of an event an indicator sent by wire, and which a person typed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guide.plain import N_, BadInput, NotAllowed
from guide.procedure.model import Step

SENT_BY = "sent_by"
"""Where an event holds it: the indicator's name, and the names of the readings that it sent."""
CLOSING = "closing"
ALONE = ("pushed", "pulled", "near", "far", "value", "got", CLOSING)
"""Readings that stand under a name of their own."""
WATCHED = ("low", "high")
READ_AT = ("readings", "correction")
"""Kinds of steps that take readings; an indicator has no say at any other."""


def readings_in(data: Mapping[str, Any]) -> dict[str, str]:
    """The readings of an event by name: those of a turn are numbered from 1."""
    turn = {str(n): str(each) for n, each in enumerate(data.get("values", ()), start=1)}
    watched = dict(zip(WATCHED, map(str, data.get("watched", ())), strict=False))
    alone = {name: str(data[name]) for name in ALONE if data.get(name) is not None}
    return {**turn, **alone, **watched}


def sent_in(data: Mapping[str, Any], sent: Mapping[str, tuple[str, str]]) -> dict[str, Any]:
    """What an event holds of readings that came by wire: `sent` is what came, and from which.

    One that was typed over since is a person's.
    """
    read = readings_in(data)
    kept = {name: by for name, (value, by) in sent.items() if read.get(name) == value}
    if not kept:
        return {}
    last = list(kept.values())[-1]
    names = [name for name in read if kept.get(name) == last]
    return {SENT_BY: {"instrument": last, "readings": names}}


def refuse_odd(step: Step | None, kind: str, data: Mapping[str, Any]) -> None:
    """Refuse (NotAllowed, BadInput) an indicator where it has no say, or odd names.

    It has one at a reading that is recorded, and in nothing that belongs to no step.
    """
    if SENT_BY not in data:
        return
    if step is None or step.kind not in READ_AT or kind != "record":
        raise NotAllowed(
            N_("That is for a person: an indicator has no say there."), N_("Do it by hand.")
        )
    told = data[SENT_BY]
    named = isinstance(told, Mapping) and set(told) == {"instrument", "readings"}
    if not named or not _said(told["instrument"]) or not _known(told["readings"], data):
        raise BadInput(
            N_("The readings that came by wire are not named as they have to be."),
            N_("Nothing was written; read them again."),
        )


def _said(name: object) -> bool:
    """Whether a name says something."""
    return isinstance(name, str) and bool(name.strip())


def _known(names: object, data: Mapping[str, Any]) -> bool:
    """Whether these name readings that are there, each once."""
    listed = list(names) if isinstance(names, (list, tuple)) else []
    return bool(listed) and len(set(map(str, listed))) == len(listed) and (
        set(listed) <= set(readings_in(data))
    )  # fmt: skip


def counted(data: Mapping[str, Any]) -> tuple[str, int, int]:
    """The indicator, how many readings it sent, and of how many; a blank name where none was."""
    told = data.get(SENT_BY)
    if not isinstance(told, Mapping):
        return "", 0, 0
    return str(told["instrument"]), len(told["readings"]), len(readings_in(data))
