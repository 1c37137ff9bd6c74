"""How good the advisor is, on simulated chucks: against the trade's habit and an all-knowing bound.

Run by hand:  python tests/studies/truing.py [--chucks 2000] [--only PART]

Every cell draws the same chucks (seeds 0 … N−1) for every way of working. What is assumed of them
stands in `guide/practice/truth.py` (`Truth`, `drawn`) and `guide/practice/hands.py`: sizes are
invented (common practice, no source), save indicator error and retrace (JIS B 7503:2011 as
transcribed). A round is one torquing of the bolts after a move; a reading is one look at the dial
that is noted, after a move as well. Unfinished is any stop but `within` (all these chucks can be
trued). False accepts are chucks whose true full runout, form included, is above the tolerance when
`within` is said, as a share of those accepted.
"""

from __future__ import annotations

import argparse
from cmath import exp
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import partial
from os import cpu_count
from random import Random
from statistics import fmean, median

from guide.measure.advice import advise, correct
from guide.measure.truing.asked import Asked, Move, Read, Stop
from guide.measure.truing.facts import Facts
from guide.measure.truing.heard import Heard, WasMoved, WasRead, WasTorqued
from guide.measure.truing.hearing import told
from guide.measure.truing.judging import judge
from guide.measure.uncertainty import COVERAGE
from guide.practice.chuck import Chuck
from guide.practice.hands import Hands
from guide.practice.truth import Truth, drawn

TOLERANCES = (0.001, 0.0005, 0.0003)
GRADUATIONS = (0.001, 0.0005, 0.0001)
BOLTS = ("snug", "loose")
MOST_ROUNDS = 40
MOST_QUESTIONS = 600


@dataclass(frozen=True, slots=True)
class Cell:
    """What is aimed at, with what dial, and how the bolts are eased."""

    tolerance: float
    graduation: float
    bolts: str = "snug"
    screws: int = 4


@dataclass(frozen=True, slots=True)
class Run:
    """How one chuck went."""

    rounds: int
    moves: int
    readings: int
    verdict: str
    truly: bool
    """Whether its true runout was within tolerance at the end."""
    flags: tuple[str, ...] = ()
    why: str = ""


Slip = Callable[[Sequence[Decimal], int], tuple[Decimal, ...]]
"""What a slip makes of the readings of a turn; the number tells chucks apart."""


def chuck(cell: Cell, seed: int, change: Callable[[Truth], Truth] | None = None) -> Hands:
    """The chuck of a seed, with hands at it."""
    rng = Random(seed)
    truth = drawn(rng, cell.graduation, bolts=cell.bolts, screws=cell.screws)  # type: ignore[arg-type]
    return Hands(Chuck(change(truth) if change else truth, rng), cell.graduation)


def facts(cell: Cell, sense: str) -> Facts:
    """What the advisor is told."""
    return Facts(
        "in",
        Decimal(str(cell.tolerance)),
        Decimal(str(cell.graduation)),
        screws=cell.screws,
        clearance=Decimal("0.010"),
        sense=sense,  # type: ignore[arg-type]
    )


def answered(asked: Asked, hands: Hands) -> Heard:
    """What the hands do with a question."""
    if isinstance(asked, Read):
        return WasRead(asked.angles, hands.read(asked.angles), asked.station)
    if isinstance(asked, Move):
        went = hands.move(asked.screw, float(asked.by), asked.tighten)
        return WasMoved(asked.screw, asked.by, went.reads, went.done, went.why, asked.bring_to,
                        named=asked.tighten is not None)  # fmt: skip
    hands.chuck.ease()
    hands.torque()
    return WasTorqued()


def this_tool(cell: Cell, seed: int, *, perfect: bool = False, sense: str | None = None,
              change: Callable[[Truth], Truth] | None = None) -> Run:  # fmt: skip
    """The advisor with its own stop, or with a perfect one that knows when it is true."""
    hands = chuck(cell, seed, change)
    known = facts(cell, sense or hands.chuck.truth.sense)
    heard: list[Heard] = []
    for _ in range(MOST_QUESTIONS):
        if perfect and hands.chuck.tight and hands.chuck.runout() <= cell.tolerance:
            return _run(hands, cell, "within")
        asked = advise(known, heard)
        if isinstance(asked, Stop):
            if not perfect:
                return _run(hands, cell, asked.verdict, asked.flags, str(asked.why))
            asked = correct(told(known, heard))
        if hands.rounds > MOST_ROUNDS:
            break
        heard.append(answered(asked, hands))
    return _run(hands, cell, "undecided")


def the_trade(cell: Cell, seed: int, *, perfect: bool = False) -> Run:
    """Alternating half-differences at four screws; stop where one turn's range is in tolerance."""
    hands = chuck(cell, seed)
    while hands.rounds <= MOST_ROUNDS:
        if perfect:
            if hands.chuck.runout() <= cell.tolerance:
                return _run(hands, cell, "within")
        else:
            values = hands.read((0, 90, 180, 270))
            if float(max(values) - min(values)) <= cell.tolerance * (1 + 1e-9):
                return _run(hands, cell, "within")
        hands.chuck.ease()
        for screw in (1, 2):
            here, there = hands.read(((screw - 1) * 90, (screw + 1) * 90))
            if here != there:
                hands.move(screw, float(there - here) / 2)
        hands.torque()
    return _run(hands, cell, "undecided")


def all_knowing(cell: Cell, seed: int, *, shift: bool = True) -> Run:
    """The same hands, led by one who knows centre, lash and cross-talk, and the usual shift or not.

    No tool can know a shift before it has seen one: without it the bound is what measuring and
    moving could at best do.
    """
    hands = chuck(cell, seed)
    body, truth = hands.chuck, hands.chuck.truth
    while body.runout() > cell.tolerance and hands.rounds <= MOST_ROUNDS:
        body.ease()
        for turn in (0, 1):
            off = -(truth.shift if shift else 0) - body.centre
            along = (off.real, off.imag)[turn]
            side = (off.imag, off.real)[turn] * truth.across * (1 if turn == 0 else -1)
            by = along + (side if turn == 0 else 0.0)
            hands.move(turn + 1, by / (1 - truth.lash) * (1 - truth.lash / 2), quiet=True)
        hands.torque()
    return _run(hands, cell, "within")


def _run(hands: Hands, cell: Cell, verdict: str, flags: tuple[str, ...] = (), why: str = "") -> Run:
    """How it went."""
    truly = hands.chuck.runout() <= cell.tolerance * (1 + 1e-9)
    return Run(hands.rounds, hands.moves, hands.readings, verdict, truly, flags, why)


def many(work: Callable[[int], Run], count: int) -> list[Run]:
    """Every seed, on every core."""
    with ProcessPoolExecutor(cpu_count()) as pool:
        return list(pool.map(work, range(count), chunksize=max(count // 16, 1)))


def line(name: str, runs: Iterable[Run]) -> str:
    """Rounds, moves, readings (mean, median, p95), unfinished, false accepts."""
    runs = list(runs)
    accepted = [run for run in runs if run.verdict == "within"]
    false = sum(not run.truly for run in accepted) / max(len(accepted), 1)
    figures = []
    for part in ("rounds", "moves", "readings"):
        values = sorted(getattr(run, part) for run in runs)
        figures.append(
            f"{fmean(values):6.2f} {median(values):4.0f} {values[int(0.95 * len(values))]:4.0f}"
        )
    left = 1 - len(accepted) / len(runs)
    return (f"  {name:<14}{'  |'.join(figures)}  | unfinished {left:7.2%}  false {false:7.2%}"
            f"  accepted {len(accepted) / len(runs):6.1%}")  # fmt: skip


def aims(count: int) -> Iterator[str]:
    """Every cell: the trade, this tool, the bound; with its own and with a perfect stop."""
    yield "                  rounds           |  moves           |  readings   (mean, median, p95)"
    for bolts in BOLTS:
        for tolerance in TOLERANCES:
            for graduation in GRADUATIONS:
                cell = Cell(tolerance, graduation, bolts)
                yield f"{tolerance} in, dial {graduation}, bolts {bolts}, {announced(cell)}"
                yield line("trade", many(partial(the_trade, cell), count))
                yield line("this tool", many(partial(this_tool, cell), count))
                bound = many(partial(all_knowing, cell), count)
                blind = many(partial(all_knowing, cell, shift=False), count)
                tool = many(partial(this_tool, cell, perfect=True), count)
                trade = many(partial(the_trade, cell, perfect=True), count)
                means = [fmean(run.rounds for run in runs) for runs in (trade, tool, bound, blind)]
                yield (f"  perfect stop: mean rounds trade {means[0]:.3f}  tool {means[1]:.3f}"
                       f"  bound {means[2]:.3f}  tool/bound {means[1] / means[2]:.3f}"
                       f"  bound without the shift {means[3]:.3f}"
                       f"  tool/it {means[1] / means[3]:.3f}")  # fmt: skip


def announced(cell: Cell) -> str:
    """What the tool says before the first reading."""
    first = advise(facts(cell, "toward"), ())
    assert isinstance(first, Read)
    return "said: cannot prove" if "cannot prove" in str(first.why) else "said: can prove"


FINE = Cell(0.001, 0.0001)
STATIONS = (Decimal(1), Decimal(5))


def detection(count: int) -> Iterator[str]:
    """What is found, and how often it is cried for nothing, with a dial of 0.0001."""
    plain = many(partial(this_tool, FINE), count)
    three = many(partial(this_tool, FINE, change=three_lobes), count)
    yield _shares("three lobes of 0.0005 amplitude", three, plain, "form")
    lean = many(partial(two_stations, lean=0.0002), count)
    none = many(partial(two_stations, lean=0.0), count)
    yield _shares("tilt of 0.0002 in/in over 4 in", lean, none, "tilt")
    beyond = many(partial(this_tool, FINE, change=beyond_register), count)
    found = sum("beyond-travel" in run.flags and run.rounds <= 3 for run in beyond) / count
    false = sum("beyond-travel" in run.flags for run in plain) / count
    yield f"  0.002 beyond the register, in 3 rounds: found {found:.2%}, for nothing {false:.2%}"
    knocked = many(partial(this_tool, FINE, change=knocked_over), count)
    yield _shares("indicator knocked by 0.001 in the first turn", knocked, plain, "zero-moved")
    turned = [first_two(seed) for seed in range(count)]
    yield f"  a sense told wrongly, right in the second move: {fmean(turned):.2%} of {count}"


def _shares(name: str, there: list[Run], nothing: list[Run], flag: str) -> str:
    """How often a flag was raised where it should be, and where not."""
    found = fmean(flag in run.flags for run in there)
    false = fmean(flag in run.flags for run in nothing)
    return f"  {name}: found {found:.2%}, for nothing {false:.2%}"


def three_lobes(truth: Truth) -> Truth:
    """A bar of three lobes, some way round."""
    return replace(truth, lobes={**truth.lobes, 3: 0.0005 * _way(truth)})


def slips(count: int) -> Iterator[str]:
    """One slip in one whole turn of a round bar: how often the bar is then called out of round."""
    for graduation in (0.0001, 0.0005):
        cell = Cell(0.001, graduation)
        plain = many(partial(this_tool, cell), count)
        yield f"  dial {graduation}, no slip: {_called(plain)}"
        for name, slip in SLIPS.items():
            for least in (3, 8):
                runs = many(partial(with_a_slip, cell, slip=slip, least=least), count)
                yield f"  dial {graduation}, {name}, {least} positions or more: {_called(runs)}"
        out = many(partial(this_tool, cell, change=out_of_round), count)
        yield f"  dial {graduation}, three lobes of 0.002 amplitude: {_called(out)}"


def wrong_sign(values: Sequence[Decimal], place: int) -> tuple[Decimal, ...]:
    """The largest reading but the first and the last with its other sign, however small it is."""
    at = max(range(1, len(values) - 1), key=lambda k: abs(values[k]))
    return (*values[:at], -values[at], *values[at + 1 :])


def forgotten(values: Sequence[Decimal], place: int) -> tuple[Decimal, ...]:
    """One position passed over: what is read from there on stands one place too early."""
    at = 1 + place % (len(values) - 2)
    return (*values[:at], *values[at + 1 : -1], values[0], values[-1])


SLIPS = {"one wrong sign": wrong_sign, "one position passed over": forgotten}


def with_a_slip(cell: Cell, seed: int, *, slip: Slip, least: int) -> Run:
    """The advisor, where the first whole turn of so many positions has a slip in it."""
    hands = chuck(cell, seed)
    known = facts(cell, hands.chuck.truth.sense)
    heard: list[Heard] = []
    slipped = False
    for _ in range(MOST_QUESTIONS):
        asked = advise(known, heard)
        if isinstance(asked, Stop):
            return _run(hands, cell, asked.verdict, asked.flags, str(asked.why))
        told_of = answered(asked, hands)
        if isinstance(told_of, WasRead) and not slipped and len(told_of.angles) > least:
            told_of, slipped = replace(told_of, values=slip(told_of.values, seed)), True
        heard.append(told_of)
    return _run(hands, cell, "undecided")


def _called(runs: list[Run]) -> str:
    """How often the stop says that the bar is out of round, and how often it ends within."""
    called = fmean("out of round" in run.why for run in runs)
    within = fmean(run.verdict == "within" for run in runs)
    false = fmean(run.verdict == "within" and not run.truly for run in runs)
    rounds, readings = (
        fmean(getattr(run, each) for run in runs) for each in ("rounds", "readings")
    )
    return (f"called out of round {called:.2%}, within {within:.2%}, falsely {false:.2%}"
            f"; rounds {rounds:.2f}, readings {readings:.1f}")  # fmt: skip


def out_of_round(truth: Truth) -> Truth:
    """A bar of three lobes, out of round by far more than is asked for."""
    return replace(truth, lobes={**truth.lobes, 3: 0.002 * _way(truth)})


def five_lobes(truth: Truth) -> Truth:
    """A bar of five lobes, which the advisor's harmonics leave out: 0.00005 in."""
    return replace(truth, lobes={**truth.lobes, 5: 0.00005 * _way(truth)})


def two_sided(truth: Truth) -> Truth:
    """Play that rests at one end or the other, never between."""
    return replace(truth, play_shows="two-sided", play=truth.play / 2)


def drifting(truth: Truth) -> Truth:
    """A zero that creeps ten times as fast."""
    return replace(truth, drift=10 * truth.drift)


def _way(truth: Truth) -> complex:
    """A direction that belongs to this chuck."""
    return exp(1j * 1e6 * abs(truth.centre))


def beyond_register(truth: Truth) -> Truth:
    """A chip holds the whole travel 0.002 in beyond what would let the body come true."""
    way = truth.centre / abs(truth.centre)
    far = way * (truth.clearance / 2 + 0.002)
    return replace(truth, register=far, centre=far)


def knocked_over(truth: Truth) -> Truth:
    """A knock before one of the first turn's readings after the first."""
    return replace(truth, knock=0.001, knocked_at=1 + int(1e7 * abs(truth.centre)) % 4)


def two_stations(seed: int, *, lean: float) -> Run:
    """A bar read at two stations, an inch and five inches from the chuck."""

    def leaning(truth: Truth) -> Truth:
        return replace(truth, tilt=lean * _way(truth))

    hands = chuck(FINE, seed, leaning)
    known = replace(facts(FINE, hands.chuck.truth.sense), stations=STATIONS)
    heard: list[Heard] = []
    for _ in range(MOST_QUESTIONS):
        asked = advise(known, heard)
        if isinstance(asked, Stop):
            return _run(hands, FINE, asked.verdict, asked.flags)
        if isinstance(asked, Read):
            hands.chuck.station = float(asked.station)
        heard.append(answered(asked, hands))
    return _run(hands, FINE, "undecided")


def first_two(seed: int) -> bool:
    """Whether a sense that was told wrongly is right in the second move; right if none is made."""
    hands = chuck(FINE, seed)
    true = hands.chuck.truth.sense
    known = facts(FINE, "away" if true == "toward" else "toward")
    heard: list[Heard] = []
    moves = 0
    while True:
        asked = advise(known, heard)
        if isinstance(asked, Stop):
            return True
        if isinstance(asked, Move):
            moves += 1
            raises = asked.tighten is not None and asked.tighten[0] == asked.screw
            if moves == 2:
                return (raises == (true == "toward")) == (asked.by > 0)
        heard.append(answered(asked, hands))


def strangers(count: int) -> Iterator[str]:
    """Chucks that are not as the advisor supposes: it must not accept what is out."""
    for name, change in (("play that rests at its ends", two_sided), ("five lobes", five_lobes),
                         ("drift ten times as fast", drifting)):  # fmt: skip
        for tolerance in (0.001, 0.0005):
            cell = Cell(tolerance, 0.0001)
            yield f"{name}, {tolerance} in, dial 0.0001"
            yield line("this tool", many(partial(this_tool, cell, change=change), count))


def senses(count: int) -> Iterator[str]:
    """Three, four and six screws; a sense told, unknown, or told wrongly."""
    for screws in (3, 4, 6):
        cell = replace(FINE, screws=screws)
        yield f"{screws} screws, 0.001 in, dial 0.0001"
        yield line("sense told", many(partial(this_tool, cell), count))
        yield line("unknown", many(partial(this_tool, cell, sense="unknown"), count))
        yield line("told toward", many(partial(this_tool, cell, sense="toward"), count))


def torque_late(cell: Cell, seed: int) -> Run:
    """Half-differences with the bolts left snug until the screws read within; then the torque.

    Where the turn after the torque is out, the bolts are eased and it begins again.
    """
    hands = chuck(cell, seed)
    for _ in range(MOST_ROUNDS):
        if hands.chuck.runout() <= cell.tolerance:
            return _run(hands, cell, "within")
        hands.chuck.ease()
        for _ in range(MOST_ROUNDS):
            values = hands.read((0, 90, 180, 270))
            if float(max(values) - min(values)) <= cell.tolerance:
                break
            for screw in (1, 2):
                here, there = hands.read(((screw - 1) * 90, (screw + 1) * 90))
                if here != there:
                    hands.move(screw, float(there - here) / 2)
        hands.torque()
    return _run(hands, cell, "undecided")


def bolts(count: int) -> Iterator[str]:
    """When to torque, and how far to ease: rounds to true with a perfect stop (dial 0.0001)."""
    for tolerance in TOLERANCES:
        for eased in BOLTS:
            cell = Cell(tolerance, 0.0001, eased)
            how = "one stage" if eased == "snug" else "slack"
            for name, work in (
                ("torque each round", partial(the_trade, cell, perfect=True)),
                ("torque late", partial(torque_late, cell)),
                ("this tool", partial(this_tool, cell, perfect=True)),
            ):
                runs = many(work, count)
                figures = [fmean(getattr(run, part) for run in runs)
                           for part in ("rounds", "moves", "readings")]  # fmt: skip
                told = "  ".join(f"{each:6.2f}" for each in figures)
                yield f"  {tolerance} in, eased {how:<10} {name:<18} rounds, moves, readings {told}"


def one_turn(graduation: float, seed: int) -> tuple[int, float, float]:
    """A fine turn of a body off by anything up to 4.5 divisions of runout, the bar ground.

    How many divisions its readings spread over, how far the judged figure is off, and U; in
    divisions.
    """
    rng = Random(seed)
    off = rng.uniform(0, 2.25) * graduation * exp(1j * rng.uniform(0, 6.283))
    cell = Cell(3 * graduation, graduation)
    hands = chuck(cell, seed, lambda truth: replace(truth, centre=off))
    angles = tuple(45.0 * place for place in range(9))
    values = hands.read(angles)
    known = facts(cell, "toward")
    found = judge(told(known, [WasRead(angles, values, known.stations[0])]), known.stations[0])
    if found is None:
        return -1, 0.0, 0.0
    spread = round(float(max(values) - min(values)) / graduation)
    error = hands.chuck.runout() - found.judged
    return spread, error / graduation, COVERAGE * found.u_tir / graduation


def coarse(count: int) -> Iterator[str]:
    """Whether U holds the true runout, by how far the readings of one turn spread."""
    for graduation in GRADUATIONS:
        with ProcessPoolExecutor(cpu_count()) as pool:
            turns = list(pool.map(partial(one_turn, graduation), range(count), chunksize=50))
        yield f"dial {graduation}: by the spread of one turn, in divisions"
        for spread in range(5):
            seen = [each for each in turns if each[0] == spread]
            off = sorted(abs(error) for _, error, _ in seen)
            held = fmean(abs(error) <= u for _, error, u in seen) if seen else 0.0
            yield (f"  {spread}: turns {len(seen):4}  U holds {held:7.1%}"
                   f"  mean U {fmean(u for *_, u in seen) if seen else 0:.2f}"
                   f"  95 in 100 err by {off[int(0.95 * len(off))] if off else 0:.2f}")  # fmt: skip


PARTS = {
    "coarse": coarse,
    "bolts": bolts,
    "aims": aims,
    "detection": detection,
    "slips": slips,
    "strangers": strangers,
    "senses": senses,
}


def main() -> None:
    """Print what is asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--chucks", type=int, default=2000)
    parser.add_argument("--only", choices=sorted(PARTS))
    asked = parser.parse_args()
    for name, part in PARTS.items():
        if asked.only in (None, name):
            for text in part(asked.chucks):
                print(text, flush=True)


if __name__ == "__main__":
    main()
