"""Kills an export before each of its calls that change a file, and in the midst of its writes.

    python tests/faults/exporting.py [--forms .html .jsonl …] [--way ptrace|RLIMIT_FSIZE]

Each form is written where no file is yet, and over an older one. Under the file's own name there
must be the old file or the new one, whole; and after it the export can be made.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import journals
import warm
from journals import FILE, SETUP
from killing import LIMITED, WATCHED, kill
from tracing import Watched, can_watch

from guide.journal.store import Store
from guide.records import write as writing
from guide.records.write import ENDINGS
from guide.walk.setup import replayed

OLD = b"what was exported last year\n" * 40
TORN = 8
"""In how many places a write is cut short."""


def export(journal: Path, target: Path) -> None:
    """Write the record of the setup, whose making changes no file and is done once."""
    with Store.read(journal) as store:
        writing.write(replayed(store, SETUP), store, target)


def _once(make: Callable[..., Any]) -> Callable[..., Any]:
    """Made at the first call, and the same thing at every other: the journal stays as it is."""
    made: list[Any] = []

    def given(*of: object) -> Any:
        made.extend([] if made else [make(*of)])
        return made[0]

    return given


def points(journal: Path, target: Path, way: str) -> list[int]:
    """Every call of an export, or some bytes of what it writes."""
    if way == LIMITED:
        size = target.stat().st_size
        return [each * size // TORN for each in range(TORN)]
    with Watched(lambda: export(journal, target)) as child:
        return list(range(1, 1 + sum(1 for _ in child.calls())))


def killed(journal: Path, form: str, way: str, old: bytes | None) -> Iterator[tuple[str, str, int]]:
    """Each kill: where, what is wrong afterwards, and how many half files are left beside."""
    with tempfile.TemporaryDirectory() as place:
        target = Path(place, f"record{form}")
        export(journal, target)
        new = target.read_bytes()
        for point in points(journal, target, way):
            _as_before(target, old)
            at = kill(lambda: export(journal, target), point, way)
            found = target.read_bytes() if target.exists() else None
            wrong = "" if found in (old, new) else f"{form}, {at} {point}: neither old nor new"
            halves = set(Path(place).iterdir()) - {target}
            yield at, wrong, len(halves)
            for half in halves:
                half.unlink()
        export(journal, target)
        yield "", "" if target.read_bytes() == new else f"{form}: it cannot be written again", 0


def _as_before(target: Path, old: bytes | None) -> None:
    """An older file under the name, or none."""
    target.unlink(missing_ok=True)
    if old is not None:
        target.write_bytes(old)


def report(forms: list[str], way: str) -> dict[str, object]:
    """Every form, over an older file and where there is none."""
    calls, wrong, halves = Counter[str](), list[str](), 0
    writing.record_of = _once(writing.record_of)  # type: ignore[attr-defined]
    writing.FORMS.update({form: _once(make) for form, make in writing.FORMS.items()})
    with tempfile.TemporaryDirectory() as place:
        journals.written(Path(place), "quick-centring-inch")
        for form in forms:
            for old in (None, OLD):
                for at, amiss, beside in killed(Path(place, FILE), form, way, old):
                    calls[at] += bool(at)
                    wrong += [amiss] if amiss else []
                    halves += beside
    return {
        "way": way,
        "kills": calls.total(),
        "calls": calls,
        "halves_left": halves,
        "wrong": wrong,
    }


def main(arguments: list[str]) -> None:
    """Print what was found."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--forms", nargs="+", default=list(ENDINGS))
    parser.add_argument("--way", default="", choices=["", WATCHED, LIMITED])
    told = parser.parse_args(arguments)
    print(json.dumps(report(told.forms, told.way or (WATCHED if can_watch() else LIMITED))))


if __name__ == "__main__":
    warm.warm()
    warm.in_memory()
    main(sys.argv[1:])
