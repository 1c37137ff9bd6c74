"""What the front of a record says of the beginning is what was read out at the handing over."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from guide.records.standing import before


def read(serves_as: str, *, valid: bool = False) -> Any:
    """A result."""
    return SimpleNamespace(serves_as=serves_as, valid=valid)


def record(*results: Any) -> Any:
    """A record with these results in their order."""
    return SimpleNamespace(results=results)


def test_a_turn_that_was_read_again_stands_for_the_one_before() -> None:
    """A slip was seen, and another turn read before anything was moved."""
    slipped, again, left = read("as-mounted"), read("as-mounted"), read("as-left", valid=True)
    assert before(record(slipped, again, left)) is again


def test_as_found_comes_before_as_mounted() -> None:
    """Taken off and put up again, how it was found is where it began."""
    found, mounted = read("as-found"), read("as-mounted")
    assert before(record(found, mounted, read("as-left", valid=True))) is found


def test_what_stands_is_not_told_twice() -> None:
    """Found within and left so, there is nothing before it; nor where nothing was read."""
    assert before(record(read("as-found"), read("as-found", valid=True))) is None
    assert before(record(read("as-left", valid=True))) is None
