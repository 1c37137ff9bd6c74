"""Canonical JSON against RFC 8785 and its authors' test data, digests against FIPS 180."""

from __future__ import annotations

import json
import math
import struct
from collections.abc import Callable, Iterator
from decimal import Decimal, localcontext
from hashlib import sha256
from itertools import islice
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.journal.canonical import LARGEST, canonical, digest, no_floats
from guide.plain import BadInput

Read = Callable[[str], Any]

letters = st.text(st.characters(exclude_categories=("Cs",)), max_size=12)
numbers = st.integers(-LARGEST, LARGEST) | st.floats(allow_nan=False, allow_infinity=False)
values = st.recursive(
    st.none() | st.booleans() | numbers | letters,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(letters, inner, max_size=4),
    max_leaves=12,
)


def double(bits: str) -> float:
    """The IEEE 754 double of 16 hexadecimal digits."""
    number: float = struct.unpack(">d", bytes.fromhex(bits.zfill(16)))[0]
    return number


def test_numbers_are_written_as_in_the_table_of_rfc_8785(outside: Read) -> None:
    """Every row of appendix B, bits to text."""
    cases = outside("journal_canonical.json")["numbers"]["cases"]
    assert [[bits, canonical(double(bits))] for bits, _ in cases] == cases
    assert len(cases) == 24


def test_what_the_table_calls_an_error_is_refused(outside: Read) -> None:
    """NaN and infinity, and minus infinity too."""
    bits = outside("journal_canonical.json")["not_numbers"]["cases"]
    for number in (*map(double, bits), -math.inf):
        with pytest.raises(BadInput):
            canonical([number])


def published_sequence(text: str) -> Iterator[str]:
    """The authors' number sequence as bits in hexadecimal, made as the file's head says."""
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    yield from (bits for line in lines for bits in line.split())
    yield from (f"{0x0010000000000000 + step:016x}" for step in range(2000))
    block = bytes(32)
    while True:
        block = sha256(block).digest()
        for (number,) in struct.iter_unpack("<d", block):
            if number and math.isfinite(number):
                yield struct.pack(">d", number).hex()


@pytest.mark.parametrize("lines", [1000, 10000])
def test_ten_thousand_numbers_have_the_published_digest(outside: Read, lines: int) -> None:
    """One number written otherwise than the RFC's authors wrote it would change the digest."""
    text = outside("journal_number_sequence.txt")
    (expected,) = [row.split(": ")[1] for row in text.splitlines() if f"first {lines} " in row]
    written = sha256()
    for bits in islice(published_sequence(text), lines):
        written.update(f"{int(bits, 16):x},{canonical(double(bits))}\n".encode())
    assert written.hexdigest() == expected


@pytest.mark.parametrize("case", range(3))
def test_documents_have_the_bytes_that_their_authors_print(outside: Read, case: int) -> None:
    """Escapes, numbers, order of names and nesting together, compared as UTF-8."""
    document = outside("journal_canonical.json")["documents"]["cases"][case]
    assert canonical(json.loads(document["inputs"])).encode().hex() == document["expected"]


def test_names_are_sorted_by_utf_16_code_units(outside: Read) -> None:
    """The RFC's own example, which sorting by code points gets wrong."""
    example = outside("journal_canonical.json")["order"]
    given = json.loads(example["inputs"])
    assert list(json.loads(canonical(given)).values()) == example["expected"]
    assert [given[name] for name in sorted(given)] != example["expected"]


def test_control_characters_are_escaped_and_no_others() -> None:
    """RFC 8785, 3.2.2.2: short escapes where JSON has one, lower-case \\u00xx for the rest."""
    written = canonical("\0\b\t\n\v\f\r\x1f\x7f\x80/<é")
    assert written == '"\\u0000\\b\\t\\n\\u000b\\f\\r\\u001f\x7f\x80/<é"'


@given(values)
def test_canonical_text_reads_back_as_the_same_value(value: object) -> None:
    """The standard library's reader is the other side, whole doubles read back as doubles."""
    text = canonical(value)
    assert json.loads(text, parse_int=lambda digits: int(float(digits))) == value


@given(values)
def test_canonical_text_of_what_was_read_is_the_same_text(value: object) -> None:
    """One value, one spelling: numbers read back as ECMAScript would, as doubles."""
    text = canonical(value)
    assert canonical(json.loads(text, parse_int=float)) == text


@given(st.dictionaries(letters, st.integers(0, 9)), st.randoms(use_true_random=False))
def test_the_order_in_which_a_mapping_was_filled_leaves_no_trace(
    value: dict[str, int], order: Any
) -> None:
    """Shuffled and filled again, the text is the same."""
    items = list(value.items())
    order.shuffle(items)
    assert canonical(dict(items)) == canonical(value)


def test_the_precision_of_decimal_sums_elsewhere_does_not_reach_numbers() -> None:
    """Somebody's decimal context of three digits shortens no number here."""
    with localcontext() as context:
        context.prec = 3
        assert canonical(1424953923781206.2) == "1424953923781206.2"


@pytest.mark.parametrize(
    "value",
    [
        "\ud800", "a\udc00b", {"\udead": 1}, ["ok", "\udfff"], LARGEST + 1, -LARGEST - 1, 10**400,
        {1: "a"}, {None: "a"}, b"bytes", {1, 2}, Decimal("1.5"), object(),
    ],
)  # fmt: skip
def test_what_has_no_canonical_text_is_refused_in_one_sentence(value: object) -> None:
    """Half pairs, numbers that readers would round, and types that JSON has not."""
    with pytest.raises(BadInput) as refused:
        canonical(value)
    assert "\n" not in str(refused.value)
    str(refused.value).encode()


@pytest.mark.parametrize("value", [0.01, [1, [2.0]], {"a": {"b": (1, 1e9)}}, math.nan])
def test_a_binary_float_is_found_however_deep(value: object) -> None:
    """Quantities are kept as typed: `no_floats` stands at the door of events."""
    with pytest.raises(BadInput, match="as it was typed"):
        no_floats(value)


def test_what_holds_no_binary_float_passes() -> None:
    """Text, whole numbers and truth values are not floats."""
    no_floats({"reading": "0.010", "screws": [1, 2, None, True]})


@pytest.mark.parametrize("case", range(3))
def test_digests_are_those_of_fips_180(outside: Read, case: int) -> None:
    """SHA-256 of the standard's own messages."""
    example = outside("journal_digest.json")[case]
    assert digest(example["inputs"]) == example["expected"]


def test_a_digest_is_taken_of_utf_8() -> None:
    """Text beyond ASCII goes through its UTF-8 bytes; half a pair has none."""
    assert digest("µ") == sha256(b"\xc2\xb5").hexdigest()
    with pytest.raises(BadInput):
        digest("\ud800")
