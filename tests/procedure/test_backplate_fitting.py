"""Fitting a backplate: the seat is seen first, each cut stands behind its gates, none is forced."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.walk.as_found import expected_at_look
from guide.walk.bits import encode
from guide.walk.flow import doings, first_place, looks, next_place, performed, world_after
from guide.walk.landing import Plan, Ways
from guide.walk.limit import limit_name
from guide.walk.looking import look_again
from guide.walk.state import State
from guide.walk.world import UNKNOWN, World, as_dict, made_safe, value
from tests.procedure.walks import rehearsed

ANSWERS = Path(__file__).parents[1] / "answers"
NOSES = ("long", "camlock", "bolted", "threaded")
UNSEEN = ("swing", "reads", "series", "result", "gate")
LEFT = {
    "power": "isolated", "seat": "locked", "body": "apart", "carried": "nothing", "spanner": "out",
    "chuck-key": "out", "indicator": "off", "small-things": "cleared", "lifting-gear": "away",
}  # fmt: skip
"""What the lathe is handed over like: the plate alone on it, locked."""
Told = dict[str, str | list[str]]
"""Answers by fact or by verdict; a list gives one after the other, the last one ever after."""
Stood = tuple[str, World, tuple[str, ...]]


@cache
def fitting() -> Procedure:
    """The shipped procedure."""
    return find("backplate-fitting")


def ended(unit: str, folder: Path) -> State:
    """The state at the end of a rehearsal."""
    return rehearsed("backplate-fitting", unit, folder).state


def told(**more: str | list[str]) -> Told:
    """A raw plate on a cam-lock nose that is cut once and fits."""
    facts: Told = {"on-nose": "nothing", "guard-fitted": "yes", "nose": "camlock"}
    facts |= {"kept-on": "yes", "plate-is": "raw", "plate-by": "hands", "seat-shows": "all-round"}
    facts |= {"register-is": "right", "holes": "there", "sits": "accept", "may-run-slow": "yes"}
    facts |= {"cut-verdict": "another-round", "runs": "accept"}
    return facts | {name.replace("_", "-"): each for name, each in more.items()}


def walked(answers: Told, at: str = "", found: dict[str, str] | None = None) -> Iterator[Stood]:
    """Each step of a walk, the world behind it, and what it did; at `at` the look finds `found`."""
    waiting = {n: [each] if isinstance(each, str) else list(each) for n, each in answers.items()}
    facts: dict[str, str] = {}
    decided = ""

    def answer(name: str) -> str:
        return waiting[name].pop(0) if len(waiting[name]) > 1 else waiting[name][0]

    def test(name: str) -> bool:
        if name == "may-run-slow":
            return answers["may-run-slow"] == "yes"
        return {"another-round": "another-round", "stopped": "stop"}.get(name) == decided

    world, place = UNKNOWN, first_place(fitting(), UNKNOWN, facts, test)
    for _ in range(250):
        if place not in fitting().by_name:
            break
        step = fitting().by_name[place]
        facts |= {name: answer(name) for name in step.ask if name in waiting}
        decided = answer(place) if step.kind == "verdict" else decided
        did = () if looks(step) else performed(doings(step), world, facts)
        if looks(step):
            seen = as_dict(expected_at_look(world, facts)) | (found or {} if place == at else {})
            world = look_again(world, {n: e for n, e in seen.items() if n not in UNSEEN})
        else:
            world = world_after(step, world, facts)
        yield place, world, did
        place = next_place(fitting(), step, world, facts, test)
    yield place, world, ()


def places(answers: Told) -> list[str]:
    """The steps of a walk in their order, and its end."""
    return [place for place, _, _ in walked(answers)]


ALL = (
    *(told(nose=nose) for nose in NOSES),
    told(nose="threaded", kept_on="no"),
    told(on_nose="something-else"),
    *(told(nose=nose, plate_is="other") for nose in NOSES),
    told(may_run_slow="no"),
    told(seat_shows="not"),
    told(plate_by="support", guard_fitted="no"),
    told(plate_is="turned"),
    told(plate_is="turned", register_is=["large", "right"]),
    told(plate_is="turned", register_is="small"),
    told(register_is=["large", "large", "right"]),
    told(register_is=["large", "small"]),
    told(cut_verdict="stop"),
    told(runs=["stop", "accept"]),
    told(sits=["stop", "accept"], holes="not-yet"),
    told(sits="stop", cut_verdict=["another-round", "stop"]),
)
"""Walks that together take every branch."""
ENTERED_AGAIN = {
    "not-bare", "again-see", "stop-first", "keys-out", "again-gate", "again-try", "see-isolated",
    "lock-first", "free-spindle", "close-on-bench",
}  # fmt: skip
"""Steps that a walk meets only where a look found something other than expected."""


@pytest.mark.parametrize("answers", ALL, ids=str)
def test_every_walk_ends_finished_or_safely_stopped(answers: Told) -> None:
    """With the plate locked and alone on the nose, or made safe, or with nothing touched."""
    *_, (place, world, _) = walked(answers)
    assert place in ("finished", "abandoned")
    if place == "finished":
        assert {name: value(world, name) for name in LEFT} == LEFT
    else:
        facts = {name: each for name, each in answers.items() if isinstance(each, str)}
        assert world == UNKNOWN or made_safe(world, facts)


def test_every_step_and_every_branch_is_walked() -> None:
    """Nothing is written that no walk shows; what a look alone leads to is walked below."""
    met = {place for answers in ALL for place in places(answers)}
    assert {step.name for step in fitting().steps} - met == ENTERED_AGAIN
    jumps = {pair for answers in ALL for pair in pairwise(places(answers))}
    for step in fitting().steps:
        for branch in step.go:
            if step.name not in ENTERED_AGAIN:
                assert (step.name, branch.to) in jumps, (step.name, branch.to)


@pytest.mark.parametrize(
    ("at", "found", "met"),
    [
        ("wrench-look", {"seat": "locked", "body": "apart"}, "not-bare"),
        ("wrench-look", {"seat": "caught", "body": "apart"}, "lock-first"),
        ("wrench-look", {"body": "on-plate", "bolts": "tight"}, "not-bare"),
        ("wrench-look", {"jaws": "on-bar"}, "close-on-bench"),
        ("wrench-look", {"seat": "locked", "body": "on-plate", "jaws": "on-bar"}, "see-isolated"),
    ],
    ids=str,
)
def test_what_the_first_look_finds_is_put_right_or_ends_it(
    at: str, found: dict[str, str], met: str
) -> None:
    """A nose that is not bare ends it isolated; the rest is done and the walk goes through."""
    steps = list(walked(told(), at, found))
    assert met in [place for place, _, _ in steps]
    bare = not {"seat", "body"} & found.keys()
    assert steps[-1][0] == ("finished" if bare else "abandoned")
    assert bare or value(steps[-1][1], "power") == "isolated"


@pytest.mark.parametrize(
    ("found", "lands"),
    [
        ({"power": "as-found", "controls": "other"}, "stop-first"),
        ({"power": "off", "chuck-key": "in"}, "keys-out"),
        ({"power": "off", "indicator": "set"}, "keys-out"),
        ({"power": "off"}, "again-gate"),
        ({"power": "off", "seat": "caught"}, "again-see"),
        ({"chuck-key": "in"}, "keys-out"),
        ({"spindle": "held"}, "keys-out"),
        ({"seat": "caught"}, "plate-lock-camlock"),
        ({"seat": "off"}, "plate-gate"),
        ({"seat": "locked", "body": "on-plate", "bolts": "tight"}, "not-bare"),
    ],
    ids=str,
)
def test_found_changed_before_a_cut_the_walk_goes_back_to_where_it_is_put_right(
    found: dict[str, str], lands: str
) -> None:
    """Behind every such place the next cut is decided on anew, with the tool set anew."""
    facts = {name: each for name, each in told().items() if isinstance(each, str)}
    ways = Ways(Plan(fitting()), facts)
    world = next(world for place, world, _ in walked(told()) if place == "swing")
    seen = {name: each for name, each in as_dict(world).items() if name not in UNSEEN} | found
    landed = ways.land("set-to-cut", encode(look_again(world, seen)))
    assert landed == lands
    order = fitting().order
    assert order[landed] < order["cut-verdict"]


@pytest.mark.parametrize("nose", NOSES)
def test_only_the_words_of_this_nose_are_shown(nose: str) -> None:
    """Which plate, how it goes on and how it is locked; the blue on a taper or on a shoulder."""
    met = places(told(nose=nose))
    begun = ("nose-", "plate-on-", "plate-lock-", "blue-t", "blue-s")
    shown = {place for place in met if place.startswith(begun)} - {"nose-play", "nose-runout"}
    blue = "blue-shoulder" if nose == "threaded" else "blue-taper"
    assert shown == {f"nose-{nose}", f"plate-on-{nose}", f"plate-lock-{nose}", blue}


@pytest.mark.parametrize(
    "answers",
    [told(on_nose="something-else"), told(plate_is="other"), told(may_run_slow="no"),
     told(nose="threaded", kept_on="no")],
    ids=str,
)  # fmt: skip
def test_what_cannot_be_turned_here_ends_with_nothing_touched(answers: Told) -> None:
    """Another plate, a speed that nobody names, a thread that is braked: before any action."""
    steps = list(walked(answers))
    assert steps[-1][0] == "abandoned"
    assert steps[-1][1] == UNKNOWN


def test_the_seat_is_seen_before_the_plate_stays_on() -> None:
    """Blue first; a seat that does not touch all round is never mounted, and nobody files it."""
    met = places(told())
    assert met.index("seat-facts") < met.index("plate-gate")
    steps = list(walked(told(seat_shows="not")))
    assert [place for place, _, _ in steps][-2:] == ["stop-seat", "abandoned"]
    assert not [did for _, _, did in steps if {"catch", "lock", "restore power"} & set(did)]
    assert "not to be stoned" in fitting().by_name["stop-seat"].full


@pytest.mark.parametrize("answers", [each for each in ALL if "cut" in places(each)], ids=str)
def test_each_cut_stands_behind_its_gates_and_isolation_follows_it(answers: Told) -> None:
    """Swung by hand with the tool, gates for power and running, run; then stopped and proven."""
    steps = list(walked(answers))
    met = [place for place, _, _ in steps]
    for number, (place, world, did) in enumerate(steps):
        if place != "cut":
            continue
        assert (value(world, "power"), value(world, "spindle"), did) == ("restored", "turning", ())
        assert value(world, "controls") == "lowest-speed"
        before = met[number - 7 : number]
        assert before == ["tool-on", "swing", "set-to-cut", "power-gate", "restore", "run-gate",
                          "run"]  # fmt: skip
        after = met[number + 1 : number + 5]
        assert after == ["stop-cut", "locked-gate", "locked-try", "chips-off"]
        assert value(steps[number + 3][1], "power") == "isolated"


@pytest.mark.parametrize("answers", ALL, ids=str)
def test_no_hand_goes_to_the_plate_while_there_is_power(answers: Told) -> None:
    """With power on there is running and stopping, and no measuring, dial, tool or lift."""
    allowed = {"restore", "run-gate", "run", "cut"}
    for place, world, _ in walked(answers):
        if value(world, "power") == "restored":
            assert place in allowed


def test_nothing_runs_faster_than_the_lowest_speed_and_nothing_is_run_with_the_chuck_on() -> None:
    """The only speed that is set is the lowest; body and plate are parted before any power."""
    for step in fitting().steps:
        assert "set controls other" not in {each.action for each in doings(step)}
    for _, world, did in walked(told(sits=["stop", "accept"])):
        if "run slow" in did:
            assert (value(world, "body"), value(world, "carried")) == ("apart", "nothing")


def test_a_register_that_is_too_large_is_cut_again_and_one_too_small_is_stopped() -> None:
    """As often as a person decides; too small ends as stopped, with a person who decides."""
    assert places(told(register_is=["large", "large", "right"])).count("cut") == 3
    for answers in (told(register_is=["large", "small"]),
                    told(plate_is="turned", register_is="small")):  # fmt: skip
        *_, (last, _, _), (place, world, _) = walked(answers)
        assert (last, place) == ("stop-here", "abandoned")
        assert (value(world, "power"), value(world, "seat")) == ("isolated", "locked")
    assert "person who decides" in fitting().by_name["stop-here"].full


def test_a_plate_that_fits_as_found_is_not_cut() -> None:
    """It is read, measured, judged and tried on; no power comes back."""
    steps = list(walked(told(plate_is="turned")))
    assert steps[-1][0] == "finished"
    assert not [did for _, _, did in steps if "restore power" in did]
    assert "register-found" in [place for place, _, _ in steps]


def test_a_raw_front_is_never_read_by_a_dial() -> None:
    """It is turned once by hand and looked at; the first dial on it stands on what was cut."""
    met = places(told())
    assert "raw-turn" in met
    assert not {"register-found", "face-found", "size-found"} & set(met)


def test_the_chuck_is_carried_all_the_while_that_it_is_tried_on() -> None:
    """On and off in its support, no bolt and no key; then back on the bench before the next."""
    for holes, step in (("there", "try-there"), ("not-yet", "try-and-mark")):
        steps = list(walked(told(holes=holes)))
        met = [place for place, _, _ in steps]
        number = met.index(step)
        assert steps[number][2] == ("join", "part")
        assert (
            value(steps[number - 1][1], "carried") == value(steps[number][1], "carried") == "body"
        )
        assert met[number + 1] == "body-down"
        assert value(steps[number + 1][1], "carried") == "nothing"
    bolts = {"bolts catch", "bolts snug", "bolts tighten"}
    assert not bolts & {each.action for step in fitting().steps for each in doings(step)}


@pytest.mark.parametrize("unit", ["inch", "metric"])
def test_register_and_face_are_judged_by_limits_that_were_told(unit: str, folder: Path) -> None:
    """Both may be unknown, none has a usual answer, and as turned both came out within."""
    for name in ("register-runout", "face-runout"):
        limit = fitting().facts[limit_name(name)]
        assert limit.may_be_unknown
        assert not limit.usual
        assert ended(unit, folder).taken[name].figures["verdict"] == "within"


def test_the_rehearsed_clearances_are_what_the_fit_calculator_says(folder: Path) -> None:
    """Right lies between least and most by `calc fit`, too large has less than the least."""
    from guide.shop.fit import Part, fit

    for unit in ("inch", "metric"):
        state = ended(unit, folder)
        recess, least, most = (
            _mm(state.facts[name])
            for name in ("recess-diameter", "clearance-least", "clearance-most")
        )
        said = [each.data["facts"] for each in state.entries if "register-is" in _asked(each)]
        assert {each["register-is"] for each in said} == {"large", "right"}
        for each in said:
            found = fit(Part(_mm(each["register-size"]), 0), Part(recess, 0)).clearance_mm
            right = least <= found <= most
            assert right is (each["register-is"] == "right")
            assert right or found < least


def _asked(entry) -> dict[str, str]:
    """What was answered at an entry."""
    return dict(entry.data.get("facts", {}))


def _mm(answer: str) -> float:
    """A length as answered, in mm."""
    size, unit = answer.split()
    return float(size) * (25.4 if unit == "in" else 1)


def test_clearance_is_asked_and_its_usual_figure_is_called_common_practice() -> None:
    """Nothing stands there beforehand; a plain register fits by its maker's figure alone."""
    facts = fitting().facts
    for name in ("clearance-least", "clearance-most"):
        assert not facts[name].usual
    assert "0.010 in is usual (common practice, no source)" in facts["clearance-least"].help
    assert "maker's figure alone" in fitting().by_name["clearance"].full
    assert [each for each in fitting().rests_on if "0.010 in" in each and "no source" in each]


def test_no_figure_of_speed_or_cut_is_given_as_leave() -> None:
    """Marked speed unknown ends it, the cut is under the shop's rules, and no rpm is named."""
    step = fitting().by_name["cut"]
    assert "no other" in step.full
    for each in (step, fitting().by_name["set-to-cut"], fitting().by_name["run"]):
        assert "rpm" not in each.full
    assert fitting().facts["marked-speed"].may_be_unknown


def test_whatever_is_handled_turned_or_cut_has_a_caution() -> None:
    """Each hazard has its action; taking a dial off or wiping a nose needs none of its own."""
    harmless = {"clear-for-nose", "indicator-on-nose", "indicator-off-nose", "clear-for-plate",
                "indicator-off-found", "indicator-off-left"}  # fmt: skip
    for step in fitting().steps:
        if step.kind == "task" and step.name not in harmless:
            assert step.cautions, step.name
