"""Whether stored events still stand as they were written, each holding the digest before it.

The digests have no key: somebody who rewrites an event, every later one and the seals is not found
here. A last digest printed or copied elsewhere at the time shows that too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby, pairwise

from guide.journal.canonical import digest
from guide.journal.event import GENESIS, parse
from guide.journal.finding import Finding, Row, of_file, of_gap, of_row
from guide.journal.said import said
from guide.plain import BadInput


def findings(
    rows: Iterable[Row], seals: Mapping[int, str] | None = None, setup: str = ""
) -> Iterator[Finding]:
    """All that is wrong with one setup's rows, lowest event first; nothing when all is well.

    `rows` come in the order in which they are stored. `seals` are the digests by sequence that the
    journal noted apart when it wrote them; with None (an exported record) the last event and a cut
    end cannot be checked. `setup` names the setup for findings when not one row is left.
    """
    stored = tuple(rows)
    late = dict(_late(stored))
    kept, extra = _one_each(stored, seals)
    alone = {row.sequence: _fault(row, seals) for row in kept}
    sound = {row.sequence: row for row in kept if alone[row.sequence] is None}
    faults = [
        *(of_row("reordered", "late", row, after) for row, after in late.items()),
        *(_extra(row) for row in extra),
        *_gaps(kept, seals or {}, stored[0].setup if stored else setup),
        *(fault for fault in alone.values() if fault),
        *_links(sound, seals is not None),
    ]
    yield from sorted(faults, key=lambda finding: finding.sequence)


def text_findings(texts: Iterable[tuple[str, str]]) -> Iterator[Finding]:
    """The procedure texts (digest, text) that do not match the digest they are kept by."""
    for kept_by, text in texts:
        if not _matches(text, kept_by):
            yield of_file("changed", "procedure", kept_by)


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


def _fault(row: Row, seals: Mapping[int, str] | None) -> Finding | None:
    """What the row gives away by itself and beside the digests noted when events were written."""
    if not _matches(row.body, row.digest):
        return of_row("changed", "text", row)
    noted = row.digest if seals is None else seals.get(row.sequence)
    if noted and noted != row.digest and row.digest not in (seals or {}).values():
        return of_row("changed", "resealed", row)
    return _misplaced(row) or (None if noted else of_row("added", "unsealed", row))


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
