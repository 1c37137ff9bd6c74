"""`history`: what was found, what was left, and when to look again, for people and programs."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from guide.equipment.equipment import Equipment
from guide.journal.event import GENESIS, Event
from guide.journal.store import Store

LATHE = "Lathe 2 (invented)"
CHUCK = "Chuck 7 (invented)"
ON = {"seat": "locked", "body": "on-plate"}


def read(day: str, judged: str, verdict: str = "within") -> dict[str, str]:
    """A turn of readings as an outcome holds it."""
    return {"at": day, "judged": judged, "expanded_uncertainty": "0.0001", "unit": "in",
            "verdict": verdict, "tolerance": "0.001 in", "station": "3 in"}  # fmt: skip


def ended(store: Store, name: str, day: str, outcome: dict[str, Any], lathe: str = LATHE,
          typed_at: str = "terminal") -> None:  # fmt: skip
    """A setup of two events: opened, and ended with an outcome."""
    opening = {"mode": "real", "input": typed_at, "procedure": "chuck-recheck",
               "facts": {"lathe": lathe}}  # fmt: skip
    first = Event(name, 1, f"{day}T08:00:00.000Z", "A. Sample", "", "open", opening, GENESIS)
    data = {"ends": "finished", "world": ON, "outcome": {"chuck": CHUCK} | outcome}
    last = Event(name, 2, f"{day}T09:00:00.000Z", "A. Sample", "end", "sign", data, first.digest)
    store.append(first)
    store.append(last)


@pytest.fixture
def years(home: Path) -> Store:
    """A chuck that was trued, found well, then found outside and trued again."""
    home.mkdir()
    store = Store(home / "journal.sqlite3")
    ended(store, "one", "2020-01-01", {"as_left": read("2020-01-01", "0.0002"),
                                       "recheck": "2020-04-10"})  # fmt: skip
    ended(store, "two", "2020-04-10", {"as_found": read("2020-04-10", "0.0003"),
          "as_left": read("2020-04-10", "0.0002"), "recheck": "2020-09-07"})  # fmt: skip
    ended(store, "three", "2020-09-07", {"as_found": read("2020-09-07", "0.0015", "outside"),
          "as_left": read("2020-09-07", "0.0002"), "recheck": "2099-01-01"})  # fmt: skip
    return store


def test_nothing_is_said_where_there_is_no_journal(call, home: Path) -> None:
    """And none is made."""
    said = call("history")
    assert (said.code, said.err) == (0, "")
    assert "yet" in said.out
    assert json.loads(call("history", "--json").out) == {"chucks": []}
    assert not home.exists()


def test_the_list_says_when_and_why(call, years) -> None:
    """By the results as found, 150 days become 75: that is before the day somebody gave."""
    said = call("history")
    assert said.code == 0
    assert "as found ✗ 0.0015 ± 0.0001 in, as left ✓ 0.0002 ± 0.0001 in" in said.out
    assert "LOOK AT IT NOW: due 2020-11-21" in said.out


def test_one_chuck_is_a_picture_a_table_and_the_reasons(call, years) -> None:
    """Within the smallest terminal."""
    said = call("history", CHUCK.lower())
    assert said.code == 0
    for words in ("○", "●", "┄", "2020-01-01", "three", "100 days become 150",
                  "150 days become 75", "common practice, no source"):  # fmt: skip
        assert words in said.out
    picture = said.out.split("ended")[0]
    assert max(map(len, picture.splitlines())) <= 80


def test_a_program_gets_every_figure_as_it_was_written(call, years) -> None:
    """Text, not rounded, and the setup that each came from."""
    (chuck,) = json.loads(call("history", CHUCK, "--json").out)["chucks"]
    assert [each["setup"] for each in chuck["results"]] == ["one", "two", "three"]
    assert chuck["results"][2]["as_found"]["judged"] == "0.0015"
    assert (chuck["due"], chuck["is_due"], chuck["by_results_days"]) == ("2020-11-21", True, 75)


def test_what_happened_to_it_brings_it_forward(call, years) -> None:
    """A crash, written down in the equipment."""
    Equipment(years).voided("A. Sample", CHUCK, "a crash (invented)", "2020-09-09T10:00:00.000Z")
    (chuck,) = json.loads(call("history", "--json").out)["chucks"]
    assert (chuck["state"], chuck["due"]) == ("voided", "2020-09-09")
    assert "a crash (invented)" in call("history").out


def test_another_lathe_is_another_line(call, years) -> None:
    """`--lathe` picks one; what is on neither is refused in one sentence."""
    ended(years, "four", "2020-10-01", {"as_left": read("2020-10-01", "0.0002")}, "Lathe 3")
    assert len(json.loads(call("history", "--json").out)["chucks"]) == 2
    (one,) = json.loads(call("history", "--lathe", "lathe 3", "--json").out)["chucks"]
    assert one["lathe"] == "Lathe 3"
    for wrong in (("C 99",), (CHUCK, "--lathe", "Lathe 9")):
        said = call("history", *wrong)
        assert said.code == 2
        assert said.in_one_sentence


def test_what_a_program_walked_is_no_history(call, years) -> None:
    """Nothing is learned of a chuck that no person stood before."""
    outcome = {"as_found": read("2020-12-01", "0.0001")}
    ended(years, "five", "2020-12-01", outcome, typed_at="program")
    (chuck,) = json.loads(call("history", "--json").out)["chucks"]
    assert len(chuck["results"]) == 3
