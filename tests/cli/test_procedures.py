"""`procedures` lists what can be walked."""

from __future__ import annotations

import json

from guide.procedure.shelf import files, parts
from guide.procedure.vocabulary import DECISIONS, SERVES_AS, TAKES
from guide.walk.branch_tests import MEANS
from guide.walk.table import DRESSING
from guide.walk.world import ACTIONS, TABLE_FACTS, VARIABLES


def test_every_shipped_procedure_is_listed_with_its_title(call) -> None:
    """One a line, in the order of their names."""
    found = call("procedures")
    assert (found.code, found.err) == (0, "")
    names = [line.split()[0] for line in found.out.splitlines()]
    assert names == [path.stem for path in files()]


def test_as_json(call) -> None:
    """Name, title, revision, stages and the number of steps."""
    found = json.loads(call("procedures", "--json").out)
    for each in found["procedures"]:
        assert set(each) == {"name", "title", "revision", "stages", "steps"}
        assert each["steps"] > len(each["stages"]) > 0


def test_it_needs_no_journal_and_makes_none(call, home) -> None:
    """Listing leaves no trace."""
    call("procedures")
    assert not home.exists()


def test_one_is_shown_as_text_and_as_a_chart(call) -> None:
    """Its title first, or the chart's own first word."""
    assert call("procedures", "show", "chuck-removal").out.startswith("Take a chuck or a plate off")
    assert call("procedures", "show", "chuck-removal", "--as", "mermaid").out.startswith(
        "flowchart"
    )


def test_one_that_is_not_there_is_refused(call) -> None:
    """One sentence, and what is there."""
    found = call("procedures", "show", "nothing-such")
    assert found.code == 2
    assert found.in_one_sentence


def test_a_blank_sheet_is_written_in_the_form_of_its_ending(call, tmp_path) -> None:
    """PDF and HTML; no other."""
    for name, begins in (("a.pdf", b"%PDF-"), ("a.html", b"<!DOCTYPE html>")):
        assert call("procedures", "sheet", "chuck-recheck", "--to", str(tmp_path / name)).code == 0
        assert (tmp_path / name).read_bytes().startswith(begins)
    found = call("procedures", "sheet", "chuck-recheck", "--to", str(tmp_path / "a.txt"))
    assert found.code == 2
    assert found.in_one_sentence


def test_the_schema_is_json(call) -> None:
    """For editors."""
    assert json.loads(call("procedures", "schema").out)["title"] == "A procedure of spindleside"


def test_a_new_one_passes_check_and_is_never_written_over(call, tmp_path) -> None:
    """A second time it is left as it is."""
    told = ("--title", "Clean a chuck", "--purpose", "Every month.", "--author", "A. Sample")
    begin = ("procedures", "new", "chuck-cleaning", *told, "--to", str(tmp_path))
    assert call(*begin).code == 0
    path = tmp_path / "chuck-cleaning.yaml"
    assert call("check", str(path)).code == 0
    path.write_text("mine")
    found = call(*begin)
    assert found.code == 2
    assert found.in_one_sentence
    assert path.read_text() == "mine"


def test_every_word_that_a_procedure_may_hold_is_listed(call) -> None:
    """Whoever writes one needs no source: states, actions, tests, facts, readings, parts."""
    said = call("procedures", "words").out
    listed = {line.strip().split(":")[0].rstrip("*") for line in said.splitlines() if ":" in line}
    words = {*VARIABLES, *MEANS, *TABLE_FACTS, *SERVES_AS, *TAKES, *DECISIONS, *parts()}
    assert words | (ACTIONS.keys() - DRESSING) <= listed
    assert "unit" in listed
    for values in VARIABLES.values():
        for each in set(values) - {"unknown"}:
            assert f"{each} (" in " ".join(said.split()), each


def test_an_action_is_listed_with_what_it_needs_and_what_is_so_after_it(call) -> None:
    """In the spelling of conditions, to be written into a `when`."""
    said = " ".join(call("procedures", "words").out.split())
    assert "grip bar: jaws=loose/closed; chuck-key=in; carried=nothing → jaws=on-bar" in said


def test_a_part_of_a_shops_own_is_listed_with_what_it_is_for(call, home) -> None:
    """It stands in place of a shipped one of the same name; one that cannot be read stays blank."""
    folder = home / "procedures" / "parts"
    folder.mkdir(parents=True)
    (folder / "guard-open.yaml").write_text("part: guard-open\npurpose: Our own guard.\n")
    (folder / "unread.yaml").write_text("part: [")
    assert parts()["guard-open"] == "Our own guard."
    assert parts()["unread"] == ""
    assert "guard-open: Our own guard." in call("procedures", "words").out
