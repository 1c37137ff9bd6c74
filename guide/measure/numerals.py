"""One number in the user's locale, read one way or refused with a sentence."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from decimal import Decimal
from functools import lru_cache

from guide.plain import N_, BadInput, Refusal

MOST_DIGITS = 15
"""More digits than any instrument shows; a longer number is a slip, and floats hold these."""
SLIP = 100
"""How many times its neighbours a value must be to look like a slipped decimal point."""
PLAIN_ENGLISH = frozenset({"en", "en-US", "en-GB", "en-CA", "en-AU", "en-NZ", "en-IE"})
"""Locales known to write a dot for the decimals, so that babel need not be loaded."""

DIGITS = re.compile(r"[0-9]+")
DECIMAL = re.compile(r"(?:[0-9]+\.?[0-9]*|\.[0-9]+)")
FRACTION = re.compile(r"(?:([0-9]+) +)?([0-9]+)/([0-9]+)")
GROUPED = re.compile(r"[1-9][0-9]{0,2}([.,'’ ][0-9]{3})+")
MIXED = re.compile(r"[1-9][0-9]{0,2}([.,'’ ][0-9]{3})+[.,][0-9]+")
POINT = re.compile(r"(?<=[0-9])\.(?=[0-9])|(?<![^\s+−-])\.(?=[0-9])")
"""A decimal point: what stands before it is a figure, a sign, a gap or nothing."""
WRONG_SIGN = re.compile(r"[0-9]*[.,'’][0-9]+")


@lru_cache(64)
def signs(locale: str = "en") -> tuple[str, str]:
    """The decimal sign and the grouping sign of a locale (BCP 47 tag)."""
    if locale.replace("_", "-") in PLAIN_ENGLISH:
        return ".", ","
    from babel.core import UnknownLocaleError
    from babel.numbers import get_decimal_symbol, get_group_symbol

    tag = locale.replace("-", "_")
    try:
        return get_decimal_symbol(tag), get_group_symbol(tag)
    except (UnknownLocaleError, ValueError):
        return ".", ","


@lru_cache(4096)
def parse_number(text: str, locale: str = "en", *, fractions: bool = False) -> Decimal:
    """The exact number typed, such as 0.002, −3 or (with `fractions`) 1 1/2; BadInput otherwise.

    The locale's decimal sign is taken; the other sign only where it cannot be a grouping.
    Grouping, exponents, infinities, underscores and unseen characters are refused.
    """
    typed = text.strip(" ")
    _refuse_unseen(typed)
    if not typed:
        raise BadInput(N_("A number is missing."), N_("Type it in digits."))
    negative, body = _sign(typed)
    number = _fraction(body, text) if fractions and "/" in body else _plain(body, text, locale)
    return number.copy_negate() if negative and number else number


def parse_many(text: str, locale: str = "en") -> tuple[Decimal, ...]:
    """The numbers of a list such as "0 12 20 8" or "0; 12; 20; 8"; BadInput for any bad one."""
    _refuse_unseen(text)
    if re.search(r"[0-9] *, +[-+−0-9]", text):
        raise BadInput(
            N_("Commas cannot separate numbers here, because a comma may be a decimal sign."),
            N_("Separate the numbers with spaces or semicolons."),
        )
    parts = text.split(";") if ";" in text else [part for part in text.split(" ") if part]
    if not "".join(parts).strip():
        raise BadInput(N_("The list of numbers is empty."), N_("Type them as in 0 12 20 8."))
    return tuple(parse_number(part, locale) for part in parts)


def in_point(text: str, locale: str) -> str:
    """A figure that was read in a locale, with a point for its decimal sign, as it is kept."""
    point, _ = signs(locale)
    return text if point == "." else text.replace(point, ".")


def in_sign(text: str, locale: str) -> str:
    """A figure as it is kept, with the decimal sign of a locale."""
    point, _ = signs(locale)
    return text if point == "." else POINT.sub(point, text)


def suspicious(
    values: Sequence[Decimal], new: Decimal, floor: Decimal | None = None
) -> Refusal | None:
    """A refusal when `new` is a hundred times its neighbours, likely a slipped point; else None.

    The neighbours count as at least `floor`, by default ten of the finest step typed among them,
    so that zeros trip nothing. The caller may let the value through when it is said again.
    """
    if not values:
        return None
    largest = max(max(abs(value) for value in values), _floor(values) if floor is None else floor)
    if largest <= 0 or abs(new) < SLIP * largest:
        return None
    return BadInput(
        N_("{new} is a hundred times the readings beside it, which may be a slipped point."),
        N_("Look at the dial again; if it is right, say it once more."),
        new=new,
    )


def shown(text: str) -> str:
    """Typed text made fit for a sentence: unseen characters as ?, and cut short."""
    clean = "".join(sign if sign.isprintable() else "?" for sign in text.strip(" "))
    return clean if len(clean) <= 24 else clean[:24] + "…"


def unseen(sign: str) -> bool:
    """Whether a character is a control, a format mark, a surrogate or unassigned."""
    return unicodedata.category(sign).startswith("C") or sign in "\u2028\u2029"


def _floor(values: Sequence[Decimal]) -> Decimal:
    """Ten of the finest step typed among the values."""
    exponents = [value.as_tuple().exponent for value in values]
    return Decimal(10).scaleb(min(e for e in exponents if isinstance(e, int)))


def _refuse_unseen(text: str) -> None:
    """Refuse characters that do not show."""
    if not (text.isascii() and text.isprintable()) and any(unseen(sign) for sign in text):
        raise BadInput(
            N_("The number {text} has a character in it that cannot be seen."),
            N_("Type it again with the digits 0 to 9."),
            text=shown(text),
        )


def _sign(typed: str) -> tuple[bool, str]:
    """Whether the number is negative, and the rest without its sign."""
    if typed[0] in "-−+":
        return typed[0] != "+", typed[1:].lstrip(" ")
    return False, typed


def _fraction(body: str, text: str) -> Decimal:
    """A fraction of an inch such as 1/2 or 1 1/2, where it ends as a decimal."""
    found = FRACTION.fullmatch(body)
    if not found:
        raise _not_a_number(text, ".")
    whole, top, bottom = (int(part or 0) for part in found.groups())
    _refuse_long(found.group(0), text)
    if bottom == 0 or not _ends(bottom) or (found.group(1) and top >= bottom):
        raise BadInput(
            N_("The fraction {text} is not one that an inch rule shows."),
            N_("Write it as a decimal."),
            text=shown(text),
        )
    return Decimal(whole) + Decimal(top) / Decimal(bottom)


def _ends(bottom: int) -> bool:
    """Whether a fraction over this ends within the digits allowed."""
    return bottom <= 1024 and (10**10) % bottom == 0


def _plain(body: str, text: str, locale: str) -> Decimal:
    """Digits with at most one decimal sign."""
    if DIGITS.fullmatch(body):
        _refuse_long(body, text)
        return Decimal(body)
    point, _ = signs(locale)
    with_dot = _one_dot(body, text, point)
    if not DECIMAL.fullmatch(with_dot):
        raise _not_a_number(text, point)
    _refuse_long(with_dot, text)
    return Decimal(with_dot)


def _one_dot(body: str, text: str, point: str) -> str:
    """The body with a dot for its decimal sign; refused where that sign can mean two things."""
    groupable = GROUPED.fullmatch(body) is not None
    if groupable and point not in body:
        raise _ambiguous(body, text, point)
    if MIXED.fullmatch(body):
        head, tail = re.split(r"[.,](?=[0-9]+$)", body)
        raise _grouped(text, re.sub(r"[^0-9]", "", head) + point + tail)
    if point != "." and DECIMAL.fullmatch(body):
        return body
    if point not in body and WRONG_SIGN.fullmatch(body):
        raise BadInput(
            N_("{text} does not have this language's decimal sign."),
            N_("Write {right}."),
            text=shown(text),
            right=re.sub(r"[.,'’]", point, body, count=1),
        )
    return body if point == "." else body.replace(".", "?").replace(point, ".")


def _ambiguous(body: str, text: str, point: str) -> BadInput:
    """The refusal of a number that may be grouped or may have decimals."""
    whole = re.sub(r"[^0-9]", "", body)
    marks = re.sub(r"[0-9]", "", body)
    if len(marks) > 1 or marks not in ".,":
        return _grouped(text, whole)
    head, tail = re.split(r"[^0-9]", body)
    return BadInput(
        N_("{text} can be read as {small} or as {whole}."),
        N_("Write {small} or {whole}."),
        text=shown(text),
        small=f"{head}{point}{tail}".rstrip("0").rstrip(point),
        whole=whole,
    )


def _grouped(text: str, right: str) -> BadInput:
    """The refusal of thousands set apart by a mark or a space."""
    return BadInput(
        N_("{text} has a mark or a space between its thousands."),
        N_("Write {right}."),
        text=shown(text),
        right=right,
    )


def _not_a_number(text: str, point: str) -> BadInput:
    """The refusal of anything that is not one number."""
    return BadInput(
        N_("{text} is not a number."),
        N_("Write digits with one decimal sign at most, such as {example}."),
        text=shown(text),
        example=f"0{point}002",
    )


def _refuse_long(digits: str, text: str) -> None:
    """Refuse more digits than an instrument can show."""
    if sum(sign.isdigit() for sign in digits) > MOST_DIGITS:
        raise BadInput(
            N_("{text} has more than {most} digits."),
            N_("Write what the dial shows."),
            text=shown(text),
            most=MOST_DIGITS,
        )
