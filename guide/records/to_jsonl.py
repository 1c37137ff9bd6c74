"""A setup's events as JSON lines that a stranger can check, format `spindleside-record-2`.

The first line tells what follows: setup, number of events, the digest of the last one (`head`), the
digest of the procedure text, whether sign-on was on, everybody with role and public key, and the
place of the last event in the chain over all events of the journal (`link`). Each line after it is
one event in order:

    {"body":{…},"digest":"…","signature":"…"}

The body stands there byte for byte as the journal keeps it (canonical JSON, RFC 8785, UTF-8). The
digest is the SHA-256 of these bytes (FIPS 180-4), the signature an Ed25519 one of the same bytes
(RFC 8032) under the body's `key`, both in hexadecimal; the signature is blank where sign-on was
off. With Python and nothing of ours:

    import hashlib, json
    first, *lines = open("record.jsonl", "rb").read().splitlines()
    told, previous = json.loads(first), "0" * 64
    for line in lines:
        event = json.loads(line)
        body = line[8 : line.rindex(b',"digest":"')]
        assert hashlib.sha256(body).hexdigest() == event["digest"]
        assert event["body"]["previous"] == previous
        assert bool(event["signature"]) == (told["sign_on"] == "on")
        if event["signature"]:
            from cryptography.hazmat.primitives.asymmetric import ed25519
            key = bytes.fromhex(event["body"]["key"])
            signer = ed25519.Ed25519PublicKey.from_public_bytes(key)
            signer.verify(bytes.fromhex(event["signature"]), body)
            assert (event["body"]["person"], event["body"]["key"]) in [
                (each["name"], each["key"]) for each in told["people"]
            ]
        previous = event["digest"]
    assert (len(lines), previous) == (told["events"], told["head"])
    link = {"number": told["link"]["number"], "previous": told["link"]["previous"],
            "setup": told["setup"], "sequence": len(lines), "digest": previous,
            "signature": event["signature"]}
    text = json.dumps(link, sort_keys=True, separators=(",", ":"))
    assert hashlib.sha256(text.encode()).hexdigest() == told["link"]["head"]

A change that is worked out again all through passes this: compare `head`, or the link's, with one
that was printed or copied at the time. Whose a key is, the shop says and not this file. A second
person's signature is over the same body without itself, without the first person's signature.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guide.journal.canonical import canonical
from guide.journal.finding import Row
from guide.records.record import Record

FORMAT = "spindleside-record-2"


def to_jsonl(record: Record, rows: Iterable[Row]) -> str:
    """The events as they are stored, each behind its digest and signature as they are stored."""
    return "".join(f"{line}\n" for line in _lines(record, rows))


def _lines(record: Record, rows: Iterable[Row]) -> Iterator[str]:
    """The first line, then one for each event."""
    yield canonical(_first(record))
    for row in sorted(rows, key=lambda row: row.sequence):
        after = f'"digest":{canonical(row.digest)},"signature":{canonical(row.signature)}'
        yield f'{{"body":{row.body},{after}}}'


def _first(record: Record) -> dict[str, object]:
    """What the file is about."""
    link = record.link
    return {
        "format": FORMAT,
        "setup": record.setup,
        "procedure": record.procedure,
        "revision": record.revision,
        "procedure_text": record.text,
        "events": record.events,
        "head": record.head,
        "marks": list(record.marks),
        "sign_on": "on" if record.sign_on else "off",
        "people": [
            {"name": each.name, "role": each.role, "key": each.key} for each in record.workers
        ],
        "link": {"number": link.number, "previous": link.previous, "head": link.head}
        if link
        else None,
    }
