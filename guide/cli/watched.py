"""A rehearsal that is looked on at, and walked again whenever one of its files is written anew."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from guide.cli.output import say
from guide.plain import N_, Refusal

if TYPE_CHECKING:
    from guide.walk.setup import Setup

LOOKED_AT = 0.3
"""Seconds between two looks at the files."""

Times = dict[Path, int]


def again_and_again(files: Iterable[Path], walk: Callable[[], None], language: str) -> None:
    """Walk, tell what was refused, wait for a change, walk again; Ctrl-C ends it."""
    from guide.present.words import refused
    from guide.present.words import say as words

    watched = tuple(files)
    waits = N_("Waiting for a change of {files}; Ctrl-C ends it.")
    told = ", ".join(str(each) for each in watched)
    try:
        while True:
            before = _times(watched)
            try:
                walk()
            except Refusal as refusal:
                say(f"✗ {refused(refusal, language)}")
            say(words(waits, language, files=told))
            _until_changed(watched, before)
    except KeyboardInterrupt:
        say("")


def line_of(walk: Setup, language: str) -> str:
    """What the last event was, as the sheet shows it."""
    from guide.present.sheet import lines

    last = lines(walk.state, walk.procedure, language)[-1]
    return "  ".join(filter(None, (f"{last.sequence:>4}", last.title, last.value, last.note)))


def _until_changed(files: tuple[Path, ...], before: Times) -> None:
    """Wait until a file is there with another time of writing; one half written waits a moment."""
    while _times(files) == before:
        time.sleep(LOOKED_AT)


def _times(files: tuple[Path, ...]) -> Times:
    """When each was written; one that is away for a moment counts as older than any."""
    return {each: each.stat().st_mtime_ns if each.exists() else 0 for each in files}
