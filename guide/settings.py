"""Floor 0: environment and places, read once into one frozen record."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

SHIPPED = Path(__file__).parent / "_shipped"
CHECKOUT = Path(__file__).parent.parent


@dataclass(frozen=True, slots=True)
class Settings:
    """Where this run keeps and finds its files, and how it speaks."""

    home: Path
    """The folder that holds the journal."""
    language: str = "en"
    """The language of sentences, as a BCP 47 tag."""
    colour: bool = True
    """False when `NO_COLOR` is present and not empty."""

    @property
    def journal_file(self) -> Path:
        """The one SQLite file of the journal."""
        return self.home / "journal.sqlite3"


def from_environment(environ: Mapping[str, str] | None = None, home: str | None = None) -> Settings:
    """Settings from the environment; `home` (an option such as --journal) wins over it."""
    env = os.environ if environ is None else environ
    return Settings(
        home=Path(home or env.get("SPINDLESIDE_HOME") or user_data_folder()).expanduser(),
        language=(env.get("SPINDLESIDE_LANGUAGE") or "en").replace("_", "-"),
        colour=not env.get("NO_COLOR"),
    )


def user_data_folder() -> str:
    """The platform's folder for a user's data."""
    from platformdirs import user_data_dir

    return user_data_dir("spindleside", appauthor=False)


def shipped(kind: str) -> Path:
    """The folder `procedures` or `locales`: inside an installed wheel, else in the checkout.

    An editable install leaves a stale copy of the wheel's folder in site-packages, which is never
    looked at because this module is then imported from the checkout.
    """
    inside = SHIPPED / kind
    return inside if inside.is_dir() else CHECKOUT / kind
