"""After a crash: people first, nothing started, and every doubt ends as stopped and isolated."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from guide.plain import BadInput
from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.walk.bits import encode
from guide.walk.flow import doings
from guide.walk.landing import Plan, Ways
from guide.walk.looking import look_again
from guide.walk.making_safe import next_to_safe, tries_to_start
from guide.walk.says_within import refuse_within
from guide.walk.state import State, Taken
from guide.walk.world import UNKNOWN, as_dict, changed, made_safe, value
from tests.procedure import walks
from tests.procedure.walks import Stood, rehearsed

ANSWERS = Path(__file__).parents[1] / "answers"
NOSES = ("long", "camlock", "bolted", "threaded")
OF_THE_NOSE = ["nose-play", "nose-runout", "nose-face"]
OF_THE_CHUCK = ["body-play", "body-runout", "body-face"]
TOUCHES = {
    "bolts snug", "bolts tighten", "bolts ease", "bolts slacken", "take bolts out", "lock",
    "unlock", "screws touch", "screws turn", "screws nip",
}  # fmt: skip


@cache
def crash() -> Procedure:
    """The shipped procedure."""
    return find("after-a-crash")


def ended(folder: Path, unit: str) -> State:
    """The state at the end of a rehearsal."""
    return rehearsed("after-a-crash", unit, folder).state


def told(**more: str) -> dict[str, str]:
    """The closed facts of a crash that left nothing to be seen."""
    facts = {"hurt": "nobody", "nose": "camlock", "guard-fitted": "yes", "on-nose": "this-chuck"}
    facts |= {"jammed": "touching", "came-free": "yes", "damage": "none", "turns": "even"}
    facts |= {"readings-say": "within", "jaws-run": "free"}
    return facts | {name.replace("_", "-"): each for name, each in more.items()}


def walked(facts: dict[str, str], found: dict[str, str] | None = None) -> Iterator[Stood]:
    """Each step of a walk, the world behind it, and what it did."""
    return walks.walked(crash(), facts, found=lambda place: found or {})


def served(facts: dict[str, str]) -> list[str]:
    """What the readings of a walk serve as, in their order."""
    steps = (crash().by_name.get(place) for place, _, _ in walked(facts))
    return [step.serves_as for step in steps if step and step.kind == "readings"]


@pytest.mark.parametrize("nose", NOSES)
@pytest.mark.parametrize(
    ("on_nose", "read"),
    [("nothing", OF_THE_NOSE), ("this-chuck", OF_THE_CHUCK), ("one-piece", OF_THE_CHUCK)],
)
def test_what_is_on_the_nose_says_what_is_measured(
    nose: str, on_nose: str, read: list[str]
) -> None:
    """And it is left isolated, standing, with nothing set or gripped."""
    facts = told(nose=nose, on_nose=on_nose)
    *_, (place, world, _) = walked(facts)
    assert served(facts) == read
    assert place == "finished"
    left = ("power", "indicator", "guard", "small-things", "chuck-key")
    assert [value(world, each) for each in left] == ["isolated", "off", "shut", "cleared", "out"]


STOPS = (
    {"jammed": "touching", "came_free": "no"},
    {"damage": "something"},
    {"damage": "not-known"},
    {"turns": "not-even"},
    {"readings_say": "not-within"},
    {"jaws_run": "not-free"},
    {"on_nose": "something-else"},
)


@pytest.mark.parametrize("doubt", STOPS, ids=str)
def test_every_finding_and_every_doubt_ends_as_stopped(doubt: dict[str, str]) -> None:
    """Isolated and made safe, never handed over, and the last words name a competent person."""
    *_, (last, _, _), (place, world, _) = walked(told(**doubt))
    assert place == "abandoned"
    assert made_safe(world, told(**doubt))
    assert "competent person" in crash().by_name[last].full


def test_what_the_eye_has_found_is_not_turned_by_hand() -> None:
    """Damage, or something wedged, ends it before the spindle moves."""
    for doubt in STOPS[:3]:
        assert not [did for _, _, did in walked(told(**doubt)) if "turn by hand" in did]


@pytest.mark.parametrize("hurt", ["somebody", "not-known"])
def test_whoever_is_hurt_comes_first_and_the_lathe_waits(hurt: str) -> None:
    """Nothing but stop is done to it, and help is the only step that follows."""
    steps = list(walked(told(hurt=hurt)))
    assert [place for place, _, _ in steps] == ["stop-at-once", "people", "help-first", "abandoned"]
    assert {each for _, _, did in steps for each in did} == {"stop"}


@pytest.mark.parametrize(
    "found",
    [{"seat": "caught"}, {"seat": "off"}, {"carried": "chuck", "lifting-gear": "rigged"},
     {"bolts": "caught"}],
    ids=str,
)  # fmt: skip
def test_what_hangs_or_is_not_as_was_said_is_not_measured(found: dict[str, str]) -> None:
    """The walk ends with the power seen to be cut, and no dial is set."""
    steps = list(walked(told(), found))
    assert [place for place, _, _ in steps][-2:] == ["not-fast", "abandoned"]
    assert value(steps[-1][1], "power") == "isolated"
    assert not [did for _, _, did in steps if {"set indicator", "fit chuck-key"} & set(did)]


def test_nothing_is_started_run_tightened_or_loosened() -> None:
    """Not even to prove that the power is cut; jaws alone are moved, after what is read."""
    did = {each.action for step in crash().steps for each in doings(step)}
    assert not did & (TOUCHES | {"try to start", "restore power", "run slow"})
    order = [each for _, _, done in walked(told(), {"jaws": "on-bar"}) for each in done]
    assert order.index("release bar") > len(order) - 1 - order[::-1].index("read")
    assert "grip bar" not in order


def test_each_reading_has_its_own_limit_and_none_is_built_in(folder: Path) -> None:
    """All may be unknown, none has a usual answer, and each told one decides."""
    for name in (*OF_THE_NOSE, *OF_THE_CHUCK):
        limit = crash().facts[f"{name}-limit"]
        assert limit.may_be_unknown
        assert not limit.usual
    for unit, names in (("inch", OF_THE_NOSE), ("metric", OF_THE_CHUCK)):
        taken = ended(folder, unit).taken
        assert [taken[name].figures["verdict"] for name in names] == ["within"] * 3


def test_it_is_never_said_here_that_it_may_run_again() -> None:
    """That is the competent person's; label and hand-over say so in full and in brief."""
    for name in ("label-on", "sign-off"):
        step = crash().by_name[name]
        assert "competent person" in step.full
        assert "not" in step.brief
        assert "run" in step.brief
    assert not [fact for fact in crash().facts if "run-again" in fact]


def test_whatever_is_touched_turned_or_looked_under_has_a_caution() -> None:
    """Each hazard has its action."""
    for step in crash().steps:
        if step.kind == "task" and step.name not in ("clear-for-nose", "indicator-on-nose"):
            assert step.cautions, step.name


def test_a_chuck_that_is_off_later_is_never_handed_over_as_looked_at() -> None:
    """Whatever step was open, with it off the nose the walk goes on where it is stopped."""
    facts, order = told(), crash().order
    ways = Ways(Plan(crash()), facts)
    for place, world, _ in walked(facts):
        if place in crash().by_name and order[place] > order["not-fast"]:
            aside = ("swing", "reads", "series", "result", "gate")
            seen = {name: each for name, each in as_dict(world).items() if name not in aside}
            off = encode(look_again(world, {**seen, "seat": "off"}))
            landed = ways.land(place, off)
            assert order[landed] <= order["not-fast"], place
            assert ways.places("not-fast", off) == {"abandoned"}


def test_nothing_is_tried_by_starting_not_even_on_the_way_to_safety() -> None:
    """What only a start would prove is seen; where a procedure tries to start, so does that way."""
    assert not tries_to_start(crash())
    assert tries_to_start(find("adjustable-chuck"))
    left = {"power": "off", "controls": "neutral", "spindle": "free", "carried": "nothing"}
    out = dict.fromkeys(("chuck-key", "screw-key", "spanner"), "out")
    bare = changed(UNKNOWN, **left, **out, seat="off", body="apart", indicator="off")
    assert next_to_safe(bare, {"nose": "camlock"}) == "try to start"
    assert next_to_safe(bare, {"nose": "camlock"}, tries=False) == "see isolated"


@pytest.mark.parametrize("verdict", ["outside", "undecided"])
def test_readings_that_were_judged_out_are_not_told_as_within(verdict: str) -> None:
    """The answer is refused with the way on; the other answer, and verdicts within, are taken."""

    def judged(each: str) -> State:
        taken = Taken(9, "body-play", "body-play", "play", {"figures": {"verdict": each}})
        return State("crash", "", "figures", taken={"body-play": taken})

    with pytest.raises(BadInput, match="judged outside its limit"):
        refuse_within({"readings-say": "within"}, judged(verdict))
    refuse_within({"readings-say": "not-within"}, judged(verdict))
    refuse_within({"readings-say": "within"}, judged("within"))
