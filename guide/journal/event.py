"""One thing that a person did, as it is written into the journal and never changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from guide.journal.canonical import LARGEST, canonical, digest, no_floats
from guide.journal.wellformed import is_counted, is_digest, is_said, is_stamp, must, setup_id
from guide.plain import N_, BadInput

GENESIS = "0" * 64
"""What stands for the previous digest in the first event of a setup."""
FIELDS = ("setup", "sequence", "at", "person", "step", "kind", "data", "previous")
"""The keys of a body: all of them, no others."""


@dataclass(frozen=True, slots=True)
class Event:
    """One action of one person; `data` is frozen all through (lists become tuples)."""

    setup: str
    """Which setup: 1 to 64 of a-z, 0-9 and hyphen, so that it is safe as part of a file name."""
    sequence: int
    """1 for the first event of the setup, then one more each."""
    at: str
    """When, UTC, RFC 3339 with milliseconds: 2030-01-31T07:05:00.000Z."""
    person: str
    """Who did it, never blank."""
    step: str
    """At which step of the procedure; blank where it belongs to none."""
    kind: str
    """What sort of action it is, never blank."""
    data: Mapping[str, Any] = field(hash=False)
    """What was entered: text, whole numbers, booleans, lists, mappings; no binary floats."""
    previous: str
    """The digest of the event before, `GENESIS` for the first."""
    _body: str = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Refuse (BadInput) what could not be written or read back exactly."""
        _check(self)
        object.__setattr__(self, "data", _frozen(self.data))
        object.__setattr__(self, "_body", canonical({name: getattr(self, name) for name in FIELDS}))

    def body(self) -> str:
        """The canonical JSON text of all fields, which is what the digest is taken of."""
        return self._body

    @property
    def digest(self) -> str:
        """SHA-256 of the body, in lower-case hexadecimal."""
        return digest(self._body)


def parse(body: str) -> Event:
    """The event of a body; BadInput unless keys, types and spelling are exactly ours."""
    try:
        event = Event(**_fields(body))
    except RecursionError:
        raise _unreadable(N_("An event's text is nested too deeply.")) from None
    if event.body() != body:
        raise _unreadable(N_("An event's text is not in its canonical form."))
    return event


def _fields(body: str) -> dict[str, Any]:
    import json

    try:
        fields = json.loads(body)
    except ValueError:
        raise _unreadable(N_("An event's text is not JSON.")) from None
    if not isinstance(fields, dict) or set(fields) != set(FIELDS):
        raise _unreadable(N_("An event's text does not hold exactly the fields of an event."))
    return fields


def _check(event: Event) -> None:
    setup_id(event.setup)
    must(is_counted(event.sequence, LARGEST), "sequence", event.sequence)
    must(is_stamp(event.at), "at", event.at)
    must(is_said(event.person), "person", event.person)
    must(isinstance(event.step, str), "step", event.step)
    must(is_said(event.kind), "kind", event.kind)
    must(isinstance(event.data, Mapping), "data", event.data)
    must(is_digest(event.previous), "previous", event.previous)
    no_floats(event.data)


def _frozen(value: object) -> Any:
    if isinstance(value, Mapping):
        return MappingProxyType({key: _frozen(part) for key, part in value.items()})
    if isinstance(value, (list, tuple)):
        return tuple(map(_frozen, value))
    return value


def _unreadable(sentence: str) -> BadInput:
    return BadInput(sentence, N_("Run spindleside verify to see which event it is."))
