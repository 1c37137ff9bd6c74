"""What the file or the disk can do to the journal, each as one sentence with a remedy."""

from __future__ import annotations

from pathlib import Path

from guide.plain import N_, BadInput, CheckFailed, NotAllowed, Refusal

FREE = N_("Free some space and go on; everything written before is safe.")
WRITABLE = N_("Make its folder writable or name another; everything written before is safe.")

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
        N_("Keep this file as it is and work from a copy or a backup."),
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
ALIKE = {"SQLITE_LOCKED": "SQLITE_BUSY", "SQLITE_AUTH": "SQLITE_PERM"}


def database(code: str, path: Path) -> Refusal:
    """The refusal for a SQLite result code such as SQLITE_IOERR_WRITE; extended codes count too."""
    primary = "_".join(code.split("_")[:2])
    kind = KINDS.get(ALIKE.get(primary, primary))
    if kind is None:
        kind = Refusal, N_("The journal {path} cannot be used ({code})."), WRITABLE
    refusal, sentence, remedy = kind
    return refusal(sentence, remedy, path=str(path), code=code or "?")


def folder(error: OSError, path: Path) -> Refusal:
    """The refusal for a folder or a file beside the journal that cannot be made or used."""
    return Refusal(
        N_("{path} cannot be used: {reason}."),
        WRITABLE,
        path=str(path),
        reason=(error.strerror or type(error).__name__).lower(),
    )


def foreign(path: Path) -> Refusal:
    """The refusal for a database that some other program made."""
    return database("SQLITE_NOTADB", path)


def later(path: Path, version: int) -> Refusal:
    """The refusal for a journal that a later version of this program wrote."""
    return BadInput(
        N_("A later version of spindleside wrote the journal {path} (format {version})."),
        N_("Use that version; the file was not touched."),
        path=str(path),
        version=version,
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


def lost_text(name: str) -> Refusal:
    """The refusal for a procedure text that cannot be had as it was kept."""
    return CheckFailed(
        N_("The procedure text {name} is missing from the journal or was changed."),
        N_("Run spindleside verify; do not go on with its setup."),
        name=name,
    )
