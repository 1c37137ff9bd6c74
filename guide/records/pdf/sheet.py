"""What the pages hold below their head, block by block."""

from __future__ import annotations

from guide.plain import N_
from guide.present.sheet import Line
from guide.present.words import say
from guide.records.chuck_picture import bolts
from guide.records.coded import coded
from guide.records.drawing import moved
from guide.records.evidence import UNSIGNED
from guide.records.pdf.blocks import BODY, SMALL, WIDE, pairs, table, title
from guide.records.pdf.flow import Block, Row
from guide.records.pdf.front import front
from guide.records.pdf.setting import Piece, Style, beside, padded, stacked, text
from guide.records.qr import qr
from guide.records.record import Gate, Record, Result, Signature
from guide.records.section import heads, when
from guide.records.sections_of_names import NOT_BY_KEY, SHOWN, told_of
from guide.records.standing import FIRST, standing

SQUARE = 84.0
"""Points along the code on a page."""
RING = 64.0
OF_JAWS = (
    "bell-near", "bell-far", "repeats-small-3", "repeats-middle-3", "repeats-large-3",
)  # fmt: skip
"""What jaws are judged by: the range of all grips stands at the last of them."""
KEPT = 6
"""Deviations that are never left out."""
MONO = Style(7.2, even=True)


def blocks(record: Record, language: str) -> list[Block]:
    """Every block in order."""
    made = [
        Block(Piece(0.0, ()), (Row(front(record, language), kept=True),)),
        _results(record, language),
        _torques(record, language),
        _signatures(record, language),
        _deviations(record, language),
        _gates(record, language),
        _interruptions(record, language),
        _facts(record, language),
        _evidence(record, language),
    ]
    return [each for each in made if each.rows]


def _results(record: Record, language: str) -> Block:
    """Every turn with its readings; the first, the last, the one that stands and what jaws are
    judged by always stay.
    """
    held = standing(record)
    judged = say(N_("Judged by {rules}."), language, rules="; ".join(record.rules))
    told = title(say(N_("Results"), language), judged if record.rules and not held else "")
    names = (N_("No."), N_("When"), N_("What"), N_("Who"), N_("Runout or play"), N_("U (k = 2)"),
             N_("Verdict"), N_("High at"), N_("Stands"))  # fmt: skip
    rows = ((_result(each), _under(each, language), _stays(each)) for each in record.results)
    shares = (12.5, 8, 8, 7, 10.5, 4.5, 7)
    return table(told, heads(names, language), rows, shares, language, rank=1.2, latest=True)


def _result(each: Result) -> tuple[str, ...]:
    """One set of readings as cells."""
    return (
        str(each.sequence), when(each.at), each.what, each.person, each.judged, each.expanded,
        each.verdict, each.high, each.stands,
    )  # fmt: skip


def _under(each: Result, language: str) -> str:
    """The readings as typed, and what a person must know about them."""
    limit = say(N_("below {limit} at 95 %"), language, limit=each.at_most) if each.at_most else ""
    return " · ".join(filter(None, (each.readings, limit, each.flags)))


def _stays(each: Result) -> bool:
    """Whether the row must not be left out."""
    return each.valid or each.serves_as in (*FIRST, *OF_JAWS, "as-left")


def _torques(record: Record, language: str) -> Block:
    """Bolts and screws: torque, its source and order, the ring of bolts drawn beside."""
    told = title(say(N_("Bolts and screws"), language))
    drawn = bolts(record, RING)
    if drawn:
        left = RING + 12
        words = stacked(told, padded(_order(record, language), 8.0))
        ring = Piece(drawn.height, moved(drawn.shapes, 0, 4.0))
        told = stacked(beside((WIDE - left, ring), (0.0, words)))
    return _of_lines(told, record.torques, language, rank=1.2, latest=True, kept=record.torqued)


def _order(record: Record, language: str) -> Piece:
    """The order of the bolts in words."""
    order = say(N_("Order: {order}"), language, order=" – ".join(map(str, record.order)))
    told = say(
        N_("The {count} bolts, numbered round the ring, and the way from one to the next."),
        language,
        count=record.bolts,
    )
    wide = WIDE - RING - 24
    return stacked(text(order, wide, Style(9.5, bold=True)), text(told, wide, SMALL), gap=2.0)


def _of_lines(
    told: Piece,
    lines: tuple[Line, ...],
    language: str,
    rank: float,
    *,
    latest: bool = False,
    kept: int = 0,
) -> Block:
    """Lines of the sheet."""
    names = (N_("No."), N_("When"), N_("Who"), N_("Step"), N_("Entered"))
    rows = (
        ((str(e.sequence), when(e.at), e.person, e.title,
          " · ".join(filter(None, (e.value, e.note)))), "", e.sequence == kept)
        for e in lines
    )  # fmt: skip
    return table(told, heads(names, language), rows, (9, 16, 28), language, rank, latest=latest)


def _signatures(record: Record, language: str) -> Block:
    """Printed name, date and time, and meaning; those under gates stand with the gates."""
    name = N_("Signatures") if record.sign_on else N_("Names given, not signed")
    gates = {(each.sequence, each.person) for each in record.gates}
    listed = [each for each in record.signatures if (each.sequence, each.name) not in gates]
    last = listed[-1:]
    names = (N_("No."), N_("When"), N_("Printed name"), N_("Role"), N_("Under"), N_("Meaning"),
             N_("Key"))  # fmt: skip
    rows = ((_signature(each, language), "", each in last) for each in listed)
    shares = (10, 6, 15, 11, 10)
    return table(
        title(say(name, language)), heads(names, language), rows, shares, language, rank=0.7
    )


def _signature(each: Signature, language: str) -> tuple[str, ...]:
    """One signature as cells."""
    by = each.key[:SHOWN] or say(NOT_BY_KEY, language)
    return str(each.sequence), when(each.at), each.name, each.role, each.under, each.meaning, by


def _deviations(record: Record, language: str) -> Block:
    """Tasks that were not done as written: the first ones stay whatever else goes."""
    names = (N_("No."), N_("When"), N_("Who"), N_("Step"), N_("Why"), N_("Allowed by"))
    rows = (
        ((str(e.sequence), when(e.at), e.person, e.title, e.why,
          ", ".join(filter(None, (e.allowed_by, e.role)))), "", number < KEPT)
        for number, e in enumerate(record.deviations)
    )  # fmt: skip
    told = title(say(N_("Deviations"), language))
    return table(told, heads(names, language), rows, (9, 13, 16, 14), language, rank=0.25)


def _gates(record: Record, language: str) -> Block:
    """Every gate: how many checks, each confirmed, by whom and when."""
    count = sum(len(each.checks) for each in record.gates)
    said = say(
        N_(
            "{gates} gates with {checks} checks in all; each check was confirmed by looking, by its"
            " own number, by the person and at the time given."
        ),
        language,
        gates=len(record.gates),
        checks=count,
    )
    names = (N_("No."), N_("When"), N_("Who"), N_("Gate"), N_("Checks"), N_("Seconds"), N_("Note"))
    rows = ((_gate(each, language), "", bool(each.note)) for each in record.gates)
    told = title(say(N_("Gates"), language), said)
    shares = (10, 18, 9, 4, 12)
    return table(told, heads(names, language), rows, shares, language, rank=0.25)


def _gate(each: Gate, language: str) -> tuple[str, ...]:
    """One gate as cells."""
    told = say(N_("{count} of {count} confirmed"), language, count=len(each.checks))
    return str(each.sequence), when(each.at), each.person, each.title, told, each.seconds, each.note


def _interruptions(record: Record, language: str) -> Block:
    """Pauses, take-overs, making sure, corrected answers."""
    told = title(say(N_("Interruptions and corrected answers"), language))
    return _of_lines(told, record.interruptions, language, rank=1.2)


def _facts(record: Record, language: str) -> Block:
    """Every answer."""
    listed = [(each.ask, each.answer) for each in record.answers]
    return pairs(title(say(N_("Answers"), language)), listed, language, rank=3.0)


def _evidence(record: Record, language: str) -> Block:
    """The digests as text and as a square code, and what is not shown on these pages."""
    left = SQUARE + 10
    wide = WIDE - left
    rows = (_told(say(name, language), told, wide) for name, told in told_of(record, language))
    hidden = say(
        N_("Not on these pages but in the record: corrections at each one ({moves}), the lathe as"
           " it was left, and every event ({events})."),
        language,
        moves=len(record.corrections),
        events=record.events,
    )  # fmt: skip
    words = stacked(
        *rows, padded(text(say(UNSIGNED, language), wide, SMALL), 2.0), text(hidden, wide, SMALL)
    )
    code = qr(coded(record), SQUARE)
    piece = beside((0.0, Piece(code.height, code.shapes)), (left, words))
    return Block(title(say(N_("Evidence"), language)), (Row(piece, kept=True),), whole=True)


def _told(name: str, known: str, wide: float) -> Piece:
    """A word and a digest, which stays in one piece."""
    left = 118.0
    long = len(known) > 40 and " " not in known
    return padded(beside(
        (0.0, text(name, left - 6, SMALL)),
        (left, text(known, wide - left, MONO if long else BODY)),
    ), below=1.2)  # fmt: skip
