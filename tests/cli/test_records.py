"""`records` lists the setups and shows the sheet of one."""

from __future__ import annotations

import json
from pathlib import Path

from guide.journal.store import Store
from guide.procedure.load import load
from guide.walk.setup import open_setup

AT = "2031-03-03T07:05:00.000Z"


def test_no_journal_is_no_setups_and_stays_so(call, home: Path) -> None:
    """Nothing is made by looking."""
    found = call("records")
    assert (found.code, found.err) == (0, "")
    assert str(home) in found.out
    assert json.loads(call("records", "--json").out) == {"setups": []}
    assert not home.exists()


def test_each_setup_says_what_where_who_and_how_it_stands(call, rehearsed, given) -> None:
    """The one that was worked on last stands first; a rehearsal says that it is one."""
    with Store(rehearsed) as store:
        short = load(given / "short.yaml")
        open_setup(store, short, setup="real-1", person="A. Sample", at=AT, lathe="Lathe 3")
    found = call("records").out.splitlines()
    assert found[0].startswith("real-1  short, Lathe 3: open")
    assert found[2] == "first  short (rehearsal), Lathe 2 (invented): finished"
    assert found[3].strip() == (
        "A. Sample 2031-03-02 08:00:00Z to B. Sample 2031-03-02 08:10:00Z, 11 events"
    )


def test_as_json(call, rehearsed: Path) -> None:
    """The same as keys, and that it has ended."""
    (only,) = json.loads(call("records", "--json").out)["setups"]
    assert (only["setup"], only["mode"], only["ends"], only["events"]) == (
        "first", "rehearsal", "finished", 11,
    )  # fmt: skip


def test_another_folder_may_be_named_on_either_side(call, rehearsed: Path, tmp_path) -> None:
    """Of the group, or of `show`."""
    there, nowhere = rehearsed.parent, tmp_path / "nowhere"
    assert "first" not in call("records", "--journal", nowhere).out
    assert "first" in call("records", "--journal", there, "show", "first").out
    assert "first" in call("records", "show", "first", "--journal", there).out


def test_show_is_the_sheet_as_text(call, rehearsed: Path) -> None:
    """Every step, person and time, within 80 columns."""
    found = call("records", "show", "first")
    assert (found.code, found.err) == (0, "")
    told = " ".join(found.out.split())
    for said in ("Stop and isolate", "B. Sample takes over from A. Sample", "the telephone",
                 "2031-03-02 08:05:00Z", "left isolated", "REHEARSAL"):  # fmt: skip
        assert said in told, said
    assert max(map(len, found.out.splitlines())) <= 80


def test_show_as_json_has_every_line(call, rehearsed: Path) -> None:
    """All eleven events, and the head."""
    record = json.loads(call("records", "show", "first", "--json").out)
    assert [each["sequence"] for each in record["lines"]] == list(range(1, 12))
    with Store.read(rehearsed) as store:
        assert record["head"] == store.last("first")[1]


def test_a_setup_that_is_not_there_is_bad_input(call, rehearsed: Path) -> None:
    """Exit 2, one sentence."""
    for name in ("nosuch", "No Such/../x"):
        found = call("records", "show", name)
        assert (found.code, found.out, found.in_one_sentence) == (2, "", True)


def test_a_name_cannot_steer_the_terminal(call, rehearsed: Path, given: Path) -> None:
    """An escape sequence typed as a lathe is shown, not obeyed."""
    with Store(rehearsed) as store:
        short = load(given / "short.yaml")
        open_setup(store, short, setup="real-2", person="A\x1b[2J", at=AT, lathe="B\x1b]0;x\x07")
    for arguments in (("records",), ("records", "show", "real-2")):
        told = call(*arguments).out
        assert "\x1b" not in told
        assert "⟨U+001B⟩" in told


def test_a_list_that_lost_a_setup_is_named_and_made_anew(call, rehearsed, sql) -> None:
    """The list is derived: verify says that it disagrees, and `relist` mends it."""
    with sql(rehearsed) as base:
        base.execute("DELETE FROM glance")
    found = call("verify")
    assert found.code == 1
    assert "the list of setups does not say so" in found.out
    assert call("records", "relist").code == 0
    assert call("verify").code == 0


def test_how_a_setup_ended_is_said_in_the_readers_language(
    call, rehearsed: Path, monkeypatch
) -> None:
    """A list in German has no English word at the end of each line."""
    monkeypatch.setenv("SPINDLESIDE_LANGUAGE", "de")
    assert ": fertig" in call("records").out
