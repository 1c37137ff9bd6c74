"""A shop's own procedures: listed and checked beside the shipped ones, and none that fails runs."""

from __future__ import annotations

import pytest

from guide.front.revision import changed_since
from guide.front.sound import sound
from guide.plain import CheckFailed
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
