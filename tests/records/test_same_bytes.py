"""The same journal gives the same bytes, whenever, wherever and under whatever settings."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from guide.records.label import FORMS
from guide.records.write import ENDINGS

HOME = Path(__file__).parents[2]
PROGRAM = """
import sys
from hashlib import sha256
from pathlib import Path
from guide.journal.store import Store
from guide.records.label import FORMS, write_label
from guide.records.of_setup import record_of
from guide.records.write import ENDINGS, write
from guide.walk.setup import replayed

with Store.read(Path(sys.argv[1])) as store:
    walk = replayed(store, "on-paper")
    for ending in ENDINGS:
        write(walk, store, Path("record" + ending))
    for ending in FORMS:
        write_label(record_of(walk, store), Path("label" + ending))
for path in sorted(Path().iterdir()):
    print(path.name, sha256(path.read_bytes()).hexdigest())
"""
SETTINGS = (
    {"TZ": "UTC", "PYTHONHASHSEED": "1", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "0"},
    {"TZ": "Pacific/Kiritimati", "PYTHONHASHSEED": "4242", "LC_ALL": "C.UTF-8"},
)


@pytest.mark.parametrize("signed", [True, False])
def test_two_processes_write_the_same_bytes(walked, store, tmp_path: Path, signed: bool) -> None:
    """Another time zone, seed, locale, folder, and a moment later: every form and both labels."""
    walked(signed=signed, facts={"recheck-date": "2031-06-30"})
    told = []
    for number, settings in enumerate(SETTINGS):
        folder = tmp_path / f"place {number}"
        folder.mkdir()
        environment = os.environ | settings | {"PYTHONPATH": str(HOME)}
        command = [sys.executable, "-c", PROGRAM, str(store.path)]
        ended = subprocess.run(
            command, cwd=folder, env=environment, check=True, capture_output=True, text=True
        )
        told.append(ended.stdout)
    assert told[0] == told[1]
    assert len(told[0].splitlines()) == len(ENDINGS) + len(FORMS)
