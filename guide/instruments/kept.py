"""The settings of all indicators on a wire: one small file beside the journal."""

from __future__ import annotations

import json
import os
from dataclasses import asdict
from pathlib import Path
from unicodedata import normalize

from guide.instruments.instrument import Instrument, instrument_of
from guide.plain import N_, BadInput

FILE = "instruments.json"
VERSION = 1
"""What this program writes."""


def instruments(home: Path) -> tuple[Instrument, ...]:
    """All that are set in a data folder, in the order in which they were set."""
    try:
        told = json.loads((home / FILE).read_text(encoding="utf-8"))
        listed = [dict(each) for each in told["instruments"]]
        known = told["version"] == VERSION
    except FileNotFoundError:
        return ()
    except (OSError, ValueError, TypeError, LookupError):
        known, listed = False, []
    if not known:
        raise BadInput(
            N_("The file {file} cannot be read as settings of indicators."),
            N_("Move it away, and set them again: `spindleside instruments set`."),
            file=str(home / FILE),
        )
    return tuple(map(instrument_of, listed))


def named(home: Path, name: str) -> Instrument:
    """The one of that name, else BadInput."""
    found = [each for each in instruments(home) if known_as(each.name) == known_as(name)]
    if not found:
        raise BadInput(
            N_("No indicator called {name} is set to be read by wire."),
            N_("`spindleside instruments` lists those that are."),
            name=ascii(name)[:80],
        )
    return found[0]


def keep(home: Path, instrument: Instrument) -> None:
    """Keep the settings of one; those it had before are gone."""
    others = (e for e in instruments(home) if known_as(e.name) != known_as(instrument.name))
    _write(home, (*others, instrument))


def forget(home: Path, name: str) -> Instrument:
    """Forget the settings of one, and give them back."""
    gone = named(home, name)
    _write(home, tuple(each for each in instruments(home) if each != gone))
    return gone


def known_as(name: str) -> str:
    """By what a name is found: case, idle spaces and how an accent is typed tell nothing apart."""
    return " ".join(normalize("NFKC", name).split()).casefold()


def _write(home: Path, listed: tuple[Instrument, ...]) -> None:
    """The whole file anew, put in place at once: it is never half written."""
    text = {"version": VERSION, "instruments": [asdict(each) for each in listed]}
    home.mkdir(parents=True, exist_ok=True)
    new = home / f"{FILE}.new"
    new.write_text(json.dumps(text, ensure_ascii=False, indent=2) + "\n", encoding="utf-8")
    os.replace(new, home / FILE)
