"""A shop's own procedures: listed and checked beside the shipped ones, and none that fails runs."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.front.revision import changed_since
from guide.front.sound import sound
from guide.plain import CheckFailed
from guide.present.po import catalogue_of, entry, texts_in
from guide.present.words import _kept_in, reviewed, written
from guide.procedure.begun import begun
from guide.procedure.shelf import files, find


@pytest.fixture
def own(home):
    """The folder of a shop's own, with one in it."""
    folder = home / "procedures"
    folder.mkdir(parents=True)
    text = begun("chuck-cleaning", "Clean a chuck", "Every month.", "A. Sample")
    (folder / "chuck-cleaning.yaml").write_text(text)
    return folder


def test_one_stands_beside_the_shipped_ones_and_is_checked_with_them(call, own) -> None:
    """By its name, without a path."""
    assert "chuck-cleaning" in call("procedures").out
    assert call("check", "chuck-cleaning").code == 0
    assert call("procedures", "show", "chuck-cleaning").out.startswith("Clean a chuck")


def test_none_takes_the_name_of_a_shipped_one(own) -> None:
    """What was checked when it was shipped stays what it is."""
    (own / "chuck-removal.yaml").write_text("procedure: chuck-removal")
    assert not [each for each in files() if each.parent == own and each.stem == "chuck-removal"]
    assert find("chuck-removal").steps


def test_another_folder_can_be_told(call, tmp_path, monkeypatch) -> None:
    """For a shop that keeps them elsewhere."""
    (tmp_path / "own.yaml").write_text(begun("own", "Our own", "Often.", "A. Sample"))
    monkeypatch.setenv("SPINDLESIDE_PROCEDURES", str(tmp_path))
    assert "Our own" in call("procedures").out


def test_one_that_fails_its_check_does_not_run(own) -> None:
    """Neither from the start page nor by its name."""
    path = own / "chuck-cleaning.yaml"
    path.write_text(path.read_text().replace("          - shut guard if guard=open\n", ""))
    with pytest.raises(CheckFailed, match="fails its check and does not run"):
        sound("chuck-cleaning")


def test_a_change_while_a_setup_is_open_is_said_in_words(own) -> None:
    """What it was opened with, what is there now, and what to do about it."""
    opened = find("chuck-cleaning")
    assert changed_since(opened) == ""
    path = own / "chuck-cleaning.yaml"
    path.write_text(path.read_text().replace('revision: "1"', 'revision: "2"'))
    assert "revision 1 of the procedure" in changed_since(opened)
    assert "revision 2 is there now" in changed_since(opened)
    path.write_text(path.read_text().replace('revision: "2"', 'revision: "1"') + "# other\n")
    assert "revision 1, with other words is there now" in changed_since(opened)
    path.unlink()
    assert changed_since(opened) == ""


@pytest.fixture
def german(own, monkeypatch):
    """The catalogue beside a shop's own procedure, one text of it said in German."""

    def said(text: str, words: str, head: str = "") -> str:
        path = own / "de.po"
        path.write_text(f'{head}\nmsgid "{text}"\nmsgstr "{words}"\n', encoding="utf-8")
        _kept_in.cache_clear()
        return text

    yield said
    _kept_in.cache_clear()


def test_its_texts_are_said_in_the_language_of_the_catalogue_beside_it(german) -> None:
    """Also for whoever reads another German; a text that is not there stays as it is written."""
    text = german("Clean a chuck", "Ein Futter putzen")
    assert written(text, "de") == written(text, "de-AT") == "Ein Futter putzen"
    assert written(text, "en") == written(text, "es") == text
    assert written("Every month.", "de") == "Every month."


def test_no_shops_own_words_take_the_place_of_shipped_ones(german) -> None:
    """What a shipped gate says was translated once, and stays so."""
    shipped = next(iter(find("chuck-removal").steps)).title
    before = written(shipped, "de")
    german(shipped, "Etwas anderes")
    assert written(shipped, "de") == before != shipped


def test_the_english_stands_under_gates_until_a_shops_own_words_were_read_too(
    german, monkeypatch
) -> None:
    """Every catalogue has to have been read by a machinist, the shop's own like the others."""
    read = catalogue_of("# Reviewed-By-Machinist: yes\n")
    monkeypatch.setattr("guide.present.words.catalogue", lambda *_: read)
    assert reviewed("de")
    german("Clean a chuck", "Ein Futter putzen")
    assert not reviewed("de")
    german("Clean a chuck", "Ein Futter putzen", "# Reviewed-By-Machinist: yes\n")
    assert reviewed("de")


def test_a_catalogue_that_cannot_be_read_says_nothing(german, own) -> None:
    """The procedure stays as it was written."""
    german("Clean a chuck", "Ein Futter putzen")
    (own / "de.po").write_bytes(b"\xff\xfe\xff")
    _kept_in.cache_clear()
    assert written("Clean a chuck", "de") == "Clean a chuck"


def test_what_has_no_words_yet_is_written_down_to_be_translated(call, own) -> None:
    """Each once, with what it is; nothing that a shipped part says already."""
    found = call("procedures", "translate", "chuck-cleaning", "--into", "de")
    text = (own / "de.po").read_text(encoding="utf-8")
    assert found.code == 0
    assert '#. title of a procedure\nmsgid "Clean a chuck"\nmsgstr ""\n' in text
    assert text.count('msgid "Clean a chuck"') == 1
    assert find("chuck-cleaning").by_name["lock-gate"].title not in text


def test_what_was_translated_before_is_kept(call, own) -> None:
    """Only what is missing is added, and what is left is counted."""
    call("procedures", "translate", "chuck-cleaning", "--into", "de")
    path = own / "de.po"
    done = path.read_text(encoding="utf-8").replace(
        'msgid "Clean a chuck"\nmsgstr ""', 'msgid "Clean a chuck"\nmsgstr "Ein Futter putzen"'
    )
    path.write_text(done, encoding="utf-8")
    _kept_in.cache_clear()
    said = call("procedures", "translate", "chuck-cleaning", "--into", "de").out
    assert path.read_text(encoding="utf-8") == done
    assert "texts added: 0" in said
    assert written("Clean a chuck", "de") == "Ein Futter putzen"


@given(text=st.text(st.characters(exclude_categories=("Cs",)), min_size=1))
def test_whatever_a_text_holds_is_read_back_from_its_entry(text) -> None:
    """Quotes, backslashes and line ends."""
    assert texts_in("# head\n\n" + entry(text, "", "a note")) >= {("", text)}
