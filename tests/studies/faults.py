"""Every fault there is, where the tests of `tests/faults` take a part of them: some twenty minutes.

    python tests/studies/faults.py [--only NAME …]

Each line says what was done, how often, in how many seconds, and what came of it; what is wrong
follows, and then it leaves with 1. Kills are at every single call that changes a file; power cuts
before every change, three times with other writes lost; harms are thousands of bits, sectors and
ends; exports are killed at every call and in the midst of their writes; disks are full at hundreds
of levels. The programs are those of `tests/faults`, which say more of themselves.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from time import monotonic
from typing import Any

from guide.cli.progress import Progress

TOP = Path(__file__).parents[2]
FOLDER = TOP / "tests" / "faults"
WHOLE = ("--answers", "adjustable-chuck-inch")
SHORT = ("--answers", "chuck-recheck-inch")
LIMITED = ("--way", "RLIMIT_FSIZE")
SEEDS = (1, 2, 3)
COUNTED = ("kills", "resumed", "cuts", "with_something_unsynced", "harms", "levels", "refusals")


def studies() -> Iterator[tuple[str, ...]]:
    """Each program with its arguments."""
    yield "killing", "appending", *WHOLE, "--deeply", "4"
    yield "killing", "appending", *WHOLE, "--deeply", "10", "--points", "8", *LIMITED
    for scene in ("making", "checkpointing", "closing", "forward"):
        yield "killing", scene, *SHORT
        yield "killing", scene, *SHORT, "--points", "200", "--deeply", "4", *LIMITED
    for seed in SEEDS:
        for pages in (0, 8, 1000):
            yield "cutting", *SHORT, "--seed", str(seed), "--pragmas", f"wal_autocheckpoint={pages}"
        yield "spoiling", "--harms", "1000", "--seed", str(seed)
    yield "cutting", *WHOLE
    yield ("exporting",)
    yield "exporting", *LIMITED
    for way in ("disk", "size", "pages"):
        yield "filling", way, "--levels", "400"


def run(name: str, *arguments: str) -> dict[str, Any]:
    """What one of the programs reports."""
    done = subprocess.run(
        [sys.executable, str(FOLDER / f"{name}.py"), *arguments],
        stdout=subprocess.PIPE, text=True, check=True, env=os.environ | {"PYTHONPATH": str(TOP)},
    )  # fmt: skip
    report: dict[str, Any] = json.loads(done.stdout)
    return report


def main(arguments: list[str]) -> int:
    """Run them one after the other."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--only", nargs="*", default=[], help="programs, such as killing")
    told, wrong = parser.parse_args(arguments), 0
    wanted = [each for each in studies() if not told.only or each[0] in told.only]
    progress = Progress(len(wanted))
    for study in wanted:
        started = monotonic()
        report = run(*study)
        progress.clear()
        counts = {name: report[name] for name in ("way", *COUNTED, "outcomes") if name in report}
        print(f"{' '.join(study)}: {monotonic() - started:.0f} s, {counts}", flush=True)
        for each in report["wrong"]:
            print(f"    WRONG {each}", flush=True)
        wrong += len(report["wrong"])
        progress.add(1)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
