"""`spindleside advise` as another program sees it: lines in, lines out, a true end."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from random import Random
from typing import Any

import pytest

from guide.practice.chuck import Chuck
from guide.practice.hands import Hands
from guide.practice.truth import Truth, drawn

COMMAND = [sys.executable, "-c", "from guide.cli.main import run; run()", "advise"]
MOST = 300
PER_INCH = {"in": 1.0, "mm": 25.4}


@dataclass
class Talk:
    """One process that is asked and answered, with every line that was sent."""

    process: subprocess.Popen[str]
    sent: list[str] = field(default_factory=list)

    def say(self, line: object) -> dict[str, Any]:
        """Send a line and read the one that comes back."""
        text = line if isinstance(line, str) else json.dumps(line)
        self.sent.append(text)
        assert self.process.stdin is not None
        self.process.stdin.write(text + "\n")
        self.process.stdin.flush()
        return self.hear()

    def hear(self) -> dict[str, Any]:
        """The next line."""
        assert self.process.stdout is not None
        answer: dict[str, Any] = json.loads(self.process.stdout.readline())
        return answer


@contextmanager
def talking() -> Iterator[Talk]:
    """A process of its own; it has to end by itself with 0."""
    process = subprocess.Popen(
        COMMAND, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    with process:
        yield Talk(process)
        assert process.stdin is not None
        process.stdin.close()
        assert process.wait(20) == 0
        assert process.stderr is not None
        assert process.stderr.read() == ""


@dataclass
class Bench:
    """A simulated chuck that answers questions in inches or millimetres."""

    hands: Hands
    unit: str
    rezero_at: int = -1
    """The set of readings before which the dial is set to another zero."""
    quiet: bool = False
    """Whether the dial is not read after a move."""
    sets: int = 0

    def answer(self, asked: dict[str, Any]) -> dict[str, Any]:
        """What the hands do."""
        size = PER_INCH[self.unit]
        chuck = self.hands.chuck
        if asked["do"] == "read":
            chuck.station = asked["station"] / size
            more = {}
            if self.sets == self.rezero_at:
                chuck.zero += 0.0123
                more = {"rezeroed": True}
            self.sets += 1
            values = self.hands.read(asked["angles"])
            return {"readings": [round(float(each) * size, 6) for each in values], **more}
        if asked["do"] == "torque":
            chuck.ease()
            self.hands.torque()
            return {"done": True}
        went = self.hands.move(
            asked["screw"], asked["by"] / size, asked["tighten"], quiet=self.quiet
        )
        read = {} if went.reads is None else {"reads": round(float(went.reads) * size, 6)}
        return {"done": True, **read} if went.done else {"done": False, "why": went.why, **read}


def bench(truth: Truth, unit: str = "in", graduation: float = 0.0001, **more: Any) -> Bench:
    """A bench with one chuck, the same for the same seed."""
    return Bench(Hands(Chuck(truth, Random(7)), graduation), unit, **more)


def facts(truth: Truth, unit: str = "in", **more: object) -> dict[str, Any]:
    """The first line."""
    size = PER_INCH[unit]
    return {
        "facts": {
            "unit": unit,
            "tolerance": round(0.001 * size, 6),
            "graduation": round(0.0001 * size, 6),
            "screws": truth.screws,
            "clearance": round(0.01 * size, 6),
            **more,
        }
    }


def to_the_stop(talk: Talk, first: dict[str, Any], at: Bench) -> tuple[dict[str, Any], list[Any]]:
    """Every question answered; the stop, and the questions before it."""
    asked, before = talk.say(first), []
    while asked["do"] != "stop":
        before.append(asked)
        assert len(before) < MOST
        asked = talk.say(at.answer(asked))
    return asked, before


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("screws", [3, 4, 6])
@pytest.mark.parametrize("sense", ["told", "unknown"])
def test_it_comes_to_a_true_stop(unit: str, screws: int, sense: str) -> None:
    """Inch and metric, three, four and six screws, sense told or not: within, and truly so."""
    truth = drawn(Random(screws), 0.0001, screws=screws)
    at = bench(truth, unit)
    told = {} if sense == "unknown" else {"sense": truth.sense}
    with talking() as talk:
        stop, _ = to_the_stop(talk, facts(truth, unit, **told), at)
    assert stop["verdict"] == "within"
    assert at.hands.chuck.runout() <= 0.001
    assert stop["judged"] == pytest.approx(at.hands.chuck.runout() * PER_INCH[unit], abs=0.005)
    assert stop["decision"] == {"rule": "guarded", "factor": 1.645}


def test_every_question_has_exactly_the_keys_that_were_agreed() -> None:
    """Read, move, torque and stop as in the contract, angles with the first one again."""
    truth = drawn(Random(3), 0.0001)
    with talking() as talk:
        stop, before = to_the_stop(talk, facts(truth), bench(truth))
    keys = {
        "read": {"do", "angles", "station", "why"},
        "move": {"do", "screw", "reads", "by", "bring_to", "tighten", "ease", "why"},
        "torque": {"do", "why"},
    }
    assert {asked["do"] for asked in before} == set(keys)
    assert all(set(asked) == keys[asked["do"]] for asked in before)
    assert set(stop) == {
        "do", "verdict", "judged", "expanded_uncertainty", "decision", "flags", "why"
    }  # fmt: skip
    for move in (asked for asked in before if asked["do"] == "move"):
        assert move["bring_to"] == pytest.approx(move["reads"] + move["by"])


def test_the_sense_is_named_only_once_a_move_has_shown_it() -> None:
    """Unknown at first: no screw is named; afterwards tighten and ease are, and rightly."""
    for seed in range(6):
        truth = drawn(Random(seed), 0.0001)
        with talking() as talk:
            _, before = to_the_stop(talk, facts(truth), bench(truth))
        moves = [asked for asked in before if asked["do"] == "move"]
        if not moves:
            continue
        assert moves[0]["tighten"] is None
        assert moves[0]["ease"] is None
        last = moves[-1]
        if last["tighten"] and len(moves) > 2:
            raises = (last["tighten"][0] == last["screw"]) == (truth.sense == "toward")
            assert raises == (last["by"] > 0)


def test_a_sense_told_wrongly_is_found_in_one_move() -> None:
    """The needle goes the other way once; the next move names the screws the other way round."""
    truth = Truth(centre=0.003 + 0.001j, sense="away", play=0.0001)
    at = bench(truth)
    with talking() as talk:
        stop, before = to_the_stop(talk, facts(truth, sense="toward"), at)
    moves = [asked for asked in before if asked["do"] == "move"]
    assert "wrong-way" in stop["flags"]
    assert stop["verdict"] == "within"
    main, by = moves[1]["tighten"][0] == moves[1]["screw"], moves[1]["by"]
    assert main == (by < 0)


def test_two_stations_are_both_read_and_a_lean_is_told() -> None:
    """Half a thou an inch over two inches: the screws halve it between the stations."""
    truth = Truth(centre=0.002 + 0.001j, tilt=0.0001 + 0j, play=0.0001, shift_spread=0.00002)
    at = bench(truth)
    with talking() as talk:
        stop, before = to_the_stop(talk, facts(truth, sense="toward", stations=[1.0, 5.0]), at)
    assert {asked["station"] for asked in before if asked["do"] == "read"} == {1.0, 5.0}
    assert stop["verdict"] == "within"
    assert "tilt" in stop["flags"]
    assert max(at.hands.chuck.runout(1.0), at.hands.chuck.runout(5.0)) <= 0.001


def test_a_lean_beyond_the_tolerance_stops_as_outside() -> None:
    """No radial screw cures it, whatever is done."""
    truth = Truth(centre=0.001 + 0j, tilt=0.0005j, play=0.0001)
    with talking() as talk:
        stop, _ = to_the_stop(talk, facts(truth, sense="toward", stations=[1, 5]), bench(truth))
    assert stop["verdict"] == "outside"
    assert "tilt" in stop["flags"]


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_stuck_screw_ends_with_a_reason(unit: str) -> None:
    """It is tried again with the one across backed off; then the other direction; then a stop."""
    truth = Truth(centre=0.003 + 0.001j, stuck=(1,), play=0.0001)
    with talking() as talk:
        stop, before = to_the_stop(talk, facts(truth, unit, sense="toward"), bench(truth, unit))
    assert stop["verdict"] == "outside"
    assert "process-limited" in stop["flags"]
    assert sum(asked["do"] == "move" and asked["screw"] in (1, 3) for asked in before) >= 2


@pytest.mark.parametrize("screws", [3, 6])
def test_with_three_or_six_screws_a_stuck_one_is_got_round(screws: int) -> None:
    """The other directions make up for it."""
    truth = Truth(screws=screws, centre=0.003 + 0.001j, stuck=(1,), play=0.0001)
    at = bench(truth)
    with talking() as talk:
        stop, _ = to_the_stop(talk, facts(truth, sense="toward"), at)
    assert stop["verdict"] == "within"
    assert at.hands.chuck.runout() <= 0.001


def test_a_bottomed_screw_ends_as_beyond_travel() -> None:
    """A chip holds the body 2 thou beyond its register."""
    truth = Truth(centre=0.007 + 0j, register=0.007 + 0j, clearance=0.01, play=0.0001)
    with talking() as talk:
        stop, before = to_the_stop(talk, facts(truth, sense="toward"), bench(truth))
    assert stop["verdict"] == "outside"
    assert "beyond-travel" in stop["flags"]
    assert sum(asked["do"] == "torque" for asked in before) <= 3


@pytest.mark.parametrize("when", range(4))
def test_a_dial_set_to_another_zero_changes_nothing(when: int) -> None:
    """Whichever set of readings it comes before, it ends truly within."""
    truth = drawn(Random(11), 0.0001)
    at = bench(truth, rezero_at=when)
    with talking() as talk:
        stop, _ = to_the_stop(talk, facts(truth, sense=truth.sense), at)
    assert stop["verdict"] == "within"
    assert at.hands.chuck.runout() <= 0.001


def test_moves_that_nobody_reads_are_believed() -> None:
    """`reads` may be missing."""
    truth = drawn(Random(12), 0.0001)
    at = bench(truth, quiet=True)
    with talking() as talk:
        stop, _ = to_the_stop(talk, facts(truth, sense=truth.sense), at)
    assert stop["verdict"] == "within"
    assert at.hands.chuck.runout() <= 0.001


def test_what_this_dial_cannot_prove_is_said_before_the_first_reading() -> None:
    """A dial of 0.001 cannot prove 0.0005: said at once, and never accepted."""
    truth = drawn(Random(5), 0.001)
    first = facts(truth, sense=truth.sense, tolerance=0.0005, graduation=0.001)
    with talking() as talk:
        stop, before = to_the_stop(talk, first, bench(truth, graduation=0.001))
    assert "A dial of 0.001 in cannot prove 0.0005 in" in before[0]["why"]
    assert stop["verdict"] != "within"
    assert "cannot-prove" in stop["flags"]


GARBAGE = [
    "",
    "hello",
    "[1, 2]",
    "{",
    "null",
    '{"readings": "many"}',
    '{"readings": [1, 2]}',
    '{"readings": [NaN, 0, 0, 0, 0]}',
    '{"readings": [0, 0, 0, 0, true]}',
    '{"readings": [0, 0, 0, 0, 1e999]}',
    '{"readings": [0, 0, 0, 0, 0], "rezeroed": "yes"}',
    '{"readings": [0, 0, 0, 0, 0], "readings": [1, 1, 1, 1, 1]}',
    '{"readings": [0, 0, 0, 0, 1e-320]}',
    '{"done": true}',
    "[" * 100_000,
    "9" * 10_000,
    "\x00\x01",
]


@pytest.mark.parametrize("line", GARBAGE)
def test_a_line_that_cannot_be_used_gives_a_sentence_and_the_same_question(line: str) -> None:
    """Nothing is lost by it: the right answer is taken afterwards."""
    truth = Truth(centre=0.002 + 0j)
    with talking() as talk:
        asked = talk.say(facts(truth))
        wrong = talk.say(line)
        assert set(wrong) == {"error"}
        assert wrong["error"].count(".") >= 1
        assert talk.hear() == asked
        assert talk.say({"readings": [0.002, 0, -0.002, 0, 0.002]})["do"] == "move"
        wrong = talk.say({"done": False})
        assert "bottomed or stuck" in wrong["error"]
        assert talk.hear()["do"] == "move"


def test_a_mark_of_byte_order_and_a_null_are_taken_as_nothing() -> None:
    """Programs write them; a screw that is not there is refused with the same question."""
    truth = Truth(centre=0.002 + 0j)
    with talking() as talk:
        assert talk.say("\ufeff" + json.dumps(facts(truth)))["do"] == "read"
        answer = {"readings": [0.002, 0, -0.002, 0, 0.002], "rezeroed": None}
        assert talk.say(answer)["do"] == "move"
        assert "no screw 9" in talk.say({"done": True, "tightened": 9})["error"]
        assert talk.hear()["do"] == "move"


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"unit": "furlong"}, "unit furlong"),
        ({"unit": None}, "unit is missing"),
        ({"tolerance": 0}, "tolerance cannot be 0"),
        ({"tolerance": "small"}, "tolerance” needs a number"),
        ({"graduation": -1}, "graduation cannot be -1"),
        ({"screws": 2}, "2 adjusting screws"),
        ({"screws": 3.5}, "whole number"),
        ({"sense": "left"}, "sense left"),
        ({"stations": []}, "list of numbers"),
        ({"stations": [1, 1]}, "cannot be read"),
        ({"rule": "hopeful"}, "rule hopeful"),
        ({"clearence": 0.01}, "no fact clearence"),
    ],
)
def test_facts_that_cannot_be_are_refused_and_asked_again(
    change: dict[str, object], sentence: str
) -> None:
    """The error alone; then the right line is taken."""
    truth = Truth()
    with talking() as talk:
        first = facts(truth)
        first["facts"] |= change
        wrong = talk.say(first)
        assert set(wrong) == {"error"}
        assert sentence in wrong["error"]
        assert talk.say(facts(truth))["do"] == "read"


def test_the_end_of_input_is_the_end_at_every_point() -> None:
    """Cut off after any line it leaves with 0 and without a word of complaint."""
    truth = drawn(Random(2), 0.0001)
    with talking() as talk:
        to_the_stop(talk, facts(truth, sense=truth.sense), bench(truth))
        sent = talk.sent
    for count in range(len(sent) + 1):
        text = "".join(f"{line}\n" for line in sent[:count])
        for end in ("", '{"readi'):
            done = subprocess.run(
                COMMAND, input=text + end, capture_output=True, text=True, timeout=20, check=False
            )
            assert (done.returncode, done.stderr) == (0, "")


def test_the_same_answers_get_the_same_advice() -> None:
    """Nothing is drawn by lot."""
    truth = drawn(Random(4), 0.0001)
    with talking() as talk:
        first = to_the_stop(talk, facts(truth), bench(truth))
    with talking() as talk:
        assert to_the_stop(talk, facts(truth), bench(truth)) == first
