"""The tailstock: both planes read, set over by what was worked out, clamped and read again."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.walk.branch_tests import MOST_ROUNDS
from guide.walk.flow import exits
from guide.walk.recording import offered
from guide.walk.world import UNKNOWN, value
from tests.procedure import walks
from tests.procedure.walks import Stood, rehearsed

ANSWERS = Path(__file__).parents[1] / "answers"
SETTING = {"set-by-two", "set-by-one"}


@cache
def alignment() -> Procedure:
    """The shipped procedure."""
    return find("tailstock-alignment")


def told(**more: str) -> dict[str, str]:
    """The closed facts of one job."""
    facts = {"nose": "camlock", "on-nose": "nothing", "between-now": "nothing", "struck": "no"}
    facts |= {"guard-fitted": "yes", "set-over-by": "two-screws", "tail-moves": "by-hand"}
    facts |= {"bar-mass": "one-hand"}
    return facts | {name.replace("_", "-"): each for name, each in more.items()}


def walked(facts: dict[str, str]) -> Iterator[Stood]:
    """Each step of a walk with one round of setting over, the world behind it, what it did."""
    first = iter([{"another-round", "more-rounds"}])
    return walks.walked(
        alignment(),
        facts,
        lambda place: next(first, {"accepted"}) if place == "side-verdict" else {"accepted"},
    )


@pytest.mark.parametrize("by", ["two-screws", "one-screw", "none"])
def test_it_is_set_over_as_this_tailstock_can_be_and_read_again_after(by: str) -> None:
    """One in one piece is read and not moved; whatever moved, both planes are read as left."""
    places = [place for place, _, _ in walked(told(set_over_by=by))]
    ways = {"two-screws": {"set-by-two"}, "one-screw": {"set-by-one"}, "none": set()}
    assert set(places) & SETTING == ways[by]
    order = [places.index(each) for each in ("clamp-anew", "tail-height-left", "tail-side-left")]
    assert order == sorted(order)
    assert all(places.index(each) < order[0] for each in ways[by])
    assert places[-1] == "finished"


@pytest.mark.parametrize("mass", ["one-hand", "helper", "cradle"])
@pytest.mark.parametrize("moves", ["by-hand", "heavy"])
def test_bar_and_tailstock_are_moved_as_their_mass_asks(mass: str, moves: str) -> None:
    """Each in one way, and a bar that took two to bring is not taken out by one hand."""
    places = {place for place, _, _ in walked(told(bar_mass=mass, tail_moves=moves))}
    bar = {"one-hand": "bar-in-hand", "helper": "bar-in-helper", "cradle": "bar-in-cradle"}[mass]
    out = "bar-out-hand" if mass == "one-hand" else "bar-out-heavy"
    tail = "tail-by-hand" if moves == "by-hand" else "tail-heavy"
    shown = {
        each for each in places if each.startswith(("bar-in-", "bar-out-", "tail-b", "tail-hea"))
    }
    assert shown == {bar, out, tail}


@pytest.mark.parametrize("more", [{"on_nose": "something-else"}, {"between_now": "something"}])
def test_a_lathe_that_is_not_empty_ends_it_with_nothing_touched(more: dict[str, str]) -> None:
    """Proving that the power is cut is not tried with a bar in it."""
    steps = list(walked(told(**more)))
    assert (steps[-1][0], steps[-1][1]) == ("abandoned", UNKNOWN)


def test_it_is_isolated_from_before_the_first_hand_to_the_end() -> None:
    """Nothing is cut and nothing is run here."""
    power = "unknown"
    for _, world, did in walked(told()):
        if {"set indicator", "turn by hand", "read"} & set(did):
            assert power == "isolated"
        power = value(world, "power")
    assert power == "isolated"


def test_one_that_was_struck_is_looked_at_before_it_is_read() -> None:
    """A bent quill can be set true at one length only."""
    places = [place for place, _, _ in walked(told(struck="yes"))]
    assert places.index("after-crash") < places.index("tail-height")
    assert "after-crash" not in [place for place, _, _ in walked(told())]


def test_the_correction_is_worked_out_and_a_ground_bar_s_taper_taken_off(folder: Path) -> None:
    """31 tenths read, one of them the bar's: 30 over 10 in, 36 at the centre, 12 in out."""
    first = next(
        e
        for e in rehearsed("tailstock-alignment", "inch", folder).state.entries
        if e.place == "tail-side"
    )
    figures = first.data["figures"]
    assert (figures["along"], figures["set_over"]) == ("0.0030", "0.0036")
    assert figures["verdict"] == "outside"


def test_two_collars_speak_by_their_diameters_alone(folder: Path) -> None:
    """Read alike, 0.060 larger at the far end: 0.030 away from the one who stands there."""
    figures = rehearsed("tailstock-alignment", "metric", folder).state.taken["tail-side"].figures
    assert (figures["along"], figures["verdict"]) == ("-0.030", "outside")


def test_only_what_is_within_can_be_accepted(folder: Path) -> None:
    """And what was left out of line is handed over as that."""
    out, good = (
        rehearsed("tailstock-alignment", "metric", folder),
        rehearsed("tailstock-alignment", "inch", folder),
    )
    assert "accept" not in offered(alignment().by_name["left-verdict"], out.state)
    assert "accept" in offered(alignment().by_name["left-verdict"], good.state)
    ends = [walk.state.entries[-1].place for walk in (out, good)]
    assert ends == ["sign-off-out", "sign-off"]


def test_rounds_are_counted_and_end(folder: Path) -> None:
    """Two rounds were made; the way back is open only while some are left."""
    assert rehearsed("tailstock-alignment", "inch", folder).state.rounds == 2 < MOST_ROUNDS
    for step in alignment().steps:
        for way in exits(alignment(), step):
            number = alignment().order.get(way.to)
            if number is not None and number <= alignment().order[step.name]:
                names = {term.name for each in way.conditions for term in each.terms}
                assert names & {"another-turn"} or step.name == "bar-again", (step.name, way.to)
    into = [w for s in alignment().steps for w in exits(alignment(), s) if w.to == "set-by-two"]
    assert all("more-rounds" in {t.name for c in w.conditions for t in c.terms} for w in into)


def test_whatever_is_carried_turned_wound_or_eased_has_a_caution() -> None:
    """Each hazard has its action."""
    for step in alignment().steps:
        work = step.name.startswith(("bar-", "tail-", "set-", "indicator-", "clamp-"))
        if step.kind in ("task", "readings") and work:
            assert step.cautions, step.name
