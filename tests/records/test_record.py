"""The record says all that was done, and nothing that was not."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.procedure.model import Procedure
from guide.records.of_setup import record_of
from guide.records.record import Record
from guide.records.results import _uncertainty
from guide.records.sections import sections
from guide.records.to_html import to_html
from guide.records.to_markdown import to_markdown
from guide.records.to_text import to_text

OFF = "NOT SIGNED: sign-on was off"
FORMS = [to_html, to_markdown, to_text]


@pytest.fixture
def record(walked, store) -> Record:
    """The record of the whole short setup."""
    return record_of(walked(), store)


def rows(record: Record, title: str) -> list[str]:
    """The rows of a section, each as one text."""
    return [
        " | ".join(row) for each in sections(record) if each.title == title for row in each.rows
    ]


@pytest.mark.parametrize("form", FORMS)
def test_every_step_person_time_and_figure_is_named(record: Record, form) -> None:
    """In each form, joined lines read: titles, people, times, readings, torque, decisions."""
    told = " ".join(form(record).split())
    for line in record.lines:
        assert line.title in told
        assert line.person in told
        assert f"{line.at[:10]} {line.at[11:19]}Z" in told
    for said in ("45° -0.0003", "pulled -0.0002", "screw 3 reads -0.0020 in", "came to -0.0011 in",
                 "33 ft-lb", "stamped on the plate", "accepted", "another round",
                 "outside tolerance", "within tolerance", "handed over as left"):  # fmt: skip
        assert said in told, said


def test_who_when_and_on_what(record: Record) -> None:
    """Lathe, chuck, bar, station and both people stand in the summary."""
    summary = " ".join(rows(record, "Summary"))
    for said in ("Lathe 2 (invented)", "Chuck 8", "1.25 in", "4 in", "A. Sample, B. Sample",
                 "finished", "2031-03-02 08:00:05Z", "Shift a chuck once, on paper"):  # fmt: skip
        assert said in summary, said


def test_as_left_stands_with_its_uncertainty_and_rule(record: Record) -> None:
    """And the reading before the bolts were eased is void from that event on."""
    left = record.results[-1]
    assert (left.what, left.stands, left.verdict) == ("as left", "yes", "within tolerance")
    assert left.uncertainty.startswith("0.00013 in, from graduation 0.000029, play 0.000058")
    assert left.uncertainty.endswith(", indicator error not asked for")
    assert left.tolerance == "0.001 in"
    assert left.rule == "guarded acceptance, factor 1.645"
    assert "JCGM 106:2012" in record.rules[0]
    assert f"Judged by {record.rules[0]}." in to_html(record)
    found = next(each for each in record.results if each.what == "as found")
    ease = next(each for each in record.lines if each.title == "Ease the bolts")
    assert found.stands == f"voided by event {ease.sequence}"


def test_an_error_limit_stands_with_the_distribution_it_was_taken_for() -> None:
    """Where one was known; the figures are the journal's."""
    figures = {"expanded_uncertainty": "0.0004", "error_limit": "0.0003 in",
               "uncertainty_parts": {"indicator error": "0.000173"}}  # fmt: skip
    said = _uncertainty(figures, "in", "en")
    assert "indicator error 0.000173, indicator error: anywhere within ±0.0003 in" in said
    assert said.endswith("equally likely, 0.0003 in/√3")


def test_play_is_no_result_that_could_stand(record: Record) -> None:
    """A push and a pull are shown as play and nothing else."""
    push = record.results[0]
    assert (push.judged, push.stands, push.verdict) == ("0.0002 in", "", "")


def test_haste_at_a_gate_is_noted_with_what_its_checks_said(record: Record) -> None:
    """The first gate took 1.5 s for nineteen words; the second was about two people."""
    hasty, slow = record.gates
    assert (hasty.seconds, hasty.note) == ("1.5", "faster than it can be read")
    assert (slow.seconds, slow.note) == ("31", "")
    assert [each.endswith("(B. Sample)") for each in slow.checks] == [False, True, False]
    assert hasty.checks[1] == "Keys and spanner are out."


def test_interruptions_say_why_who_and_what_had_changed(record: Record) -> None:
    """A reason, a change found, a take-over after which what was unconfirmed is no change."""
    told = rows(record, "Interruptions and corrected answers")
    assert "dinner break" in told[0]
    assert "The chuck guard: shut (recorded open)" in told[2]
    assert "changed from recorded" in told[2]
    assert "B. Sample takes over from A. Sample" in told[3]
    assert "all as recorded" in told[4]
    assert "Chuck 7 (invented) → Chuck 8" in told[5]


def test_a_corrected_answer_keeps_what_it_was(record: Record) -> None:
    """The answers show the new one with the old one beside it."""
    chuck = next(each for each in record.answers if each.name == "chuck")
    assert (chuck.answer, chuck.before) == ("Chuck 8", "Chuck 7 (invented)")


def test_a_torque_names_its_source_its_order_and_the_missing_wrench(record: Record) -> None:
    """A cross for six bolts, and that nothing showed the figure."""
    torque = next(each for each in record.torques if "33 ft-lb" in each.value)
    assert "from stamped on the plate" in torque.value
    assert "order 1-4-2-5-3-6 at 30, 70, 100 %" in torque.value
    assert torque.note == "by feel, torque not known"


def test_a_correction_shows_reading_advice_and_outcome(record: Record) -> None:
    """What the screw read, what to bring it to, a little while the sense is unknown, and got."""
    read, moved = record.corrections
    assert read.value == "screw 3 reads -0.0020 in"
    assert moved.value == (
        "screw 3, bring to -0.0015 in (by 0.0005 in), came to -0.0011 in, screw 3 tightened"
    )


def test_how_long_it_holds(record: Record) -> None:
    """A date, what ends it sooner, and that nobody read the body."""
    told = " ".join(rows(record, "How long it holds"))
    assert "2031-06-30" in told
    assert "a mounting bolt or an adjusting screw touched" in told
    assert "not read" in told


def test_the_head_is_the_stored_digest_of_the_last_event(walked, store: Store) -> None:
    """What is printed is what the journal holds."""
    record = record_of(walked(), store)
    assert (record.events, record.head) == store.last("on-paper")


def test_nothing_is_permitted_by_a_figure(record: Record) -> None:
    """The record begins with what comes first and never calls a torque or speed allowed."""
    told = to_text(record)
    assert told.index("No figure\nhere is a permission") < told.index("RESULTS")
    for word in ("allowed torque", "safe torque", "safe speed", "permitted"):
        assert word not in told


@pytest.mark.parametrize(
    ("mode", "typed_at", "marks"),
    [
        ("real", "terminal", (OFF,)),
        ("real", "serve", (OFF,)),
        ("rehearsal", "file", ("REHEARSAL, not a real lathe", "NOT TYPED AT A TERMINAL", OFF)),
        ("practice", "terminal", ("PRACTICE, not a real lathe", OFF)),
        ("real", "pipe", ("NOT TYPED AT A TERMINAL", OFF)),
    ],
)
@pytest.mark.parametrize("form", FORMS)
def test_what_is_not_real_is_marked_on_every_page(walked, store, mode, typed_at, marks, form):
    """The mark stands under each heading, or is printed on each page."""
    record = record_of(walked(mode=mode, typed_at=typed_at), store)
    assert record.marks == marks
    told = " ".join(form(record).replace("*** ", "").replace(" ***", "").split())
    assert told.count(" · ".join(marks)) >= len(sections(record))
    assert told.count('class="mark"') == (len(sections(record)) if form is to_html else 0)
    assert ("REHEARSAL" in told, "PRACTICE" in told) == (mode == "rehearsal", mode == "practice")


def test_one_that_stopped_half_way_says_where_it_stands(walked, store) -> None:
    """After ten events the walk stands at the verdict, and only a gate was confirmed."""
    record = record_of(walked(events=9), store)
    assert record.place == "Judge it as found"
    assert [each.under for each in record.signatures] == ["Before turning by hand"]
    assert (record.ends, record.results[-1].valid) == ("", True)


def test_a_record_that_does_not_verify_is_marked(
    walked, store, tmp_path: Path, paper: Procedure, spoil: Callable[..., None]
) -> None:
    """A changed reading still shows, under a mark that names the event."""
    walk = walked()
    spoil(store.path, "on-paper", 10, "-0.0017", "-0.0016")
    record = record_of(walk, store)
    assert record.marks[-1].startswith("DOES NOT VERIFY: Event 10 of setup on-paper")
    assert not record.sound


def test_the_lathe_as_it_was_left_is_told(record: Record) -> None:
    """For the next person: what holds, what hangs, and whether it can start."""
    told = " ".join(rows(record, "The lathe as it was left"))
    power = "isolated and proven: own lock on, or the plug in own keeping"
    assert f"The power to the lathe | {power}" in told
    assert "What the support carries now | nothing" in told


def test_before_anybody_has_looked_nothing_is_told_of_the_lathe(walked, store) -> None:
    """Unknown is not written down as if it were known."""
    assert record_of(walked(events=1), store).left == ()
