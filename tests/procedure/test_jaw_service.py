"""The jaws of a scroll chuck: out and in by order, nothing undone that holds the chuck's truth."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import product
from pathlib import Path

import pytest

from guide.journal.store import Store
from guide.procedure.model import Procedure
from guide.procedure.shelf import find
from guide.records.of_setup import record_of
from guide.records.standing import standing
from guide.walk.bits import encode
from guide.walk.flow import doings
from guide.walk.landing import Plan, Ways
from guide.walk.looking import look_again
from guide.walk.setup import Setup
from guide.walk.world import UNKNOWN, as_dict, made_safe, value
from tests.procedure import walks
from tests.procedure.walks import Stood, rehearsed

NOSES = ("long", "camlock", "bolted", "threaded")
OUT = ["jaw-3-out", "jaw-2-out", "jaw-1-out"]
IN = ["jaw-1-in", "jaw-2-in", "jaw-3-in"]
BARS = ("middle", "small", "large")
READ = ["bell-near", "bell-far", *(f"repeats-{bar}-{n}" for bar, n in product(BARS, (1, 2, 3)))]
LIMITS = ["bell-near-limit", "bell-far-limit", *(f"repeats-{bar}-limit" for bar in BARS)]
TRUTH = {
    "bolts snug", "bolts tighten", "bolts ease", "bolts slacken", "take bolts out", "bolts catch",
    "lock", "unlock", "part", "join", "screws touch", "screws turn", "screws nip", "fit screw-key",
    "take off nose", "put on nose",
}  # fmt: skip
"""What would move the body, the plate or an adjusting screw."""


@cache
def service() -> Procedure:
    """The shipped procedure."""
    return find("jaw-service")


def told(**more: str) -> dict[str, str]:
    """The closed facts of a two-piece chuck on the nose that is stripped and turned round."""
    facts = {"nose": "camlock", "on-nose": "this-chuck", "guard-fitted": "yes"}
    facts |= {"job": "strip-tops", "parts-are": "fit", "refitted": "sound"}
    facts |= {"readings-say": "within"}
    return facts | {name.replace("_", "-"): each for name, each in more.items()}


def walked(facts: dict[str, str], found: dict[str, str] | None = None) -> Iterator[Stood]:
    """Each step of a walk, the world behind it, and what it did."""
    return walks.walked(service(), facts, found=lambda place: found or {})


def places(facts: dict[str, str]) -> list[str]:
    """The steps of a walk, in their order."""
    return [place for place, _, _ in walked(facts)]


def served(facts: dict[str, str]) -> list[str]:
    """What the readings of a walk serve as, in their order."""
    steps = (service().by_name.get(place) for place in places(facts))
    return [step.serves_as for step in steps if step and step.kind == "readings"]


def words(name: str) -> str:
    """All that a step says of what is done, and of what can hurt."""
    step = service().by_name[name]
    told_of = (f"{each.hazard} {each.action}" for each in step.cautions)
    return " ".join((step.title, step.full, step.brief, step.wrong, *told_of))


@pytest.mark.parametrize("nose", NOSES)
@pytest.mark.parametrize("on_nose", ["this-chuck", "one-piece"])
@pytest.mark.parametrize("job", ["strip", "strip-tops", "tops", "measure"])
def test_on_the_nose_each_job_is_read_and_left_isolated(nose: str, on_nose: str, job: str) -> None:
    """Jaws closed on nothing, keys out, guard shut, nothing about; all eleven readings taken."""
    facts = told(nose=nose, on_nose=on_nose, job=job)
    *_, before, (place, world, _) = walked(facts)
    assert (before[0], place) == ("sign-off", "finished")
    assert served(facts) == READ
    left = {"power": "isolated", "jaws": "closed", "indicator": "off", "guard": "shut"}
    left |= {"small-things": "cleared", "chuck-key": "out", "spanner": "out", "controls": "neutral"}
    assert {name: value(world, name) for name in left} == left


@pytest.mark.parametrize("job", ["strip", "strip-tops"])
def test_jaws_leave_3_2_1_and_enter_1_2_3_one_behind_the_other(job: str) -> None:
    """Cleaned, looked over and greased in between; then seen to close to one circle."""
    order = places(told(job=job))
    assert [each for each in order if each in OUT + IN] == OUT + IN
    first, last = order.index(IN[0]), order.index(OUT[-1])
    assert order[first : first + 3] == IN
    assert {"clean-scroll", "clean-jaws", "condition", "grease"} <= {*order[last:first]}
    assert order[first + 3] == "run-in"
    assert "one circle" in words("run-in")
    assert "very next" in words("jaw-2-in")


def test_of_a_jaw_that_missed_its_pass_all_come_out_again() -> None:
    """Said wherever it can show: nothing is put right by one jaw alone."""
    for name in ("jaw-2-in", "jaw-3-in", "run-in"):
        assert "begin again with jaw 1" in words(name), name


def test_top_jaws_come_off_before_the_masters_and_go_on_after_them() -> None:
    """And where the masters stay in the scroll, no jaw leaves it."""
    order = places(told())
    assert order.index("tops-off") < order.index(OUT[0])
    assert order.index("run-in") < order.index("tops-on") < order.index("tops-run")
    alone = places(told(job="tops"))
    assert not {*OUT, *IN, "clean-scroll", "grease"} & {*alone}
    assert alone.index("tops-off") < alone.index("clean-masters") < alone.index("tops-on")
    assert not {"tops-off", "tops-on", "top-screws"} & {*places(told(job="strip"))}


def test_to_measure_nothing_is_taken_out() -> None:
    """Nor asked about grease and torque; the walk goes straight to the dial."""
    alone = {*places(told(job="measure"))}
    apart = {*OUT, *IN, "tops-off", "tops-on", "numbers", "leave-alone", "book", "top-screws"}
    assert not apart & alone
    assert not {"how-refitted", "condition"} & alone


def test_nothing_in_it_moves_what_holds_the_truth_and_nothing_is_run() -> None:
    """Not a bolt, an adjusting screw or the seat, by any of its steps."""
    did = {each.action for step in service().steps for each in doings(step)}
    assert not did & (TRUTH | {"restore power", "run slow"})
    assert "rig lifting-gear" not in did


def test_what_is_not_undone_is_confirmed_before_the_first_screw() -> None:
    """Body, adjusting screws, retaining and cover screws, compressed air: each a line of a gate."""
    gate = service().by_name["leave-alone"]
    said = [f"{check.say} {check.hazard}" for check in gate.checks]
    for line, word in zip(said, ("bolts", "adjusting", "pinions", "compressed air"), strict=True):
        assert word in line
    for job in ("strip", "strip-tops", "tops"):
        order = places(told(job=job))
        first = next(each for each in order if each in ("tops-off", *OUT))
        assert order.index("leave-alone") < order.index(first)


@pytest.mark.parametrize("job", ["strip", "tops"])
@pytest.mark.parametrize("on_nose", ["this-chuck", "nothing"])
def test_what_was_undone_is_said_and_the_chuck_is_not_relied_on(on_nose: str, job: str) -> None:
    """It is read no further, and signed off as what has to be trued or seen to first."""
    facts = told(on_nose=on_nose, job=job, refitted="undone")
    assert places(facts)[-2:] == ["sign-off-not", "finished"]
    assert served(facts) == []
    for word in ("adjustable-chuck", "competent person", "not to be run"):
        assert word in words("sign-off-not")


def test_jaws_that_do_not_close_to_one_circle_are_not_used() -> None:
    """No bar is gripped to see what it does."""
    facts = told(refitted="not-one")
    assert places(facts)[-2:] == ["sign-off-not", "finished"]
    assert not [did for _, _, did in walked(facts) if "grip bar" in did]


@pytest.mark.parametrize("weak", [{"bolts": "snug"}, {"screws": "touching"}], ids=str)
def test_a_chuck_whose_bolts_or_screws_gave_is_not_handed_over_as_sound(weak: dict) -> None:
    """Nothing pulls them up here, and the last sign-off is not open to it."""
    steps = list(walked(told(), weak))
    assert [place for place, _, _ in steps][-2:] == ["sign-off-not", "finished"]
    assert value(steps[-1][1], next(iter(weak))) == next(iter(weak.values()))


@pytest.mark.parametrize("job", ["strip", "strip-tops", "tops"])
def test_what_is_cracked_or_not_seen_is_not_put_back(job: str) -> None:
    """It ends as stopped, made safe, with no jaw put in and a competent person told."""
    facts = told(job=job, parts_are="not-fit")
    *_, (last, _, _), (place, world, _) = walked(facts)
    assert (last, place) == ("stop-here", "abandoned")
    assert made_safe(world, facts)
    assert not {*IN, "tops-on", "grease"} & {*places(facts)}
    assert "competent person" in words("stop-here")


def test_another_chuck_or_nothing_to_read_ends_it_with_nothing_touched() -> None:
    """Something else on the nose, or measuring alone with the chuck on the bench."""
    for facts in (told(on_nose="something-else"), told(on_nose="nothing", job="measure")):
        *_, (place, world, _) = walked(facts)
        assert (place, world) == ("abandoned", UNKNOWN)


@pytest.mark.parametrize("job", ["strip", "strip-tops", "tops"])
def test_on_the_bench_it_is_serviced_and_not_read(job: str) -> None:
    """The other sign-off says that it was not read, and the bare spindle stays isolated."""
    facts = told(on_nose="nothing", job=job)
    *_, (_, world, _) = walked(facts)
    assert places(facts)[-2:] == ["sign-off-bench", "finished"]
    assert served(facts) == []
    assert [value(world, each) for each in ("power", "seat")] == ["isolated", "off"]
    assert "were not read" in words("sign-off-bench")


NOT_FAST = (
    {"seat": "caught"},
    {"seat": "off"},
    {"body": "apart", "bolts": "out", "screws": "free"},
    {"bolts": "caught"},
    {"carried": "chuck", "lifting-gear": "rigged"},
)


@pytest.mark.parametrize("found", NOT_FAST, ids=str)
def test_no_jaw_is_drawn_from_a_chuck_that_is_not_fast(found: dict[str, str]) -> None:
    """The walk ends with the power seen to be cut, and no key in the chuck."""
    steps = list(walked(told(), found))
    assert [place for place, _, _ in steps][-2:] == ["not-here", "abandoned"]
    assert value(steps[-1][1], "power") == "isolated"
    assert not [did for _, _, did in steps if {"fit chuck-key", "grip bar"} & set(did)]


def test_a_chuck_found_off_the_nose_later_is_never_handed_over_as_read() -> None:
    """Whatever step was open, the walk goes on where it ends."""
    facts, order = told(), service().order
    ways = Ways(Plan(service()), facts)
    for place, world, _ in walked(facts):
        if place in order and order[place] > order["not-here"]:
            aside = ("swing", "reads", "series", "result", "gate")
            seen = {name: each for name, each in as_dict(world).items() if name not in aside}
            off = encode(look_again(world, {**seen, "seat": "off"}))
            assert order[ways.land(place, off)] <= order["not-here"], place
            assert ways.places("not-here", off) == {"abandoned"}


@pytest.mark.parametrize("on_nose", ["this-chuck", "one-piece", "nothing"])
def test_no_hand_goes_to_the_chuck_before_the_isolation_is_proven(on_nose: str) -> None:
    """Key, grip, dial and turning by hand come only with the power isolated."""
    power = "unknown"
    for _, world, did in walked(told(on_nose=on_nose)):
        if {"fit chuck-key", "fit spanner", "grip bar", "set indicator", "turn by hand"} & {*did}:
            assert power == "isolated"
        power = value(world, "power")


def test_no_step_leaves_a_key_in_the_chuck() -> None:
    """Whatever a step does with it, it is out behind it."""
    for facts in (told(), told(job="strip"), told(job="tops"), told(on_nose="nothing")):
        for place, world, _ in walked(facts):
            for key in ("chuck-key", "screw-key", "spanner"):
                assert value(world, key) in ("out", "unknown"), (place, key)


def test_work_in_the_jaws_is_taken_out_first_and_the_cut_is_then_seen_not_tried() -> None:
    """A start would throw it."""
    steps = list(walked(told(), {"jaws": "on-bar"}))
    order = [place for place, _, _ in steps]
    assert {"try-start"} & {*order} == set()
    assert order.index("see-isolated") < order.index("take-out") < order.index("tops-off")


def test_each_jaw_that_comes_free_has_a_hand_on_it_and_wood_under_it() -> None:
    """A board before the first one; at the top of the chuck; a whole hand round it."""
    order = places(told())
    assert order.index("board") < order.index("tops-off")
    for name in OUT:
        assert "to the top" in words(name) or "at the top" in words(name), name
        assert "hand round jaw" in words(name), name
    assert "helper" in words("jaw-3-out")


def test_no_jaw_is_run_past_its_mark_and_none_is_blown_clean() -> None:
    """Said where it is done."""
    for name in ("run-in", "tops-run"):
        assert "past its mark" in words(name), name
    for name in ("clean-scroll", "clean-masters", "leave-alone"):
        assert "compressed air" in words(name) or "no air" in words(name), name
    for name in ("clean-scroll", "clean-jaws", "clean-masters"):
        assert "Solvent" in words(name), name


def test_grease_projection_and_torque_are_asked_with_their_source_and_none_is_built_in() -> None:
    """No usual answer stands there, and a torque that is not known is not run."""
    for name in ("grease", "projection", "top-torque", "top-torque-source", *LIMITS):
        assert not service().facts[name].usual, name
    assert service().facts["top-torque"].may_be_unknown
    assert "not run" in words("tops-on")
    assert places(told()).index("how-drawn") > places(told()).index("tops-on")
    assert [*service().facts["tops-drawn"].of] == ["wrench", "by-feel"]
    assert "not to be run" in words("sign-off")


def test_the_first_start_is_told_to_whoever_makes_it() -> None:
    """Slow, guard shut, out of the plane, since what grease is left over is flung off."""
    for name in ("sign-off", "sign-off-bench"):
        for word in ("lowest speed", "guard shut", "plane", "flung off"):
            assert word in words(name), (name, word)


def ended(folder: Path, which: str) -> Setup:
    """A rehearsal walked to its end."""
    return rehearsed("jaw-service", which, folder)


def test_each_diameter_is_gripped_three_times_and_judged_by_its_own_range(folder: Path) -> None:
    """Each told limit decides; the runout of a single grip is a figure and no verdict."""
    taken = ended(folder, "inch").state.taken
    assert [*taken] == READ
    for bar, apart in (("middle", 0.0003), ("small", 0.0003), ("large", 0.0006)):
        one, _, three = (taken[f"repeats-{bar}-{n}"].figures for n in (1, 2, 3))
        assert "verdict" not in one
        assert float(three["range"]) == pytest.approx(apart, rel=0.02)
        assert (three["grips"], three["verdict"]) == ("3", "within")


def test_out_undecided_or_without_a_limit_it_is_handed_over_with_a_tag(folder: Path) -> None:
    """Bell-mouth within near and without verdict far, one diameter out, one not judged."""
    state = ended(folder, "metric").state
    verdicts = {name: each.figures.get("verdict") for name, each in state.taken.items()}
    assert verdicts["bell-near"] == "within"
    assert verdicts["bell-far"] is None
    assert [verdicts[f"repeats-{bar}-3"] for bar in BARS] == ["outside", "within", None]
    assert "tag-out" in [entry.place for entry in state.entries]
    assert "tag-out" not in [entry.place for entry in ended(folder, "inch").state.entries]


def test_a_row_of_grips_that_was_begun_anew_counts_only_what_was_read_since(folder: Path) -> None:
    """The metric rehearsal is broken off at the smallest bar and grips it three times again."""
    state = ended(folder, "metric").state
    entries = [entry for entry in state.entries if entry.place.startswith("small")]
    read = [entry.place for entry in entries if entry.kind == "record"]
    assert read == ["small-1", "small-2", "small-1", "small-2", "small-3"]
    assert state.taken["repeats-small-3"].figures["grips"] == "3"
    assert float(state.taken["repeats-small-3"].figures["range"]) == pytest.approx(0.008, rel=0.02)


def test_no_limit_has_to_be_known(folder: Path) -> None:
    """All may be unknown: a figure, and no verdict."""
    assert all(service().facts[name].may_be_unknown for name in LIMITS)
    far = ended(folder, "metric").state.taken["bell-far"].figures
    assert "verdict" not in far
    assert float(far["play"]) == pytest.approx(0.116)


def test_on_the_bench_the_rehearsal_ends_without_a_reading(folder: Path) -> None:
    """Tops changed, not read, and signed as such."""
    state = ended(folder, "bench").state
    assert not state.taken
    assert state.entries[-1].place == "sign-off-bench"


def test_every_step_that_moves_turns_grips_or_looks_has_a_caution() -> None:
    """Each hazard has its action."""
    for step in service().steps:
        if step.kind in ("task", "readings", "sign-off"):
            assert step.cautions, step.name


def test_the_record_tells_each_range_and_calls_no_grip_a_result_of_the_chuck(folder: Path) -> None:
    """Whoever reads the sheet finds runout and range of the last grip; nothing is held to stand."""
    walk = ended(folder, "inch")
    with Store(folder / "jaw-service-inch.sqlite3") as store:
        record = record_of(walk, store)
    told_of = {each.serves_as: each for each in record.results}
    last = told_of["repeats-large-3"]
    assert last.judged == "0.0033 in; range of 3 grips 0.0006 in"
    assert "its middle moved 0.0003 in" in last.flags
    assert last.tolerance == "0.0015 in"
    assert standing(record) is None
    assert not [each for each in record.results if each.stands]
