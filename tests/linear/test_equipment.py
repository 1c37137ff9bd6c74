"""Equipment in lines: what is kept is chosen by number, stands there, and goes with its thing."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from guide.equipment.equipment import Equipment
from guide.journal.store import Store

AT = "2030-01-31T07:05:00.000Z"
SEVEN = {"mass": "50 lb"}
NINE = {"mass": "31 kg"}


@pytest.fixture
def at_the_load(home: Path, terminal, person) -> Any:
    """A terminal at the page that asks for the chuck and its weight; two chucks are kept."""
    with Store(home / "journal.sqlite3") as store:
        kept = Equipment(store)
        kept.add("A. Sample", "chuck", "Chuck 7", SEVEN, AT)
        kept.add("A. Sample", "chuck", "Chuck 9", NINE, AT)
    at = terminal(home, "start", "chuck-removal", "--plain", "--width", "0")
    one = person(at, "chuck-removal-inch")
    one.begin()
    one.to("chuck-facts")
    return at


def test_what_is_kept_of_a_chuck_stands_there_once_it_is_chosen(at_the_load) -> None:
    """By number; Enter takes the name and the weight, and both are read back."""
    assert re.search(
        r"Kept in the equipment:\n1: Chuck 7\n2: Chuck 9\n3: none of these", at_the_load.last
    )
    assert "Stands there: Chuck 9. Enter takes it." in at_the_load.send("2")
    assert "Stands there: 31 kg. Enter takes it." in at_the_load.send("")
    assert re.search(r"1: .*Chuck 9\n2: .*31 kg\n", at_the_load.send(""))


def test_what_stood_there_of_one_chuck_never_stands_for_another(at_the_load) -> None:
    """Chosen, then another name typed: its weight is asked anew, with what is kept of that one."""
    at_the_load.send("2")
    told = at_the_load.send("chuck 7")
    assert "Stands there: 50 lb. Enter takes it." in told
    at_the_load.send("/")
    told = at_the_load.send("Chuck 12")
    assert "Stands there" not in told.rpartition("?")[2]


def test_a_weight_that_somebody_typed_stays(at_the_load) -> None:
    """None of these, a name and a figure of one's own."""
    at_the_load.send("3")
    at_the_load.send("Chuck 12")
    told = at_the_load.send("44 lb")
    assert re.search(r"1: .*Chuck 12\n2: .*44 lb\n", told)
