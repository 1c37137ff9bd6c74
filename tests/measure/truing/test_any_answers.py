"""Whatever is answered, however wild, the advisor goes on, stays finite and comes to an end."""

from __future__ import annotations

import json
from decimal import Decimal
from random import Random

import pytest

from guide.cli.advise_lines import to_json
from guide.measure.advice import advise
from guide.measure.truing.asked import Asked, Move, Read, Stop
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead, WasTorqued

MOST = 600


def drawn(rng: Random) -> Facts:
    """Facts from a millionth to a unit, any count of screws, one station to three."""
    division = 10 ** rng.uniform(-6, 0)
    tolerance = division * 10 ** rng.uniform(-1, 2)
    return Facts(
        rng.choice(["in", "mm", "thou", "um"]),
        Decimal(f"{tolerance:.6g}"),
        Decimal(f"{division:.6g}"),
        screws=rng.choice([3, 4, 5, 6, 8, 12]),
        clearance=rng.choice([None, Decimal(f"{10 * tolerance:.6g}")]),
        sense=rng.choice(["toward", "away", "unknown"]),  # type: ignore[arg-type]
        stations=tuple(map(Decimal, rng.sample(range(10), rng.choice([1, 1, 2, 3])))),
        rule=rng.choice(["guarded", "simple"]),
        play=rng.choice([None, Decimal(f"{3 * tolerance:.6g}")]),
        surface=rng.choice(["outside", "inside"]),  # type: ignore[arg-type]
    )


def answered(asked: Asked, rng: Random, size: float, kind: str) -> Heard:
    """An answer that has nothing to do with any chuck."""
    if isinstance(asked, Read):
        spread = 0.0 if kind == "flat" else size
        values = tuple(Decimal(f"{rng.gauss(0, spread):.6g}") for _ in asked.angles)
        return WasRead(asked.angles, values, asked.station, rezeroed=rng.random() < 0.1)
    if not isinstance(asked, Move):
        return WasTorqued()
    done = kind != "stuck" and rng.random() < 0.9
    reads = rng.choice([None, Decimal(f"{rng.gauss(0, size):.6g}"), asked.bring_to])
    why = "" if done else rng.choice(["stuck", "bottomed"])
    named = asked.tighten is not None
    return WasMoved(asked.screw, asked.by, reads, done, why, asked.bring_to, named)


@pytest.mark.parametrize("kind", ["wild", "flat", "stuck"])
@pytest.mark.parametrize("seed", range(40))
def test_it_comes_to_an_end(seed: int, kind: str) -> None:
    """Every line is JSON without NaN, and the last one is a stop with a reason."""
    rng = Random(seed)
    facts = drawn(rng)
    size = float(facts.tolerance) * 10 ** rng.uniform(-1, 2)
    heard: list[Heard] = []
    for _ in range(MOST):
        asked = advise(facts, heard)
        assert json.dumps(to_json(asked), allow_nan=False)
        if isinstance(asked, Stop):
            assert str(asked.why)
            return
        heard.append(answered(asked, rng, size, kind))
    raise AssertionError("it never stops")
