"""Whole setups taken out, ends cut off, the journal put back: by the links, or by a kept head."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from typing import Any

import pytest


def setup_out(shop: Any) -> None:
    """Its events deleted."""
    shop.tool.run("DELETE FROM event WHERE setup = 'lone'")


def setup_and_links_out(shop: Any) -> None:
    """Its events and their links deleted."""
    setup_out(shop)
    shop.tool.run(
        "DELETE FROM link WHERE setup = 'lone'", "DELETE FROM glance WHERE setup = 'lone'"
    )


def links_renumbered(shop: Any) -> None:
    """The same, and the other links numbered without a gap, their heads as they were."""
    setup_and_links_out(shop)
    shop.tool.run(
        "CREATE TABLE new AS SELECT row_number() OVER (ORDER BY number) AS number, setup, sequence,"
        " digest, signature, head FROM link",
        "DELETE FROM link",
        "INSERT INTO link SELECT * FROM new",
        "DROP TABLE new",
    )


def links_out(shop: Any) -> None:
    """The chain over all events deleted."""
    shop.tool.run("DELETE FROM link")


def link_moved(shop: Any) -> None:
    """Two neighbouring links changed places."""
    shop.tool.run(
        "UPDATE link SET number = -1 WHERE number = 9",
        "UPDATE link SET number = 9 WHERE number = 10",
        "UPDATE link SET number = 10 WHERE number = -1",
    )


FOUND: list[tuple[Callable[[Any], None], tuple[str, str]]] = [
    (setup_out, ("missing", "lone")),
    (setup_and_links_out, ("missing", "people")),
    (links_renumbered, ("changed", "people")),
    (links_out, ("added", "people")),
    (link_moved, ("changed", "lone")),
]


@pytest.mark.parametrize(("attack", "first"), FOUND, ids=[each.__name__ for each, _ in FOUND])
def test_it_is_found_without_anything_kept_elsewhere(
    shop, attack: Callable[[Any], None], first: tuple[str, str]
) -> None:
    """By the chain over all events: the first fault is at the first event after the gap."""
    attack(shop)
    fault, setup, _ = shop.tool.first()
    assert (fault, setup) == first


def test_a_missing_link_is_named_by_its_number(shop) -> None:
    """The setup `lone` began at link 4, behind three persons."""
    setup_and_links_out(shop)
    assert shop.tool.found()[0].says == "Link 4 of the chain over all events is missing."


def cut_with_links(shop: Any) -> None:
    """The last three events, the last of all, deleted with their links."""
    for table in ("event", "link"):
        shop.tool.run(f"DELETE FROM {table} WHERE setup = 'pair' AND sequence > 25")
    shop.tool.relist()


def last_setup_out(shop: Any) -> None:
    """The last setup, its links and its place in the list deleted: nothing is left of it."""
    for table in ("event", "link"):
        shop.tool.run(f"DELETE FROM {table} WHERE setup = 'pair'")
    shop.tool.relist()


def setup_out_of_everything(shop: Any) -> None:
    """A setup from the middle left out, and all links worked out anew."""
    shop.tool.rewritten(each for each in shop.tool.pieces() if each.setup != "lone")


def end_out_of_everything(shop: Any) -> None:
    """The end of a setup in the middle left out, and all links worked out anew."""
    shop.tool.rewritten(
        each for each in shop.tool.pieces() if each.setup != "lone" or each.fields["sequence"] < 20
    )


NOT_FOUND = [cut_with_links, last_setup_out, setup_out_of_everything, end_out_of_everything]


@pytest.mark.parametrize("attack", NOT_FOUND, ids=lambda each: each.__name__)
def test_only_a_head_that_was_kept_elsewhere_tells(shop, attack: Callable[[Any], None]) -> None:
    """The journal alone looks sound; with its old head, or the label's digest, it does not."""
    head = shop.tool.head()
    ((label,),) = shop.tool.rows(
        "SELECT digest FROM event WHERE setup IN ('pair', 'lone') AND body LIKE '%\"ends\"%'"
        " ORDER BY setup LIMIT 1"
        if "out_of_everything" in attack.__name__
        else "SELECT digest FROM event WHERE setup = 'pair' AND sequence = 28"
    )
    attack(shop)
    assert shop.tool.first() == ("sound", "", 0)
    for kept in (head, label, head[:16]):
        assert shop.tool.first(kept) == ("missing", "", 0)
        assert "has the digest" in shop.tool.found(head=kept)[0].says


def test_a_journal_put_back_to_an_older_copy_is_told_by_the_newer_head(shop, tmp_path) -> None:
    """And the older head is still in the newer journal."""
    older = tmp_path / "older.sqlite3"
    shutil.copy(shop.file, older)
    head_before = shop.tool.head()
    newest = shop.tool.pieces()[-1]
    shop.tool.rewritten([*shop.tool.pieces(), newest._replace(setup="more")])
    head_after = shop.tool.head()
    with_more = shop.tool.first(head_before)
    shutil.copy(older, shop.file)
    assert with_more[0] != "missing"
    assert shop.tool.first(head_before) == ("sound", "", 0)
    assert shop.tool.first(head_after) == ("missing", "", 0)


def test_a_head_put_in_without_its_events_does_not_help(shop) -> None:
    """A link made for a digest that was kept elsewhere has no event, and its head is another."""
    kept = "ab" * 32
    shop.tool.run(f"INSERT INTO link VALUES (9999, 'gone', 1, '{kept}', '', '{kept}')")
    found = {each.fault for each in shop.tool.found(head=kept)}
    assert "missing" in found
    assert "sound" not in found
