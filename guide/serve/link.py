"""The link of one run: where it is served, its secret, and how both are shown."""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field
from hmac import compare_digest
from ipaddress import IPv4Address, IPv6Address, ip_address

from guide.plain import N_, BadInput
from guide.records.qr import QUIET, modules

LOOPBACK = "127.0.0.1"
KEY = "key"
"""What the secret is called in the link."""
BLOCKS = {(0, 0): "█", (0, 1): "▀", (1, 0): "▄", (1, 1): " "}
"""Two modules above each other as one sign; light ones are drawn, for a dark terminal."""


@dataclass(frozen=True, slots=True)
class Link:
    """Where the screens are served, and the secret that opens them."""

    address: IPv4Address | IPv6Address
    port: int
    secret: str = field(default_factory=lambda: secrets.token_urlsafe(24), repr=False)
    """192 random bits, new for each run."""

    @property
    def host(self) -> str:
        """Address and port as a browser names them (RFC 9110, 7.2)."""
        name = f"[{self.address}]" if self.address.version == 6 else str(self.address)
        return name if self.port == 80 else f"{name}:{self.port}"

    @property
    def url(self) -> str:
        """What opens the page."""
        return f"http://{self.host}/?{KEY}={self.secret}"

    def opens(self, key: str) -> bool:
        """Whether a key is this run's; how long that takes tells nothing of it."""
        return compare_digest(key.encode(), self.secret.encode())


def one_address(text: str) -> IPv4Address | IPv6Address:
    """One address of this machine; every address at once is refused, as no request could then be
    checked for the name that it was asked by."""
    try:
        address = ip_address(text)
    except ValueError as error:
        raise BadInput(
            N_("{text} is not an address in numbers."),
            N_("Write it like 192.168.1.20, an address of this machine."),
            text=text,
        ) from error
    if address.is_unspecified or address.is_multicast:
        raise BadInput(
            N_("{text} does not stand for one machine."),
            N_("Name the one address of this machine at which the tablet finds it."),
            text=text,
        )
    return address


def square_code(text: str) -> list[str]:
    """The link as a square code of half blocks, with its quiet zone, for a camera."""
    code = modules(text)
    blank = (0,) * (len(code) + 2 * QUIET)
    edge = (0,) * QUIET
    rows = [*[blank] * QUIET, *((*edge, *row, *edge) for row in code), *[blank] * QUIET]
    rows += [blank] * (len(rows) % 2)
    return [
        "".join(BLOCKS[pair] for pair in zip(upper, lower, strict=True))
        for upper, lower in zip(rows[::2], rows[1::2], strict=True)
    ]
