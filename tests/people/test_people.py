"""Adding, retiring, roles, keys and rules: who may do what, and what nobody may."""

from __future__ import annotations

from typing import Any

import pytest

from guide.journal import keys
from guide.people.rules import Rules
from guide.plain import BadInput, NotAllowed

A, B, C, D = "A. Sample", "B. Sample", "C. Sample", "D. Sample"
PIN = "six blue plates"


def test_in_an_empty_journal_nobody_is_known_and_everybody_would_sign(people) -> None:
    """Sign-on is the rule until somebody alone turns it off."""
    roster = people.roster()
    assert (roster.begun, roster.active, roster.rules) == (False, (), Rules())
    assert roster.rules.sign_on


def test_the_first_person_is_a_supervisor_and_signs_their_own_coming(people, store, shop) -> None:
    """The event names the key that signs it."""
    row = next(store.rows("people"))
    (event, *_) = store.events("people")
    assert (event.person, event.data["role"]) == (A, "supervisor")
    assert event.data["key"] == event.key
    assert keys.signed_by(event.key, row.signature, row.body)


def test_everything_that_happens_to_people_is_signed_but_a_wrong_pin(store, shop) -> None:
    """By the one who did it."""
    with pytest.raises(NotAllowed):
        shop.people.sign_on(B, "wrong wrong", shop.at(9))
    for event, row in zip(store.events("people"), store.rows("people"), strict=True):
        assert (row.signature == "") == (event.kind == "wrong-pin")
        assert event.key == "" or keys.signed_by(event.key, row.signature, row.body)


def test_a_private_key_is_nowhere_in_the_file_or_in_what_is_shown(file, store, shop) -> None:
    """Neither raw nor in hexadecimal, and no PIN."""
    store.close()
    whole = b"".join(each.read_bytes() for each in file.parent.iterdir() if each.is_file())
    for hand in shop.hands.values():
        assert hand.seed not in whole
        assert hand.seed.hex().encode() not in whole
        assert hand.seed.hex() not in repr(hand)
        assert repr(hand.seed) not in repr(hand)
    assert b"four tin" not in whole


def test_nobody_else_can_be_first(shop) -> None:
    """Once there is somebody the others are added by a supervisor."""
    with pytest.raises(BadInput, match=r"nobody called D\. Sample"):
        shop.people.first(D, PIN, shop.at())
    assert D.casefold() not in shop.people.roster().people


@pytest.mark.parametrize("by", [B, C])
def test_only_a_supervisor_changes_people_and_rules(shop, by: str) -> None:
    """A machinist and an apprentice are refused, and nothing is written."""
    people, hand, now = shop.people, shop.hands[by], shop.at()
    before = people.roster()
    for change in (
        lambda: people.add(hand, D, "supervisor", PIN, now),
        lambda: people.retire(hand, A, now),
        lambda: people.retire(hand, by, now),
        lambda: people.change_role(hand, by, "supervisor", now),
        lambda: people.change_role(hand, A, "apprentice", now),
        lambda: people.new_key(hand, A, PIN, now),
        lambda: people.set_rules(hand, Rules(sign_on=False), now),
        lambda: people.set_rules(by, Rules(sign_on=False), now),
    ):
        with pytest.raises(NotAllowed):
            change()
    assert people.roster() == before


def test_the_last_supervisor_can_neither_leave_nor_step_down(shop) -> None:
    """Till somebody else is one."""
    people, hand, now = shop.people, shop.hands[A], shop.at()
    for change in (
        lambda: people.retire(hand, A, now),
        lambda: people.change_role(hand, A, "machinist", now),
    ):
        with pytest.raises(NotAllowed, match="last supervisor"):
            change()
    people.change_role(hand, B, "supervisor", now)
    assert not people.retire(hand, A, now).active


def test_the_last_supervisor_may_be_given_the_same_role(shop) -> None:
    """Nothing is lost by it."""
    assert shop.people.change_role(shop.hands[A], A, "supervisor", shop.at()).role == "supervisor"


def test_somebody_retired_neither_signs_on_nor_is_changed_nor_added_again(shop) -> None:
    """What was signed stays; a new name is a new person."""
    people, hand, now = shop.people, shop.hands[A], shop.at()
    assert people.retire(hand, C, now).retired == now
    for change in (
        lambda: people.sign_on(C, "two red doors", now),
        lambda: people.change_role(hand, C, "machinist", now),
        lambda: people.new_key(hand, C, PIN, now),
        lambda: people.retire(hand, C, now),
        lambda: people.new_pin(shop.hands[C], PIN, now),
    ):
        with pytest.raises(NotAllowed):
            change()
    with pytest.raises(BadInput, match="perhaps retired"):
        people.add(hand, C, "apprentice", PIN, now)
    with pytest.raises(NotAllowed):
        shop.hands[C].sign("anything")


@pytest.mark.parametrize(
    "name",
    [
        A, "a. sample", "A.  Sample", " A. SAMPLE ", "A.\u00a0Sample", "A.\tSample",
        "\uff21. Sample", "A. \u017fample",
    ],
)  # fmt: skip
def test_two_names_that_differ_only_in_case_spaces_or_form_are_one(shop, name: str) -> None:
    """They could not be told apart on a record."""
    with pytest.raises(BadInput, match="already"):
        shop.people.add(shop.hands[A], name, "machinist", PIN, shop.at())
    assert shop.people.roster().find(name).name == A


def test_an_accent_typed_in_another_way_is_the_same_name(shop) -> None:
    """One sign, or a letter and a sign above it: they look the same."""
    shop.people.add(shop.hands[A], "Zo\u00eb Sample", "machinist", PIN, shop.at())
    with pytest.raises(BadInput, match="already"):
        shop.people.add(shop.hands[A], "Zoe\u0308 Sample", "machinist", PIN, shop.at())


@pytest.mark.parametrize(
    "name",
    [
        "", " ", "\t\n", "x" * 81, "A\x1b[2J", "A\u202eB", "A\u200bB", "A\x00B", "\udc80",
        "A\ud800", "\u2028", "x" * 10_000,
    ],
)  # fmt: skip
def test_what_can_be_no_name_is_refused_and_nothing_is_kept(shop, store, name: str) -> None:
    """In a sentence that can be shown, before any key is made."""
    seals = list(store.seals())
    with pytest.raises(BadInput) as refused:
        shop.people.add(shop.hands[A], name, "machinist", PIN, shop.at())
    assert "\n" not in str(refused.value)
    assert list(store.seals()) == seals


@pytest.mark.parametrize(
    "name", ["[bold]A[/]", "<script>", "=1+1", "-2", "@sum", "{name}", "%s", "x" * 80, "Ø", "明"]
)
def test_a_name_of_odd_signs_is_kept_as_it_is(shop, name: str) -> None:
    """They are only signs here; whoever shows them has to show them as such."""
    assert shop.people.add(shop.hands[A], name, "machinist", PIN, shop.at()).name == name


def test_a_key_is_one_persons_only(shop, store) -> None:
    """Somebody who puts another's key into an event is refused."""
    data = {"name": D, "role": "machinist", "key": shop.hands[B].key, "seal": "ab" * 32}
    with pytest.raises(BadInput, match="somebody's already"):
        shop.people._write(shop.hands[A], "add", data, shop.at())


@pytest.mark.parametrize("key", ["", "ab", "AB" * 32, "zz" * 32, "ab" * 33])
@pytest.mark.parametrize("which", ["key", "seal"])
def test_what_is_no_key_or_no_seal_is_refused(shop, key: str, which: str) -> None:
    """A person with a blank key would sign by signing nothing."""
    data = {"name": D, "role": "machinist", "key": "cd" * 32, "seal": "ab" * 32} | {which: key}
    with pytest.raises(BadInput):
        shop.people._write(shop.hands[A], "add", data, shop.at())


def test_a_new_key_takes_the_place_of_the_old_one_and_keeps_it_on_record(shop) -> None:
    """The old hand signs nothing more; the new PIN opens the new key."""
    people, now = shop.people, shop.at()
    person = people.new_key(shop.hands[A], B, PIN, now)
    assert person.keys[0].key == shop.hands[B].key
    assert person.keys[0].until == person.keys[1].since
    assert person.key != shop.hands[B].key
    with pytest.raises(NotAllowed):
        shop.hands[B].sign("anything")
    assert people.sign_on(B, PIN, now).key == person.key


def test_a_new_pin_opens_the_same_key_and_the_old_one_opens_nothing(shop) -> None:
    """Whoever knows the old one changes it."""
    people, now = shop.people, shop.at()
    people.new_pin(shop.hands[B], PIN, now)
    with pytest.raises(NotAllowed, match="not the PIN"):
        people.sign_on(B, "nine wet boots", now)
    assert people.sign_on(B, PIN, shop.at(9)).key == shop.hands[B].key


def test_a_supervisor_may_give_their_own_key_and_keep_the_role(shop) -> None:
    """A key that was seen by somebody is replaced by its owner."""
    person = shop.people.new_key(shop.hands[A], A, PIN, shop.at())
    assert (person.role, person.active) == ("supervisor", True)


def test_two_who_change_people_at_once_do_not_overwrite_each_other(shop, store) -> None:
    """The second one is told that the people were changed elsewhere."""
    stale = shop.people.roster()
    shop.people.add(shop.hands[A], D, "machinist", PIN, shop.at())

    class Behind(type(shop.people)):  # type: ignore[misc]
        """Somebody who looked before."""

        def roster(self) -> Any:
            return stale

    with pytest.raises(NotAllowed, match="Someone else has gone on"):
        Behind(store).retire(shop.hands[A], B, shop.at())
    assert shop.people.roster().find(B).active


def test_somebody_alone_turns_sign_on_off_with_one_step(people) -> None:
    """No key, no PIN; it can be turned on only by adding somebody first."""
    roster = people.set_rules(A, Rules(sign_on=False), "2031-03-02T08:00:00.000Z")
    assert (roster.begun, roster.rules.sign_on) == (True, False)
    with pytest.raises(NotAllowed, match="nobody signs on"):
        people.set_rules(A, Rules(), "2031-03-02T08:00:00.000Z")


def test_who_came_alone_may_add_people_later(people) -> None:
    """The first one then turns sign-on on."""
    now = "2031-03-02T08:00:00.000Z"
    people.set_rules(A, Rules(sign_on=False), now)
    hand = people.first(A, PIN, now)
    assert people.roster().rules.sign_on is False
    assert people.set_rules(hand, Rules(witness={"gate": "machinist"}), now).rules.sign_on


@pytest.mark.parametrize(
    "data",
    [
        {},
        {"sign_on": 1, "idle_minutes": 5, "witness": {}},
        {"sign_on": True, "idle_minutes": True, "witness": {}},
        {"sign_on": True, "idle_minutes": "5", "witness": {}},
        {"sign_on": True, "idle_minutes": -1, "witness": {}},
        {"sign_on": True, "idle_minutes": 1441, "witness": {}},
        {"sign_on": True, "idle_minutes": 5, "witness": ["gate"]},
        {"sign_on": True, "idle_minutes": 5, "witness": {"task": "machinist"}},
        {"sign_on": True, "idle_minutes": 5, "witness": {"gate": "boss"}},
        {"sign_on": True, "idle_minutes": 5, "witness": {"gate": ""}},
        {"sign_on": False, "idle_minutes": 5, "witness": {"gate": "machinist"}},
    ],
)
def test_what_can_be_no_rule_is_refused(shop, data: dict[str, Any]) -> None:
    """And the rules stay as they were."""
    with pytest.raises(BadInput):
        shop.people._write(shop.hands[A], "rules", data, shop.at())
    assert shop.people.roster().rules == Rules()


@pytest.mark.parametrize("kind", ["gate", "verdict", "sign-off"])
@pytest.mark.parametrize("role", ["apprentice", "machinist", "supervisor"])
def test_a_second_person_can_be_asked_for_at_three_kinds_of_step(shop, kind, role) -> None:
    """Of any role."""
    rules = Rules(idle_minutes=0, witness={kind: role})
    assert shop.people.set_rules(shop.hands[A], rules, shop.at()).rules == rules
