"""One thing that a person did, as it is written into the journal and never changed."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from types import MappingProxyType
from typing import Any, NoReturn

from guide.journal.canonical import LARGEST, canonical, digest, no_floats
from guide.journal.wellformed import (
    is_counted,
    is_digest,
    is_said,
    is_setup_id,
    is_stamp,
    must,
    setup_id,
)
from guide.plain import N_, BadInput

GENESIS = "0" * 64
"""What stands for the previous digest in the first event of a setup."""
FIELDS = ("setup", "sequence", "at", "person", "step", "kind", "data", "previous")
"""The keys of a body: all of them, no others, but for `key` where the event is signed."""
SIGNED = (*FIELDS, "key")
"""The keys of a signed event's body."""
BEYOND = re.compile("[\ud800-\U0010ffff]")
"""Signs that are ordered otherwise in UTF-16, by which RFC 8785 sorts, than by their numbers."""
NAMES = {False: frozenset(FIELDS), True: frozenset(SIGNED)}
"""The same by whether it is signed."""


@dataclass(frozen=True, slots=True)
class Event:
    """One action of one person; `data` is frozen all through (lists become tuples)."""

    setup: str
    """Which setup, or which of the standing chains (`guide.journal.standing`): 1 to 64 of a-z, 0-9
    and hyphen, so that it is safe as part of a file name."""
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
    key: str = ""
    """The public Ed25519 key of the person who signs it, blank where nobody does."""
    _body: str = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Refuse (BadInput) what could not be written or read back exactly."""
        _check(self)
        no_floats(self.data)
        names = SIGNED if self.key else FIELDS
        _settle(self, canonical({name: getattr(self, name) for name in names}))

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
        event = _plainly_canonical(body) or Event(**_fields(body))
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
    if not _holds_an_event(fields):
        raise _unreadable(N_("An event's text does not hold exactly the fields of an event."))
    return dict(fields)


def _holds_an_event(fields: object) -> bool:
    """Whether these are the keys of an event, `key` among them only where it says one."""
    if not isinstance(fields, dict):
        return False
    names = fields.keys()
    return names == NAMES[False] or (names == NAMES[True] and bool(fields["key"]))


def _plainly_canonical(body: str) -> Event | None:
    """The event, spared the slow spelling where the quick one has to agree with it.

    Python's own JSON writer spells text, whole numbers and order as RFC 8785 does while there is
    no fraction or power of ten, no number past 15 digits and no sign from U+D800 on.
    """
    if not body.isascii() and BEYOND.search(body):
        return None
    read, write = _quick()
    try:
        fields = read(body)
    except (ValueError, StopIteration):
        return None
    if not _holds_an_event(fields) or write(fields) != body:
        return None
    event = object.__new__(Event)
    for name, put in _slots():
        put(event, fields.get(name, ""))
    _check(event)
    _settle(event, body)
    return event


@cache
def _slots() -> tuple[tuple[str, Callable[[Event, object], None]], ...]:
    """What puts each field of a new event in its place, past the guard of one that is made."""
    return tuple((name, getattr(Event, name).__set__) for name in SIGNED)


@cache
def _quick() -> tuple[Callable[[str], Any], Callable[[Any], str]]:
    """The quick reader, which stops at any number that is odd, and the quick writer."""
    import json

    reader = json.JSONDecoder(parse_float=_odd, parse_int=_small, parse_constant=_odd)
    read: Callable[[str, int], tuple[Any, int]] = vars(reader)["scan_once"]
    writer = json.JSONEncoder(
        ensure_ascii=False, check_circular=False, sort_keys=True, separators=(",", ":")
    )

    def whole(body: str) -> Any:
        fields, end = read(body, 0)
        return fields if end == len(body) else _odd(body[end:])

    return whole, writer.encode


def _small(digits: str) -> int:
    return int(digits) if len(digits) <= 15 else _odd(digits)


def _odd(digits: str) -> NoReturn:
    raise ValueError(digits)


def _settle(event: Event, body: str) -> None:
    """Freeze the data and keep the body."""
    object.__setattr__(event, "data", _frozen(event.data))
    object.__setattr__(event, "_body", body)


def _check(event: Event) -> None:
    """Refuse what no event may hold; the quick look first, as most are right."""
    if not _is_right(event):
        _refuse_what_is_not(event)


def _is_right(event: Event) -> bool:
    return (
        type(event.sequence) is int
        and 1 <= event.sequence <= LARGEST
        and type(event.person) is type(event.step) is type(event.kind) is str
        and not (event.person.isspace() or event.kind.isspace())
        and event.person != ""
        and event.kind != ""
        and isinstance(event.data, Mapping)
        and is_digest(event.previous)
        and (event.key == "" or is_digest(event.key))
        and is_setup_id(event.setup)
        and is_stamp(event.at)
    )


def _refuse_what_is_not(event: Event) -> None:
    setup_id(event.setup)
    must(is_counted(event.sequence, LARGEST), "sequence", event.sequence)
    must(is_stamp(event.at), "at", event.at)
    must(is_said(event.person), "person", event.person)
    must(isinstance(event.step, str), "step", event.step)
    must(is_said(event.kind), "kind", event.kind)
    must(isinstance(event.data, Mapping), "data", event.data)
    must(is_digest(event.previous), "previous", event.previous)
    must(event.key == "" or is_digest(event.key), "key", event.key)


DEEPEST = 32
"""How many lists and mappings may stand inside each other."""


PLAIN = frozenset({str, int, bool, type(None)})
"""What is frozen as it is; told apart by its exact type, which is quick."""


def _frozen(value: object, deep: int = 0) -> Any:
    if type(value) in PLAIN:
        return value
    if deep > DEEPEST:
        raise _unreadable(N_("An event's text is nested too deeply."))
    deep += 1
    if isinstance(value, (list, tuple)):
        return tuple([each if type(each) in PLAIN else _frozen(each, deep) for each in value])
    if isinstance(value, Mapping):
        return MappingProxyType({
            key: each if type(each) in PLAIN else _frozen(each, deep) for key, each in value.items()
        })  # fmt: skip
    return value


def _unreadable(sentence: str) -> BadInput:
    return BadInput(sentence, N_("Run spindleside verify to see which event it is."))
