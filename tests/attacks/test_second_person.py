"""Witnesses and deviations forged into a signed setup, by people who can sign for themselves."""

from __future__ import annotations

from typing import Any

import pytest

from guide.journal import keys
from guide.journal.event import Event
from guide.people.hand import Hand
from guide.plain import NotAllowed, Refusal
from guide.walk.second import unsigned_text
from guide.walk.setup import replayed

A, B, C = "A. Sample", "B. Sample", "C. Sample"


def gates(shop: Any) -> list[int]:
    """The numbers of the events of `pair` that have a witness."""
    return [
        each.fields["sequence"]
        for each in shop.tool.pieces()
        if each.setup == "pair" and "witness" in each.fields["data"]
    ]


def witnessed(shop: Any, piece: Any, name: str, role: str, key: str, seed: bytes) -> Any:
    """The event with this witness, who signs it well."""
    told = {"person": name, "role": role, "key": key}
    bare = piece.data(witness=told)
    event = Event(**bare.fields)
    signature = keys.sign(seed, unsigned_text(event, "witness"))
    return bare.data(witness=told | {"signature": signature})


def last_gate(shop: Any, change: Any, by: str) -> tuple[str, str, int]:
    """A gate of `pair` as somebody would have it who signs for `by`, and cuts off all after it."""
    number = gates(shop)[0]
    pieces = [
        each
        for each in shop.tool.pieces()
        if each.setup != "pair" or each.fields["sequence"] <= number
    ]
    assert pieces[-1].fields["sequence"] == number
    pieces[-1] = change(pieces[-1])
    shop.tool.rewritten(pieces, shop.keys(by))
    first: tuple[str, str, int] = shop.tool.first()
    assert first[1:] in (("", 0), ("pair", number))
    return first


def test_an_honest_witness_put_back_the_same_way_is_sound(shop) -> None:
    """The way in which the forgeries below are made makes good events too."""
    hand = shop.hands[A]
    put = lambda piece: witnessed(shop, piece, A, hand.role, hand.key, hand.seed)  # noqa: E731
    assert last_gate(shop, put, B) == ("sound", "", 0)


@pytest.mark.parametrize(
    ("name", "role", "key_of", "fault"),
    [
        (B, "machinist", B, "refused"),
        ("b.  SAMPLE", "machinist", B, "refused"),
        (A, "supervisor", B, "forged"),
        (C, "apprentice", C, "refused"),
        (C, "supervisor", C, "forged"),
        (A, "machinist", A, "forged"),
        (A, "supervisor", C, "forged"),
        ("Z. Sample", "supervisor", A, "forged"),
    ],
    ids=[
        "oneself", "oneself spelled otherwise", "oneself under another name", "role too low",
        "role lied", "role lied down", "another's key", "nobody",
    ],
)  # fmt: skip
def test_a_witness_who_could_not_be_one(
    shop, name: str, role: str, key_of: str, fault: str
) -> None:
    """Signed well by the person at the lathe, and by whoever's key it is."""
    hand = shop.hands[key_of]
    put = lambda piece: witnessed(shop, piece, name, role, hand.key, hand.seed)  # noqa: E731
    assert last_gate(shop, put, B)[0] == fault


def test_a_witness_left_out_is_refused(shop) -> None:
    """The shop asked for one at each gate."""
    assert last_gate(shop, lambda piece: piece.data(witness=None), B)[0] == "refused"


def test_a_witness_without_a_signature_is_forged(shop) -> None:
    """A name and a key alone are no witness."""
    told = {"person": A, "role": "supervisor", "key": shop.hands[A].key}
    assert last_gate(shop, lambda piece: piece.data(witness=told), B)[0] == "forged"


def test_a_witness_signature_moved_from_another_gate_is_forged(shop) -> None:
    """It signs setup, number, time and everything else of that other gate."""
    other = gates(shop)[1]
    moved = next(
        each.fields["data"]["witness"]
        for each in shop.tool.pieces()
        if (each.setup, each.fields["sequence"]) == ("pair", other)
    )
    assert last_gate(shop, lambda piece: piece.data(witness=moved), B)[0] == "forged"


def test_a_gate_changed_under_its_witness_is_forged(shop) -> None:
    """The witness signed another number of seconds."""
    assert last_gate(shop, lambda piece: piece.data(seconds="59"), B)[0] == "forged"


def test_a_witness_put_where_none_was_is_forged_or_stands_by_its_signature(shop) -> None:
    """Somebody names a supervisor as witness of a step that nobody witnessed."""
    told = {"person": A, "role": "supervisor", "key": shop.hands[A].key, "signature": "ab" * 64}
    pieces = [each for each in shop.tool.pieces() if each.setup != "pair"]
    mine = [each for each in shop.tool.pieces() if each.setup == "pair"][:3]
    mine[-1] = mine[-1].data(witness=told)
    shop.tool.rewritten([*pieces, *mine], shop.keys(B))
    assert shop.tool.first() == ("forged", "pair", 3)


def test_a_gate_acknowledged_unsigned_in_a_signed_setup_is_named(shop) -> None:
    """Its key left out, and the event after it cut off."""

    def unsigned(piece: Any) -> Any:
        fields = {name: told for name, told in piece.fields.items() if name != "key"}
        return piece._replace(fields=fields, signature="")

    assert last_gate(shop, unsigned, B)[0] == "unsigned"


def lone(shop: Any, number: int, **changes: Any) -> tuple[str, str, int]:
    """An event of `lone` as A. Sample would have it, who signs everything after it anew."""
    change = lambda each: each.but(**changes.pop("body", {})).data(**changes)  # noqa: E731
    shop.tool.changed("lone", number, change, shop.keys(A))
    first: tuple[str, str, int] = shop.tool.first()
    return first


def test_a_deviation_forged_in_at_a_gate_is_refused(shop) -> None:
    """Even by a supervisor who signs everything themselves."""
    gate = next(
        each.fields["sequence"]
        for each in shop.tool.pieces()
        if each.setup == "lone" and each.fields["kind"] == "acknowledge"
    )
    allowed = {"person": A, "role": "supervisor", "key": shop.hands[A].key, "signature": "00" * 64}
    changes = {"body": {"kind": "deviate"}, "why": "no time", "allowed": allowed}
    fault, setup, number = lone(shop, gate, **changes, checks=None, seconds=None)
    assert (setup, number) == ("lone", gate)
    assert fault in ("refused", "forged")
    assert any(each.fault == "refused" and each.sequence == gate for each in shop.tool.found())


def test_a_deviation_allowed_by_somebody_who_may_not_is_refused(shop) -> None:
    """In `pair` the machinist allows what the machinist does."""
    number = next(
        each.fields["sequence"]
        for each in shop.tool.pieces()
        if each.setup == "pair" and each.fields["kind"] == "deviate"
    )
    pieces = [
        each
        for each in shop.tool.pieces()
        if each.setup != "pair" or each.fields["sequence"] <= number
    ]
    hand = shop.hands[B]
    told = {"person": B, "role": hand.role, "key": hand.key}
    event = Event(**pieces[-1].data(allowed=told).fields)
    signature = hand.sign(unsigned_text(event, "allowed"))
    pieces[-1] = pieces[-1].data(allowed=told | {"signature": signature})
    shop.tool.rewritten(pieces, shop.keys(B))
    assert shop.tool.first() == ("refused", "pair", number)


def test_the_program_lets_nobody_witness_themselves(shop, store) -> None:
    """Neither with the own hand nor under another name with the own key."""
    walk = gate_of(shop, store)
    mine = shop.hands[B]
    for beside in (mine, Hand("Z. Sample", "supervisor", mine.key, mine.seed)):
        with pytest.raises(NotAllowed, match="Nobody witnesses what they did themselves"):
            walk.act("acknowledge", CONFIRMED, person=B, at=LATE, beside=beside)


def test_a_witness_typed_into_the_entries_of_a_signed_setup_does_not_count(shop, store) -> None:
    """Only somebody who signs is one."""
    walk = gate_of(shop, store)
    typed = {"person": A, "role": "supervisor", "key": shop.hands[A].key, "signature": "ab" * 64}
    with pytest.raises(NotAllowed, match="needs a second person"):
        walk.act("acknowledge", CONFIRMED | {"witness": typed}, person=B, at=LATE)


def test_somebody_who_has_not_signed_on_does_nothing(shop, store) -> None:
    """In a signed setup each act is signed by who does it."""
    walk = gate_of(shop, store)
    walk.hands.clear()
    with pytest.raises(Refusal, match=r"B\. Sample has not signed on"):
        walk.act("pause", {"why": "coffee"}, person=B, at=LATE)


LATE = "2031-03-02T12:00:00.000Z"
CONFIRMED = {"checks": ["1", "2"], "seconds": "40"}


def gate_of(shop: Any, store: Any) -> Any:
    """`pair` standing at its first gate, B. Sample signed on."""
    number = gates(shop)[0]
    keep = (
        each
        for each in shop.tool.pieces()
        if each.setup != "pair" or each.fields["sequence"] < number
    )
    shop.tool.rewritten(keep)
    walk = replayed(store, "pair")
    walk.hands[B] = shop.hands[B]
    return walk
