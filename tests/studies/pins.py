"""How fast anybody can guess a PIN: at the program, and with a copy of the journal file.

    python tests/studies/pins.py [--tries 20]

At the program the delays of `guide/people/waiting.py` count. With the file only what scrypt costs
at the real N, measured here on one core with the code that opens a seal; a machine made for it is
faster by as much memory as it can fill at once.
"""

from __future__ import annotations

import argparse
from statistics import median
from time import perf_counter

from guide.journal import keys
from guide.people.waiting import LONGEST, delay_after

HOUR, DAY, YEAR = 3600, 86400, 365.25 * 86400
SPACES = {
    "six digits": 10**6,
    "eight digits": 10**8,
    "six small letters and digits": 36**6,
    "four words of a list of 7776": 7776**4,
}


def tries_in(seconds: float) -> int:
    """PINs of one person tried at the program in a time, the delay running all the while."""
    count = spent = 0
    while spent <= seconds:
        count += 1
        spent += delay_after(count)
    return count


def quick_tries() -> tuple[int, int]:
    """Tries before the delay is at its cap, and the seconds that they take together."""
    count = next(number for number in range(1, 99) if delay_after(number) == LONGEST)
    return count, sum(map(delay_after, range(count)))


def seconds_a_try(tries: int) -> float:
    """The median time to try one wrong PIN on a seal, at the real cost."""
    seal = keys.sealed(keys.new_seed(), "four tin horses")
    taken = []
    for number in range(tries):
        started = perf_counter()
        assert keys.unsealed(seal, f"wrong {number}") is None
        taken.append(perf_counter() - started)
    return median(taken)


def shown(seconds: float) -> str:
    """A time in the unit that fits."""
    for unit, name in ((YEAR, "years"), (DAY, "days"), (HOUR, "hours"), (60, "minutes")):
        if seconds >= unit:
            return f"{seconds / unit:,.1f} {name}"
    return f"{seconds:.1f} seconds"


def main() -> None:
    """Measure and print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--tries", type=int, default=20)
    each = seconds_a_try(parser.parse_args().tries)
    count, spent = quick_tries()
    print(f"At the program: {HOUR / LONGEST:.0f} tries an hour at the cap of {LONGEST} s;")
    print(f"  {count} tries in the first {shown(spent)}, {tries_in(DAY)} in the first day,")
    print(f"  {tries_in(YEAR)} in the first year; each time the owner signs on it begins anew.")
    print(f"With the file: {each * 1000:.0f} ms a try, {1 / each:.1f} tries a second and core (N ="
          f" {keys.COST}, about {128 * keys.BLOCK * keys.COST / 2**20:.0f} MB).")  # fmt: skip
    print(f"{'to try through':<32}{'at the program':>20}{'with the file, one core':>28}")
    for name, space in SPACES.items():
        print(f"{name:<32}{shown(space * LONGEST):>20}{shown(space * each):>28}")


if __name__ == "__main__":
    main()
