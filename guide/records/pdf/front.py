"""The head of the first page: which chuck on which lathe, as found, as left, and until when."""

from __future__ import annotations

from collections.abc import Iterator

from guide.plain import N_
from guide.present.words import say
from guide.records.chuck_picture import begun, caption, chuck, pictured
from guide.records.drawing import GREY, box
from guide.records.pdf.blocks import SMALL, WIDE
from guide.records.pdf.setting import Piece, Style, beside, padded, stacked, text
from guide.records.record import Record, Result
from guide.records.section import when
from guide.records.sections import FIRST, OFF_THE_MIDDLE, SHIFTED
from guide.records.standing import answer, before, standing

LABEL = Style(8.0, bold=True, ink=GREY)
NAME, UNDER_NAME = Style(21.0, bold=True), Style(11.0)
LARGE, MIDDLE, PLAIN = Style(26.0, bold=True), Style(13.0), Style(9.0)
STRONG, DATE = Style(11.0, bold=True), Style(18.0, bold=True)
SIDE, BETWEEN = 226.0, 10.0
LEFT = WIDE - SIDE - BETWEEN


def front(record: Record, language: str) -> Piece:
    """Everything that is read at arm's length."""
    left = stacked(*_left(record, language), gap=2.0)
    drawn = pictured(record) is not None or record.screws
    right = _picture(record, language) if drawn else Piece(0.0, ())
    columns = beside((0.0, left), (LEFT + BETWEEN, right))
    below = stacked(*_below(record, language), gap=1.0)
    return stacked(
        _head(record, language),
        padded(columns, 8.0),
        padded(below, 2.0, 3.0),
        _cautions(record, language),
        gap=4.0,
    )


def _head(record: Record, language: str) -> Piece:
    """The chuck's name, or that of the work, the lathe, and which record this is."""
    told = say(
        N_("Record of setup {setup} · {title}, revision {revision} · {place}"),
        language,
        setup=record.setup,
        title=record.title,
        revision=record.revision,
        place=record.place,
    )
    name = _name(record) or say(N_("Chuck not named"), language)
    return stacked(
        text(told, WIDE, Style(9.0)),
        text(name, WIDE, NAME, most=3),
        text(answer(record, "lathe"), WIDE, UNDER_NAME, most=2),
        gap=1.0,
    )


def _below(record: Record, language: str) -> Iterator[Piece]:
    """What the next person needs to put it together the same way, and who did it with what."""
    people = ", ".join(
        " ".join(filter(None, (each.name, f"({each.role})" if each.role else "")))
        for each in record.workers
    )
    rows = [
        (N_("Marks"), answer(record, "marks")),
        (N_("Indicator"), _instrument(record, language)),
        (N_("People"), people),
    ]
    if not record.one_grip:
        unread, ran = N_("not read"), N_("yes") if record.ran_slowly else N_("no")
        rows += [
            (N_("Runout of the body itself"), record.body_runout or say(unread, language)),
            (N_("Run at the lowest speed"), say(ran, language)),
        ]
    for name, told in rows:
        if told:
            yield beside(
                (0.0, text(say(name, language), WORD - 6, Style(8.0, ink=GREY))),
                (WORD, text(told, WIDE - WORD, Style(8.6), most=4)),
            )


WORD = 108.0


def _instrument(record: Record, language: str) -> str:
    """The indicator with its division and when its calibration is due."""
    due = answer(record, "calibration-due")
    told = say(N_("calibration due {due}"), language, due=due) if due else ""
    division = answer(record, "graduation")
    worth = say(N_("division {division}"), language, division=division) if division else ""
    return ", ".join(filter(None, (answer(record, "indicator-name"), worth, told)))


def _name(record: Record) -> str:
    """What the record is about."""
    return answer(record, "work" if record.one_grip else "chuck") or answer(record, "chuck-kind")


def _left(record: Record, language: str) -> Iterator[Piece]:
    """The figures and the date."""
    held, first = standing(record), before(record)
    if held:
        yield from _held(held, record, language)
    else:
        yield text(say(N_("No result stands"), language), LEFT, Style(17.0, bold=True))
    if first:
        yield padded(text(f"{begun(first.what)}, {when(first.at)}", LEFT, LABEL), 7.0)
        yield text(_spread(first), LEFT, MIDDLE)
        yield text(_judged(first, language), LEFT, PLAIN)
    yield from _until(record, language) if held else ()


def _held(held: Result, record: Record, language: str) -> Iterator[Piece]:
    """The result that stands, with its uncertainty, its rule and where it holds."""
    yield text(f"{begun(held.what)}, {when(held.at)}, {held.person}", LEFT, LABEL, most=3)
    yield text(held.judged, LEFT, LARGE)
    yield text(_only_spread(held), LEFT, MIDDLE)
    if held.at_most:
        below = say(N_("below {limit} at 95 %"), language, limit=held.at_most)
        yield text(below, LEFT, PLAIN)
    yield text(_judged(held, language), LEFT, STRONG)
    yield text(" · ".join(filter(None, (held.rule, *record.rules))), LEFT, SMALL)
    yield text(_where(record, language), LEFT, PLAIN)


def _where(record: Record, language: str) -> str:
    """The diameter and the station that a result holds at."""
    sentences = {
        "bar-diameter": N_("at a diameter of {answer}"),
        "station": N_("{answer} from the front face of the body"),
    }
    return ", ".join(
        say(sentence, language, answer=told)
        for name, sentence in sentences.items()
        if (told := answer(record, name))
    )


def _spread(each: Result) -> str:
    """The figure and its uncertainty."""
    return " ".join(filter(None, (each.judged, _only_spread(each))))


def _only_spread(each: Result) -> str:
    """The uncertainty alone, with its coverage factor."""
    return f"± {each.expanded} (k = 2)" if each.expanded else ""


def _judged(each: Result, language: str) -> str:
    """The verdict and the tolerance."""
    allowed = say(N_("tolerance {tolerance}"), language, tolerance=each.tolerance)
    return " · ".join((each.verdict, allowed)) if each.verdict else ""


def _until(record: Record, language: str) -> Iterator[Piece]:
    """Until when, and what ends it before."""
    if not record.one_grip:
        yield padded(text(say(N_("Look again on"), language), LEFT, LABEL), 7.0)
        yield text(record.recheck or say(N_("no date given"), language), LEFT, DATE, most=2)
    ends = say(N_("Void at once after: {voids}."), language, voids="; ".join(record.voids))
    if record.fallen:
        ends = say(N_("It does not stand: {why}."), language, why=record.fallen)
    yield text(ends, LEFT, Style(8.0))


def _picture(record: Record, language: str) -> Piece:
    """The face with its caption."""
    drawn = chuck(record, SIDE)
    return stacked(
        Piece(drawn.height, drawn.shapes),
        text(caption(record, language), SIDE, Style(7.2), at="middle"),
        gap=2.0,
    )


def _cautions(record: Record, language: str) -> Piece:
    """What comes first, and what the result means at speed: in a frame, never cut."""
    inner = WIDE - 12
    about = OFF_THE_MIDDLE if record.one_grip else SHIFTED
    told = stacked(
        text(say(FIRST, language), inner, Style(8.6, bold=True)),
        text(say(about, language), inner, Style(8.2)),
        gap=1.5,
    )
    inside = beside((6.0, padded(told, 4.0, 4.0)))
    return Piece(inside.height, (box(0, 0, WIDE, inside.height, "", 1.0), *inside.shapes))
