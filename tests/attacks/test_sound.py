"""Before anything is spoilt nothing is found."""

from __future__ import annotations


def test_the_signed_journal_is_sound(shop) -> None:
    """Whole and setup by setup: what is found below was put there."""
    assert shop.tool.found() == []
    assert all(shop.tool.found(name) == [] for name in ("lone", "pair", "tried"))


def test_the_unsigned_journal_is_sound(hobby) -> None:
    """The same for somebody who works alone."""
    assert hobby.tool.found() == []


def test_writing_the_same_events_anew_gives_the_same_journal(shop) -> None:
    """The tool works everything out as the program does, so that its forgeries are good ones."""
    head = shop.tool.head()
    shop.tool.rewritten(shop.tool.pieces())
    assert shop.tool.head() == head
    assert shop.tool.found(head=head) == []
