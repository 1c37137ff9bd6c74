"""One event of a signed setup changed, taken out, put in or moved: the first one wrong is named."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

LATER = "2031-03-02T09:59:59.000Z"


def at_nine(fields: dict[str, Any]) -> dict[str, Any]:
    """The event at another time of the day."""
    return fields | {"at": LATER}


def text_only(shop: Any) -> None:
    """A plain UPDATE of the text."""
    shop.tool.edit("pair", 7, at_nine)


def with_its_digest(shop: Any) -> None:
    """The text, and the digest beside it."""
    name = shop.tool.edit("pair", 7, at_nine)
    where = "WHERE setup = 'pair' AND sequence = 7"
    shop.tool.run(f"UPDATE event SET digest = ? {where}", values=(name,))


def with_its_digest_and_link(shop: Any) -> None:
    """The text, its digest, and what the link says of it, but not the heads."""
    with_its_digest(shop)
    query = "SELECT digest FROM event WHERE setup = 'pair' AND sequence = 7"
    ((name,),) = shop.tool.rows(query)
    where = "WHERE setup = 'pair' AND sequence = 7"
    shop.tool.run(f"UPDATE link SET digest = ? {where}", values=(name,))


def with_the_chain(shop: Any) -> None:
    """Every later event of the setup holds the new digests; the links are as they were."""
    pieces = [
        each.but(at=LATER) if (each.setup, each.fields["sequence"]) == ("pair", 7) else each
        for each in shop.tool.pieces()
    ]
    shop.tool.rewritten(pieces, links=False)


def with_everything(shop: Any) -> None:
    """Chain and links worked out anew; the signature is the old one."""
    shop.tool.changed("pair", 7, lambda each: each.but(at=LATER))


def with_everything_and_no_signature(shop: Any) -> None:
    """The same, and the signature taken off."""
    shop.tool.changed("pair", 7, lambda each: each.but(at=LATER)._replace(signature=""))


def with_somebody_elses_signature(shop: Any) -> None:
    """The signature of the event before, which is a good one of the same person."""
    other = shop.tool.rows("SELECT signature FROM event WHERE setup = 'pair' AND sequence = 6")
    shop.tool.changed("pair", 7, lambda each: each._replace(signature=other[0][0]))


def signature_moved_in_the_table(shop: Any) -> None:
    """The signature of the event before, in the event's row alone."""
    shop.tool.run(
        "UPDATE event SET signature = (SELECT signature FROM event"
        " WHERE setup = 'pair' AND sequence = 6) WHERE setup = 'pair' AND sequence = 7"
    )


def signature_taken_off_in_the_table(shop: Any) -> None:
    """No signature any more, in the event's row alone."""
    shop.tool.run("UPDATE event SET signature = '' WHERE setup = 'pair' AND sequence = 7")


def signature_spelled_otherwise(shop: Any) -> None:
    """The same number in capital digits, with the links worked out anew."""
    shop.tool.changed("pair", 7, lambda each: each._replace(signature=each.signature.upper()))


def signature_with_a_gap(shop: Any) -> None:
    """The same number with a space in it, with the links worked out anew."""
    shop.tool.changed(
        "pair",
        7,
        lambda each: each._replace(signature=f"{each.signature[:2]} {each.signature[2:]}"),
    )


def key_of_ones_own(shop: Any) -> None:
    """A stranger's key in the event, who signs it well."""
    from guide.journal import keys

    seed = keys.new_seed()
    own = {keys.public_of(seed): lambda text: keys.sign(seed, text)}
    shop.tool.changed("pair", 7, lambda each: each.but(key=keys.public_of(seed)), own)


def key_of_another_person(shop: Any) -> None:
    """A colleague signs in B. Sample's name with the colleague's own key."""
    hand = shop.hands["C. Sample"]
    shop.tool.changed("pair", 7, lambda each: each.but(key=hand.key), shop.keys("C. Sample"))


def no_key_and_no_signature(shop: Any) -> None:
    """The event made one that nobody signs."""

    def unsigned(each: Any) -> Any:
        fields = {name: told for name, told in each.fields.items() if name != "key"}
        return each._replace(fields=fields, signature="")

    shop.tool.changed("pair", 7, unsigned)


def doubled(shop: Any) -> None:
    """The same row a second time; the index that would refuse it is gone."""
    columns = "setup TEXT, sequence INTEGER, body TEXT, digest TEXT, signature TEXT"
    shop.tool.run(
        "ALTER TABLE event RENAME TO old",
        f"CREATE TABLE event ({columns})",
        "INSERT INTO event SELECT * FROM old",
        "DROP TABLE old",
        "INSERT INTO event SELECT * FROM event WHERE setup = 'pair' AND sequence = 7",
    )


def put_in(shop: Any) -> None:
    """An event more at the end, unsigned, that no link knows."""
    shop.tool.run(
        "INSERT INTO event SELECT setup, 29, body, digest, '' FROM event"
        " WHERE setup = 'pair' AND sequence = 7"
    )


def put_in_between(shop: Any) -> None:
    """A pause that nobody made, in the middle, everything worked out anew."""
    pieces = shop.tool.pieces()
    place = next(n for n, p in enumerate(pieces) if (p.setup, p.fields["sequence"]) == ("pair", 7))
    pause = pieces[place].but(kind="pause", data={"why": "coffee"})
    shop.tool.rewritten([*pieces[:place], pause, *pieces[place:]])


def taken_out(shop: Any) -> None:
    """Its row deleted."""
    shop.tool.run("DELETE FROM event WHERE setup = 'pair' AND sequence = 7")


def taken_out_with_its_link(shop: Any) -> None:
    """Its row and its link deleted."""
    taken_out(shop)
    shop.tool.run("DELETE FROM link WHERE setup = 'pair' AND sequence = 7")


def taken_out_of_everything(shop: Any) -> None:
    """Left out, and everything worked out anew: the one after it takes its number."""
    shop.tool.rewritten(
        each for each in shop.tool.pieces() if (each.setup, each.fields["sequence"]) != ("pair", 7)
    )


def swapped(shop: Any) -> None:
    """Two events that changed numbers."""
    shop.tool.run(
        "UPDATE event SET sequence = 99 WHERE setup = 'pair' AND sequence = 7",
        "UPDATE event SET sequence = 7 WHERE setup = 'pair' AND sequence = 8",
        "UPDATE event SET sequence = 8 WHERE setup = 'pair' AND sequence = 99",
    )


def swapped_in_everything(shop: Any) -> None:
    """The same with everything worked out anew."""
    pieces = shop.tool.pieces()
    place = next(n for n, p in enumerate(pieces) if (p.setup, p.fields["sequence"]) == ("pair", 7))
    pieces[place : place + 2] = pieces[place + 1], pieces[place]
    shop.tool.rewritten(pieces)


def tail_cut(shop: Any) -> None:
    """The last three rows deleted."""
    shop.tool.run("DELETE FROM event WHERE setup = 'pair' AND sequence > 26")


def moved_to_another_setup(shop: Any) -> None:
    """A row under another setup's name."""
    shop.tool.run(
        "UPDATE event SET setup = 'lone', sequence = 22 WHERE setup = 'pair' AND sequence = 7"
    )


ATTACKS: list[tuple[Callable[[Any], None], tuple[str, str, int]]] = [
    (text_only, ("changed", "pair", 7)),
    (with_its_digest, ("changed", "pair", 7)),
    (with_its_digest_and_link, ("forged", "pair", 7)),
    (with_the_chain, ("changed", "pair", 7)),
    (with_everything, ("forged", "pair", 7)),
    (with_everything_and_no_signature, ("unsigned", "pair", 7)),
    (with_somebody_elses_signature, ("forged", "pair", 7)),
    (signature_moved_in_the_table, ("changed", "pair", 7)),
    (signature_taken_off_in_the_table, ("unsigned", "pair", 7)),
    (signature_spelled_otherwise, ("forged", "pair", 7)),
    (signature_with_a_gap, ("forged", "pair", 7)),
    (key_of_ones_own, ("forged", "pair", 7)),
    (key_of_another_person, ("forged", "pair", 7)),
    (no_key_and_no_signature, ("unsigned", "pair", 7)),
    (doubled, ("reordered", "pair", 7)),
    (put_in, ("reordered", "pair", 29)),
    (put_in_between, ("forged", "pair", 7)),
    (taken_out, ("missing", "pair", 7)),
    (taken_out_with_its_link, ("missing", "pair", 7)),
    (taken_out_of_everything, ("forged", "pair", 7)),
    (swapped, ("reordered", "pair", 7)),
    (swapped_in_everything, ("forged", "pair", 7)),
    (tail_cut, ("missing", "pair", 27)),
    (moved_to_another_setup, ("added", "lone", 22)),
]


@pytest.mark.parametrize(("attack", "first"), ATTACKS, ids=[each.__name__ for each, _ in ATTACKS])
def test_the_first_event_that_is_wrong_is_named(
    shop, attack: Callable[[Any], None], first: tuple[str, str, int]
) -> None:
    """What it is, in which setup, which event; and the sentence tells them too."""
    attack(shop)
    found = shop.tool.found()
    assert (found[0].fault, found[0].setup, found[0].sequence) == first
    assert f"vent {first[2]} of setup {first[1]}" in found[0].says or "Events 27" in found[0].says
    assert "\n" not in found[0].says
