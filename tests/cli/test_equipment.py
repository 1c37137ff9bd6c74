"""`equipment`: kept by whoever may sign, offered nowhere before it is checked, never deleted."""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from guide.journal import keys
from guide.journal.keys import signed_by
from guide.journal.standing import EQUIPMENT
from guide.journal.store import Store
from guide.people.people import People
from guide.people.rules import Rules

A, PIN = "A. Sample", "four tin horses"
AT = "2030-05-25T09:00:00.000Z"


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """PINs are stretched a little only."""
    monkeypatch.setattr(keys, "COST", 2**10)


@pytest.fixture
def shop(call, monkeypatch: pytest.MonkeyPatch) -> Callable[..., object]:
    """Calls `equipment` with lines of standard input."""

    def with_lines(*arguments: object, lines: tuple[str, ...] = ()) -> object:
        monkeypatch.setattr(sys, "stdin", io.StringIO("".join(f"{line}\n" for line in lines)))
        return call("equipment", *arguments)

    return with_lines


@pytest.fixture
def alone(home: Path) -> Path:
    """The journal of somebody who works alone and does not sign on."""
    with Store(home / "journal.sqlite3") as store:
        People(store).set_rules(A, Rules(sign_on=False), AT)
    return home / "journal.sqlite3"


def kept(shop) -> dict[str, object]:
    """What the list says of the only thing there is."""
    (thing,) = json.loads(shop("--json").out)["equipment"]
    return thing


def test_an_empty_shop_says_so_and_makes_nothing(shop, home: Path) -> None:
    """Where there is no journal yet, none is made."""
    assert "No equipment" in shop().out
    assert not home.exists()


def test_an_indicator_from_its_first_day_to_its_last(shop, alone: Path) -> None:
    """Added, changed, calibrated, retired: each is told, and all of it stays."""
    name = "Indicator 3 (invented)"
    asked = ("--set", "graduation=0.0001 in", "--set", "calibration-due=2020-01-31")
    added = shop("add", "indicator", name, *asked, "--by", A)
    assert added.code == 0, added.err
    assert "CALIBRATION OVERDUE since 2020-01-31" in added.out
    assert kept(shop)["overdue"] is True
    assert shop("change", "indicator", name, "--set", "unit=in", "--by", A).code == 0
    said = shop("calibrate", name, "--on", "2021-01-31", "--due", "2199-01-31", "--certificate",
                "No. 12 (invented)", "--limit", "0.0002 in", "--by", A)  # fmt: skip
    assert "calibrated until 2199-01-31" in said.out
    assert shop("retire", "indicator", name, "--by", A).code == 0
    thing = kept(shop)
    assert (thing["active"], thing["overdue"]) == (False, False)
    assert thing["facts"] == {
        "graduation": "0.0001 in", "calibration-due": "2199-01-31", "unit": "in",
        "error-limit": "0.0002 in",
    }  # fmt: skip


@pytest.mark.parametrize(
    "arguments",
    [
        ("add", "indicator", "I 3", "--set", "graduation=fine"),
        ("add", "indicator", "I 3", "--set", "unit=cubit"),
        ("add", "indicator", "I 3", "--set", "mass=50 lb"),
        ("add", "indicator", "I 3", "--set", "graduation"),
        ("change", "chuck", "nobody's", "--set", "mass=50 lb"),
        ("retire", "bar", "nobody's"),
        ("calibrate", "nobody's", "--on", "2021-01-31", "--due", "2022-01-31",
         "--certificate", "x"),
        ("voided", "a slip", "--why", "x"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_one_sentence_and_writes_nothing(shop, alone: Path, arguments) -> None:
    """Exit code 2."""
    said = shop(*arguments, "--by", A)
    assert said.code == 2
    assert said.in_one_sentence, said.err
    with Store.read(alone) as store:
        assert store.events(EQUIPMENT) == ()


def test_where_people_sign_on_it_is_signed(shop, home: Path) -> None:
    """With the PIN; a wrong one writes nothing, and nobody unknown may."""
    with Store(home / "journal.sqlite3") as store:
        People(store).first(A, PIN, AT)
    add = ("add", "chuck", "C 7", "--set", "screw-count=4", "--by")
    assert shop(*add, A, lines=("wrong pin",)).code == 1
    assert shop(*add, "Nobody", lines=(PIN,)).code == 2
    with Store(home / "journal.sqlite3") as store:
        assert store.events(EQUIPMENT) == ()


def test_the_signature_is_that_of_the_person(shop, home: Path) -> None:
    """Over the whole event."""
    with Store(home / "journal.sqlite3") as store:
        key = People(store).first(A, PIN, AT).key
    assert shop("add", "chuck", "C 7", "--by", A, lines=(PIN,)).code == 0
    with Store.read(home / "journal.sqlite3") as store:
        (row,) = store.rows(EQUIPMENT)
    assert signed_by(key, row.signature, row.body)


def test_a_chuck_that_is_kept_can_be_marked(shop, alone: Path) -> None:
    """With why, in the list."""
    shop("add", "chuck", "C 7", "--by", A)
    said = shop("voided", "c 7", "--why", "a crash (invented)", "--by", A)
    assert "at once" in said.out
    assert "a crash (invented)" in shop().out
