"""Parts: written once, brought in by name, and kept with the text that they were opened with."""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.plain import BadInput, Refusal
from guide.procedure import parts, shelf
from guide.procedure.load import load, read
from guide.procedure.problem import Unusable
from guide.settings import shipped
from guide.walk.setup import open_setup, replayed

BROKEN = Path(__file__).parents[1] / "broken"
SOUND = (BROKEN / "sound-parts.yaml").read_text(encoding="utf-8")
PART = (BROKEN / "parts" / "isolating.yaml").read_text(encoding="utf-8")
AT = "2031-03-02T08:00:00.000Z"
THEN = "Stop, power off."
SINCE = "Stop, power off, look again."


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A shop's own folder: one procedure, and the part that it includes."""
    (tmp_path / "parts").mkdir()
    (tmp_path / "sound-parts.yaml").write_text(SOUND, encoding="utf-8")
    (tmp_path / "parts" / "isolating.yaml").write_text(PART, encoding="utf-8")
    return tmp_path


def change(folder: Path, old: str, new: str) -> None:
    """The part is written anew."""
    assert old in PART
    file = folder / "parts" / "isolating.yaml"
    file.write_text(PART.replace(old, new), encoding="utf-8")


def refused(folder: Path) -> tuple[str, ...]:
    """What is wrong with the folder's procedure, each with its file and place."""
    with pytest.raises(Unusable) as refusal:
        load(folder / "sound-parts.yaml")
    return tuple(each.text("sound-parts.yaml") for each in refusal.value.problems)


def test_the_steps_stand_where_the_part_is_included(folder: Path) -> None:
    """In the stage that includes them, in their order, with what the part rests on."""
    made = load(folder / "sound-parts.yaml")
    assert [(step.name, step.stage) for step in made.steps] == [
        ("nose-facts", "isolating"),
        ("look-first", "isolating"),
        ("isolate", "isolating"),
        ("see-isolated", "isolating"),
        ("clear-away", "ending"),
        ("sign-off", "ending"),
    ]
    assert made.rests_on == ("common practice", "common practice of parts")


def test_a_step_knows_the_line_of_the_file_that_it_is_written_in(folder: Path) -> None:
    """Wherever the part was written in: its own file's line and column."""
    made = load(folder / "sound-parts.yaml")
    for step in made.steps:
        text, start = (PART, 5) if step.place.file else (SOUND, 9)
        line = text.splitlines()[step.place.line - 1]
        assert line == f"{' ' * (start - 3)}- step: {step.name}"
        assert step.place.column == start
    of_part = {step.place.file for step in made.steps if step.name == "isolate"}
    assert of_part == {"parts/isolating.yaml"}


def test_a_text_that_includes_nothing_is_kept_as_it_is(tmp_path: Path) -> None:
    """So that every setup opened before there were parts is read as it always was."""
    plain = (BROKEN / "sound-base.yaml").read_text(encoding="utf-8")
    (tmp_path / "plain.yaml").write_text(plain, encoding="utf-8")
    assert load(tmp_path / "plain.yaml").text == plain


def test_what_is_kept_is_the_whole_text(folder: Path) -> None:
    """Read anew it is the same procedure, with no file looked at; own lines keep their numbers."""
    made = load(folder / "sound-parts.yaml")
    assert made.text.startswith(SOUND)
    read.cache_clear()
    (folder / "parts" / "isolating.yaml").unlink()
    again = read(made.text, made.file)
    assert again is not made
    assert again.steps == made.steps
    assert (again.facts, again.rests_on) == (made.facts, made.rests_on)


def test_a_setup_is_replayed_with_the_part_that_it_was_opened_with(folder: Path) -> None:
    """Changed or thrown away since: the open setup goes by the words that were shown."""
    with Store(folder / "journal.sqlite3") as store:
        opened = load(folder / "sound-parts.yaml")
        open_setup(store, opened, setup="s", person="A. Sample", at=AT, lathe="Lathe 1")
        change(folder, THEN, SINCE)
        read.cache_clear()
        assert replayed(store, "s").procedure.by_name["isolate"].brief == THEN
        assert load(folder / "sound-parts.yaml").by_name["isolate"].brief == SINCE
        (folder / "parts" / "isolating.yaml").unlink()
        assert replayed(store, "s").procedure.by_name["isolate"].brief == THEN


def test_the_shop_s_own_part_goes_before_the_shipped_one(folder: Path, monkeypatch) -> None:
    """And the shipped one is there for a folder that has none of its own."""
    other = folder / "shipped"
    (other / "parts").mkdir(parents=True)
    (other / "parts" / "isolating.yaml").write_text(PART.replace(THEN, SINCE), encoding="utf-8")
    monkeypatch.setattr(parts, "shipped", lambda kind: other)
    assert load(folder / "sound-parts.yaml").by_name["isolate"].brief == THEN
    (folder / "parts" / "isolating.yaml").unlink()
    assert load(folder / "sound-parts.yaml").by_name["isolate"].brief == SINCE


@pytest.mark.parametrize(
    "name",
    [
        "../isolating",
        "/tmp/isolating",
        "parts/isolating",
        "Isolating",
        "is.olating",
        "a-",
        "",
        "a" * 300,
    ],
)
def test_a_name_is_a_name_and_no_path(folder: Path, name: str) -> None:
    """Even where a file of that path is there, it is not looked for."""
    (folder / "isolating.yaml").write_text(PART, encoding="utf-8")
    text = SOUND.replace("include: isolating", f"include: {name}")
    (folder / "sound-parts.yaml").write_text(text, encoding="utf-8")
    (told,) = refused(folder)
    assert told.startswith("sound-parts.yaml:21:")
    assert "cannot name a part" in told or "`include` is empty" in told


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("steps:\n", "stepps:\n", "parts/isolating.yaml:2:1: isolating: `steps` is missing"),
        ("purpose:", "reason:", "parts/isolating.yaml:2:1: isolating: `purpose` is missing"),
        ("rests-on:", "rest:", "parts/isolating.yaml:2:1: isolating: `rests-on` is missing"),
        ("part: isolating\n", "", "parts/isolating.yaml:2:1: isolating: `part` is missing"),
        ("    kind: task\n", "    knd: task\n", "parts/isolating.yaml:6:5: look-first: `kind` is"),
        ("# Invented", "--- # Invented", "parts/isolating.yaml:1:1: a part is one plain document"),
        ("brief: Stop", "brief: &a Stop", "parts/isolating.yaml:16:12: anchors and aliases"),
    ],
)
def test_what_is_wrong_in_a_part_is_told_at_its_own_line(
    folder: Path, old: str, new: str, told: str
) -> None:
    """Whoever mends it opens the file that is named."""
    change(folder, old, new)
    found = refused(folder)
    assert any(each.startswith(told) for each in found), found


def test_a_part_that_is_no_text_is_bad_input(folder: Path) -> None:
    """Like a procedure that cannot be read."""
    (folder / "parts" / "isolating.yaml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(BadInput, match="cannot be read"):
        load(folder / "sound-parts.yaml")


def test_a_part_is_no_procedure(folder: Path) -> None:
    """Opened by itself it says what it is."""
    with pytest.raises(Refusal, match="this is a part"):
        load(folder / "parts" / "isolating.yaml")


@pytest.mark.parametrize("sign", ["\r\n", "\u2028", "\x85"])
def test_no_sign_that_ends_a_line_lets_a_part_out_of_its_place(folder: Path, sign: str) -> None:
    """What stands behind it is still the part's, whatever YAML takes for the end of a line."""
    change(folder, "# Invented, for the tests alone.\n", f"# Invented.{sign}facts: {{}}\n")
    made = load(folder / "sound-parts.yaml")
    assert "nose" in made.facts
    assert made.title == "Isolate a lathe with a bare nose"


def test_shipped_parts_are_no_procedures_and_each_is_shared() -> None:
    """They stand in a folder of their own, and at least two procedures include each of them."""
    there = {path.stem for path in (shipped("procedures") / "parts").glob("*.yaml")}
    used = [name for path in shelf.files() for name in named_by(path)]
    assert not there & {path.stem for path in shelf.files()}
    assert {name for name in used if used.count(name) > 1} == there


def named_by(path: Path) -> set[str]:
    """The parts that a procedure includes."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return {line.split("include:")[1].strip() for line in lines if "- include:" in line}
