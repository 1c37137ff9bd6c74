"""A serial port: the only door to pyserial, which is loaded when a port is opened."""

from __future__ import annotations

import errno
from typing import TYPE_CHECKING

from guide.instruments.instrument import Instrument
from guide.plain import N_, BadInput, Refusal

if TYPE_CHECKING:
    from serial import Serial

WAIT = 0.1
"""Seconds after which a read gives back what there is."""
MOST = 4096
"""Bytes of one read."""
NO_PORT = frozenset({errno.ENOENT, errno.ENODEV, errno.ENXIO})
NO_RIGHT = frozenset({errno.EACCES, errno.EPERM})
BUSY = frozenset({errno.EBUSY, errno.EAGAIN})
NOT_OPENED = {
    "none": (
        N_("{name}: there is no port {port} on this machine."),
        N_("Plug it in, or type the readings; it is tried again."),
    ),
    "right": (
        N_("{name}: this account may not use the port {port}."),
        N_("Ask whoever keeps this machine, or type the readings."),
    ),
    "busy": (
        N_("{name}: another program is using the port {port}."),
        N_("Close that one, or type the readings; it is tried again."),
    ),
    "": (
        N_("{name}: {port} cannot be opened as a serial port."),
        N_("Look at the port and its settings, or type the readings."),
    ),
}
"""Why a port is not open, and what to do."""


class Port:
    """An open port; whatever goes wrong with it is a Refusal that says so."""

    def __init__(self, instrument: Instrument, serial: Serial) -> None:
        self.instrument, self._serial = instrument, serial

    def read(self) -> bytes:
        """What came, after a moment at most; a Refusal where the link is lost."""
        try:
            waiting = self._serial.in_waiting
            return bytes(self._serial.read(max(1, min(waiting, MOST))))
        except (OSError, TypeError) as error:
            raise lost(self.instrument) from error

    def write(self, data: bytes) -> None:
        """Send something; a Refusal where the link is lost."""
        try:
            self._serial.write(data)
        except OSError as error:
            raise lost(self.instrument) from error

    def close(self) -> None:
        """Let others have it."""
        try:
            self._serial.close()
        except OSError:
            return


def opened(instrument: Instrument) -> Port:
    """The port of an indicator, else a Refusal that says what to do."""
    try:
        from serial import Serial
    except ImportError:
        raise BadInput(
            N_("Reading by wire needs a part of the program that is not installed."),
            N_("Install it: pip install 'spindleside[serial]'."),
        ) from None
    bits, parity, stop = tuple(instrument.format)
    try:
        made = Serial(
            instrument.port, instrument.speed, int(bits), parity, int(stop),
            timeout=WAIT, write_timeout=1, exclusive=True,
        )  # fmt: skip
    except (OSError, ValueError) as error:
        raise not_opened(instrument, error) from error
    return Port(instrument, made)


def not_opened(instrument: Instrument, error: Exception) -> Refusal:
    """Why a port could not be opened, in plain words."""
    number = getattr(error, "errno", None)
    absent = number in NO_PORT or isinstance(error, FileNotFoundError)
    kind = "none" if absent else "right" if number in NO_RIGHT else "busy" if number in BUSY else ""
    sentence, remedy = NOT_OPENED[kind]
    return BadInput(sentence, remedy, name=instrument.name, port=instrument.port)


def lost(instrument: Instrument) -> Refusal:
    """The link was there and is not any more."""
    return BadInput(
        N_("{name}: the link on {port} is lost, and what was read stays."),
        N_("Look at the plug, or type the readings; it is tried again."),
        name=instrument.name,
        port=instrument.port,
    )
