"""What the file or the disk can do to the journal, each as one sentence with a remedy."""

from __future__ import annotations

from pathlib import Path

from guide.plain import N_, BadInput, CheckFailed, NotAllowed, Refusal

FREE = N_("Free some space and go on; everything written before is safe.")
WRITABLE = N_("Make its folder writable or name another; everything written before is safe.")
UNFORESEEN = N_("Try again; if it stays so, copy its folder away and run spindleside verify.")

KINDS: dict[str, tuple[type[Refusal], str, str]] = {
    "SQLITE_FULL": (Refusal, N_("The disk that holds the journal {path} is full."), FREE),
    "SQLITE_BUSY": (
        NotAllowed,
        N_("Another program keeps the journal {path} locked."),
        N_("Close it and try again; everything written before is safe."),
    ),
    "SQLITE_NOTADB": (
        BadInput,
        N_("The file {path} is not a journal."),
        N_("Name another folder; the file was not touched."),
    ),
    "SQLITE_CORRUPT": (
        CheckFailed,
        N_("The journal {path} is damaged."),
        N_(
            "Copy its folder away as it is and put back a backup; `spindleside verify` tells what a"
            " copy has kept, and records that were exported stand by themselves."
        ),
    ),
    "SQLITE_READONLY": (Refusal, N_("The journal {path} cannot be written."), WRITABLE),
    "SQLITE_CANTOPEN": (Refusal, N_("The journal {path} cannot be opened."), WRITABLE),
    "SQLITE_PERM": (Refusal, N_("The journal {path} cannot be opened."), WRITABLE),
    "SQLITE_IOERR": (
        Refusal,
        N_("The disk that holds the journal {path} does not answer as it should."),
        N_("Check the disk and the space on it; everything written before is safe."),
    ),
}
ALIKE = {
    "SQLITE_LOCKED": "SQLITE_BUSY",
    "SQLITE_AUTH": "SQLITE_PERM",
    "SQLITE_ERROR": "SQLITE_CORRUPT",
    "SQLITE_CONSTRAINT": "SQLITE_CORRUPT",
    "SQLITE_MISMATCH": "SQLITE_CORRUPT",
    "SQLITE_FORMAT": "SQLITE_CORRUPT",
    "SQLITE_INTERNAL": "SQLITE_CORRUPT",
}
"""Every statement is ours and right: one that fails by itself meets a schema, an index or a row
that is not as it was made."""


def database(code: str, path: Path) -> Refusal:
    """The refusal for a SQLite result code such as SQLITE_IOERR_WRITE; extended codes count too."""
    primary = "_".join(code.split("_")[:2])
    kind = KINDS.get(ALIKE.get(primary, primary))
    if kind is None:
        kind = Refusal, N_("The journal {path} cannot be used ({code})."), UNFORESEEN
    refusal, sentence, remedy = kind
    return refusal(sentence, remedy, path=str(path), code=code or "?")


def folder(error: OSError, path: Path) -> Refusal:
    """The refusal for a folder or a file beside the journal that cannot be made or used."""
    return Refusal(
        N_("{path} cannot be used: {reason}."),
        WRITABLE,
        path=str(path),
        reason=_reason(error),
    )


def barred(error: OSError, path: Path) -> Refusal:
    """The refusal for a journal that this user, or this machine as it stands, cannot read."""
    return Refusal(
        N_("The journal {path} cannot be read: {reason}."),
        N_("Let it, its log and a folder for temporary files be used; nothing was touched."),
        path=str(path),
        reason=_reason(error),
    )


def foreign(path: Path) -> Refusal:
    """The refusal for a database that some other program made."""
    return database("SQLITE_NOTADB", path)


def _reason(error: OSError) -> str:
    return (error.strerror or type(error).__name__).lower()


def later(path: Path, version: int) -> Refusal:
    """The refusal for a journal that a later version of this program wrote."""
    return BadInput(
        N_("A later version of spindleside wrote the journal {path} (format {version})."),
        N_("Use that version; the file was not touched."),
        path=str(path),
        version=version,
    )


class Earlier(BadInput):
    """A journal of an earlier version is only to be read."""


def damaged(path: Path) -> Refusal:
    """The refusal for a file that was a journal and is one no more."""
    return database("SQLITE_CORRUPT", path)


def emptied(path: Path) -> Refusal:
    """The refusal for a journal file of which nothing is left, or in which nothing was written."""
    return CheckFailed(
        N_("The journal {path} is empty: it was cut off, or nothing was ever written in it."),
        N_(
            "Where setups were kept in it, copy its folder away and put back a backup; else take"
            " the empty file away and start a setup."
        ),
        path=str(path),
    )


def earlier(path: Path) -> Earlier:
    """The refusal for a journal of an earlier version that is only to be read."""
    return Earlier(
        N_("An earlier version of spindleside wrote the journal {path}."),
        N_("Open the start page once: it is brought forward, and nothing in it is changed."),
        path=str(path),
    )


def absent(path: Path) -> Refusal:
    """The refusal for a journal that is to be read and is not there."""
    return BadInput(
        N_("There is no journal at {path}."),
        N_("Start a setup first, or name the folder that holds the journal."),
        path=str(path),
    )


def overtaken(setup: str) -> Refusal:
    """The refusal for an event that does not continue the setup as it stands now."""
    return NotAllowed(
        N_("Someone else has gone on with this setup, {setup}."),
        N_("Nothing was written; leave it and resume it to see where it stands."),
        setup=setup,
    )


def unreadable(setup: str, sequence: int) -> Refusal:
    """The refusal for a stored event whose text cannot be read as one."""
    return CheckFailed(
        N_("Event {sequence} of setup {setup} cannot be read: its text was changed."),
        N_("Run spindleside verify; do not go on with this setup."),
        setup=setup,
        sequence=sequence,
    )


def lost_event(setup: str, sequence: int) -> Refusal:
    """The refusal for a setup of which an event is not there, or not found by the file's index."""
    return CheckFailed(
        N_("Event {sequence} of setup {setup} is missing."),
        N_("Run spindleside verify; do not go on with this setup."),
        setup=setup,
        sequence=sequence,
    )


def lost_seal(name: str) -> Refusal:
    """The refusal for a person's sealed key that cannot be had as it was kept."""
    return CheckFailed(
        N_("The sealed key {name} is missing from the journal or was changed."),
        N_("Run spindleside verify; a supervisor can give a new key."),
        name=name,
    )


def lost_text(name: str) -> Refusal:
    """The refusal for a procedure text that cannot be had as it was kept."""
    return CheckFailed(
        N_("The procedure text {name} is missing from the journal or was changed."),
        N_("Run spindleside verify; do not go on with its setup."),
        name=name,
    )
