"""Tampering with stored rows: each kind is found, and the event is named first."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide.journal.canonical import digest
from guide.journal.chain import findings, text_findings
from guide.journal.event import Event
from guide.journal.finding import Finding, Noted, Row

Chained = Callable[..., list[Event]]


def stored(events: list[Event]) -> list[Row]:
    """The rows as the journal keeps them."""
    return [
        Row(place, event.setup, event.sequence, event.body(), event.digest)
        for place, event in enumerate(events, 1)
    ]


def seals(rows: list[Row]) -> dict[int, Noted]:
    """What the chain over all events noted when it wrote them."""
    return {row.sequence: Noted(row.rowid, row.digest, row.signature) for row in rows}


def named(finding: Finding) -> tuple[str, str, int, str, str]:
    """What the finding says of which event."""
    return finding.fault, finding.setup, finding.sequence, finding.kind, finding.step


@pytest.fixture
def rows(chained: Chained) -> list[Row]:
    """Six sound rows of setup demo-1."""
    return stored(chained())


@pytest.mark.parametrize("count", [0, 1, 2, 6])
def test_sound_rows_have_no_findings(chained: Chained, count: int) -> None:
    """Beside their links and without."""
    rows = stored(chained(count=count))
    assert list(findings(rows)) == list(findings(rows, seals(rows))) == []


@pytest.mark.parametrize("number", range(1, 7))
def test_one_character_changed_anywhere_names_its_event(rows: list[Row], number: int) -> None:
    """Every character of every body, with and without the links."""
    row = rows[number - 1]
    for place, character in enumerate(row.body):
        body = row.body[:place] + ("x" if character != "x" else "y") + row.body[place + 1 :]
        changed = [*rows[: number - 1], row._replace(body=body), *rows[number:]]
        for found in (list(findings(changed)), list(findings(changed, seals(rows)))):
            assert [(f.fault, f.setup, f.sequence) for f in found] == [
                ("changed", "demo-1", number)
            ]


@given(st.data())
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_body_changed_together_with_its_digest_is_still_found(
    chained: Chained, data: st.DataObject
) -> None:
    """Any character, any event, the last one included, as long as the seal stands."""
    rows = stored(chained())
    number = data.draw(st.integers(1, 6))
    row = rows[number - 1]
    place = data.draw(st.integers(0, len(row.body) - 1))
    character = data.draw(st.characters(exclude_categories=("Cs",), exclude_characters=row.body))
    body = row.body[:place] + character + row.body[place + 1 :]
    changed = list(rows)
    changed[number - 1] = row._replace(body=body, digest=digest(body))
    first, *rest = findings(changed, seals(rows))
    assert (first.fault, first.sequence, rest) == ("changed", number, [])


@pytest.mark.parametrize("number", range(1, 6))
def test_without_seals_the_next_event_gives_a_rewritten_one_away(
    rows: list[Row], number: int
) -> None:
    """An exported record carries no seals: all but its last event are held by the next."""
    row = rows[number - 1]
    body = row.body.replace("A. Demo", "B. Demo")
    rows[number - 1] = row._replace(body=body, digest=digest(body))
    (finding,) = findings(rows)
    assert (finding.fault, finding.sequence) == ("changed", number)
    assert f"event {number + 1} holds another digest" in str(finding)


@pytest.mark.parametrize("number", range(1, 6))
def test_a_dropped_event_is_missing(rows: list[Row], number: int) -> None:
    """Found by the gap, whether or not there are seals."""
    left = [row for row in rows if row.sequence != number]
    for found in (findings(left), findings(left, seals(rows))):
        (finding,) = found
        assert (finding.fault, finding.setup, finding.sequence) == ("missing", "demo-1", number)
        assert str(finding) == f"Event {number} of setup demo-1 is missing."


@pytest.mark.parametrize("left", range(6))
def test_a_cut_end_is_missing_by_the_seals(rows: list[Row], left: int) -> None:
    """Down to nothing; without seals a shorter record looks whole, as `findings` says."""
    (finding,) = findings(rows[:left], seals(rows), "demo-1")
    assert (finding.fault, finding.setup, finding.sequence) == ("missing", "demo-1", left + 1)
    assert list(findings(rows[:left])) == []


@pytest.mark.parametrize(("first", "second"), [(1, 2), (2, 3), (2, 5), (1, 6), (5, 6)])
def test_two_rows_that_changed_places_are_reordered(
    rows: list[Row], first: int, second: int
) -> None:
    """Same rows, other order in the file: everything that stands too late is named."""
    noted = seals(rows)
    rows[first - 1], rows[second - 1] = rows[second - 1], rows[first - 1]
    for found in (findings(rows), findings(rows, noted)):
        faults = list(found)
        assert {finding.fault for finding in faults} == {"reordered"}
        assert faults[0].sequence == first
        assert str(faults[0]).endswith(f"it stands in the file after event {second}.")


@pytest.mark.parametrize(("first", "second"), [(1, 2), (2, 3), (2, 5), (5, 6)])
def test_two_texts_that_changed_numbers_are_reordered(
    rows: list[Row], first: int, second: int
) -> None:
    """Each text sits whole in the other's place, digest and all."""
    noted = seals(rows)
    one, other = rows[first - 1], rows[second - 1]
    rows[first - 1] = one._replace(body=other.body, digest=other.digest)
    rows[second - 1] = other._replace(body=one.body, digest=one.digest)
    for found in (findings(rows), findings(rows, noted)):
        faults = list(found)
        assert [(f.fault, f.sequence) for f in faults] == [
            ("reordered", first),
            ("reordered", second),
        ]
        assert str(faults[0]).endswith(f"its text is that of event {second}.")


def test_texts_that_changed_places_without_their_digests_are_changed(rows: list[Row]) -> None:
    """Both are named."""
    rows[1], rows[3] = (
        rows[1]._replace(body=rows[3].body),
        rows[3]._replace(body=rows[1].body),
    )
    assert [(f.fault, f.sequence) for f in findings(rows)] == [("changed", 2), ("changed", 4)]


def forgeries(row: Row) -> list[Row]:
    """Three second events of the same number: on another chain, changed, and well linked."""
    other = row.body.replace("A. Demo", "B. Demo")
    unlinked = re.sub('"previous":"[0-9a-f]+"', f'"previous":"{"f" * 64}"', other)
    return [
        row._replace(rowid=9, body=unlinked, digest=digest(unlinked)),
        row._replace(rowid=9, body=other),
        row._replace(rowid=9, body=other, digest=digest(other)),
    ]


@pytest.mark.parametrize("number", range(1, 7))
@pytest.mark.parametrize("forgery", range(3))
@pytest.mark.parametrize("first", [True, False])
def test_a_second_event_of_the_same_number_is_added(
    rows: list[Row], number: int, forgery: int, first: bool
) -> None:
    """The one that the chain does not hold is named, whichever of the two stands first."""
    noted = seals(rows)
    forged = forgeries(rows[number - 1])[forgery]
    rows.insert(number - 1 if first else number, forged)
    (finding,) = findings(rows, noted)
    assert (finding.fault, finding.sequence) == ("added", number)
    assert str(finding).endswith(f"was added: there is another event {number}.")
    if number < 6 or forgery < 2:
        assert list(findings(rows)) == [finding]


def test_the_genuine_one_of_two_events_is_the_one_kept(rows: list[Row]) -> None:
    """Both texts differ, so the finding tells which of them it means by its step."""
    body = rows[2].body.replace("clean-nose", "forged-step")
    forged = rows[2]._replace(rowid=9, body=body, digest=digest(body))
    for found in (findings([*rows[:2], forged, *rows[2:]]), findings([*rows, forged], seals(rows))):
        assert [f.step for f in found if f.fault == "added"] == ["forged-step"]


@pytest.mark.parametrize("number", range(2, 6))
def test_without_seals_an_event_on_another_chain_is_the_one_named(
    rows: list[Row], number: int
) -> None:
    """Neither neighbour fits it: it is at fault, not the one before it."""
    rows[number - 1] = forgeries(rows[number - 1])[0]
    assert [(f.fault, f.sequence) for f in findings(rows)] == [("changed", number)]


def test_an_event_put_behind_the_last_is_added(chained: Chained, rows: list[Row]) -> None:
    """Well formed, rightly numbered, but it holds some other digest, or was never sealed."""
    last = chained()[-1]
    loose = stored([replace(last, sequence=7, previous="f" * 64)])
    (finding,) = findings([*rows, *loose], seals([*rows, *loose]))
    assert named(finding) == ("added", "demo-1", 7, "record", "handing-over")
    going_on = stored([replace(last, sequence=7, previous=last.digest)])
    (finding,) = findings([*rows, *going_on], seals(rows))
    assert str(finding).endswith("it was not written through the journal.")


@pytest.mark.parametrize(
    ("number", "body", "why"),
    [
        (7, "{}", "its text is not that of an event"),
        (0, "{}", "events are counted from 1"),
        (-3, "{}", "events are counted from 1"),
    ],
)
def test_a_row_that_is_no_event_is_added(rows: list[Row], number: int, body: str, why: str) -> None:
    """Its digest matches; what it says does not."""
    (finding,) = findings([*rows, Row(7, "demo-1", number, body, digest(body))])
    assert (finding.fault, finding.sequence) == ("added", number)
    assert why in str(finding)


def test_an_event_of_another_setup_is_added(chained: Chained, rows: list[Row]) -> None:
    """Brought over whole, text and digest."""
    foreign = stored(chained("demo-2", 7))[-1]._replace(setup="demo-1")
    (finding,) = findings([*rows, foreign])
    assert named(finding)[:3] == ("added", "demo-1", 7)
    assert "belongs to setup demo-2" in str(finding)


def test_a_first_event_that_stands_on_another_is_added(chained: Chained) -> None:
    """The first holds 64 zeros and nothing else."""
    first = replace(chained(count=1)[0], previous="f" * 64)
    assert [f.fault for f in findings(stored([first]))] == ["added"]


def test_after_the_first_finding_the_rest_is_listed(rows: list[Row]) -> None:
    """Two changed, one missing, one late: all named, lowest number first."""
    noted = seals(rows)
    rows[0] = rows[0]._replace(body=rows[0].body.replace("0.001", "0.002"))
    rows[3] = rows[3]._replace(body="")
    del rows[1]
    rows.append(rows.pop(3))
    assert [(f.fault, f.sequence) for f in findings(rows, noted)] == [
        ("changed", 1),
        ("missing", 2),
        ("changed", 4),
        ("reordered", 5),
    ]


def test_a_forged_number_far_off_is_one_gap(rows: list[Row]) -> None:
    """A row numbered in the billions costs no billions of findings."""
    rows[5] = rows[5]._replace(sequence=9_000_000_000)
    faults = list(findings(rows))
    assert [(f.fault, f.sequence) for f in faults] == [
        ("missing", 6),
        ("reordered", 9_000_000_000),
    ]
    assert str(faults[0]) == "Events 6 to 8999999999 of setup demo-1 are missing."


def test_a_text_with_half_a_pair_is_changed_and_no_crash(rows: list[Row]) -> None:
    """It has no UTF-8 bytes, so it cannot be what was written."""
    rows[2] = rows[2]._replace(body="\ud800")
    assert [f.fault for f in findings(rows)] == ["changed"]


@given(st.lists(st.integers(0, 5), max_size=8))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
def test_no_choice_of_rows_passes_but_all_of_them_in_order(
    chained: Chained, choice: list[int]
) -> None:
    """Dropped, doubled or shuffled in any way: only the untouched rows have no findings."""
    rows = stored(chained())
    found = list(findings([rows[place] for place in choice], seals(rows), "demo-1"))
    assert bool(found) == (choice != list(range(6)))
    assert [f.sequence for f in found] == sorted(f.sequence for f in found)


def test_a_procedure_text_under_a_wrong_digest_is_changed() -> None:
    """The one that matches is passed over."""
    texts = [(digest("a"), "a"), (digest("b"), "B")]
    (finding,) = text_findings(texts)
    assert finding.fault == "changed"
    assert digest("b") in str(finding)


def test_a_finding_can_be_said_in_another_language(rows: list[Row]) -> None:
    """The sentence and the words for the event are catalogue entries, filled after translation."""
    german = {
        "Event {sequence} of setup {setup} is missing.": "Ereignis {sequence} von {setup} fehlt.",
        "Event {sequence} of setup {setup} ({kind}, step {step})": "Ereignis {sequence}",
        "{event} was changed: its text does not match its digest.": "{event} wurde geändert.",
    }
    changed = rows[0]._replace(body="")
    said = [finding.in_words(german.__getitem__) for finding in findings([changed, *rows[2:]])]
    assert said == ["Ereignis 1 wurde geändert.", "Ereignis 2 von demo-1 fehlt."]
