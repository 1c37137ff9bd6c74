"""The people of a journal forged, cut or overruled."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from guide.journal import keys
from guide.journal.event import Event
from guide.journal.store import Store
from guide.people.hand import Hand
from guide.people.people import People
from guide.walk.setup import open_setup, replayed

NOON = "2031-03-03T12:00:00.000Z"
PIN = "six blue plates"


def told(shop: Any, hand: Hand, kind: str, data: Mapping[str, Any], signed: bool = True) -> int:
    """An event about people written past the people room by somebody; its number."""
    with Store(shop.file) as store:
        number, previous = store.last("people")
        key = hand.key if signed else ""
        event = Event("people", number + 1, NOON, hand.name, "", kind, data, previous, key)
        store.append(event, keys.sign(hand.seed, event.body()) if signed else "")
    return number + 1


def key_swapped(shop: Any) -> int:
    """The key with which B. Sample was added replaced by a stranger's, everything worked out."""
    own = keys.public_of(keys.new_seed())
    shop.tool.changed("people", 2, lambda each: each.data(key=own))
    return 2


def first_key_swapped(shop: Any) -> int:
    """The first person's key replaced by a stranger's, who signs the first event."""
    seed = keys.new_seed()
    own = keys.public_of(seed)
    hands = {own: lambda text: keys.sign(seed, text)}
    shop.tool.changed("people", 1, lambda each: each.data(key=own).but(key=own), hands)
    return 2


def first_key_blank(shop: Any) -> int:
    """The first person's key left out, so that nobody need sign for the supervisor."""
    shop.tool.changed(
        "people", 1,
        lambda each: each.data(key="")._replace(
            fields={n: v for n, v in each.data(key="").fields.items() if n != "key"}, signature=""
        ),
    )  # fmt: skip
    return 1


def by_an_apprentice(shop: Any) -> int:
    """An apprentice makes themselves a supervisor."""
    hand = shop.hands["C. Sample"]
    return told(shop, hand, "role", {"name": "C. Sample", "role": "supervisor"})


def in_the_supervisors_name(shop: Any) -> int:
    """The same under the supervisor's name, signed with the apprentice's key."""
    mine = shop.hands["C. Sample"]
    hand = Hand("A. Sample", "supervisor", mine.key, mine.seed)
    return told(shop, hand, "role", {"name": "C. Sample", "role": "supervisor"})


def in_the_supervisors_name_unsigned(shop: Any) -> int:
    """The same under the supervisor's name, signed by nobody."""
    hand = shop.hands["A. Sample"]
    return told(shop, hand, "role", {"name": "C. Sample", "role": "supervisor"}, signed=False)


def rules_relaxed(shop: Any) -> int:
    """An apprentice lets nobody sign on any more."""
    data = {"sign_on": False, "idle_minutes": 0, "witness": {}}
    return told(shop, shop.hands["C. Sample"], "rules", data)


def rules_relaxed_by_nobody(shop: Any) -> int:
    """The same as somebody alone would do it."""
    data = {"sign_on": False, "idle_minutes": 0, "witness": {}}
    return told(shop, shop.hands["A. Sample"], "rules", data, signed=False)


def an_unknown_kind(shop: Any) -> int:
    """Something that never happens to people."""
    return told(shop, shop.hands["A. Sample"], "promote", {"name": "C. Sample"})


def a_second_first(shop: Any) -> int:
    """Somebody adds themselves as the first person was."""
    seed = keys.new_seed()
    key = keys.public_of(seed)
    data = {"name": "E. Sample", "role": "supervisor", "key": key, "seal": "ab" * 32}
    return told(shop, Hand("E. Sample", "supervisor", key, seed), "add", data)


def let_off(shop: Any) -> int:
    """Wrong PINs forgiven by somebody who has not signed on."""
    return told(shop, shop.hands["B. Sample"], "let-in", {}, signed=False)


def a_wrong_pin_of_nobody(shop: Any) -> int:
    """A wrong PIN of somebody who is not there."""
    return told(shop, Hand("Z. Sample", "supervisor", "", b""), "wrong-pin", {}, signed=False)


def an_opening_of_a_setup(shop: Any) -> int:
    """A setup's first event in the chain of people."""
    return told(shop, shop.hands["A. Sample"], "open", {"facts": {}})


REFUSED: list[tuple[Callable[[Any], int], str]] = [
    (key_swapped, "forged"),
    (first_key_swapped, "forged"),
    (first_key_blank, "refused"),
    (by_an_apprentice, "refused"),
    (in_the_supervisors_name, "refused"),
    (in_the_supervisors_name_unsigned, "refused"),
    (rules_relaxed, "refused"),
    (rules_relaxed_by_nobody, "refused"),
    (an_unknown_kind, "refused"),
    (a_second_first, "refused"),
    (let_off, "refused"),
    (a_wrong_pin_of_nobody, "refused"),
    (an_opening_of_a_setup, "refused"),
]


@pytest.mark.parametrize(("attack", "fault"), REFUSED, ids=[each.__name__ for each, _ in REFUSED])
def test_what_the_people_room_does_not_allow_is_named_first(
    shop, attack: Callable[[Any], int], fault: str
) -> None:
    """The first fault of the whole journal, and of each setup that rests on it."""
    number = attack(shop)
    assert shop.tool.first() == (fault, "people", number)
    assert shop.tool.found("lone")[0].setup == "people"


def test_a_person_swapped_out_in_everything_leaves_signatures_that_are_nobodys(shop) -> None:
    """Somebody who works the whole people chain out anew, with keys of their own for all."""
    seeds = {name: keys.new_seed() for name in shop.hands}
    new = {shop.hands[name].key: keys.public_of(seed) for name, seed in seeds.items()}
    hands = {
        keys.public_of(seed): (lambda text, seed=seed: keys.sign(seed, text))
        for seed in seeds.values()
    }

    def mine(each: Any) -> Any:
        if each.setup != "people":
            return each
        changed = each.but(key=new[each.fields["key"]])
        return changed.data(key=new[changed.fields["data"]["key"]]) if (
            "key" in changed.fields["data"]
        ) else changed  # fmt: skip

    shop.tool.rewritten(map(mine, shop.tool.pieces()), hands)
    found = shop.tool.found()
    assert (found[0].fault, found[0].setup, found[0].sequence) == ("forged", "lone", 1)
    assert "key is not one that A. Sample had" in found[0].says


def test_a_person_cut_off_the_people_chain_has_signed_nothing(shop) -> None:
    """Left out with everything worked out anew: the events of C. Sample are forged."""
    shop.tool.rewritten(
        each
        for each in shop.tool.pieces()
        if (each.setup, each.fields["sequence"]) not in (("people", 3), ("people", 4))
    )
    found = shop.tool.found()
    assert found[0].setup == "pair"
    assert any("key is not one that C. Sample had" in each.says for each in found)


@pytest.mark.parametrize("table", ["event", "link"])
def test_the_people_chain_cut_in_one_table_is_missing_or_added(shop, table: str) -> None:
    """And nobody who stands before the cut is accused of anything."""
    shop.tool.run(f"DELETE FROM {table} WHERE setup = 'people' AND sequence > 2")
    found = shop.tool.found()
    fault = {"event": "missing", "link": "added"}[table]
    assert (found[0].fault, found[0].setup, found[0].sequence) == (fault, "people", 3)
    assert not any("A. Sample had" in each.says for each in found)


def seal_of(shop: Any, name: str) -> str:
    """The digest of somebody's sealed key."""
    with Store.read(shop.file) as store:
        return People(store).roster().find(name).keys[-1].seal


def test_a_sealed_key_swapped_for_another_is_named_and_does_not_open(shop) -> None:
    """Somebody puts their own sealed key where the supervisor's is, to sign on with their PIN."""
    mine, theirs = seal_of(shop, "C. Sample"), seal_of(shop, "A. Sample")
    shop.tool.run(
        "UPDATE sealed SET body = (SELECT body FROM sealed WHERE digest = ?1) WHERE digest = ?2",
        values=(mine, theirs),
    )
    found = shop.tool.found()
    assert [(each.fault, each.setup) for each in found] == [("changed", "")]
    assert theirs in found[0].says
    with Store(shop.file) as store, pytest.raises(Exception, match=r"sealed key .* was changed"):
        People(store).sign_on("A. Sample", "two red doors", NOON)


def test_a_seal_put_in_under_its_own_digest_opens_nothing_either(shop) -> None:
    """A person's event names the digest of the seal, and that event is signed."""
    with Store(shop.file) as store:
        store.keep_sealed(keys.sealed(keys.new_seed(), PIN))
    assert shop.tool.found() == []


def test_a_lost_sealed_key_names_whose_it_is(shop) -> None:
    """Nothing that was signed is touched by it; the person cannot sign on any more."""
    shop.tool.run("DELETE FROM sealed WHERE digest = ?", values=(seal_of(shop, "B. Sample"),))
    (only,) = shop.tool.found()
    assert (only.fault, only.setup, only.sequence) == ("missing", "people", 2)
    assert "B. Sample" in only.says


def added_later(shop: Any, paper: Any) -> None:
    """Somebody's setup, whose key becomes known to the journal only afterwards."""
    seed = keys.new_seed()
    hand = Hand("E. Sample", "machinist", keys.public_of(seed), seed)
    with Store(shop.file) as store:
        open_setup(
            store, paper, setup="early", person=hand.name, at=NOON, lathe="Lathe 9 (invented)",
            hand=hand, witness={"gate": "machinist"},
        )  # fmt: skip
        seal = store.keep_sealed(keys.sealed(seed, PIN))
        people = People(store)
        data = {"name": hand.name, "role": "machinist", "key": hand.key, "seal": seal}
        people._write(shop.hands["A. Sample"], "add", data, NOON)


def retired(shop: Any, paper: Any) -> None:
    """Somebody retired, whose hand signs on past the program."""
    with Store(shop.file) as store:
        People(store).retire(shop.hands["A. Sample"], "B. Sample", NOON)
        begun(store, paper, shop.hands["B. Sample"])


def with_an_old_key(shop: Any, paper: Any) -> None:
    """Somebody who has a new key signs with the old one."""
    with Store(shop.file) as store:
        People(store).new_key(shop.hands["A. Sample"], "B. Sample", PIN, NOON)
        begun(store, paper, shop.hands["B. Sample"])


def with_a_role_that_is_gone(shop: Any, paper: Any) -> None:
    """Somebody says a role that was taken from them."""
    with Store(shop.file) as store:
        People(store).change_role(shop.hands["A. Sample"], "B. Sample", "apprentice", NOON)
        begun(store, paper, shop.hands["B. Sample"])


def begun(store: Store, paper: Any, hand: Hand) -> None:
    """A setup of that person."""
    open_setup(
        store, paper, setup="early", person=hand.name, at=NOON, lathe="Lathe 9 (invented)",
        hand=hand, witness={"gate": "machinist"},
    )  # fmt: skip


BY_TIME = [
    (added_later, "key is not one that E. Sample had"),
    (retired, "B. Sample was retired then"),
    (with_an_old_key, "key is not one that B. Sample had"),
    (with_a_role_that_is_gone, "it says that B. Sample is a machinist"),
]


@pytest.mark.parametrize(("attack", "says"), BY_TIME, ids=[each.__name__ for each, _ in BY_TIME])
def test_what_was_signed_by_somebody_who_could_not_then_is_forged(
    shop, paper, attack: Callable[[Any, Any], None], says: str
) -> None:
    """People are judged as they were when the event was written; what they did before stands."""
    attack(shop, paper)
    (only,) = shop.tool.found()
    assert (only.fault, only.setup, only.sequence) == ("forged", "early", 1)
    assert says in only.says


@pytest.mark.parametrize("change", ["retire", "role", "key"])
def test_the_programs_own_hand_signs_no_more_after_such_a_change(shop, paper, change: str) -> None:
    """Somebody who was signed on while a supervisor changed that is told so, and nothing is
    written."""
    with Store(shop.file) as store:
        people = People(store)
        hand = people.sign_on("B. Sample", "nine wet boots", NOON)
        begun(store, paper, hand)
        boss = people.sign_on("A. Sample", "four tin horses", NOON)
        if change == "retire":
            people.retire(boss, hand.name, NOON)
        elif change == "role":
            people.change_role(boss, hand.name, "supervisor", NOON)
        else:
            people.new_key(boss, hand.name, PIN, NOON)
        walk = replayed(store, "early")
        walk.hands[hand.name] = hand
        with pytest.raises(Exception, match="retired, or has another role or key"):
            walk.act("abandon", {"why": "called away"}, person=hand.name, at=NOON)
        assert store.last("early")[0] == 1
    assert shop.tool.found() == []


def test_the_genesis_of_the_people_chain_is_the_only_beginning(shop) -> None:
    """A chain that begins with another previous digest is named at its first event."""
    shop.tool.edit("people", 1, lambda fields: fields | {"previous": "ab" * 32})
    assert shop.tool.first() == ("changed", "people", 1)
