"""The record as titled tables: the one layout that every printed form shares."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guide.plain import N_
from guide.present.sheet import Line
from guide.present.words import say
from guide.records import sections_of_names as names
from guide.records.record import Gate, Record, Result
from guide.records.section import ANSWERS, GATES, LINES, RESULTS, Rows, Section, heads, used, when

FIRST = N_(
    "The maker's manuals, local rules and a competent person come first. No figure here is a"
    " permission."
)
SHIFTED = N_(
    "Truing the bar shifts the body, which is then off its own balance; what that does grows with"
    " the square of the speed. Begin at the lowest speed, stand clear, stop if it shakes, and stay"
    " below the speed that the maker marked."
)

OFF_THE_MIDDLE = N_(
    "It holds for this work in this grip alone. Work that stands off the chuck's middle, and a body"
    " that was shifted, are out of balance, and that grows with the square of the speed. Begin at"
    " the lowest speed, stand clear, stop if it shakes, and stay below the speed that the maker"
    " marked."
)


def sections(record: Record, language: str = "en") -> tuple[Section, ...]:
    """Every section that has something to show, the shortest summary first."""
    made = (_summary, _results, _holds, _torques, _corrections, _verdicts, _left, names.signatures,
            names.people, names.deviations, _interruptions, _gates, _answers, _events,
            names.evidence)  # fmt: skip
    return tuple(used(each) for each in (make(record, language) for make in made) if each.rows)


def _summary(record: Record, language: str) -> Section:
    """Who, when, what, where."""
    told = {each.name: each.answer for each in record.answers}
    rows = (
        (N_("Setup"), record.setup),
        (N_("Stands at"), record.place),
        (N_("Procedure"), f"{record.title} ({record.procedure}, {record.revision})"),
        (N_("Lathe"), told.get("lathe")),
        (N_("Chuck"), told.get("chuck") or told.get("chuck-kind")),
        (N_("What is centred"), told.get("work")),
        (N_("Indicator"), told.get("indicator-name")),
        (N_("Diameter of the bar"), told.get("bar-diameter")),
        (N_("Station"), told.get("station")),
        (N_("Tolerance"), told.get("tolerance")),
        (N_("Opened"), when(record.opened_at)),
        (N_("Last event"), when(record.last_at)),
        (N_("People"), ", ".join(record.people)),
    )
    return Section(say("Summary", language), ("", ""), _told(rows, language), say(FIRST, language))


def _told(rows: Iterable[tuple[str, str | None]], language: str) -> Rows:
    """Rows of a word and what is known of it."""
    return tuple((say(name, language), each) for name, each in rows if each)


def _results(record: Record, language: str) -> Section:
    """Each set of readings with its uncertainty and the rule it was judged by."""
    rows = tuple(_result(each) for each in record.results)
    judged = say(N_("Judged by {rules}."), language, rules="; ".join(record.rules))
    said = judged if record.rules else ""
    columns = heads(RESULTS, language)
    return Section(say("Results", language), columns, rows, said, plain=5, picture="face")


def _result(each: Result) -> tuple[str, ...]:
    """One set of readings as cells."""
    return (
        str(each.sequence), each.what, when(each.at), each.person, each.readings, each.judged,
        each.uncertainty, each.at_most, each.tolerance, each.verdict, each.high, each.stands,
        each.rule, each.flags,
    )  # fmt: skip


def _holds(record: Record, language: str) -> Section:
    """How long it holds, and what ends it before."""
    if not record.results:
        return Section("", (), ())
    if record.one_grip:
        return _holds_in_this_grip(record, language)
    unread = say(N_("not read"), language)
    ran = say(N_("yes") if record.ran_slowly else N_("no"), language)
    rows = (
        (N_("Look again on"), record.recheck or say(N_("no date given"), language)),
        _ends(record),
        (N_("Runout of the body itself"), record.body_runout or unread),
        (N_("Run at the lowest speed"), ran),
    )
    title = say("How long it holds", language)
    return Section(title, ("", ""), _told(rows, language), say(SHIFTED, language))


def _holds_in_this_grip(record: Record, language: str) -> Section:
    """Work that was centred holds while its grip does: no date, no body, no run to tell of."""
    rows = (_ends(record),)
    title = say("How long it holds", language)
    return Section(title, ("", ""), _told(rows, language), say(OFF_THE_MIDDLE, language))


def _ends(record: Record) -> tuple[str, str]:
    """What ends a result that stands; why one does not."""
    if record.fallen:
        return N_("It does not stand"), record.fallen
    return N_("Void at once after"), "; ".join(record.voids)


def _torques(record: Record, language: str) -> Section:
    """Bolts and screws."""
    return _of_lines(N_("Bolts and screws"), record.torques, language)


def _corrections(record: Record, language: str) -> Section:
    """Readings at a screw, advice and result."""
    return _of_lines(N_("Corrections"), record.corrections, language)


def _verdicts(record: Record, language: str) -> Section:
    """What persons decided."""
    return _of_lines(N_("Verdicts"), record.verdicts, language)


def _left(record: Record, language: str) -> Section:
    """The machine as the last event leaves it."""
    return Section(say("The lathe as it was left", language), ("", ""), record.left)


def _interruptions(record: Record, language: str) -> Section:
    """Pauses, take-overs, making sure, corrected answers."""
    return _of_lines(N_("Interruptions and corrected answers"), record.interruptions, language)


def _events(record: Record, language: str) -> Section:
    """Everything, in order."""
    return _of_lines(N_("Every event"), record.lines, language)


def _of_lines(title: str, lines: tuple[Line, ...], language: str) -> Section:
    """Lines of the sheet as a table."""
    rows = tuple(
        (str(each.sequence), when(each.at), each.person, each.stage, each.title, each.value,
         each.note)
        for each in lines
    )  # fmt: skip
    return Section(say(title, language), heads(LINES, language), rows, plain=6)


def _gates(record: Record, language: str) -> Section:
    """Gates with what each check said."""
    rows = tuple(_gate(each) for each in record.gates)
    return Section(say("Gates", language), heads(GATES, language), rows, plain=5)


def _gate(each: Gate) -> tuple[str, ...]:
    """One gate as cells."""
    said = " ".join(f"({number}) {check}" for number, check in enumerate(each.checks, start=1))
    return str(each.sequence), when(each.at), each.person, each.title, said, each.seconds, each.note


def _answers(record: Record, language: str) -> Section:
    """Facts with what they were before."""
    rows = tuple((each.name, each.ask, each.answer, each.before) for each in record.answers)
    return Section(say("Answers", language), heads(ANSWERS, language), rows, plain=3)


def heading(record: Record, language: str = "en") -> Iterator[str]:
    """The title of the record and, where there are any, its marks."""
    yield say(N_("Record of setup {setup}"), language, setup=record.setup)
    yield from record.marks
