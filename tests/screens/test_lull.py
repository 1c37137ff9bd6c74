"""Memory is tidied while no hand is at the keys."""

from __future__ import annotations

import gc

import pytest

from guide.screens.lull import AT_LEAST, FIRST, QUIET, Lull


@pytest.fixture
def at() -> list[float]:
    """A clock that is set by hand."""
    return [100.0]


@pytest.fixture
def lull(at):
    """One that watches that clock, and leaves the collector as it was."""
    made = Lull(lambda: at[0])
    made.begin()
    yield made
    made.end()


def test_what_was_imported_is_gone_through_as_soon_as_it_is_there(lull, at) -> None:
    """So that nothing of it is gone through while a hand is busy."""
    lull.touched()
    at[0] += FIRST / 2
    assert not lull.look()
    at[0] += FIRST / 2
    assert lull.look()


def test_everything_is_gone_through_once_after_a_hand_has_rested(lull, at) -> None:
    """Not before, and not again until somebody has been there."""
    at[0] += FIRST
    assert lull.look()
    at[0] += 1
    lull.touched()
    at[0] += QUIET / 2
    assert not lull.look()
    at[0] += QUIET / 2
    assert lull.look()
    at[0] += QUIET
    assert not lull.look()
    lull.touched()
    at[0] += QUIET
    assert lull.look()


def test_a_cycle_that_is_left_over_is_gone_after_the_rest(lull, at) -> None:
    """What pages leave behind is not kept for ever."""
    gone = []

    class Page:
        def __del__(self) -> None:
            gone.append(True)

    page = Page()
    page.itself = page
    del page
    at[0] += QUIET
    assert lull.look()
    assert gone


def test_the_usual_way_comes_back(at) -> None:
    """The program changes it for its own time only."""
    usual = gc.get_threshold()
    made = Lull(lambda: at[0])
    made.begin()
    assert gc.get_threshold() == (*usual[:2], AT_LEAST)
    made.end()
    assert gc.get_threshold() == usual
