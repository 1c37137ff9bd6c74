"""A procedure of two thousand steps is checked while one waits, and twice the steps take twice."""

from __future__ import annotations

from pathlib import Path
from time import process_time

from guide.procedure.load import read
from guide.walk.proof import check

BASE = (Path(__file__).parents[1] / "broken" / "sound-base.yaml").read_text()
AT_THE_END = BASE.index("  - stage: ending")
MOST = 5.0
"""Seconds that a check of so many steps may take."""
GROWS = 3.0
"""Twice the reachable states may take this many times as long: half as much again for noise."""


def long(steps: int) -> str:
    """The smallest sound walk with so many tasks in its middle."""
    tasks = "".join(
        f"      - step: look-{n}\n        kind: task\n        title: Look {n}\n"
        f"        full: Look at place {n}.\n        brief: Look at {n}.\n"
        for n in range(steps)
    )
    work = f"  - stage: work\n    title: Work\n    steps:\n{tasks}"
    return BASE[:AT_THE_END] + work + BASE[AT_THE_END:]


def checked(steps: int) -> tuple[float, int]:
    """Seconds of this process that the check takes, at best of two, and the spots it walks."""
    procedure, times = read(long(steps), f"{steps}.yaml"), []
    for _ in range(2):
        began = process_time()
        found = check(procedure)
        times.append(process_time() - began)
        assert found.problems == ()
    return min(times), found.spots


def test_two_thousand_steps_are_checked_in_time_and_it_grows_as_the_states_do() -> None:
    """Not as their square."""
    half, spots = checked(1000)
    whole, more = checked(2000)
    assert more >= 2 * spots - 20
    assert whole < MOST
    assert whole < GROWS * half
