"""What the server hands to the program of one page through its standard input, and how it shows.

The secret is new for every program. The command line has its digest, the pipe has the secret, and
the program runs only where both fit. That shows that whoever started it holds both ends and meant
to speak this protocol: no variable of the environment and no terminal can make an ordinary script's
setup count as typed by a person. It does not show that a person sits at the far end. A program that
copies the server, or that opens the link and presses, passes, just as one that makes itself a
terminal passes for a terminal; against that stand the link's secret, PINs, and the gates' clock.
"""

from __future__ import annotations

import json
import os
import secrets
from dataclasses import asdict, dataclass, field
from hashlib import sha256
from hmac import compare_digest

from guide.plain import N_, BadInput

LONGEST = 8192
"""Bytes of a handover, its line end included."""
MINE = N_("This part runs only when `spindleside serve` starts it.")


@dataclass(frozen=True, slots=True)
class Handover:
    """What a program needs: the journal's folder, a setup or blank, and the size of the page."""

    home: str
    setup: str
    columns: int
    rows: int
    secret: str = field(default_factory=secrets.token_hex, repr=False)

    @property
    def digest(self) -> str:
        """What the command line has; nobody finds the secret from it (SHA-256, FIPS 180-4)."""
        return sha256(self.secret.encode()).hexdigest()

    @property
    def line(self) -> bytes:
        """What goes through the pipe first."""
        return json.dumps(asdict(self)).encode() + b"\n"


def taken(descriptor: int, digest: str) -> Handover:
    """Read a handover and nothing after it; BadInput where none fits the digest."""
    if os.isatty(descriptor):
        raise BadInput(MINE)
    try:
        told = Handover(**json.loads(_line(descriptor)))
    except (ValueError, TypeError) as error:
        raise BadInput(MINE) from error
    if not compare_digest(told.digest, digest):
        raise BadInput(MINE)
    return told


def _line(descriptor: int) -> bytes:
    """One byte after the other: what stands behind the line is for the screens."""
    read = bytearray()
    while len(read) < LONGEST and not read.endswith(b"\n"):
        byte = os.read(descriptor, 1)
        if not byte:
            break
        read += byte
    return bytes(read)
