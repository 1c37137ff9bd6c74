"""Bytes into lines: CR, LF or both end one; what is too long is cut, so that nothing grows."""

from __future__ import annotations

import re
from dataclasses import dataclass

ENDS = re.compile(rb"[\r\n]+")
LONGEST = 80
"""Bytes of a line; no indicator sends a value longer (common practice, no source)."""
ROUND_IT = "\x00\x02\x03\x04 \t"
"""What may stand around a line and means nothing: start and end of text, padding."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line as it came, each byte a sign of the same number."""

    text: str
    whole: bool = True
    """False where it was cut because it did not end."""


class Frames:
    """Puts pieces together; keeps one unfinished line at most."""

    def __init__(self) -> None:
        self._part = b""
        self._overlong = False

    def fed(self, data: bytes) -> list[Line]:
        """The lines that are whole now, blank ones left out; an overlong one is told once."""
        *ended, rest = ENDS.split(data)
        lines = [line for piece in ended for line in self._ended(piece)]
        return [*lines, *self._went_on(rest)]

    def _ended(self, piece: bytes) -> list[Line]:
        """The last piece of a line."""
        lines, overlong = self._went_on(piece), self._overlong
        text, self._part, self._overlong = self._part, b"", False
        shown = _text(text)
        return lines if overlong or not shown else [*lines, Line(shown)]

    def _went_on(self, piece: bytes) -> list[Line]:
        """One more piece; told as soon as it is too long, and then no more is kept."""
        if self._overlong:
            return []
        self._part += piece[: LONGEST + 1]
        if len(self._part) <= LONGEST:
            return []
        cut, self._part, self._overlong = self._part[:LONGEST], b"", True
        return [Line(_text(cut), whole=False)]

    def broken_off(self) -> None:
        """The wire is another one from now on: half a line of the last one means nothing."""
        self._part, self._overlong = b"", False

    def begun_before(self) -> None:
        """What comes now is the rest of a line whose beginning nobody heard."""
        self._part, self._overlong = b"", True

    @property
    def kept(self) -> int:
        """Bytes of the unfinished line."""
        return len(self._part)


def _text(data: bytes) -> str:
    """Bytes as signs."""
    return data.decode("latin-1").strip(ROUND_IT)
