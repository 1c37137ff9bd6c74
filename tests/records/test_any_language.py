"""One record reads in any language: it holds values and names, words come when it is read."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest

from guide.journal.store import Store
from guide.present.words import catalogue, written
from guide.procedure.shelf import find
from guide.records.of_setup import record_of
from guide.records.record import Record
from guide.records.sections import sections
from guide.rehearse import read_answers, rehearse
from tests.screens.made_tongue import BEGINS, ENDS, TAG, checkout

ANSWERS = Path(__file__).parents[1] / "answers"
TRANSLATED = re.compile(f"{BEGINS}[^{BEGINS}{ENDS}]*{ENDS}")
WORD = re.compile(r"[A-Za-z]{2,}")
UNITS = frozenset({"in", "mm", "um", "thou", "tenth", "tenths", "lb", "kg", "ft"})
CODED = frozenset({"yes", "no", "unknown", "rpm"})
"""What an event holds for a word that every reader has of their own."""


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A language in which every text out of a catalogue has its ends shown."""
    return checkout(tmp_path_factory.mktemp("shelf"))


@pytest.fixture
def shown_ends(shelf: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The program has that language."""
    monkeypatch.setattr("guide.settings.CHECKOUT", shelf)
    catalogue.cache_clear()
    yield
    catalogue.cache_clear()


@pytest.mark.parametrize("file", sorted(ANSWERS.glob("*.yaml")), ids=lambda file: file.stem)
def test_no_word_of_a_record_stays_english(file: Path, tmp_path: Path, shown_ends) -> None:
    """But what was typed, and units."""
    answers = read_answers(file)
    with Store(tmp_path / "journal.sqlite3") as store:
        walk = rehearse(find(answers.procedure), answers, store, "walk")
        record = record_of(walk, store, TAG)
    facts = walk.procedure.facts
    chosen = CODED | {each for fact in facts.values() for each in fact.closed}
    texts = [each for entry in walk.state.entries for each in (entry.person, *held(entry.data))]
    typed = [*facts, *(each for each in texts if each not in chosen), *UNITS, walk.state.setup]
    typed.sort(key=len, reverse=True)
    own = re.compile("|".join(rf"(?<!\w){re.escape(each)}(?!\w)" for each in typed if each))
    left = {each for each in cells(record) if WORD.search(own.sub("", untranslated(each)))}
    assert not left


def cells(record: Record) -> Iterator[str]:
    """Every text of every section."""
    for each in sections(record, TAG):
        yield from (each.title, *each.columns, each.said)
        for row in each.rows:
            yield from row


def untranslated(cell: str) -> str:
    """A text without what came out of a catalogue, however deep, and without digests."""
    while (less := TRANSLATED.sub("", cell)) != cell:
        cell = less
    return re.sub(r"\b[0-9a-f]{64}\b", "", cell)


def held(data: Any) -> Iterator[str]:
    """Every text that an event holds."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, Mapping):
        for each in data.values():
            yield from held(each)
    elif isinstance(data, Sequence):
        for each in data:
            yield from held(each)


def test_the_opening_names_the_procedure_by_its_title_in_the_readers_language(
    tmp_path: Path,
) -> None:
    """With its revision, and not by the name of its file."""
    answers = read_answers(ANSWERS / "chuck-removal-inch.yaml")
    procedure = find(answers.procedure)
    with Store(tmp_path / "journal.sqlite3") as store:
        walk = rehearse(procedure, answers, store, "walk")
        for language in ("en", "de"):
            opened = record_of(walk, store, language).lines[0].value
            assert opened.startswith(f"{written(procedure.title, language)}, ")
            assert procedure.revision in opened
            assert procedure.name not in opened
