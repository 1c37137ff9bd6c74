"""One indicator on a wire as the shop has set it, and the refusals for what cannot be one."""

from __future__ import annotations

import re
from dataclasses import dataclass

from guide.instruments.pattern import Pattern, pattern_of
from guide.plain import N_, BadInput

SPEEDS = (300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200, 230400)
"""Bits a second that a port can be set to."""
FORMATS = re.compile(r"[5-8][NEO][12]")
"""Data bits, parity, stop bits, such as 8N1 or 7E1."""
UNITS = ("in", "mm")
IN, OUT = SIGNS = ("in", "out")
"""Which way of the plunger the indicator calls positive."""
POINT, COMMA = DECIMALS = ("point", "comma")
LONGEST = 120
"""Signs in a name or a port."""
ESCAPES = {"r": "\r", "n": "\n", "t": "\t", "\\": "\\"}
ESCAPED = re.compile(r"\\(x[0-9a-fA-F]{2}|.?)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Instrument:
    """How one indicator is read; made by `instrument_of`, which checks it."""

    name: str
    """Which indicator of the shop's equipment it is."""
    port: str
    """Where it is plugged in, as the system calls it."""
    speed: int = 9600
    """Bits a second."""
    format: str = "8N1"
    """Data bits, parity, stop bits."""
    pattern: str = "plain"
    """What a line of it looks like: a name of `pattern.NAMED`, or a template with {value}."""
    unit: str = "in"
    """The unit it reads in where a line names none."""
    positive: str = IN
    """Which way of the plunger it calls positive; the record has plunger in as positive."""
    decimal: str = POINT
    """The decimal sign that it sends."""
    ask: str = ""
    """What has to be sent to it for a value, with \\r and \\x1b spelled so; blank for nothing."""
    over: str = ""
    """What it sends when it is past its range, where that is something of its own."""

    @property
    def form(self) -> Pattern:
        """The pattern, ready to be used."""
        return pattern_of(self.pattern)

    @property
    def request(self) -> bytes:
        """What is sent to ask it."""
        return request_of(self.ask)


def instrument_of(told: dict[str, object]) -> Instrument:
    """The instrument if every setting can be used, else BadInput."""
    try:
        made = Instrument(**told)  # type: ignore[arg-type] # every field is checked below
    except TypeError:
        raise BadInput(
            N_("The settings of an indicator name something that is none: {names}."),
            N_("Set it again: `spindleside instruments set`."),
            names=", ".join(map(ascii, told)),
        ) from None
    texts = (made.name, made.port, made.format, made.pattern, made.ask, made.over)
    for each in texts:
        _must(isinstance(each, str) and each.isprintable() and len(each) <= LONGEST, each,
              N_("A text is up to 120 printable signs."))  # fmt: skip
    _must(bool(made.name.strip()), made.name, N_("Name the indicator."))
    _must(bool(made.port.strip()), made.port, N_("Name the port, such as /dev/ttyUSB0 or COM3."))
    _must(type(made.speed) is int and made.speed in SPEEDS, made.speed,
          N_("A speed is 9600, or one of the others from 300 to 230400."))  # fmt: skip
    _must(FORMATS.fullmatch(made.format) is not None, made.format,
          N_("A format is data bits, parity, stop bits, such as 8N1 or 7E1."))  # fmt: skip
    _must(made.unit in UNITS, made.unit, N_("A unit is in or mm."))
    _must(made.positive in SIGNS, made.positive, N_("Plunger in or out is positive: in or out."))
    _must(made.decimal in DECIMALS, made.decimal, N_("The decimal sign is point or comma."))
    pattern_of(made.pattern)
    request_of(made.ask)
    return made


def _must(holds: bool, setting: object, remedy: str) -> None:
    """Refuse a setting unless it holds."""
    if not holds:
        raise BadInput(
            N_("{setting} cannot be set for an indicator."), remedy, setting=ascii(setting)[:60]
        )


def request_of(text: str) -> bytes:
    """The bytes of a request in which \\r, \\n, \\t, \\\\ and \\x1b are spelled out."""
    try:
        return ESCAPED.sub(_spelled, text).encode("latin-1")
    except UnicodeEncodeError:
        raise _no_request(text) from None


def _spelled(found: re.Match[str]) -> str:
    """The sign that one spelling stands for."""
    told = found[1]
    if told[:1] == "x" and len(told) == 3:
        return chr(int(told[1:], 16))
    if told not in ESCAPES:
        raise _no_request(found.string)
    return ESCAPES[told]


def _no_request(text: str) -> BadInput:
    return BadInput(
        N_("{text} cannot be sent to an indicator."),
        N_("Write plain signs, \\r, \\n, \\t, \\\\, or a byte as \\x1b."),
        text=ascii(text),
    )
