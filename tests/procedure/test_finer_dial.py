"""A turn is judged by the division of the dial that read it, before and after it is changed."""

from __future__ import annotations

from decimal import Decimal
from math import isclose, sqrt
from pathlib import Path

import pytest

from guide.walk.state import Taken
from tests.procedure.walks import rehearsed

DIVISIONS = {"inch": ("0.0001", "0.00005"), "metric": ("0.002", "0.001")}


def of_a_division(turn: Taken) -> float:
    """What one division alone makes a reading of this turn uncertain by."""
    return float(turn.figures["uncertainty_parts"]["graduation"])


@pytest.mark.parametrize("which", ["inch", "metric"])
def test_the_final_turns_are_judged_by_the_finer_dial_and_the_others_by_the_first(
    which: str, folder: Path
) -> None:
    """The finer dial is asked for before it is read; what was read before it stays as it was.

    A reading anywhere within a division is uncertain by division/√12 (GUM 4.3.7).
    """
    taken = rehearsed("adjustable-chuck", which, folder).state.taken
    coarse, fine = map(Decimal, DIVISIONS[which])
    for names, division in ((("as-mounted", "after-torque"), coarse),
                            (("finer", "reversed", "gripped-again"), fine)):  # fmt: skip
        for name in names:
            assert isclose(of_a_division(taken[name]), float(division) / sqrt(12), rel_tol=1e-3)
