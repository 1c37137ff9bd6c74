"""The whole check of a journal, from the file down to each event's text."""

from __future__ import annotations

from collections.abc import Iterator

from guide.journal import chain
from guide.journal.finding import Finding, of_file
from guide.journal.store import Store


def findings(store: Store, setup: str | None = None) -> Iterator[Finding]:
    """All that is wrong with one setup, or with all of them, the texts and the file itself."""
    if setup is not None:
        yield from chain.findings(store.rows(setup), store.seals(setup), setup)
        return
    for name in store.names():
        yield from findings(store, name)
    yield from chain.text_findings(store.texts())
    yield from (of_file("damaged", "file", line) for line in store.damage())
