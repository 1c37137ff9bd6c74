"""What of an open file the lists need; the store opens it, and alone knows what it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Protocol


class Found(Protocol):
    """Rows as they are found."""

    def __iter__(self) -> Iterator[tuple[Any, ...]]:
        """One after the other."""

    def fetchone(self) -> Any:
        """The next one, None where there is none."""

    def fetchall(self) -> list[tuple[Any, ...]]:
        """All of them."""


class Base(Protocol):
    """An open file."""

    @property
    def in_transaction(self) -> bool:
        """Whether one is begun."""

    @property
    def total_changes(self) -> int:
        """Rows that were changed by this program."""

    def execute(self, sql: str, values: Sequence[Any] = (), /) -> Found:
        """Ask or change."""
