"""The loader under whatever a file may hold: read, or refused with a place; run by hand.

    .venv/bin/python tests/studies/loader.py [SECONDS] [SEED]

Takes every shipped, part and broken file, and cuts, doubles, swaps and spoils signs, lines and
indents of it, or writes in what somebody might on purpose. Each text is either loaded, or refused
with a line and a column of it. Anything else, or more than LONGEST seconds, is printed with its
seed and ends the run with 1.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from random import Random

TOP = Path(__file__).parents[2]
sys.path.insert(0, str(TOP))

from guide.procedure.load import load  # noqa: E402
from guide.procedure.problem import Unusable  # noqa: E402

ENDS = ("loaded", "refused with a line")
LONGEST = 2.0
"""Seconds that one text may take."""
SIGNS = "\x00 \t\n:-#'\"{}[]&*!|>%@`,?\\\ufeff\u2028é中"
HOSTILE = (
    "&a [*a, *a]", "!!python/object/apply:os.system [ls]", "<<: *b", "- " * 400, "{" * 400,
    "[" * 3000, "? ", "--- ", "...", "%YAML 9.9", "!", "\"\\ud800\"", "include: ../../etc/passwd",
    "x" * 100_000,
)  # fmt: skip
"""What somebody might write on purpose."""


def spoilt(text: str, chance: Random) -> str:
    """One to six changes."""
    for _ in range(chance.randint(1, 6)):
        text = chance.choice(CHANGES)(text, chance)
    return text


def _sign(text: str, chance: Random) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice(SIGNS) + text[at + chance.randint(0, 1) :]


def _cut(text: str, chance: Random) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + text[at + chance.randint(1, 200) :]


def _lines(text: str, chance: Random) -> str:
    lines = text.splitlines(keepends=True) or [""]
    one, other = (chance.randrange(len(lines)) for _ in range(2))
    if chance.random() < 0.5:
        lines[one], lines[other] = lines[other], lines[one]
    else:
        lines.insert(one, lines[other])
    return "".join(lines)


def _indent(text: str, chance: Random) -> str:
    lines = text.splitlines(keepends=True) or [""]
    at = chance.randrange(len(lines))
    lines[at] = " " * chance.randint(0, 12) + lines[at].lstrip(" ")
    return "".join(lines)


def _hostile(text: str, chance: Random) -> str:
    at = chance.choice([0, len(text), chance.randrange(len(text) + 1)])
    return text[:at] + chance.choice(HOSTILE) + text[at:]


CHANGES: tuple[Callable[[str, Random], str], ...] = (_sign, _sign, _cut, _lines, _indent, _hostile)


def outcome(path: Path) -> str:
    """How the loader ends."""
    try:
        load(path)
    except Unusable as refusal:
        placed = all(e.place.line >= 1 and e.place.column >= 1 for e in refusal.problems)
        return "refused with a line" if refusal.problems and placed else "refused without a line"
    return "loaded"


def main(seconds: str = "300", seed: str = "1") -> int:
    """Until the time is over."""
    sources = [*TOP.glob("procedures/**/*.yaml"), *TOP.glob("tests/broken/*.yaml")]
    texts = [each.read_text(encoding="utf-8") for each in sources]
    end, number, found, slowest = time.monotonic() + float(seconds), int(seed), Counter[str](), 0.0
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "spoilt.yaml"
        while time.monotonic() < end:
            chance = Random(number)
            told = spoilt(chance.choice(texts), chance)
            path.write_bytes(told.encode("utf-8", "surrogatepass"))
            began = time.monotonic()
            try:
                ended = outcome(path)
            except Exception as error:
                ended = f"{type(error).__name__}: {error}"
            if ended not in ENDS:
                print(f"seed {number}: {ended}")
                return 1
            found[ended] += 1
            slowest = max(slowest, took := time.monotonic() - began)
            if took > LONGEST:
                print(f"seed {number}: {took:.1f} s")
                return 1
            number += 1
    print(f"{found.total()} texts, {dict(found)}, slowest {slowest:.2f} s")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(*sys.argv[1:]))
