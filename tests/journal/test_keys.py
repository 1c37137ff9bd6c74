"""Signatures, stretching and sealing against the documents that define them, and refusals."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305
from hypothesis import given
from hypothesis import strategies as st

from guide.journal import keys
from guide.plain import CheckFailed

Read = Callable[[str], Any]
ORDER = 2**252 + 27742317777372353535851937790883648493
"""The order of the base point (RFC 8032, 5.1)."""


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """PINs are stretched a little only."""
    monkeypatch.setattr(keys, "COST", 2**10)


@pytest.fixture(scope="module")
def pair() -> tuple[bytes, str]:
    """A private key and its public one."""
    seed = bytes(range(32))
    return seed, keys.public_of(seed)


@pytest.mark.parametrize("number", range(5))
def test_public_keys_are_those_of_rfc_8032(outside: Read, number: int) -> None:
    """Each secret key of section 7.1."""
    case = outside("journal_ed25519.json")["signatures"]["cases"][number]
    assert keys.public_of(bytes.fromhex(case["secret"])) == case["public"]


@pytest.mark.parametrize("number", range(2))
def test_signatures_are_those_of_rfc_8032(outside: Read, number: int) -> None:
    """Made and checked: the messages of section 7.1 that are text in UTF-8 (nothing, and `r`)."""
    case = outside("journal_ed25519.json")["signatures"]["cases"][number]
    text = bytes.fromhex(case["message"]).decode()
    assert keys.sign(bytes.fromhex(case["secret"]), text) == case["signature"]
    assert keys.signed_by(case["public"], case["signature"], text)


class Bytes(str):
    """A text whose UTF-8 is whatever it was made of, for messages that are no text."""

    def encode(self, *arguments: str) -> bytes:  # type: ignore[override]
        """The bytes themselves."""
        return bytes.fromhex(str(self))


@pytest.mark.parametrize("number", range(5))
def test_every_message_of_rfc_8032_is_signed_as_it_is_printed(outside: Read, number: int) -> None:
    """Those too that are no text: 2, 64 and 1023 bytes."""
    case = outside("journal_ed25519.json")["signatures"]["cases"][number]
    message = Bytes(case["message"])
    assert keys.sign(bytes.fromhex(case["secret"]), message) == case["signature"]
    assert keys.signed_by(case["public"], case["signature"], message)
    lengths = [
        len(c["message"]) // 2 for c in outside("journal_ed25519.json")["signatures"]["cases"]
    ]
    assert lengths == [0, 1, 2, 1023, 64]


def test_a_pin_is_stretched_as_rfc_7914_does_it(outside: Read) -> None:
    """The first 32 bytes of section 12's third vector, which has our r and p."""
    case = outside("journal_ed25519.json")["stretching"]
    made = keys._stretched(case["password"], case["salt"].encode(), case["n"])
    assert made.hex() == case["expected"][:64]
    assert (keys.BLOCK, keys.LANES) == (8, 1)


def test_the_library_seals_as_rfc_8439_does_it(outside: Read) -> None:
    """Section 2.8.2, text and tag."""
    case = outside("journal_ed25519.json")["sealing"]
    key, nonce, beside = (bytes.fromhex(case[name]) for name in ("key", "nonce", "beside"))
    made = ChaCha20Poly1305(key).encrypt(nonce, case["message"].encode(), beside)
    assert made.hex() == case["expected"]


@given(st.text(st.characters(exclude_categories=("Cs",)), max_size=40), st.integers(0, 1023))
def test_one_bit_of_a_signature_or_of_the_text_spoils_it(pair, text: str, bit: int) -> None:
    """Whichever; a good one stays good."""
    seed, public = pair
    signature = keys.sign(seed, text)
    raw = bytearray(bytes.fromhex(signature))
    raw[bit // 8 % 64] ^= 1 << bit % 8
    assert keys.signed_by(public, signature, text)
    assert not keys.signed_by(public, raw.hex(), text)
    assert not keys.signed_by(public, signature, text + "x")


@pytest.mark.parametrize(
    "spelled",
    [
        str.upper,
        lambda signature: f" {signature}",
        lambda signature: f"{signature[:64]}\n{signature[64:]}",
        lambda signature: signature[:-2],
        lambda signature: signature + "00",
        lambda signature: signature.translate(str.maketrans("0123456789", "٠١٢٣٤٥٦٧٨٩")),
        lambda signature: "",
        lambda signature: "no hexadecimal",
        lambda signature: "\ud800" * 128,
    ],
)
def test_a_signature_has_one_spelling(pair, spelled: Callable[[str], str]) -> None:
    """128 small hexadecimal digits and nothing else; nothing raises."""
    seed, public = pair
    assert not keys.signed_by(public, spelled(keys.sign(seed, "text")), "text")


def test_the_second_number_that_would_do_for_the_same_signature_is_refused(pair) -> None:
    """RFC 8032, 5.1.7: S is below the order, so nobody makes another signature of one."""
    seed, public = pair
    signature = bytes.fromhex(keys.sign(seed, "text"))
    other = int.from_bytes(signature[32:], "little") + ORDER
    assert other < 2**256
    assert not keys.signed_by(public, (signature[:32] + other.to_bytes(32, "little")).hex(), "text")


@pytest.mark.parametrize("key", ["", "zz" * 32, "ab", "ff" * 32, "AB" * 32, "\ud800"])
def test_what_is_no_key_signs_nothing_and_nothing_raises(pair, key: str) -> None:
    """A changed journal may hold anything there."""
    seed, _ = pair
    assert not keys.signed_by(key, keys.sign(seed, "text"), "text")


def test_a_seal_opens_with_its_pin_and_with_no_other(pair) -> None:
    """Two seals of the same key under the same PIN have nothing in common."""
    seed, _ = pair
    one, other = keys.sealed(seed, "four tin horses"), keys.sealed(seed, "four tin horses")
    assert keys.unsealed(one, "four tin horses") == seed
    assert keys.unsealed(one, "four tin horse") is None
    said, again = json.loads(one), json.loads(other)
    assert all(said[name] != again[name] for name in ("salt", "nonce", "sealed"))
    assert seed.hex() not in one


@pytest.mark.parametrize("name", ["salt", "nonce", "sealed"])
def test_a_changed_seal_opens_nothing(pair, name: str) -> None:
    """One bit anywhere."""
    seed, _ = pair
    parts = json.loads(keys.sealed(seed, "four tin horses"))
    parts[name] = f"{int(parts[name][0], 16) ^ 1:x}{parts[name][1:]}"
    assert keys.unsealed(json.dumps(parts), "four tin horses") is None


@pytest.mark.parametrize(
    "seal",
    [
        "", "{}", "[]", "null", "3", '{"n": 1024}', "[" * 20_000,
        '{"n":"x","salt":"","nonce":"","sealed":""}',
        '{"n":1000,"salt":"00","nonce":"00","sealed":"00"}',
        '{"n":1,"salt":"00","nonce":"00","sealed":"00"}',
        '{"n":4194304,"salt":"00","nonce":"00","sealed":"00"}',
        '{"n":1024,"salt":"zz","nonce":"00","sealed":"00"}',
        '{"n":1024,"salt":3,"nonce":"00","sealed":"00"}',
        '{"n":1024,"salt":"00","nonce":"00","sealed":"00"}',
        '{"n":1e999,"salt":"00","nonce":"00","sealed":"00"}',
    ],
    ids=range(15),
)  # fmt: skip
def test_what_is_no_seal_is_said_in_one_sentence(seal: str) -> None:
    """However much memory it asks for, and whatever stands there."""
    with pytest.raises(CheckFailed, match="sealed key in the journal was changed"):
        keys.unsealed(seal, "four tin horses")
