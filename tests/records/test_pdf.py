"""The pages to keep with the chuck: true, whole, marked, and set in fonts that are inside."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from unicodedata import category

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from guide.journal.store import Store
from guide.present.visible import UNSEEN, visible
from guide.procedure.shelf import find
from guide.records.drawing import Words
from guide.records.of_setup import record_of
from guide.records.pdf.flow import PAGES
from guide.records.pdf.setting import SMALLEST, Style, lined
from guide.records.pdf.to_pdf import A4, EDGE, LEFT, pages_of, to_pdf
from guide.records.pdf.type import shown
from guide.records.record import Record
from guide.rehearse import read_answers, rehearse

ANSWERS = Path(__file__).parents[1] / "answers"
LETTER = (612.0, 792.0)
ODD = "中 😀 e\u0301 \u05e9\u05dc\u05d5\u05dd Ωμέγα Ёж \u202e\x1b[2J \ufffe"
"""CJK, an emoji, a mark to be joined, right to left, Greek, Cyrillic, and signs that steer."""
OPERATORS = ") Tj ET Q (x) ' endstream endobj %%EOF << /JS (app.alert(1)) >> \\"


def read(whole: bytes) -> PdfReader:
    """The file through a general-purpose library that did not make it."""
    return PdfReader(BytesIO(whole), strict=True)


def words(page) -> str:
    """All that a page shows, gaps and line ends left out."""
    return re.sub(r"\s", "", page.extract_text())


def held(told: str, page) -> bool:
    """Whether a text stands on a page, however it was broken into lines."""
    return re.sub(r"\s", "", told) in words(page)


@pytest.fixture
def record(walked, store) -> Record:
    """The whole short setup."""
    return record_of(walked(), store)


@pytest.fixture
def signed(walked, store) -> Record:
    """The same signed by two people."""
    return record_of(walked(signed=True), store)


def test_it_tells_the_result_its_uncertainty_its_rule_and_until_when(record: Record) -> None:
    """Everything that the next person needs stands on the first page."""
    first = read(to_pdf(record)).pages[0]
    for said in ("Chuck 8", "Lathe 2 (invented)", "0.00013 in", "± 0.00013 in (k = 2)",
                 "within tolerance", "tolerance 0.001 in", "JCGM 106:2012 and ISO 14253-1:2017",
                 "at a diameter of 1.25 in", "4 in from the front face", "2031-06-30",
                 "Void at once after: a crash", "A. Sample, B. Sample", "As found",
                 "No figure here is a permission", "stay below the speed"):  # fmt: skip
        assert held(said, first), said


def test_everybody_is_named_with_time_and_meaning(signed: Record) -> None:
    """Verdicts and the hand-over by name, role, time and meaning; gates with what they confirm."""
    told = "".join(words(page) for page in read(to_pdf(signed)).pages)
    for each in signed.signatures:
        assert re.sub(r"\s", "", f"{each.at[:10]} {each.at[11:19]}Z") in told
    for said in ("handed over as left", "another round", "2 of 2 confirmed", "3 of 3 confirmed",
                 "B. Sample (machinist)", "A. Sample (supervisor)", signed.signatures[-1].key[:16],
                 "on: every event is signed by who did it"):  # fmt: skip
        assert re.sub(r"\s", "", said) in told, said
    assert "NOTSIGNED" not in told


def test_the_digests_and_the_place_in_the_journal_are_there_whole(signed: Record) -> None:
    """On the last page, and the setup's own under every page."""
    pages = read(to_pdf(signed)).pages
    assert all(held(signed.head, page) for page in pages)
    assert signed.link is not None
    for digest in (signed.head, signed.text, signed.link.head, str(signed.link.number)):
        assert held(digest, pages[-1])


@pytest.mark.parametrize(
    "marks",
    [(), ("PRACTICE, not a real lathe", "NOT SIGNED: sign-on was off"),
     ("REHEARSAL", "DOES NOT VERIFY: Event 10 of setup on-paper " + "was changed, " * 20)],
)  # fmt: skip
def test_every_mark_stands_whole_on_every_page(record: Record, marks: tuple[str, ...]) -> None:
    """However long it is; with its page number and how many there are."""
    pages = read(to_pdf(replace(record, marks=marks))).pages
    for number, page in enumerate(pages, start=1):
        assert held(" · ".join(marks), page)
        assert held(f"page {number} of {len(pages)}", page)


@pytest.mark.parametrize("name", ["adjustable-chuck-inch", "adjustable-chuck-metric",
                                  "quick-centring-inch", "chuck-removal-inch"])  # fmt: skip
def test_a_whole_job_is_on_two_pages_and_tells_what_it_leaves_out(tmp_path, name: str) -> None:
    """Of a hundred events and more; every list counts what is not shown; no caution goes."""
    with Store(tmp_path / "journal.sqlite3") as store:
        answers = read_answers(ANSWERS / f"{name}.yaml")
        record = record_of(rehearse(find(answers.procedure), answers, store, name), store)
    pages = read(to_pdf(record)).pages
    assert len(pages) <= PAGES
    told = "".join(map(words, pages))
    shown_gates = len(re.findall(r"(\d)of\1confirmed", told))
    left_out = sum(map(int, re.findall(r"and(\d+)moreintherecord", told)))
    assert shown_gates > 0
    assert left_out > 0 or record.events < 60
    assert held("No figure here is a permission", pages[0])
    assert held(f"{len(record.gates)} gates with", pages[0]) or held(
        f"{len(record.gates)} gates with", pages[-1]
    )


@pytest.mark.parametrize("sheet", [A4, LETTER])
def test_all_of_it_lies_inside_both_papers(record: Record, sheet: tuple[float, float]) -> None:
    """12 pt from every edge at the least, whether a printer centres or keeps a corner."""
    lower, wider = A4[1] - sheet[1], sheet[0]
    for page in pages_of(record, "en"):
        for shape in page.shapes:
            if isinstance(shape, Words):
                assert lower + 12 <= shape.y <= A4[1] - lower - 12
                assert LEFT <= shape.x <= min(A4[0], wider) - 12
                assert shape.size >= SMALLEST
    assert EDGE - lower >= 12


def test_every_font_is_inside_and_of_two_families(record: Record) -> None:
    """Embedded TrueType subsets, none that the reader's machine would have to have."""
    fonts = {}
    for page in read(to_pdf(record)).pages:
        for font in page["/Resources"]["/Font"].values():
            told = font.get_object()
            fonts[told["/BaseFont"]] = told["/FontDescriptor"]["/FontFile2"]
    assert {name.split("+")[1] for name in fonts} == {
        "FiraSans-Regular", "FiraSans-Bold", "FiraCode-Light",
    }  # fmt: skip


@given(st.text(max_size=40))
def test_no_sign_is_dropped(text: str) -> None:
    """Each stands as it is, joined to its letter, or spelled by its number."""
    told = shown(visible(text))
    left = re.sub(r"⟨U\+[0-9A-F]{4,6}⟩", "", told)
    assert not [sign for sign in left if category(sign) in UNSEEN]
    assert len(told) >= len([s for s in text if not category(s).startswith(("M", "Z", "C"))]) / 2


def test_what_no_font_has_is_spelled(walked, store) -> None:
    """CJK, emoji and Hebrew by number, Greek and Cyrillic as they are, and nothing steers."""
    record = record_of(walked(second=f"B. {ODD}"), store)
    told = "".join(words(page) for page in read(to_pdf(record)).pages)
    for said in ("⟨U+4E2D⟩", "⟨U+1F600⟩", "⟨U+05E9⟩", "⟨U+202E⟩", "⟨U+001B⟩", "⟨U+FFFE⟩",
                 "Ωμέγα", "Ёж", "é"):  # fmt: skip
        assert said in told, said
    assert not [sign for sign in told if category(sign) in UNSEEN]


def test_words_that_look_like_operators_are_words(walked, store) -> None:
    """A name cannot end its text, open an object or name an action."""
    record = record_of(walked(second=f"B. {OPERATORS}", note=OPERATORS), store)
    whole = to_pdf(record)
    reader = read(whole)
    assert re.sub(r"\s", "", OPERATORS)[:30] in "".join(map(words, reader.pages))
    assert whole.count(b"%%EOF") == 1
    for forbidden in (b"JS", b"JavaScript", b"URI", b"Launch", b"OpenAction", b"AA", b"Annots"):
        assert not re.search(b"/" + forbidden + rb"\b", whole)
    for page in reader.pages:
        kinds = {name for _, name in page.get_contents().operations}
        assert kinds <= {b"q", b"Q", b"cm", b"BT", b"ET", b"Tf", b"Tm", b"Tj", b"TL", b"T*", b"w",
                         b"j", b"RG", b"rg", b"m", b"l", b"c", b"h", b"n", b"f", b"f*", b"S",
                         b"B", b"B*", b"b", b"s", b"Td", b"G", b"g", b"J"}  # fmt: skip


def test_very_long_names_stay_on_the_page(walked, store) -> None:
    """Of 200 signs without a gap: broken into lines, never over the edge, still two pages."""
    long = "N" * 200
    facts = {"chuck": long, "recheck-date": "2031-06-30"}
    record = record_of(walked(second=long, note=long * 5, facts=facts), store)
    pages = read(to_pdf(record)).pages
    assert len(pages) <= PAGES
    for page in pages_of(record, "en"):
        for shape in page.shapes:
            if isinstance(shape, Words) and shape.at == "start":
                style = Style(shape.size, shape.bold, shape.even)
                assert shape.x + style.wide(shape.text) <= A4[0] - 30


def test_a_setup_that_has_just_been_opened_has_its_pages_too(walked, store) -> None:
    """No result, no gate, no answer: it says so, and nothing is made up."""
    record = record_of(walked(events=0), store)
    page = read(to_pdf(record)).pages[0]
    assert held("No result stands", page)
    assert held("Chuck not named", page)
    assert "±" not in words(page)


@given(st.text(st.characters(exclude_categories=sorted(UNSEEN)), max_size=80))
def test_lines_are_no_wider_than_asked_and_lose_nothing(text: str) -> None:
    """Every sign is in one of the lines, in order."""
    style = Style(8.0)
    lines = list(lined(text, 60.0, style))
    assert all(style.wide(line) <= 60.0 or len(line) == 1 for line in lines)
    assert "".join(lines).replace(" ", "") == shown(text).replace(" ", "")


def test_it_is_dated_by_the_last_event_and_by_no_clock(record: Record) -> None:
    """The file's own date says when the record was last gone on with."""
    told = read(to_pdf(record)).metadata
    assert json.dumps(str(told["/CreationDate"])) == '"D:20310302082605Z"'
    assert told.title == "Record of setup on-paper"
