"""Rechecking a chuck: nothing touched before it is read, nothing accepted that may not be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from guide.journal.store import Store
from guide.procedure.model import Procedure, Step
from guide.procedure.shelf import find
from guide.procedure.vocabulary import TRIGGER
from guide.rehearse import Answer, as_seen, give, read_answers
from guide.walk.bits import encode
from guide.walk.closed import closed_facts
from guide.walk.flow import doings, exits, looks
from guide.walk.going_on import ANEW, carried_over, goes_on_to
from guide.walk.landing import Plan, Ways
from guide.walk.looking import changes
from guide.walk.recording import checks_of, offered
from guide.walk.remembered import filled_in, remembered
from guide.walk.setup import Setup, open_setup
from guide.walk.world import UNKNOWN, World, as_dict, made_safe, value
from tests.procedure import walks
from tests.procedure.walks import Stood

ANSWERS = Path(__file__).parents[1] / "answers"
AT = "2031-03-02T08:00:00.000Z"
UNTRIED = {"bolts": "snug", "screws": "touching"}
"""What is recorded at the first look, where no wrench may go on bolt or screw."""
UNMOUNTING = {"unlock", "take off nose", "part", "take bolts out", "bolts slacken", "bolts ease"}
NOSES = ("long", "camlock", "bolted", "threaded")
each_nose = pytest.mark.parametrize("nose", NOSES)


@cache
def recheck() -> Procedure:
    """The shipped procedure."""
    return find("chuck-recheck")


def told(nose: str = "camlock", **more: str) -> dict[str, str]:
    """The closed facts of one job."""
    facts = {"nose": nose, "on-nose": "this-chuck", "guard-fitted": "yes", "why-now": "date"}
    return {**facts, "second-grip": "yes", **{n.replace("_", "-"): e for n, e in more.items()}}


def walked(
    facts: dict[str, str], found: Mapping[str, str] = UNTRIED, within: bool = True
) -> Iterator[Stood]:
    """Each step of a walk, the world behind it, what it did; all read within, or all outside."""
    true = {"accepted", "found-within", "within"} if within else {"stopped", "outside"}
    return walks.walked(
        recheck(), facts, lambda place: true, lambda place: found if place == "look" else None
    )


@each_nose
@pytest.mark.parametrize("within", [True, False])
def test_it_ends_finished_isolated_and_on_nothing(nose: str, within: bool) -> None:
    """In tolerance with a result that stands; out, by the other sign-off, with none."""
    steps = list(walked(told(nose), within=within))
    place, world, _ = steps[-1]
    left = {"power": "isolated", "jaws": "closed", "indicator": "off", "guard": "shut"}
    left |= {"seat": "locked", "body": "on-plate", "result": "valid" if within else "none"}
    assert place == "finished"
    assert {name: as_dict(world)[name] for name in left} == left
    assert steps[-2][0] == ("sign-off" if within else "sign-off-out")


def test_nothing_in_it_moves_a_bolt_a_screw_or_the_seat_or_powers_the_lathe() -> None:
    """Of all its steps not one action does; a grip is the most that it changes."""
    done = {doing.action for step in recheck().steps for doing in doings(step)}
    touching = {each for each in done if each.startswith(("bolts", "screws", "jaws", "fit s"))}
    assert not touching
    assert not done & (UNMOUNTING | {"lock", "restore power", "run slow", "fit spanner"})


@each_nose
def test_no_hand_goes_to_the_chuck_before_the_isolation_is_proven(nose: str) -> None:
    """Key, grip, dial and turning by hand come only with the power isolated."""
    power = "unknown"
    for _, world, did in walked(told(nose)):
        if {"fit chuck-key", "grip bar", "set indicator", "turn by hand"} & set(did):
            assert power == "isolated"
        power = value(world, "power")


@pytest.mark.parametrize("grips", ["yes", "no"])
def test_a_wrench_goes_on_only_after_what_is_found_was_read(grips: str) -> None:
    """Every turn as found is read with bolts and screws untried; out, none is tried at all."""
    order = [place for place, _, _ in walked(told(second_grip=grips))]
    last = "gripped-again" if grips == "yes" else "as-found"
    assert order.index("look") < order.index(last) < order.index("try-fast")
    assert order.index("try-fast") < order.index("as-left")
    assert ("gripped-again" in order) is (grips == "yes")
    out = [place for place, _, _ in walked(told(second_grip=grips), within=False)]
    assert not {"try-fast", "as-left", "sign-off"} & set(out)
    for place, world, _ in walked(told(second_grip=grips)):
        if place in ("as-found", last):
            assert (value(world, "bolts"), value(world, "result")) == ("snug", "none")


SEEN_MORE = (UNTRIED, {"bolts": "snug"}, {"screws": "touching"}, {})
"""The single changes are proven by `check`; that both are untried at once is the usual walk."""


@pytest.mark.parametrize("found", SEEN_MORE, ids=str)
def test_from_a_chuck_that_was_not_tried_every_way_leads_on(found: dict[str, str]) -> None:
    """At each step of the usual walk, the truth and every single change that a look may find."""
    facts, plan = told(), Plan(recheck())
    ways = Ways(plan, facts)
    place = ways.first()
    for following, world, _ in [*walked(facts, found), *walked(facts, found, within=False)]:
        if value(world, "power") == "isolated" and following in recheck().by_name:
            for place in ways.places(following, encode(world)):
                assert ways.walkable(place, encode(world)), (following, place)
                if found == UNTRIED:
                    _each_change_lands(ways, place, world, facts)


def _each_change_lands(ways: Ways, place: str, world: World, facts: dict[str, str]) -> None:
    """Found changed and safe, it goes on from where it stood or before; else it is made safe."""
    for new in changes(world, facts):
        lands = ways.land(place, encode(new)) is not None
        assert lands or not made_safe(new, facts), (place, as_dict(new))


NOT_FIT = (
    {"seat": "off", "body": "apart", "bolts": "out", "screws": "free"},
    {"seat": "off"},
    {"body": "apart", "bolts": "out", "screws": "free"},
)  # fmt: skip


@pytest.mark.parametrize("found", NOT_FIT, ids=str)
def test_a_chuck_that_is_off_or_parted_is_not_read(found: dict[str, str]) -> None:
    """The walk ends before anything is gripped or read."""
    steps = list(walked(told("bolted"), found))
    assert steps[-1][0] == "abandoned"
    assert value(steps[-1][1], "power") == "isolated"
    assert not [did for _, _, did in steps if {"grip bar", "set indicator", "read"} & set(did)]


@pytest.mark.parametrize("on_nose", ["something-else", "unknown"])
def test_another_chuck_ends_it_with_nothing_touched(on_nose: str) -> None:
    """Not even the isolator."""
    steps = list(walked({**told(), "on-nose": on_nose}))
    assert [place for place, _, _ in steps] == ["which", "abandoned"]
    assert steps[-1][1] == UNKNOWN


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """An empty journal."""
    with Store(tmp_path / "journal.sqlite3") as one:
        yield one


def begun(store: Store, file: str, mode: str = "rehearsal") -> tuple[Setup, list[Answer]]:
    """A setup of an answers file's person on its lathe, and the answers."""
    answers = read_answers(ANSWERS / f"{file}.yaml")
    walk = open_setup(
        store, recheck(), setup=f"{file}-{mode}", person=answers.person, at=AT, lathe=answers.lathe,
        mode=mode, typed_at="file",
    )  # fmt: skip
    return walk, list(answers.answers)


def given(walk: Setup, answers: list[Answer], changes: Mapping[str, Mapping[str, Any]]) -> None:
    """The answers in order, as far as the walk asks for them, some answered otherwise."""
    for answer in answers:
        if answer.step and answer.step != walk.state.place:
            return
        data = dict(answer.data)
        for name, other in changes.get(answer.step, {}).items():
            data[name] = {**data[name], **other} if isinstance(other, Mapping) else other
        give(walk, replace(answer, data=data), AT)


OUT = [f"{0.002 * each:.4f}" for each in (0, 1, 2, 3, 4, 3, 2, 1)]


@pytest.mark.parametrize(
    ("why", "looked", "place"),
    [
        ("date", "", "found-verdict"),
        ("jaws", "", "found-verdict"),
        ("other", "", "found-verdict"),
        ("crash", "untouched", "found-verdict"),
        ("crash", "touched", "found-verdict-void"),
        ("crash", "nobody", "found-verdict-void"),
        ("remount", "", "found-verdict-void"),
        ("bolt", "", "found-verdict-void"),
    ],
)
def test_what_voids_the_last_result_lets_no_good_turn_stand_by_itself(
    store: Store, why: str, looked: str, place: str
) -> None:
    """However well it reads: only where nothing voided it may it be accepted."""
    walk, answers = begun(store, "chuck-recheck-inch")
    steps = [each.step for each in answers]
    dial, damage, verdict = map(steps.index, ("dial", "jaws-and-marks", "found-verdict"))
    given(walk, answers[:dial], {"reason": {"facts": {"why-now": why}}})
    if why == "crash":
        facts = {"facts": {"competent-look": looked}}
        walk.act("record", facts, person=walk.state.person, at=AT)
    given(walk, answers[dial:damage], {})
    if why == "crash":
        assert walk.state.place == "look-for-damage"
        walk.act("done", {}, person=walk.state.person, at=AT)
    given(walk, answers[damage:verdict], {})
    assert (walk.state.place, walk.state.verdict) == (place, "within")
    may_be = offered(recheck().by_name[place], walk.state)
    assert may_be == (("accept",) if place == "found-verdict" else ()) + ("another-turn", "stop")


def test_a_lucky_second_grip_takes_nothing_back(store: Store) -> None:
    """Out as found and within in the second grip: it is not accepted, and it is signed as such."""
    walk, answers = begun(store, "chuck-recheck-inch")
    changed = {"as-found": {"values": OUT}, "found-verdict": {"decision": "stop", "why": "out"}}
    twice = [each.step for each in answers].index("found-verdict")
    given(walk, [*answers[: twice - 1], *answers[twice + 1 :]], changed)
    assert walk.state.place == "grip-verdict-out"
    assert walk.state.verdict == "within"
    assert "accept" not in offered(recheck().by_name["grip-verdict-out"], walk.state)
    person = walk.state.person
    walk.act("record", {"decision": "stop", "why": "invented"}, person=person, at=AT)
    walk.act("done", {}, person=person, at=AT)
    assert walk.state.place == "sign-off-out"


def test_a_bolt_that_moves_under_the_wrench_is_not_drawn_up_and_not_accepted(store: Store) -> None:
    """The only decision is to stop; the walk hands over as not accepted."""
    walk, answers = begun(store, "chuck-recheck-metric")
    given(walk, answers, {"try-fast": {"seen": {"bolts": "snug"}}})
    assert walk.state.place == "moved"
    assert offered(recheck().by_name["moved"], walk.state) == ("stop",)
    person = walk.state.person
    walk.act("record", {"decision": "stop", "why": "bolt 2 gave"}, person=person, at=AT)
    walk.act("done", {}, person=person, at=AT)
    state = walk.act("record", {"name": person, "meaning": "as found"}, person=person, at=AT)
    assert (state.place, goes_on_to(state)) == ("finished", "adjustable-chuck")
    assert value(state.world, "result") != "valid"


def test_what_was_accepted_and_is_then_found_loose_is_not_handed_over_as_good(store: Store) -> None:
    """Broken off after the last verdict, a bolt found snug: the sign-off is the other one."""
    walk, answers = begun(store, "chuck-recheck-inch")
    stop = [each.step for each in answers].index("put-away")
    given(walk, answers[:stop], {})
    person = walk.state.person
    walk.act("pause", {"why": ""}, person=person, at=AT)
    walk.act("resume", {}, person=person, at=AT)
    seen = as_seen(walk, {"rest": "as-recorded", "dressed": "other", "bystanders": "near"})
    walk.act("record", {"seen": {**seen, "bolts": "snug"}}, person=person, at=AT)
    assert walk.state.place == "put-away"
    assert walk.act("done", {}, person=person, at=AT).place == "sign-off-out"


def test_a_file_that_ends_in_tolerance_leads_into_nothing_else(store: Store) -> None:
    """A new date and a result that stands; nothing is to be trued."""
    walk, answers = begun(store, "chuck-recheck-inch", "real")
    given(walk, answers, {})
    assert walk.state.place == "finished"
    assert walk.state.facts["recheck-date"] == "2027-03-02"
    assert value(walk.state.world, "result") == "valid"
    assert goes_on_to(walk.state) == ""
    assert carried_over(store, find("adjustable-chuck"), walk.state.facts["lathe"]) == {}


TRUING_TOLD = {
    "nose-size": "unknown", "lowest-speed": "30 rpm", "swing-over-bed": "unknown",
    "kept-on": "no", "body-diameter": "8 in", "body-length": "3 in", "bore": "2 in",
    "mass": "unknown", "marked-speed": "unknown", "sense": "unknown", "clearance": "unknown",
    "bolt-thread": "3/8-16", "bolt-class": "unknown", "bolt-count": "6", "bolt-reach": "front",
    "bolt-torque": "unknown", "bolt-torque-source": "unknown", "torque-wrench": "no",
    "calibration-due": "unknown", "bar-length": "unknown", "turns-freely": "yes",
}  # fmt: skip
"""What truing asks that a recheck did not answer: no more and no less (invented answers)."""
ASKED_ANEW = [
    "look-first", "lock-gate", "wrench-look", "try-gate", "dressed", "turn-gate",
]  # fmt: skip
"""Looks and gates that truing goes through before the turn as found, whatever came before it."""


def entered(walk: Setup, step: Step, asked: set[str]) -> dict[str, Any]:
    """What a person enters who confirms what stands there and answers the rest."""
    if looks(step):
        return {"seen": as_seen(walk, {"rest": "as-expected"})}
    if step.kind == "gate":
        return {"checks": [*range(1, len(checks_of(step, walk.state)) + 1)]}
    if step.kind == "readings":
        return {"pushed": "0.0000", "pulled": "-0.0005"}
    facts = {}
    for name in step.ask:
        stands = filled_in(walk.procedure.facts[name], walk.state)
        asked |= set() if stands else {name}
        facts[name] = stands or TRUING_TOLD[name]
    return {"facts": facts} if step.ask else {}


def test_truing_begins_where_the_recheck_left_it_and_asks_safety_anew(store: Store) -> None:
    """It comes to the turn as found with nothing unmounted, by every look and gate it always has;
    what the recheck told stands there to be confirmed, and what is felt is asked.
    """
    walk, answers = begun(store, "chuck-recheck-outside", "real")
    given(walk, answers, {})
    lathe, person = walk.state.facts["lathe"], walk.state.person
    truing = find("adjustable-chuck")
    told_before = carried_over(store, truing, lathe)
    assert not ANEW & told_before.keys()
    assert told_before["on-nose"] == "this-chuck"
    on = open_setup(
        store, truing, setup="truing", person=person, at=AT, lathe=lathe, remembered=told_before
    )
    assert set(on.state.facts) == {"lathe"}
    assert set(on.state.world) == {"unknown"}
    done, asked = _to_the_turn_as_found(on)
    assert asked == set(TRUING_TOLD)
    assert [each for each in done if looks(truing.by_name[each]) or _is_gate(truing, each)] == (
        ASKED_ANEW
    )
    did = {each for event in store.events("truing") for each in event.data.get("did", ())}
    assert not did & (UNMOUNTING | {"put on nose", "take up chuck", "take up body", "join"})
    assert {"isolate", "try to start", "grip bar", "turn by hand"} <= did


def _to_the_turn_as_found(on: Setup) -> tuple[list[str], set[str]]:
    """The steps up to the turn as found, and the facts that nothing stood there for."""
    done: list[str] = []
    asked: set[str] = set()
    while on.state.place != "as-found":
        assert on.step is not None
        done.append(on.state.place)
        data = entered(on, on.step, asked)
        on.act(TRIGGER[on.step.kind], data, person=on.state.person, at=AT)
        assert len(done) < 60
    return done, asked


def _is_gate(procedure: Procedure, name: str) -> bool:
    """Whether a step is a gate."""
    return procedure.by_name[name].kind == "gate"


def test_nothing_is_carried_to_another_lathe_or_from_what_was_only_practised(store: Store) -> None:
    """And to no other procedure; a later setup on the lathe ends it."""
    truing, removal = find("adjustable-chuck"), find("chuck-removal")
    for mode in ("rehearsal", "real"):
        walk, answers = begun(store, "chuck-recheck-outside", mode)
        given(walk, answers, {})
        lathe = walk.state.facts["lathe"]
        assert bool(carried_over(store, truing, lathe)) is (mode == "real")
        assert carried_over(store, truing, "Lathe 9 (invented)") == {}
        assert carried_over(store, removal, lathe) == {}
    person = walk.state.person
    later = open_setup(store, removal, setup="later", person=person, at=AT, lathe=lathe)
    later.act("abandon", {"why": "invented"}, person=person, at=AT)
    assert carried_over(store, truing, lathe) == {}


def test_a_crash_that_nobody_has_judged_leads_into_no_truing(store: Store) -> None:
    """Truing runs a chuck slowly; a cracked one waits until a competent person has looked."""
    walk, answers = begun(store, "chuck-recheck-outside", "real")
    given(walk, answers, {"after-crash": {"facts": {"competent-look": "nobody"}}})
    assert (walk.state.place, goes_on_to(walk.state)) == ("finished", "")
    assert carried_over(store, find("adjustable-chuck"), walk.state.facts["lathe"]) == {}


def test_what_was_told_of_the_same_chuck_stands_there_and_no_other_chucks(store: Store) -> None:
    """Bar, station and tolerance go with the chuck; what goes with a dial, with that dial."""
    walk, answers = begun(store, "chuck-recheck-inch", "real")
    given(walk, answers, {})
    lathe = walk.state.facts["lathe"]
    found = remembered(store, recheck(), lathe)
    assert found["chuck"] == walk.state.facts["chuck"]
    assert found["tolerance"] == "0.001 in"
    assert found["station"] == "3 in"
    for name in ("on-nose", "why-now", "competent-look", "recheck-date", "calibration-due"):
        assert name not in found, name
    other = remembered(store, recheck(), "Lathe 9 (invented)")
    assert not {"chuck", "tolerance", "station", "bar-diameter", "nose"} & other.keys()
    assert other["indicator-name"] == walk.state.facts["indicator-name"]


def test_what_both_ask_may_be_answered_alike() -> None:
    """An answer of a recheck fits truing: same kind, and every choice but the reason it ends by."""
    truing = find("adjustable-chuck")
    for name in recheck().facts.keys() & truing.facts.keys():
        one, other = recheck().facts[name], truing.facts[name]
        assert one.kind == other.kind, name
        assert set(one.closed) <= set(other.closed), name
        assert one.may_be_unknown <= other.may_be_unknown, name


def test_every_loop_is_left_by_a_person() -> None:
    """Another turn only for one who asks for it; nothing else goes back."""
    for step in recheck().steps:
        for way in exits(recheck(), step):
            number = recheck().order.get(way.to)
            if number is not None and number <= recheck().order[step.name]:
                names = {term.name for each in way.conditions for term in each.terms}
                assert "another-turn" in names, (step.name, way.to)


def test_all_reasons_and_noses_are_walked_by_the_proof() -> None:
    """Each reason on each nose with one grip and with two."""
    walks = {(f.get("why-now"), f["nose"], f.get("second-grip")) for f in closed_facts(recheck())}
    reasons = recheck().facts["why-now"].closed
    assert {(w, n, g) for w in reasons for n in NOSES for g in ("yes", "no")} <= walks


def test_whatever_moves_turns_or_grips_has_a_caution() -> None:
    """Each hazard has its action; a look with a wrench too."""
    hurts = {"grip bar", "release bar", "turn by hand", "try to start", "isolate", "look", "read"}
    for step in recheck().steps:
        if step.kind != "gate" and hurts & {each.action for each in doings(step)}:
            assert step.cautions, step.name


def test_it_says_plainly_that_a_wrench_already_disturbs_what_is_to_be_found() -> None:
    """In full and in brief at the look, and again at the marks."""
    look, marks = recheck().by_name["look"], recheck().by_name["jaws-and-marks"]
    assert "already disturbed what is to be found" in look.full
    assert "no wrench on them" in look.brief
    assert "would change what you came to find" in marks.full


def test_after_a_crash_it_is_not_run_and_says_what_to_look_at() -> None:
    """Not even slowly; cracks, bends, bolts and joints; a competent person judges it."""
    asks, looks_at = (recheck().by_name[each] for each in ("after-crash", "look-for-damage"))
    assert "not even slowly" in asks.brief
    assert any("competent person" in each.action for each in asks.cautions)
    for word in ("cracked", "Bolts", "Joint", "competent person"):
        assert word in looks_at.full
    assert "not to be run" in recheck().by_name["sign-off-out"].full


def test_who_hands_over_as_not_accepted_is_told_where_it_goes_on() -> None:
    """The procedure by its name, what to answer there, and that nothing is mounted."""
    words = recheck().by_name["sign-off-out"].full
    for each in ("adjustable-chuck", "this chuck is on the nose", "mounts nothing", "as found"):
        assert each in words
