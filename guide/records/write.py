"""A record file: the form from the ending, whole under its name or not there at all."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from secrets import token_hex

from guide.journal.store import Store
from guide.plain import N_, BadInput, Refusal
from guide.records.of_setup import record_of
from guide.records.record import Record
from guide.records.to_html import to_html
from guide.records.to_jsonl import to_jsonl
from guide.records.to_markdown import to_markdown
from guide.walk.setup import Setup

PRINTED: dict[str, Callable[[Record, str], str]] = {".html": to_html, ".md": to_markdown}
ENDINGS = (*PRINTED, ".jsonl")
"""The forms that can be written."""


def write(walk: Setup, store: Store, path: Path, language: str = "en") -> Record:
    """Write a setup's record in the form that the ending names, and give the record back."""
    ending = known(path)
    record = record_of(walk, store, language)
    if ending in PRINTED:
        _put(path, PRINTED[ending](record, language))
    else:
        _put(path, to_jsonl(record, store.rows(record.setup)))
    return record


def known(path: Path) -> str:
    """The ending of the file, or BadInput where no form goes by it."""
    ending = path.suffix.lower()
    if ending not in ENDINGS:
        raise BadInput(
            N_("There is no record form for “{name}”."),
            N_("End the name with one of: {endings}."),
            name=path.name,
            endings=", ".join(ENDINGS),
        )
    return ending


def _put(path: Path, text: str) -> None:
    """The text under its name in one move: a reader finds the old file or the new one."""
    half = path.with_name(f".{path.name}.{token_hex(4)}.part")
    try:
        with open(half, "x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.replace(half, path)
    except OSError as error:
        raise Refusal(
            N_("{path} cannot be written: {why}."),
            N_("Name a file in a folder that can be written."),
            path=str(path),
            why=(error.strerror or type(error).__name__).lower(),
        ) from error
    finally:
        half.unlink(missing_ok=True)
