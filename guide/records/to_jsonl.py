"""A setup's events as JSON lines that a stranger can check with SHA-256 and nothing of ours.

The first line tells what follows: setup, number of events, the digest of the last one (`head`),
and the digest of the procedure text. Each line after it is one event in order:

    {"body":{…},"digest":"…"}

The body stands there byte for byte as the journal keeps it (canonical JSON, RFC 8785, UTF-8), so
what was digested lies between `{"body":` and `,"digest":"`, which are the last 77 bytes of a line:

    import hashlib, json
    first, *lines = open("record.jsonl", "rb").read().splitlines()
    previous = "0" * 64
    for line in lines:
        event = json.loads(line)
        assert hashlib.sha256(line[8:-77]).hexdigest() == event["digest"]
        assert event["body"]["previous"] == previous
        previous = event["digest"]
    assert previous == json.loads(first)["head"]

The chain is not signed: compare that head with one printed or copied at the time.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guide.journal.canonical import canonical
from guide.journal.finding import Row
from guide.records.record import Record

FORMAT = "spindleside-record-1"


def to_jsonl(record: Record, rows: Iterable[Row]) -> str:
    """The events as they are stored, each behind its digest as it is stored."""
    return "".join(f"{line}\n" for line in _lines(record, rows))


def _lines(record: Record, rows: Iterable[Row]) -> Iterator[str]:
    """The first line, then one for each event."""
    yield canonical(
        {
            "format": FORMAT,
            "setup": record.setup,
            "procedure": record.procedure,
            "revision": record.revision,
            "procedure_text": record.text,
            "events": record.events,
            "head": record.head,
            "marks": list(record.marks),
        }
    )
    for row in sorted(rows, key=lambda row: row.sequence):
        yield f'{{"body":{row.body},"digest":{canonical(row.digest)}}}'
