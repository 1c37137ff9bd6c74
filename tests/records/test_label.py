"""The sticker on the chuck: what stands, nothing that does not, and all of it on the sticker."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader

from guide.journal.store import Store
from guide.plain import BadInput, NotAllowed
from guide.present.visible import visible
from guide.procedure.shelf import find
from guide.records.drawing import MM, Words
from guide.records.label import HEIGHT, WIDTH, label, write_label
from guide.records.of_setup import record_of
from guide.records.pdf.setting import SMALLEST, Style
from guide.records.record import Answer, Record
from guide.rehearse import read_answers, rehearse

ANSWERS = Path(__file__).parents[1] / "answers"
NASTY = "<script>alert(1)</script> & ]]> <!-- \x1b\x00 \u202e \"'"
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def record(walked, store) -> Record:
    """The whole short setup."""
    return record_of(walked(), store)


def named(record: Record, chuck: str) -> Record:
    """The record of a chuck of another name, lathe and marks alike."""
    kept = [each for each in record.answers if each.name not in ("chuck", "lathe")]
    new = [Answer(name, name, chuck, "") for name in ("chuck", "lathe", "marks")]
    return replace(record, answers=(*kept, *new))


def told(drawing) -> str:
    """All that stands on it."""
    return " ".join(each.text for each in drawing.shapes if isinstance(each, Words))


def test_it_tells_what_stands_and_until_when(record: Record) -> None:
    """The figure with its uncertainty and diameter, who and when, the date, and the digest."""
    said = told(label(record))
    for words in ("Chuck 8", "Lathe 2 (invented)", "0.00013 in", "± 0.00013 in (k = 2)",
                  "within tolerance · tolerance 0.001 in", "at a diameter of 1.25 in, 4 in",
                  "2031-03-02 · B. Sample", "Look again on 2031-06-30", "NOT SIGNED",
                  f"on-paper · {record.head[:16]}", "No figure here is a permission"):  # fmt: skip
        assert words in said, words


def test_the_marks_that_belong_together_are_told(tmp_path: Path) -> None:
    """Of a whole job: witness marks, pinion, screw 1; and that it is a rehearsal."""
    with Store(tmp_path / "journal.sqlite3") as store:
        answers = read_answers(ANSWERS / "adjustable-chuck-inch.yaml")
        walk = rehearse(find("adjustable-chuck"), answers, store, "inch")
        said = told(label(record_of(walk, store)))
    assert "Marks: one dot on nose, plate and body; pinion 1; screw 1 beside the dot" in said
    assert said.startswith("REHEARSAL, not a real lathe · NOT TYPED AT A TERMINAL")


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"sound": False}, "does not verify"),
        ({"results": ()}, "No result of on-paper stands"),
        ({"ends": ""}, "goes on"),
        ({"one_grip": True}, "one workpiece in one grip"),
    ],
)
def test_what_would_not_hold_gets_no_label(record: Record, tmp_path, change, why) -> None:
    """One sentence and its remedy, and no file."""
    with pytest.raises(NotAllowed, match=why):
        write_label(replace(record, **change), tmp_path / "label.svg")
    assert not (tmp_path / "label.svg").exists()


def test_a_setup_whose_result_was_voided_gets_none(walked, store) -> None:
    """Half-way, with the bolts eased."""
    with pytest.raises(NotAllowed, match="No result of on-paper stands"):
        label(record_of(walked(events=19), store))


def test_an_abandoned_one_says_so(record: Record) -> None:
    """Its result may stand; nobody handed it over."""
    assert "ABANDONED before it was handed over" in told(label(replace(record, ends="abandoned")))


def test_an_ending_that_no_label_has_is_refused(record: Record, tmp_path: Path) -> None:
    """The refusal names the endings that are."""
    with pytest.raises(BadInput, match=r"\.pdf, \.svg"):
        write_label(record, tmp_path / "label.html")


@pytest.mark.parametrize("long", ["N" * 200, "W W " * 60, "Chuck"])
def test_nothing_lies_beyond_the_sticker(walked, store, long: str) -> None:
    """Of very long names the end is an ellipsis; cautions and marks stand whole."""
    record = record_of(walked(second=long.strip(), mode="rehearsal"), store)
    drawing = label(replace(named(record, long), ends="abandoned"))
    for each in drawing.shapes:
        if isinstance(each, Words):
            wide = Style(each.size, each.bold, each.even).wide(each.text)
            left = each.x - {"start": 0, "middle": wide / 2, "end": wide}[each.at]
            assert left >= 0
            assert left + wide <= WIDTH
            assert each.size <= each.y <= HEIGHT - 2
            assert each.size >= SMALLEST
    said = told(drawing)
    assert "Void at once after a crash" in said
    assert "REHEARSAL" in said


def test_the_svg_is_well_formed_runs_nothing_and_fetches_nothing(walked, store, tmp_path) -> None:
    """Shapes and words alone; what was typed stands in the description as it was typed."""
    path = tmp_path / "label.svg"
    record = record_of(walked(second=f"B. {NASTY}"), store)
    write_label(named(record, visible(NASTY)), path)
    root = ElementTree.fromstring(path.read_bytes())
    names = {each.tag.removeprefix(SVG) for each in root.iter()}
    assert names <= {"svg", "title", "desc", "path", "polygon", "polyline", "circle"}
    attributes = {name for each in root.iter() for name in each.attrib}
    assert not {each for each in attributes if each.startswith("on") or "href" in each}
    said = root.find(f"{SVG}desc").text
    assert "<script>alert(1)</script>" in said
    assert "⟨U+001B⟩⟨U+0000⟩" in said.replace("\n", " ")


def test_both_forms_have_the_size_of_the_sticker(record: Record, tmp_path: Path) -> None:
    """100 × 70 mm, so that it is printed as it is."""
    for ending in (".svg", ".pdf"):
        write_label(record, tmp_path / f"label{ending}")
    root = ElementTree.parse(tmp_path / "label.svg").getroot()
    inches = float(root.attrib["width"].removesuffix("in"))
    assert inches * 25.4 == pytest.approx(100, abs=0.02)
    (page,) = PdfReader(BytesIO((tmp_path / "label.pdf").read_bytes()), strict=True).pages
    assert (page.mediabox.width / MM, page.mediabox.height / MM) == pytest.approx((100, 70), 1e-3)
    assert re.sub(r"\s", "", "No figure here is a permission") in re.sub(
        r"\s", "", page.extract_text()
    )
