"""A setup passed off as what it was not: signed by nobody, practice as real, figures made up."""

from __future__ import annotations

import json
from typing import Any

import pytest

from guide.records.evidence import UNSIGNED

A = "A. Sample"


def unsigned(each: Any, setup: str, **opening: Any) -> Any:
    """An event of the setup that nobody signs, the opening changed besides."""
    if each.setup != setup:
        return each
    fields = {name: told for name, told in each.fields.items() if name != "key"}
    bare = each._replace(fields=fields, signature="")
    return bare.data(**opening) if fields["sequence"] == 1 else bare


def test_sign_on_flipped_off_while_the_shops_rules_said_on(shop) -> None:
    """Every signature taken off and everything worked out anew: the opening is named."""
    off = {"sign_on": "off", "role": None, "witnesses": None}
    shop.tool.rewritten(unsigned(each, "pair", **off) for each in shop.tool.pieces())
    found = shop.tool.found()
    assert (found[0].fault, found[0].setup, found[0].sequence) == ("unsigned", "pair", 1)
    assert "the shop's rules then asked for signatures" in found[0].says


@pytest.mark.parametrize("mode", ["practice", "rehearsal"])
def test_sign_on_flipped_off_by_calling_it_no_real_one_is_marked_as_such(shop, mode: str) -> None:
    """What is left is a record that says on every page that it was none; a kept head tells more."""
    head = shop.tool.head()
    off = {"sign_on": "off", "role": None, "witnesses": None, "mode": mode}
    shop.tool.rewritten(unsigned(each, "pair", **off) for each in shop.tool.pieces())
    told = [each for each in shop.tool.found() if each.setup == "pair"]
    assert {each.fault for each in told} <= {"reckoned", "refused"}
    assert shop.tool.first(head)[0] in ("reckoned", "refused", "missing")


@pytest.mark.parametrize(
    "opening", [{"mode": "real"}, {"input": "terminal"}, {"mode": "real", "input": "terminal"}]
)
def test_a_rehearsals_text_changed_is_changed(shop, opening: dict[str, str]) -> None:
    """Mode and input are part of the first event."""
    shop.tool.edit("tried", 1, lambda fields: fields | {"data": {**fields["data"], **opening}})
    assert shop.tool.first() == ("changed", "tried", 1)


@pytest.mark.parametrize("signed_by", [None, A])
def test_a_rehearsal_passed_off_as_real_was_not_signed(shop, signed_by: str | None) -> None:
    """Everything worked out anew: real work was to be signed, by keys that sign nothing else."""
    real = {"mode": "real", "input": "terminal"}
    keys = shop.keys(A) if signed_by else {}
    shop.tool.changed("tried", 1, lambda each: each.data(**real), keys)
    assert shop.tool.first() == ("unsigned", "tried", 1)


def test_a_setup_said_to_be_signed_that_is_not(shop) -> None:
    """The rehearsal's opening says on, its events have no key."""
    on = {"mode": "real", "input": "terminal", "sign_on": "on"}
    shop.tool.changed("tried", 1, lambda each: each.data(**on))
    assert shop.tool.first()[::2] == ("refused", 1)
    assert {each.fault for each in shop.tool.found("tried")} == {"refused", "unsigned"}


def test_a_setup_opened_without_the_witnesses_that_the_shop_asks_for(shop) -> None:
    """Somebody opens it with a program of their own, and signs everything well."""
    keys = shop.keys(A, "B. Sample", "C. Sample")
    shop.tool.changed("pair", 1, lambda each: each.data(witnesses={}), keys)
    found = shop.tool.found()
    assert (found[0].fault, found[0].setup, found[0].sequence) == ("refused", "pair", 1)
    assert "asked for a second person at gate" in found[0].says


def test_a_weaker_witness_than_the_shop_asks_for(shop) -> None:
    """An apprentice where the shop says machinist."""
    keys = shop.keys(A, "B. Sample", "C. Sample")
    shop.tool.changed("pair", 1, lambda each: each.data(witnesses={"gate": "apprentice"}), keys)
    assert shop.tool.first() == ("refused", "pair", 1)


@pytest.mark.parametrize("number", [1, 11])
def test_a_role_that_was_made_up_is_forged(shop, number: int) -> None:
    """The opening and a take-over say as what somebody worked: the registry knows better."""
    keys = shop.keys(A, "B. Sample", "C. Sample")
    where = next(
        each.fields["sequence"]
        for each in shop.tool.pieces()
        if each.setup == "pair" and each.fields["kind"] == ("open" if number == 1 else "take-over")
    )
    shop.tool.changed("pair", where, lambda each: each.data(role="supervisor"), keys)
    found = [each for each in shop.tool.found() if "says that" in each.says]
    assert [(each.fault, each.sequence) for each in found] == [("forged", where)]


def figured(pieces: list[Any], name: str) -> int:
    """The number of the last event of `lone` that holds a figure of that name."""
    return max(
        each.fields["sequence"]
        for each in pieces
        if each.setup == "lone" and _holder(each.fields["data"], name) is not None
    )


def _holder(data: dict[str, Any], name: str) -> dict[str, Any] | None:
    """What of an event's data holds the figure."""
    for part in (data, data.get("figures"), data.get("outcome"), data.get("advised")):
        if isinstance(part, dict) and name in part:
            return part
    return None


def altered(each: Any, name: str, value: Any) -> Any:
    """The event with another figure."""
    data = dict(each.fields["data"])
    for part in ("figures", "outcome", "advised"):
        if isinstance(data.get(part), dict) and name in data[part]:
            return each.data(**{part: data[part] | {name: value}})
    return each.data(**{name: value})


FIGURES = [
    ("judged", "0.0001"),
    ("verdict", "outside"),
    ("expanded_uncertainty", "0.00001"),
    ("fitted_tir", "0.0001"),
    ("bring_to", "0.0100"),
    ("learned", "away"),
    ("as_left", {"judged": "0.0001"}),
    ("did", ["look"]),
    ("moved", "0.5"),
    ("ends", "abandoned"),
    ("world", {"power": "restored"}),
    ("recheck", "2099-01-01"),
    ("faster_than_read", None),
]


@pytest.mark.parametrize(("name", "value"), FIGURES, ids=[name for name, _ in FIGURES])
@pytest.mark.parametrize("signed", [False, True], ids=["unsigned", "signed by who did it"])
def test_a_figure_that_was_made_up_is_worked_out_again(
    request, signed: bool, name: str, value: Any
) -> None:
    """With chain, links and signatures anew; the event and the figure are named."""
    shop = request.getfixturevalue("shop" if signed else "hobby")
    number = figured(shop.tool.pieces(), name)
    keys = shop.keys(A) if signed else {}
    shop.tool.changed("lone", number, lambda each: altered(each, name, value), keys)
    found = [each for each in shop.tool.found() if each.setup == "lone"]
    assert (found[0].fault, found[0].sequence) == ("reckoned", number)


def test_a_way_of_working_out_that_is_not_ours_leaves_figures_unchecked_and_is_told(
    hobby, call
) -> None:
    """Somebody makes figures up and says that they were worked out in another way."""
    number = figured(hobby.tool.pieces(), "verdict")
    hobby.tool.changed("lone", number, lambda each: altered(each, "form", "0.1"))
    hobby.tool.changed("lone", 1, lambda each: each.data(reckoning="0"))
    said = call("verify", "--journal", hobby.file.parent)
    assert said.code == 0
    assert "Figures of lone were worked out in another way and are not checked." in said.out
    answer = json.loads(call("verify", "--json", "--journal", hobby.file.parent).out)
    assert answer["figures_not_checked"] == ["lone"]
    quiet = call("verify", "tried", "--journal", hobby.file.parent)
    assert "worked out in another way" not in quiet.out


def test_a_reading_changed_with_the_figures_it_comes_to_is_only_told_by_a_kept_head(hobby) -> None:
    """Without signatures all of it can be worked out anew; what verify says of itself is true."""
    head = hobby.tool.head()
    hobby.tool.changed("lone", 1, lambda each: each.data(facts={"lathe": "Lathe 2  (invented)"}))
    assert hobby.tool.first() == ("sound", "", 0)
    assert hobby.tool.first(head) == ("missing", "", 0)
    assert "worked out again by whoever holds the journal file" in UNSIGNED


def test_an_unsigned_rehearsal_passed_off_as_real_is_only_told_by_a_kept_head(hobby) -> None:
    """The same limit: where nobody signs, nothing but a kept head tells."""
    head = hobby.tool.head()
    real = {"mode": "real", "input": "terminal"}
    hobby.tool.changed("tried", 1, lambda each: each.data(**real))
    assert hobby.tool.first(head)[0] in ("reckoned", "missing")
    assert "missing" in [each.fault for each in hobby.tool.found(head=head)]
