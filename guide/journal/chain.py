"""Whether stored events still stand as they were written, each holding the digest before it.

The digests have no key: somebody who rewrites an unsigned event, every later one and the links is
not found here. A last digest printed or copied elsewhere at the time shows that too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache
from itertools import groupby, pairwise

from guide.journal.canonical import digest
from guide.journal.event import GENESIS, Event, parse
from guide.journal.finding import Fault, Finding, Noted, Row, of_file, of_gap, of_row
from guide.journal.link import head_of
from guide.journal.said import said
from guide.plain import BadInput


def sound(rows: Iterable[Row], noted: Mapping[int, Noted]) -> tuple[tuple[Event, ...], bool]:
    """The events of a setup up to the first that is not as it was written; whether that is all.

    This is the short way; `findings` says what is amiss. Signatures are checked one behind the
    other after all texts were read, which takes less time than each in its turn.
    """
    read: list[tuple[Event, str]] = []
    previous, broken = GENESIS, False
    for number, row in enumerate(rows, start=1):
        event = _as_written(row, noted.get(number))
        if event is None or event.sequence != number or event.previous != previous:
            broken = True
            break
        previous = row.digest
        read.append((event, row.signature))
    events = tuple(_signed(read))
    return events, not broken and len(events) == len(read) == len(noted)


def _signed(read: Iterable[tuple[Event, str]]) -> Iterator[Event]:
    """The events up to the first that is not signed as it says."""
    for event, signature in read:
        if not _well_signed(event, signature):
            return
        yield event


def intact(rows: Iterable[Row], noted: Mapping[int, Noted]) -> tuple[Event, ...] | None:
    """The events of a setup that stands exactly as it was written, None where anything is amiss."""
    events, whole = sound(rows, noted)
    return events if whole else None


def _as_written(row: Row, noted: Noted | None) -> Event | None:
    """The event of a row that is as it was noted, else None; its signature is another matter."""
    if noted is None or noted.digest != row.digest or noted.signature != row.signature:
        return None
    if not _matches(row.body, row.digest):
        return None
    try:
        event = parse(row.body)
    except BadInput:
        return None
    return event if event.setup == row.setup and event.sequence == row.sequence else None


def _well_signed(event: Event, signature: str) -> bool:
    """Whether the signature is that of the event's key, or there is neither."""
    if not event.key or not signature:
        return event.key == signature
    return _signed_by()(event.key, signature, event.body())


@cache
def _signed_by() -> Callable[[str, str, str], bool]:
    """What checks signatures, imported where there are any."""
    from guide.journal import keys

    return lambda key, signature, text: keys.signed_by(key, signature, text)


def findings(
    rows: Iterable[Row], noted: Mapping[int, Noted] | None = None, setup: str = ""
) -> Iterator[Finding]:
    """All that is wrong with one setup's rows, lowest event first; nothing when all is well.

    `rows` come in the order in which they are stored. `noted` is what the chain over all events
    says of each; with None (an exported record) the last event and a cut end cannot be checked.
    `setup` names the setup for findings when not one row is left.
    """
    stored = tuple(rows)
    seals = None if noted is None else _digests(noted)
    late = dict(_late(stored))
    kept, extra = _one_each(stored, seals)
    alone = {row.sequence: _fault(row, seals, (noted or {}).get(row.sequence)) for row in kept}
    sound = {row.sequence: row for row in kept if alone[row.sequence] is None}
    faults = [
        *(of_row("reordered", "late", row, after) for row, after in late.items()),
        *(_extra(row) for row in extra),
        *_gaps(kept, seals or {}, stored[0].setup if stored else setup),
        *(fault for fault in alone.values() if fault),
        *_links(sound, seals is not None),
    ]
    yield from sorted(faults, key=lambda finding: finding.sequence)


def _digests(noted: Mapping[int, Noted]) -> Mapping[int, str]:
    return {sequence: each.digest for sequence, each in noted.items()}


def link_findings(links: Iterable[tuple[int, str, int, str, str, str]]) -> Iterator[Finding]:
    """What is wrong with the chain over all events, each link in turn, as `Store.linked` has it."""
    expected, previous = 1, GENESIS
    for number, setup, sequence, event, signature, head in links:
        if number != expected:
            yield _of_link("missing", "unlinked-all", setup, sequence, event, expected)
        elif head_of(number, setup, sequence, event, signature, previous) != head:
            yield _of_link("changed", "link", setup, sequence, event, number)
        expected, previous = number + 1, head


def _of_link(fault: Fault, why: str, setup: str, sequence: int, event: str, number: int) -> Finding:
    return of_row(fault, why, Row(0, setup, sequence, "", event), number)


def text_findings(texts: Iterable[tuple[str, str]]) -> Iterator[Finding]:
    """The procedure texts (digest, text) that do not match the digest they are kept by."""
    for kept_by, text in texts:
        if not _matches(text, kept_by):
            yield of_file("changed", "procedure", kept_by)


def seal_findings(seals: Iterable[tuple[str, str]]) -> Iterator[Finding]:
    """The sealed keys (digest, text) that do not match the digest they are kept by."""
    for kept_by, text in seals:
        if not _matches(text, kept_by):
            yield of_file("changed", "sealed", kept_by)


def _late(rows: Sequence[Row]) -> Iterator[tuple[Row, int]]:
    highest = 0
    for row in rows:
        if 1 <= row.sequence < highest:
            yield row, highest
        highest = max(highest, row.sequence)


def _one_each(rows: Sequence[Row], seals: Mapping[int, str] | None) -> tuple[list[Row], list[Row]]:
    """One row for each number from 1 on, the most believable, and all the others."""
    kept: list[Row] = []
    extra: list[Row] = []
    for number, same in groupby(sorted(rows, key=_number), key=_number):
        best, *others = _believable(tuple(same), rows, seals)
        (kept if number >= 1 else extra).append(best)
        extra += others
    return kept, extra


def _number(row: Row) -> int:
    return row.sequence


def _believable(
    same: tuple[Row, ...], rows: Sequence[Row], seals: Mapping[int, str] | None
) -> Sequence[Row]:
    """Rows of one number, first the one that is sound and between its neighbours in the chain."""
    if len(same) == 1:
        return same
    digests = {GENESIS, *(row.digest for row in rows)}
    held = {_previous(row) for row in rows}
    return sorted(
        same,
        key=lambda row: (
            _fault(row, seals) is not None,
            row.digest not in held,
            _previous(row) not in digests,
        ),
    )


def _extra(row: Row) -> Finding:
    return of_row("added", "second" if row.sequence >= 1 else "number", row)


def _gaps(kept: Sequence[Row], seals: Mapping[int, str], setup: str) -> Iterator[Finding]:
    end = max((*seals, kept[-1].sequence if kept else 0), default=0) + 1
    for before, after in pairwise((0, *map(_number, kept), end)):
        if after > before + 1:
            yield of_gap(setup, before + 1, after - 1)


def _fault(row: Row, seals: Mapping[int, str] | None, noted: Noted | None = None) -> Finding | None:
    """What the row gives away by itself and beside what was noted when events were written."""
    if not _matches(row.body, row.digest):
        return of_row("changed", "text", row)
    written = row.digest if seals is None else seals.get(row.sequence)
    if written and written != row.digest and row.digest not in (seals or {}).values():
        return of_row("changed", "resealed", row)
    return (
        _misplaced(row)
        or (None if written else of_row("added", "unsealed", row))
        or (_resigned(row, noted) if noted else None)
        or _forged(row)
    )


def _resigned(row: Row, noted: Noted) -> Finding | None:
    """A signature that is not the one the event was written with."""
    if row.signature == noted.signature:
        return None
    return (
        of_row("changed", "swapped", row) if row.signature else of_row("unsigned", "stripped", row)
    )


def _forged(row: Row) -> Finding | None:
    """A signature that is not that of the key in the event, or one where there is no key."""
    event = parse(row.body)
    if _well_signed(event, row.signature):
        return None
    stripped = event.key and not row.signature
    return of_row("unsigned", "stripped", row) if stripped else of_row("forged", "signature", row)


def _misplaced(row: Row) -> Finding | None:
    """What an unchanged text says against the place where it is found."""
    try:
        event = parse(row.body)
    except BadInput:
        return of_row("added", "alien", row)
    if event.setup != row.setup:
        return of_row("added", "foreign", row, event.setup)
    if event.sequence != row.sequence:
        return of_row("reordered", "renumbered", row, event.sequence)
    return None


def _links(sound: Mapping[int, Row], sealed: bool) -> Iterator[Finding]:
    """The events that the next one does not continue, among those sound by themselves.

    A seal tells which of the two is at fault. Without one it is the earlier, unless the later is
    itself not continued: then that one is named when its turn comes.
    """
    if 1 in sound and _previous(sound[1]) != GENESIS:
        yield of_row("added", "unlinked", sound[1])
    for number, row in sound.items():
        after, beyond = sound.get(number + 1), sound.get(number + 2)
        if after is None or _previous(after) == row.digest:
            continue
        if sealed:
            yield of_row("added", "unlinked", after)
        elif beyond is None or _previous(beyond) == after.digest:
            yield of_row("changed", "next", row, after.sequence)


def _previous(row: Row) -> object:
    return said(row.body).get("previous")


def _matches(text: str, expected: str) -> bool:
    try:
        return digest(text) == expected
    except BadInput:
        return False
