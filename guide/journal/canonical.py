"""JSON in the one form that has one spelling (RFC 8785, JCS), and its digest (FIPS 180-4)."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any

from guide.plain import N_, BadInput

LARGEST = 2**53 - 1
"""The largest whole number that every reader of JSON takes exactly (RFC 7493, 2.2)."""
SHORT = {"\b": r"\b", "\t": r"\t", "\n": r"\n", "\f": r"\f", "\r": r"\r", '"': r"\"", "\\": r"\\"}
ESCAPES = {code: f"\\u{code:04x}" for code in range(0x20)} | {ord(c): e for c, e in SHORT.items()}
"""What RFC 8785, 3.2.2.2 spells with a backslash; every other character stands as it is."""


def canonical(value: object) -> str:
    """The canonical JSON text (RFC 8785) of text, numbers, booleans, None, lists and mappings.

    Refuses (BadInput) what has no such text: a lone surrogate, NaN or an infinity, a whole number
    beyond `LARGEST`, a key that is not text, or any other type.
    """
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, int):
        return _whole(value)
    if isinstance(value, float):
        return _double(value)
    return _container(value)


def digest(text: str) -> str:
    """SHA-256 of the text's UTF-8 bytes, as 64 lower-case hexadecimal digits."""
    found: str = _sha256()(_utf8(text)).hexdigest()
    return found


@cache
def _sha256() -> Callable[[bytes], Any]:
    from hashlib import sha256

    return sha256


def no_floats(value: object) -> None:
    """Refuse (BadInput) a value that holds a binary float anywhere: 0.010 is not kept exactly."""
    if isinstance(value, float):
        raise BadInput(
            N_("The journal keeps no binary floating-point number, and {number} is one."),
            N_("Write the quantity as text, as it was typed, with its unit."),
            number=repr(value),
        )
    for part in _parts(value):
        no_floats(part)


def _parts(value: object) -> Iterator[object]:
    if isinstance(value, Mapping):
        yield from value.values()
    elif isinstance(value, (list, tuple)):
        yield from value


def _container(value: object) -> str:
    if isinstance(value, (list, tuple)):
        return f"[{','.join(map(canonical, value))}]"
    if isinstance(value, Mapping):
        names = sorted(map(_name, value), key=lambda name: name.encode("utf-16-be"))
        return f"{{{','.join(f'{_text(name)}:{canonical(value[name])}' for name in names)}}}"
    raise _no_json(type(value).__name__)


def _name(name: object) -> str:
    if not isinstance(name, str):
        raise _no_json(f"a key {name!r}")
    _utf8(name)
    return name


def _text(text: str) -> str:
    _utf8(text)
    return f'"{text.translate(ESCAPES)}"'


def _utf8(text: str) -> bytes:
    try:
        return text.encode()
    except UnicodeEncodeError:
        raise BadInput(
            N_("The text {text} holds half of a character pair (a lone surrogate)."),
            N_("Type it again."),
            text=ascii(text),
        ) from None


def _whole(number: int) -> str:
    if abs(number) > LARGEST:
        raise BadInput(
            N_("The whole number {number} is too large for every reader of JSON to take exactly."),
            N_("Write it as text."),
            number=f"{number:#x}",
        )
    return int.__repr__(number)


def _double(number: float) -> str:
    """ECMAScript's Number::toString, whose shortest digits are the ones Python's repr finds."""
    from decimal import Decimal

    if number == 0:
        return "0"
    parts = Decimal(float.__repr__(number)).as_tuple()
    if not isinstance(parts.exponent, int):
        raise _no_json(float.__repr__(number))
    digits = "".join(map(str, parts.digits))
    kept = digits.rstrip("0")
    return "-" * parts.sign + _laid_out(kept, parts.exponent + len(digits) - len(kept))


def _laid_out(digits: str, exponent: int) -> str:
    point = len(digits) + exponent
    if exponent >= 0 and point <= 21:
        return digits + "0" * exponent
    if 0 < point <= 21:
        return f"{digits[:point]}.{digits[point:]}"
    if -6 < point <= 0:
        return f"0.{'0' * -point}{digits}"
    fraction = f".{digits[1:]}" if digits[1:] else ""
    return f"{digits[0]}{fraction}e{point - 1:+d}"


def _no_json(what: str) -> BadInput:
    return BadInput(
        N_("JSON has no place for {what}."),
        N_("Write it as text, a whole number, true, false, nothing, a list or a mapping."),
        what=what,
    )
