"""A blank setup sheet: every step with room to write, and what paper cannot do said first."""

from __future__ import annotations

from html.parser import HTMLParser
from io import BytesIO

import pytest
from pypdf import PdfReader

from guide.procedure.shelf import find
from guide.records.blank.lines import ON_PAPER, entries
from guide.records.blank.to_html import to_html
from guide.records.blank.to_pdf import to_pdf


@pytest.fixture(scope="module")
def procedure():
    """One with facts, gates, readings, corrections, torque and decisions."""
    return find("chuck-recheck")


class Words(HTMLParser):
    """What a browser shows, and the tags that it finds."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag, attrs) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data) -> None:
        self.words.append(data)


def plain(told: str) -> str:
    """Without gaps, hyphens of a wrap included."""
    return "".join(told.split())


def test_the_html_has_every_step_a_box_for_every_check_and_fetches_nothing(procedure) -> None:
    """Paper's own caution stands first, and each gate in a frame."""
    page = Words()
    page.feed(to_html(procedure))
    told = plain("".join(page.words))
    checks = [check for step in procedure.steps for check in step.checks]
    assert all(plain(each.title) in told for each in procedure.steps)
    assert all(plain(each.say) in told for each in checks)
    assert sum(tag == "i" for tag, _ in page.tags) == len(checks)
    assert told.index(plain(ON_PAPER)) < told.index(plain(procedure.steps[0].title))
    gates = sum(step.kind == "gate" for step in procedure.steps)
    assert sum(attrs.get("class") == "gate" for _, attrs in page.tags) == gates
    assert not any({"src", "href"} & {*attrs} for _, attrs in page.tags)


def test_the_pdf_has_every_step_in_order_and_numbers_its_pages(procedure) -> None:
    """Read back by a library that did not make it."""
    pages = [page.extract_text() for page in PdfReader(BytesIO(to_pdf(procedure))).pages]
    told = plain("".join(pages))
    places = [told.index(plain(f"{number}. {step.title}"))
              for number, step in enumerate(procedure.steps, start=1)]  # fmt: skip
    assert places == sorted(places)
    assert plain(ON_PAPER) in told
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page


def test_the_same_procedure_gives_the_same_bytes(procedure) -> None:
    """Nothing of the hour or the machine is in it."""
    assert to_pdf(procedure) == to_pdf(procedure)


def test_readings_have_their_places_and_who_signs_a_line(procedure) -> None:
    """A turn is read at eight and back at the first; a gate is signed by who looked."""
    listed = [each for _, steps in entries(procedure) for each in steps]
    turns = {procedure.order[step.name] + 1 for step in procedure.steps if step.take == "turn"}
    assert turns
    assert all(len(each.cells) == 9 for each in listed if each.number in turns)
    assert all("Name, date and time" in each.asks for each in listed if each.gate)
