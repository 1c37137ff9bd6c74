"""Who stood beside and what was left undone comes out in every form."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from pypdf import PdfReader

from guide.records.of_setup import record_of
from guide.records.pdf.to_pdf import to_pdf
from guide.records.record import Record
from guide.records.to_html import to_html
from guide.records.to_markdown import to_markdown
from guide.records.to_text import to_text


@pytest.fixture
def beside(walked, store) -> Record:
    """Opened by A. Sample; B. Sample witnesses the gate and allows that the set-up is left so."""
    walk = walked(signed=True, events=2)
    other = walk.hands["B. Sample"]
    told = {"person": "A. Sample", "at": "2031-03-02T09:00:00.000Z", "beside": other}
    walk.act("acknowledge", {"checks": ["1", "2"], "seconds": "9"}, **told)
    walk.act("deviate", {"why": "no stand fits this bed"}, **told)
    return record_of(walk, store)


def test_a_witness_is_named_with_role_and_key(beside: Record) -> None:
    """Under what the first person confirmed, with a meaning of their own."""
    first, second, third = beside.signatures
    assert (first.name, first.role, first.meaning) == (
        "A. Sample", "supervisor", "each check confirmed by looking",
    )  # fmt: skip
    assert (second.name, second.role, second.meaning) == ("B. Sample", "machinist", "witnessed it")
    assert (third.name, third.meaning) == ("B. Sample", "allowed it to be left undone as written")
    assert len({first.key, second.key}) == 2
    assert [each.role for each in beside.workers] == ["supervisor", "machinist"]


def test_a_deviation_tells_why_and_who_allowed_it(beside: Record) -> None:
    """And nothing of the step is told as done."""
    (only,) = beside.deviations
    assert (only.title, only.why) == ("Set the indicator", "no stand fits this bed")
    assert (only.person, only.allowed_by, only.role) == ("A. Sample", "B. Sample", "machinist")
    assert beside.sound


@pytest.mark.parametrize("form", [to_html, to_markdown, to_text])
def test_each_form_tells_it(beside: Record, form) -> None:
    """The reason, the meaning and the key."""
    told = " ".join(form(beside).split())
    for said in ("no stand fits this bed", "B. Sample, machinist", "witnessed it",
                 beside.signatures[1].key[:16]):  # fmt: skip
        assert said in told, said


def test_the_pages_tell_it_too(beside: Record) -> None:
    """The witness of a gate stands among the signatures."""
    pages = PdfReader(BytesIO(to_pdf(beside)), strict=True).pages
    told = re.sub(r"\s", "", "".join(page.extract_text() for page in pages))
    for said in ("Deviations", "no stand fits this bed", "witnessed it", "B. Sample, machinist"):
        assert re.sub(r"\s", "", said) in told, said
