"""The chuck's label: a sticker of 100 × 70 mm with the result that stands, to go on the chuck."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from guide.plain import N_, NotAllowed
from guide.present.words import say
from guide.records.coded import coded
from guide.records.drawing import BLACK, GREY, MM, WHITE, Drawing, Shape, box, moved
from guide.records.pdf.setting import Piece, Style, beside, padded, stacked, text
from guide.records.qr import qr
from guide.records.record import Record, Result
from guide.records.sections_of_names import SHOWN
from guide.records.standing import answer, standing
from guide.records.write import known, put

DAY = 10
"""Signs of a stored time that are its date."""
WIDTH, HEIGHT = 100 * MM, 70 * MM
EDGE = 2.0 * MM
SQUARE = 25 * MM
INNER = WIDTH - 2 * EDGE
LEFT = INNER - SQUARE - 6
NAME, FIGURE, SPREAD = Style(11.5, bold=True), Style(17.0, bold=True), Style(9.0)
STRONG, PLAIN, SMALL = Style(8.0, bold=True), Style(7.5), Style(7.2)
SAID = Style(7.0, ink=GREY)
LOOK = Style(12.0, bold=True)
BAND = Style(7.6, bold=True, ink=WHITE)

ENDED_EARLY = N_("ABANDONED before it was handed over")
VOID = N_("Void at once after a crash, a remount, a touched bolt or screw, or other jaws.")
NO_LEAVE = N_("No figure here is a permission: the maker's manual and local rules come first.")


def held(record: Record) -> Result:
    """The result that the label tells, or NotAllowed where it would tell what does not hold."""
    result = standing(record)
    why = None
    if not record.sound:
        why = N_("The record of {setup} does not verify, so that no label is made of it.")
    elif result is None:
        why = N_("No result of {setup} stands, so that a label has nothing to tell.")
    elif not record.ends:
        why = N_("The setup {setup} goes on, so that its result may still change.")
    elif record.one_grip:
        why = N_("The result of {setup} holds for one workpiece in one grip, not for the chuck.")
    if why or result is None:
        raise NotAllowed(
            why or "", N_("`spindleside export` shows the whole record."), setup=record.setup
        )
    return result


def label(record: Record, language: str = "en") -> Drawing:
    """The label as a drawing of its true size; NotAllowed where no result stands."""
    result = held(record)
    whole = stacked(
        *_marked(record, language),
        beside((0.0, _left(result, record, language)), (LEFT + 6, _right(record, language))),
        _below(record, language),
        gap=2.0,
    )
    frame = box(0, 0, WIDTH, HEIGHT, WHITE, 0.5)
    return Drawing(WIDTH, HEIGHT, (frame, *moved(whole.shapes, EDGE, EDGE)))


def _marked(record: Record, language: str) -> Iterator[Piece]:
    """The marks in white on black, never cut."""
    marks = list(record.marks)
    if record.ends != "finished":
        marks.append(say(ENDED_EARLY, language))
    if marks:
        told = beside((3.0, padded(text(" · ".join(marks), INNER - 6, BAND), 2.0, 2.6)))
        ground: Shape = box(0, 0, INNER, told.height, BLACK)
        yield Piece(told.height, (ground, *told.shapes))


def _left(result: Result, record: Record, language: str) -> Piece:
    """Which chuck on which lathe, and how it was left."""
    spread = f"± {result.expanded} (k = 2)" if result.expanded else ""
    allowed = say(N_("tolerance {tolerance}"), language, tolerance=result.tolerance)
    verdict = " · ".join((result.verdict, allowed)) if result.verdict else ""
    where = say(N_("at a diameter of {answer}"), language, answer=answer(record, "bar-diameter"))
    station = answer(record, "station")
    out = say(N_("{answer} from the front face of the body"), language, answer=station)
    said = ", ".join(filter(None, (where, out if station else "")))
    return stacked(
        text(answer(record, "chuck"), LEFT, NAME, most=2),
        text(answer(record, "lathe"), LEFT, PLAIN, most=1),
        padded(text(say(N_("As left"), language), LEFT, SAID), 1.0),
        text(result.judged, LEFT, FIGURE, most=1),
        text(spread, LEFT, SPREAD, most=1),
        text(verdict, LEFT, STRONG, most=2),
        text(said, LEFT, PLAIN, most=2),
    )


def _right(record: Record, language: str) -> Piece:
    """The square code and the day to look again."""
    code = qr(coded(record, short=True), SQUARE)
    again = record.recheck or say(N_("no date given"), language)
    return stacked(
        Piece(code.height, code.shapes),
        text(say(N_("Look again on"), language), SQUARE, SAID, at="middle"),
        text(again, SQUARE, LOOK, at="middle", most=2),
    )


def _below(record: Record, language: str) -> Piece:
    """Marks, who and when, what ends it, and by what the record is known."""
    result = held(record)
    last = record.signatures[-1].name if record.signatures else result.person
    marks = say(N_("Marks: {marks}"), language, marks=answer(record, "marks") or "–")
    known_by = f"{record.setup} · {record.head[:SHOWN]}"
    return stacked(
        text(marks, INNER, SMALL, most=2),
        text(f"{result.at[:DAY]} · {last}", INNER, STRONG, most=1),
        text(say(VOID, language), INNER, SMALL),
        text(say(NO_LEAVE, language), INNER, SMALL),
        text(known_by, INNER, Style(7.0, even=True), most=1),
        gap=0.4,
    )


def _as_svg(record: Record, language: str) -> bytes:
    """The label for a label printer or a browser."""
    from guide.records.to_svg import to_svg_file

    return to_svg_file(label(record, language), record.setup).encode()


def _as_pdf(record: Record, language: str) -> bytes:
    """The label as a page of its own size."""
    from guide.records.pdf.draw import pdf

    about = " · ".join(record.marks)
    return pdf([label(record, language)], record.setup, about, record.last_at, language)


FORMS: dict[str, Callable[[Record, str], bytes]] = {".pdf": _as_pdf, ".svg": _as_svg}


def write_label(record: Record, path: Path, language: str = "en") -> None:
    """Write the label in the form that the ending names."""
    put(path, FORMS[known(path, tuple(FORMS))](record, language))
