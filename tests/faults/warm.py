"""What is the same every time is worked out once: what comes of a text, and of nothing else.

A harness reads the same events a thousand times. What an event's text says and whether a signature
is that of a text depend on the text alone, so they are kept by it; whatever is read of a journal is
read anew, and its digests are taken anew.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

from guide.journal import chain, event, keys, store

ROOM = 48 << 20
"""Bytes that a file system in memory must have left to be used."""
IN_MEMORY = Path("/dev/shm")


PARSE = lru_cache(1 << 12)(event.parse)
KEPT = (
    (chain, "parse", PARSE),
    (store, "parse", PARSE),
    (keys, "signed_by", lru_cache(1 << 14)(keys.signed_by)),
)


def warm(change: Callable[[object, str, object], None] = setattr) -> None:
    """Keep what comes of texts from now on, for as long as `change` lets it."""
    for module, name, kept in KEPT:
        change(module, name, kept)


def in_memory() -> None:
    """Temporary files in memory from now on where there is room for them.

    Nothing is synced less for that: a kill leaves what the system was given, wherever it is kept,
    and a power cut is laid out from the calls themselves.
    """
    if IN_MEMORY.is_dir() and os.access(IN_MEMORY, os.W_OK):
        told = os.statvfs(IN_MEMORY)
        if told.f_bavail * told.f_frsize >= ROOM:
            tempfile.tempdir = str(IN_MEMORY)
