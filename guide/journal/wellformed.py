"""What the parts of an event must look like to be written, and the refusals when they do not."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime
from functools import lru_cache

from guide.plain import N_, BadInput

SETUP = re.compile("[a-z0-9-]{1,64}")
STAMP = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T([01][0-9]|2[0-3])(:[0-5][0-9]){2}\.[0-9]{3}Z")
DIGEST = re.compile("[0-9a-f]{64}")


def is_setup_id(text: object) -> bool:
    """Whether the text may name a setup: 1 to 64 of a-z, 0-9 and hyphen."""
    return isinstance(text, str) and SETUP.fullmatch(text) is not None


def setup_id(text: object) -> str:
    """The text if it may name a setup, else BadInput."""
    if isinstance(text, str) and is_setup_id(text):
        return text
    raise BadInput(
        N_("{setup} cannot name a setup."),
        N_("Use up to 64 small letters a to z, digits and hyphens."),
        setup=ascii(text),
    )


def stamp(moment: datetime) -> str:
    """A moment that knows its time zone as UTC by RFC 3339, cut to the millisecond, with a Z."""
    if moment.tzinfo is None:
        raise BadInput(N_("The time {at} has no time zone."), N_("Give it one."), at=str(moment))
    text = moment.astimezone(UTC).isoformat(timespec="milliseconds")
    return text.removesuffix("+00:00") + "Z"


def is_stamp(text: object) -> bool:
    """Whether the text is a moment exactly as `stamp` writes it."""
    return isinstance(text, str) and STAMP.fullmatch(text) is not None and _is_day(text[:10])


@lru_cache(256)
def _is_day(text: str) -> bool:
    """Whether the calendar has that day; a journal has many events of one day."""
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def is_digest(text: object) -> bool:
    """Whether the text is a SHA-256 digest as this journal writes it."""
    return isinstance(text, str) and DIGEST.fullmatch(text) is not None


def is_said(text: object) -> bool:
    """Whether the text is one that says something."""
    return isinstance(text, str) and bool(text.strip())


def is_counted(number: object, largest: int) -> bool:
    """Whether the number is whole, from 1 to `largest`."""
    return type(number) is int and 1 <= number <= largest


def must(holds: bool, name: str, value: object) -> None:
    """Refuse (BadInput) the value of that field unless the condition holds."""
    if not holds:
        raise BadInput(
            N_("An event cannot have {value} as its {field}."),
            N_("Nothing was written; enter it again."),
            value=ascii(value),
            field=name,
        )
