"""Floor 0: environment, places and what one likes, read once into one frozen record."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

SHIPPED = Path(__file__).parent / "_shipped"
CHECKOUT = Path(__file__).parent.parent
ENGLISH = "en"
"""The language that everything is written in: it needs no catalogue."""
PROGRAM, PROCEDURES = "spindleside", "procedures"
"""The two catalogues of a language: the program's sentences, and the texts of the procedures."""
WHOLE = "\n# Complete: yes\n"
"""What a comment at the top of a catalogue says once nothing in it is left to translate."""
HEAD = 2000
"""Signs of a catalogue that hold its head."""
LIKED: Mapping[str, tuple[str, ...]] = {
    "look": ("dark", "light", "high-contrast", "no-colour", "terminal"),
    "language": (ENGLISH,),
    "detail": ("full", "brief"),
    "motion": ("usual", "still"),
}
"""What may be chosen for each setting that is kept, the usual one first; `may_be` adds the
languages that there is a whole catalogue for."""
LIGHT_GROUNDS = ("7", "15")
"""What a terminal with a light ground ends `COLORFGBG` with: the numbers of its two whites (from
memory; few terminals set it, and the screens do not ask the terminal itself, which takes time)."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Where this run keeps and finds its files, and how it looks and speaks."""

    home: Path
    """The folder that holds the journal."""
    language: str = "en"
    """The language of sentences, as a BCP 47 tag."""
    colour: bool = True
    """False when `NO_COLOR` is present and not empty."""
    look: str = "dark"
    """One of the looks, or `terminal`."""
    detail: str = "full"
    """How much a step says at first."""
    motion: str = "usual"
    """`still` where nothing may move by itself."""
    damaged: bool = False
    """Whether the file of settings could not be read: then the usual ones stand."""
    held: frozenset[str] = frozenset()
    """Settings that the environment holds, whatever is kept."""
    unfit: tuple[str, ...] = ()
    """Variables of the environment that say what cannot be chosen: they count for nothing."""
    light_terminal: bool = False
    """Whether the terminal says that its ground is light."""

    @property
    def shown(self) -> str:
        """The look that is painted: what the terminal says, dark where it says nothing."""
        if self.look != "terminal":
            return self.look
        return "light" if self.light_terminal else "dark"

    @property
    def journal_file(self) -> Path:
        """The one SQLite file of the journal."""
        return self.home / "journal.sqlite3"

    @property
    def settings_file(self) -> Path:
        """What one likes, beside the journal."""
        return self.home / "settings.json"


def from_environment(environ: Mapping[str, str] | None = None, home: str | None = None) -> Settings:
    """Settings from the environment and what is kept; an option such as --journal wins.

    `SPINDLESIDE_LOOK` and its like win over what is kept, and `NO_COLOR` over any look.
    """
    env = os.environ if environ is None else environ
    place = Path(home or env.get("SPINDLESIDE_HOME") or user_data_folder()).expanduser()
    here = _as_kept(Settings(home=place))
    told = {name: env[variable(name)] for name in LIKED if env.get(variable(name))}
    if "language" in told:
        told["language"] = told["language"].replace("_", "-")
    fit = {name: value for name, value in told.items()
           if name == "language" or value in LIKED[name]}  # fmt: skip
    if env.get("NO_COLOR"):
        fit["look"] = "no-colour"
    more: dict[str, Any] = {**fit, "held": frozenset(fit), "colour": not env.get("NO_COLOR")}
    unfit = tuple(variable(name) for name in told if name not in fit)
    light = env.get("COLORFGBG", "").rpartition(";")[2] in LIGHT_GROUNDS
    return replace(here, **more, unfit=unfit, light_terminal=light)


def variable(name: str) -> str:
    """The variable of the environment that holds a setting."""
    return f"SPINDLESIDE_{name.upper()}"


def may_be(name: str) -> tuple[str, ...]:
    """What may be chosen for a setting, the usual one first; KeyError where there is none."""
    return LIKED[name] if name != "language" else (*LIKED[name], *_catalogues())


def _catalogues() -> list[str]:
    """The languages that are offered: those of which both catalogues say that they are whole.

    Half a translation at a gate would be worse than none. The environment may name any language,
    so that whoever translates can see it.
    """
    found = {file.parents[1].name for file in shipped("locales").glob("*/LC_MESSAGES/*.po")}
    tags = (each.replace("_", "-") for each in found)
    return sorted(each for each in tags if _is_whole(each, PROGRAM) and _is_whole(each, PROCEDURES))


def _is_whole(language: str, domain: str) -> bool:
    """Whether a catalogue says that it is whole; one that is not there is not."""
    try:
        with catalogue_file(language, domain).open(encoding="utf-8") as file:
            return WHOLE in file.read(HEAD)
    except (OSError, ValueError):
        return False


def catalogue_file(language: str, domain: str) -> Path:
    """Where a catalogue of a language is, if it is there."""
    return shipped("locales") / _as_file(language) / "LC_MESSAGES" / f"{domain}.po"


def own_catalogue_file(language: str) -> Path:
    """Where a shop keeps what its own procedures say in a language: beside them, as `de.po`."""
    return own_procedures() / f"{_as_file(language)}.po"


def _as_file(language: str) -> str:
    """A language's tag as files are named: nothing in it leads out of a folder."""
    return "".join(each for each in language.replace("-", "_") if each.isalnum() or each == "_")


def _as_kept(here: Settings) -> Settings:
    """The settings that are kept; the usual ones where there is no file or it cannot be read."""
    kept = in_file(here.settings_file)
    if kept is None:
        return replace(here, damaged=True)
    fit: dict[str, Any] = _fit(kept)
    return replace(here, **fit, damaged=bool(kept.keys() - fit.keys()))


def in_file(file: Path) -> dict[str, object] | None:
    """What a file of settings holds, nothing where there is none; None where it cannot be read."""
    try:
        kept = json.loads(file.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return {}
    except (OSError, ValueError, RecursionError):
        return None
    return kept if isinstance(kept, dict) else None


def _fit(kept: Mapping[str, object]) -> dict[str, str]:
    """What of it may be chosen."""
    return {name: value for name in LIKED if isinstance(value := kept.get(name), str)
            and value in may_be(name)}  # fmt: skip


def keep(here: Settings, name: str, value: str) -> Settings:
    """The settings with one changed, which is kept at once; OSError where it cannot be.

    A file that could not be read is set aside. What the environment holds is kept and not changed.
    """
    file = here.settings_file
    before = in_file(file)
    fit = _fit(before or {})
    if before is None or before.keys() - fit.keys():
        file.replace(file.with_suffix(".unread.json"))
    put(file, {**fit, name: value})
    one: dict[str, Any] = {} if name in here.held else {name: value}
    return replace(here, **one, damaged=False)


def put(file: Path, told: Mapping[str, str]) -> None:
    """Write a file whole beside the old one and put it in its place: half a file is never there."""
    file.parent.mkdir(parents=True, exist_ok=True)
    beside = file.with_suffix(f".{os.getpid()}.new")
    beside.write_text(json.dumps(told, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    beside.replace(file)


def user_data_folder() -> str:
    """The platform's folder for a user's data."""
    from platformdirs import user_data_dir

    return user_data_dir("spindleside", appauthor=False)


def own_procedures() -> Path:
    """The folder of a shop's own procedures: `SPINDLESIDE_PROCEDURES`, else beside the journal."""
    told = os.environ.get("SPINDLESIDE_PROCEDURES")
    home = os.environ.get("SPINDLESIDE_HOME") or user_data_folder()
    return Path(told or Path(home) / "procedures").expanduser()


def shipped(kind: str) -> Path:
    """The folder `procedures` or `locales`: inside an installed wheel, else in the checkout.

    An editable install leaves a stale copy of the wheel's folder in site-packages, which is never
    looked at because this module is then imported from the checkout.
    """
    inside = SHIPPED / kind
    return inside if inside.is_dir() else CHECKOUT / kind
