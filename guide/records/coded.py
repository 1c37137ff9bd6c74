"""What the square code says: text that any general reader shows, to be compared."""

from __future__ import annotations

from guide.records.record import Record


def coded(record: Record, *, short: bool = False) -> str:
    """Setup and the digest of its last event, and unless `short` the journal's number and digest.

    Only ASCII: ids of setups are a-z, 0-9 and hyphen, digests are hexadecimal.
    """
    lines = [f"setup {record.setup}", f"head {record.head}"]
    if record.link and not short:
        lines += [f"link {record.link.number}", f"journal {record.link.head}"]
    return "\n".join(lines)
