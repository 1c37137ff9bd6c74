"""Keys of persons: Ed25519 signatures (RFC 8032), and a private key sealed by a PIN.

The PIN is stretched by scrypt (RFC 7914), the key sealed by ChaCha20-Poly1305 (RFC 8439). A PIN is
short: whoever holds the journal file can try PINs on a machine of their own, at the speed of scrypt
and with no delay. A passphrase withstands that; a PIN of six digits does not for long.
"""

from __future__ import annotations

import json
import re
from functools import cache, lru_cache
from hashlib import scrypt
from secrets import token_bytes
from typing import TYPE_CHECKING
from unicodedata import normalize

from guide.journal.canonical import canonical
from guide.plain import N_, CheckFailed

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

COST = 2**16
"""scrypt's N: about 64 MB and a good tenth of a second a try."""
DEAREST = 2**20
"""The largest N that is tried: a changed seal may ask for no more."""
SIGNATURE = re.compile("[0-9a-f]{128}")
BLOCK, LANES = 8, 1
"""scrypt's r and p."""


def new_seed() -> bytes:
    """A private key: 32 random bytes."""
    return token_bytes(32)


def public_of(seed: bytes) -> str:
    """The public key of a private one, as 64 hexadecimal digits."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    return Ed25519PrivateKey.from_private_bytes(seed).public_key().public_bytes_raw().hex()


def sign(seed: bytes, text: str) -> str:
    """The signature of the text's UTF-8 bytes, as 128 hexadecimal digits."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    return Ed25519PrivateKey.from_private_bytes(seed).sign(text.encode()).hex()


def signed_by(key: str, signature: str, text: str) -> bool:
    """Whether the signature is that of the text under the public key; never raises."""
    if SIGNATURE.fullmatch(signature) is None:
        return False
    try:
        _public(key).verify(bytes.fromhex(signature), text.encode())
    except _no_signature():
        return False
    return True


@cache
def _no_signature() -> tuple[type[Exception], ...]:
    from cryptography.exceptions import InvalidSignature

    return InvalidSignature, ValueError


@lru_cache(maxsize=256)
def _public(key: str) -> Ed25519PublicKey:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    return Ed25519PublicKey.from_public_bytes(bytes.fromhex(key))


def sealed(seed: bytes, pin: str) -> str:
    """The private key sealed by a PIN or passphrase, as canonical JSON."""
    from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305

    salt, nonce = token_bytes(16), token_bytes(12)
    shut = ChaCha20Poly1305(_stretched(pin, salt, COST)).encrypt(nonce, seed, None)
    parts = {"salt": salt.hex(), "nonce": nonce.hex(), "sealed": shut.hex(), "n": COST}
    return canonical(parts)


def unsealed(seal: str, pin: str) -> bytes | None:
    """The private key, None where the PIN is another; CheckFailed for a seal that is none."""
    from cryptography.exceptions import InvalidTag
    from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305

    try:
        parts = json.loads(seal)
        cost = int(parts["n"])
        salt, nonce, shut = (bytes.fromhex(parts[each]) for each in ("salt", "nonce", "sealed"))
        if not 2 <= cost <= DEAREST:
            raise ValueError
        return ChaCha20Poly1305(_stretched(pin, salt, cost)).decrypt(nonce, shut, None)
    except InvalidTag:
        return None
    except (ValueError, LookupError, TypeError, OverflowError, RecursionError):
        raise _spoilt() from None


def _stretched(pin: str, salt: bytes, cost: int) -> bytes:
    """A PIN as 32 bytes; however its accents were typed, it is the same PIN."""
    typed = normalize("NFC", pin).encode("utf-8", "surrogatepass")
    room = 256 * BLOCK * cost
    return scrypt(typed, salt=salt, n=cost, r=BLOCK, p=LANES, maxmem=room, dklen=32)


def _spoilt() -> CheckFailed:
    return CheckFailed(
        N_("The sealed key in the journal was changed."),
        N_("Run spindleside verify; a supervisor can give a new key."),
    )
