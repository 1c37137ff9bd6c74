"""The whole check of a journal, from the file down to each event's text."""

from __future__ import annotations

from collections.abc import Iterator

from guide.journal import chain
from guide.journal.finding import Finding, of_file
from guide.journal.store import Store


def findings(store: Store, setup: str | None = None) -> Iterator[Finding]:
    """All that is wrong with one setup, or with all chains, the texts and the file itself."""
    if setup is not None:
        yield from chain.findings(store.rows(setup), store.noted(setup), setup)
        return
    for name in store.chains():
        yield from findings(store, name)
    yield from of_the_whole(store)


def of_the_whole(store: Store) -> Iterator[Finding]:
    """All that is wrong with the chain over all events, what is kept beside and the file itself."""
    yield from of_links(store)
    yield from chain.text_findings(store.texts())
    yield from chain.seal_findings(store.seals())
    yield from (of_file("added", "stray", name) for name in store.strays())
    yield from (of_file("damaged", "ghost", name) for name in store.ghosts())
    yield from () if store.list_stands() else (of_file("damaged", "tally", ""),)
    yield from (of_file("damaged", "file", line) for line in store.damage())


def of_links(store: Store) -> Iterator[Finding]:
    """All that is wrong with the chain over all events."""
    return chain.link_findings(store.linked())
