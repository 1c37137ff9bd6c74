"""How long `verify` takes on many signed events, beside a loop that only parses, hashes and checks
signatures of the same lines in the same run; and how its memory grows.

    python tests/studies/verify.py [--events 100000] [--journal FOLDER]

The journal is made of one whole signed walk (`tests/answers/adjustable-chuck-inch.yaml`, invented
data) written again and again under other ids, each event with its own digest and signature. Each
measurement is a process of its own; seconds are those of its processor, which others on the machine
do not lengthen as they do those of a clock, each the least of some turns; memory is the most that
the process held (ru_maxrss).
"""

from __future__ import annotations

import argparse
import json
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from time import process_time

from guide.journal import glance, keys
from guide.journal.event import GENESIS, Event
from guide.journal.link import head_of
from guide.journal.store import Store
from guide.people.hand import Hand
from guide.people.people import People
from guide.procedure.shelf import find
from guide.rehearse import go_on, read_answers
from guide.walk.setup import open_setup

ANSWERS = Path(__file__).parents[1] / "answers" / "adjustable-chuck-inch.yaml"
PIN = "four tin horses"


def template(store: Store) -> tuple[tuple[Event, ...], dict[str, Hand]]:
    """One whole signed walk, and the hands that signed it."""
    answers = read_answers(ANSWERS)
    names = sorted({answers.person, *(each.person for each in answers.answers)})
    people = People(store)
    first = people.first(names[0], PIN, answers.at(0))
    for name in names[1:]:
        people.add(first, name, "machinist", PIN, answers.at(0))
    hands = {name: people.sign_on(name, PIN, answers.at(0)) for name in names}
    walk = open_setup(
        store, find(answers.procedure), setup="walk-00000", person=answers.person,
        at=answers.at(0), lathe=answers.lathe, hand=hands[answers.person],
    )  # fmt: skip
    walk.hands |= hands
    go_on(walk, answers, answers.answers)
    return store.events("walk-00000"), hands


def again(
    events: tuple[Event, ...], hands: dict[str, Hand], setup: str
) -> Iterator[tuple[Event, str]]:
    """The same walk under another id, with digests and signatures of its own."""
    previous = GENESIS
    for each in events:
        event = replace(each, setup=setup, previous=previous)
        previous = event.digest
        yield event, keys.sign(hands[event.person].seed, event.body())


def made(folder: Path, count: int) -> None:
    """A journal of so many signed events, written in one transaction."""
    file = folder / "journal.sqlite3"
    with Store(file) as store:
        events, hands = template(store)
        last = store.head()
    assert last is not None
    number, head = last.number, last.head
    base = sqlite3.connect(file, isolation_level=None)
    base.execute("BEGIN")
    for copy in range(1, count // len(events)):
        for event, signature in again(events, hands, f"walk-{copy:05}"):
            number += 1
            row = (event.setup, event.sequence, event.body(), event.digest, signature)
            rowid = base.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?)", row).lastrowid
            linked = (number, event.setup, event.sequence, event.digest, signature)
            head = head_of(*linked, head)
            base.execute("INSERT INTO link VALUES (?, ?, ?, ?, ?, ?)", (*linked, head))
            glance.note(base, event, rowid or 0)
    base.execute("COMMIT")
    base.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    base.close()


def floor(folder: Path) -> tuple[float, int]:
    """Seconds to parse, hash and check the signature of every line, one after the other."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    base = sqlite3.connect(folder / "journal.sqlite3")
    started, seen = process_time(), 0
    known: dict[str, Ed25519PublicKey] = {}
    for body, digest, signature in base.execute("SELECT body, digest, signature FROM event"):
        fields = json.loads(body)
        raw = body.encode()
        assert sha256(raw).hexdigest() == digest
        key = fields["key"]
        if key not in known:
            known[key] = Ed25519PublicKey.from_public_bytes(bytes.fromhex(key))
        known[key].verify(bytes.fromhex(signature), raw)
        seen += 1
    return process_time() - started, seen


def verified(folder: Path, figures: bool) -> tuple[float, int]:
    """Seconds for the whole check of the journal; it has to find nothing."""
    import cryptography.hazmat.primitives.asymmetric.ed25519  # noqa: F401  as the loop does
    import yaml  # noqa: F401  no part of the check either

    from guide.records.evidence import faults

    with Store.read(folder / "journal.sqlite3") as store:
        started = process_time()
        found = list(faults(store, figures=figures))
        taken = process_time() - started
        assert not found, found[:3]
        last = store.head()
    return taken, last.number if last else 0


WAYS = {
    "floor": floor,
    "verify": lambda folder: verified(folder, False),
    "verify and figures": lambda folder: verified(folder, True),
}


def measured(way: str, folder: Path) -> dict[str, float]:
    """One measurement in a process of its own."""
    command = [sys.executable, __file__, "--journal", str(folder), "--way", way]
    return dict(json.loads(subprocess.run(command, check=True, capture_output=True).stdout))


def main() -> None:
    """Make the journals and print the table."""
    import resource

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--events", type=int, default=100_000)
    parser.add_argument("--turns", type=int, default=3)
    parser.add_argument("--journal", type=Path)
    parser.add_argument("--way", choices=WAYS)
    told = parser.parse_args()
    if told.way:
        seconds, events = WAYS[told.way](told.journal)
        most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(json.dumps({"seconds": seconds, "events": events, "mb": most}))
        return
    keys.COST = 2**10
    for count in (10_000, told.events):
        with tempfile.TemporaryDirectory() as place:
            made(Path(place), count)
            turns = [{way: measured(way, Path(place)) for way in WAYS} for _ in range(told.turns)]
            table = {
                way: min((each[way] for each in turns), key=lambda row: row["seconds"])
                for way in WAYS
            }
            base = table["floor"]["seconds"]
            for way, row in table.items():
                print(
                    f"{count:>7} {way:<20} {row['events']:>7.0f} events {row['seconds']:7.2f} s"
                    f" {row['seconds'] / base:6.2f} x  {row['mb']:6.0f} MB",
                    flush=True,
                )


if __name__ == "__main__":
    main()
