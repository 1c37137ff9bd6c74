"""A record file: the form from the ending, whole under its name or not there at all."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from secrets import token_hex
from stat import S_ISREG

from guide.journal.durable import keep_names
from guide.journal.store import Store
from guide.plain import N_, BadInput, Refusal
from guide.records.of_setup import record_of
from guide.records.record import Record
from guide.walk.setup import Setup

Form = Callable[[Record, Store, str], bytes]


def _pdf(record: Record, store: Store, language: str) -> bytes:
    """Pages to keep with the chuck."""
    from guide.records.pdf.to_pdf import to_pdf

    return to_pdf(record, language)


def _html(record: Record, store: Store, language: str) -> bytes:
    """One page for a browser."""
    from guide.records.to_html import to_html

    return to_html(record, language).encode()


def _markdown(record: Record, store: Store, language: str) -> bytes:
    """Text with tables."""
    from guide.records.to_markdown import to_markdown

    return to_markdown(record, language).encode()


def _csv(record: Record, store: Store, language: str) -> bytes:
    """The readings for a spreadsheet."""
    from guide.records.to_csv import to_csv

    return to_csv(record, language).encode()


def _jsonl(record: Record, store: Store, language: str) -> bytes:
    """The record file."""
    from guide.records.to_jsonl import to_jsonl

    return to_jsonl(record, store.rows(record.setup)).encode()


FORMS: dict[str, Form] = {
    ".pdf": _pdf, ".html": _html, ".md": _markdown, ".csv": _csv, ".jsonl": _jsonl,
}  # fmt: skip
ENDINGS = tuple(FORMS)
"""The forms that can be written."""


def write(walk: Setup, store: Store, path: Path, language: str = "en") -> Record:
    """Write a setup's record in the form that the ending names, and give the record back."""
    form = FORMS[known(path)]
    record = record_of(walk, store, language)
    put(path, form(record, store, language))
    return record


def known(path: Path, endings: tuple[str, ...] = ENDINGS) -> str:
    """The ending of the file, or BadInput where no form goes by it."""
    ending = path.suffix.lower()
    if ending not in endings:
        raise BadInput(
            N_("There is no record form for “{name}”."),
            N_("End the name with one of: {endings}."),
            name=path.name,
            endings=", ".join(endings),
        )
    return ending


def put(path: Path, whole: bytes) -> None:
    """The bytes under their name in one move: a reader finds the old file or the new one.

    Refused where something stands there that is no plain file: a folder, a device, a link, whose
    target might be anywhere.
    """
    _plain_file(path)
    half = path.with_name(f".spindleside-{token_hex(8)}.part")
    try:
        with open(half, "xb") as file:
            file.write(whole)
            file.flush()
            os.fsync(file.fileno())
        os.replace(half, path)
        keep_names(path.parent)
    except (OSError, ValueError) as error:
        raise _cannot(path, error) from error
    finally:
        _gone(half)
    for left in _left_behind(path.parent):
        _gone(left)


def _gone(half: Path) -> None:
    """Nothing half is left; a folder that cannot be written holds nothing of ours."""
    try:
        half.unlink(missing_ok=True)
    except (OSError, ValueError):
        return


HALF = re.compile(r"\.spindleside-[0-9a-f]{16}\.part")
"""How a half file is called, by this program alone."""
LONG_AGO = 3600.0
"""Seconds after which nobody is writing a half file any more."""


def _left_behind(folder: Path) -> Iterator[Path]:
    """Half files of writings that were killed long ago, in this folder itself.

    Their age is by the clock of the disk that holds them, which is told by the folder: the file
    that was put there just now has changed it.
    """
    try:
        now = folder.stat().st_mtime
        found = [each for each in os.scandir(folder) if HALF.fullmatch(each.name)]
        old = [each for each in found if _is_old(each.stat(follow_symlinks=False), now)]
    except OSError:
        return
    yield from (folder / each.name for each in old)


def _is_old(half: os.stat_result, now: float) -> bool:
    """Whether it is a plain file of long ago, or of long ahead where the clock was set back."""
    return S_ISREG(half.st_mode) and abs(now - half.st_mtime) > LONG_AGO


def _plain_file(path: Path) -> None:
    """Refuse a name under which stands what is no plain file."""
    try:
        stands = path.is_symlink() or (path.exists() and not path.is_file())
    except (OSError, ValueError) as error:
        raise _cannot(path, error) from error
    if stands:
        raise BadInput(
            N_("{path} is not a plain file but a folder, a link or a device."),
            N_("Name a file, or the file that the link leads to."),
            path=str(path),
        )


def _cannot(path: Path, error: OSError | ValueError) -> Refusal:
    """Why a file cannot be written."""
    told = error.strerror if isinstance(error, OSError) else None
    return Refusal(
        N_("{path} cannot be written: {why}."),
        N_("Name a file in a folder that can be written."),
        path=ascii(str(path))[1:-1] if "\0" in str(path) else str(path),
        why=(told or str(error) or type(error).__name__).lower(),
    )
