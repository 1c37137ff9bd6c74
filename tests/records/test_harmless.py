"""Whatever people type comes out as they typed it and does nothing."""

from __future__ import annotations

from html.parser import HTMLParser
from unicodedata import category

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from guide.present.visible import UNSEEN, visible
from guide.records.of_setup import record_of
from guide.records.to_html import to_html
from guide.records.to_markdown import cell, to_markdown
from guide.records.to_text import to_text

NASTY = "<script src=//x.example>alert(1)</script> & | `rm` **x** [a](javascript:b) \\| ~~c~~"
STEERING = "\x1b[2J\x07\u202eback\u2066\ufeff\x00\x9b31m"
LINKS = "x.com //x.org https://x.example www.x.example a@x.example ![i](//x.org/i) <img src=x>"


class Parsed(HTMLParser):
    """Which tags, attributes and words an HTML text really holds."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.words: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep what opens."""
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_data(self, data: str) -> None:
        """Keep what is shown."""
        self.words.append(data)


def rendered(markdown: str) -> Parsed:
    """Markdown through a general-purpose renderer with raw HTML, tables, strikes and links on."""
    reader = MarkdownIt("commonmark", {"html": True, "linkify": True})
    return Parsed(reader.enable(["table", "strikethrough", "linkify"]).render(markdown))


@pytest.fixture
def nasty(walked, store):
    """A record whose people, notes and answers try everything."""
    words = f"{NASTY} {STEERING} {LINKS}"
    return record_of(walked(second=f"B. {words}", note=f"note\nwith {words}", events=99), store)


@given(st.text())
def test_visible_text_has_nothing_unseen_and_one_line(text: str) -> None:
    """No control, no direction mark, no half of a pair, no line end; but joiners stay."""
    shown = visible(text)
    assert shown.splitlines() in ([], [shown])
    unseen = [sign for sign in shown if category(sign) in UNSEEN]
    assert set(unseen) <= {"\u200c", "\u200d"}


@given(st.text(st.characters(exclude_categories=sorted(UNSEEN))))
def test_visible_text_is_otherwise_as_typed(text: str) -> None:
    """Only ends of lines and unseen signs are spelled otherwise."""
    assert visible(text) == " ".join(text.replace("\t", " ").splitlines())


@given(st.text(st.sampled_from("\\`*_[]()<>|&~$\"'#!:/@.-+=ab1 wW;{}^") | st.characters()))
def test_a_markdown_cell_shows_what_was_typed(text: str) -> None:
    """A general-purpose renderer shows the same signs and finds nothing to obey."""
    typed = " ".join(visible(text).split())
    found = rendered(f"| x |\n| --- |\n| {cell(typed)} |\n")
    assert " ".join("".join(found.words).split()).removeprefix("x ").strip() in (typed, "x")
    assert found.tags <= {"table", "thead", "tbody", "tr", "th", "td"}


def test_the_html_form_holds_no_tag_but_its_own_and_asks_for_nothing(nasty) -> None:
    """No script, no picture, no link; every word that was typed stands there as text."""
    page = to_html(nasty)
    found = Parsed(page)
    assert found.tags & {"svg", "figure"} == {"svg", "figure"}
    assert not found.tags & {"use", "image", "foreignobject", "animate"}
    assert not found.tags & {"script", "img", "a", "link", "iframe", "object", "base", "form"}
    assert not found.attributes & {"src", "href", "onclick", "onload", "style"}
    assert "default-src 'none'" in page
    assert any(NASTY in words for words in found.words)
    assert any("https://x.example" in words for words in found.words)


def test_the_markdown_form_is_only_headings_tables_and_marks(nasty) -> None:
    """Rendered, it shows what was typed and holds no link, picture or script."""
    found = rendered(to_markdown(nasty))
    shown = {"h1", "h2", "p", "strong", "table", "thead", "tbody", "tr", "th", "td"}
    assert found.tags <= shown
    assert NASTY in "".join(found.words)


@pytest.mark.parametrize("form", [to_html, to_markdown, to_text])
def test_no_form_holds_a_sign_that_steers(nasty, form) -> None:
    """No escape, no bell, no turned direction, in any form."""
    text = form(nasty)
    assert not [sign for sign in text if category(sign) in UNSEEN and sign != "\n"]
    assert "⟨U+001B⟩" in text
