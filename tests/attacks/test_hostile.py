"""Names and notes made to break what shows them: refused in a sentence, or shown as signs only."""

from __future__ import annotations

import json
from typing import Any

import pytest

from guide.journal.store import Store
from guide.plain import Refusal
from guide.present.visible import UNSEEN, visible
from guide.walk.setup import Setup, open_setup, resume_setup

AT = "2031-03-04T08:00:00.000Z"
HOSTILE = {
    "markup": "[bold red]A[/] [link=file:///x]y[/link] [",
    "html": "<script>alert(1)</script>&amp;\"'",
    "escape": "\x1b[2J\x1b]0;title\x07\x9b31m",
    "direction": "A\u202egnp.\u202c\u2066\u200f",
    "formula": "=cmd|'/c calc'!A0",
    "lines": "one\r\ntwo\ttabbed\u2028three\x0bfour\x85",
    "format": "{person} {0} %s $(x) `y`",
    "path": "../../etc/passwd",
    "long": "x" * 10_000,
    "zero": "\x00",
    "private": "\ue000\U000f0000\uffff",
    "marks": "a" + "\u0301" * 300,
}
REFUSED = {"blank": "", "spaces": " \t\n", "half": "\ud800", "half of bytes": "A\udcff"}


def unseen(text: str) -> set[str]:
    """What of a text would steer a terminal or not be seen, line ends and joiners aside."""
    from unicodedata import category

    return {sign for sign in text if category(sign) in UNSEEN and sign not in "\n\u200c\u200d"}


def setup(store: Store, paper: Any, **named: str) -> Setup:
    """A setup in which nobody signs."""
    told = {"setup": "odd", "person": "A. Sample", "lathe": "Lathe 9"} | named
    return open_setup(store, paper, at=AT, **told)


def shown(call: Any, hobby: Any) -> str:
    """Everything that the command line shows of it in words."""
    home = hobby.file.parent
    said = [
        call("records", "--journal", home),
        call("records", "show", "odd", "--journal", home),
        call("verify", "--journal", home),
        call("verify", "odd", "--journal", home),
    ]
    assert [each.code for each in said] == [0, 0, 0, 0]
    assert not any(each.err for each in said)
    return "".join(each.out for each in said)


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("where", ["person", "lathe", "why", "second", "fact"])
def test_what_was_typed_is_shown_as_signs_and_steers_nothing(
    hobby, paper, on_paper, call, where: str, name: str
) -> None:
    """On the list, on the sheet and by verify; as JSON it comes back as it is kept."""
    text = HOSTILE[name]
    named = {where: text} if where in ("person", "lathe") else {}
    with Store(hobby.file) as store:
        walk = setup(store, paper, **named)
        if where == "fact" and not " ".join(text.split()).isprintable():
            refused_as_an_answer(walk, on_paper.FACTS | {"chuck": text})
            text = "plain"
        facts = on_paper.FACTS | ({"chuck": text} if where == "fact" else {})
        walk.act("record", {"facts": facts}, person=walk.state.person, at=AT)
        why = text if where == "why" else "coffee"
        walk.act("pause", {"why": why}, person=walk.state.person, at=AT)
        if where == "second":
            resume_setup(store, "odd", person=text, at=AT)
    told = shown(call, hobby)
    assert unseen(told) == set()
    if where in ("person", "lathe"):
        assert visible(" ".join(text.split()) if where == "lathe" else text) in told
    kept = json.loads(call("records", "--json", "--journal", hobby.file.parent).out)["setups"][0]
    if where == "person":
        assert kept["opened_by"] == text


def refused_as_an_answer(walk: Setup, facts: dict[str, str]) -> None:
    """An answer with signs that are not seen is refused; nothing is written."""
    before = walk.state
    with pytest.raises(Refusal, match="cannot be printed"):
        walk.act("record", {"facts": facts}, person=walk.state.person, at=AT)
    assert walk.state == before


@pytest.mark.parametrize("name", REFUSED)
@pytest.mark.parametrize("where", ["person", "lathe"])
def test_what_names_nobody_and_nothing_opens_no_setup(hobby, paper, where: str, name: str) -> None:
    """One sentence; nothing is written."""
    with Store(hobby.file) as store:
        with pytest.raises(Refusal) as refused:
            setup(store, paper, **{where: REFUSED[name]})
        assert "\n" not in str(refused.value)
        assert store.last("odd")[0] == 0


@pytest.mark.parametrize("why", ["\ud800", "ab\udcff"])
def test_half_a_sign_in_a_reason_is_refused_and_the_walk_stands_where_it_was(
    hobby, paper, why: str
) -> None:
    """It has no canonical text, so no digest."""
    with Store(hobby.file) as store:
        walk = setup(store, paper)
        before = walk.state
        with pytest.raises(Refusal, match="half of a character pair"):
            walk.act("pause", {"why": why}, person="A. Sample", at=AT)
        assert (walk.state, store.last("odd")[0]) == (before, 1)


IDS = ["people", "equipment", "../x", "x/../y", "PEOPLE", "", "x" * 65, "\x1b[2J", "a b", "-" * 65]


@pytest.mark.parametrize("name", IDS)
def test_no_command_takes_an_id_that_climbs_or_names_something_else(shop, call, name: str) -> None:
    """Bad input in one sentence, nothing written, and no traceback."""
    home = shop.file.parent
    head = shop.tool.head()
    for arguments in (
        ("records", "show", "--journal", home, "--", name),
        ("verify", "--journal", home, "--", name),
        ("export", "--to", home / "x.jsonl", "--journal", home, "--", name),
        ("practice", "--debrief", name, "--journal", home),
        ("resume", "--journal", home, "--", name),
    ):
        said = call(*arguments)
        assert (said.code, said.out) == (2, ""), arguments
        assert len(said.err.splitlines()) == 1
        assert unseen(said.err) == set()
    assert shop.tool.head() == head
    assert not (home / "x.jsonl").exists()


@pytest.mark.parametrize("name", ["people", "equipment", "../x", "PEOPLE", "x" * 65, "\x1b[2J"])
def test_a_rehearsal_is_not_named_so_either(shop, paper, name: str) -> None:
    """By the engine itself, whoever asks."""
    head = shop.tool.head()
    with Store(shop.file) as store, pytest.raises(Refusal) as refused:
        setup(store, paper, setup=name, mode="rehearsal")
    assert len(str(refused.value)) < 200
    assert shop.tool.head() == head
