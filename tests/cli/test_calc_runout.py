"""`calc runout` keeps its contract: JSON keys, words for a person, one line when refused."""

from __future__ import annotations

import json
import subprocess
import sys
from math import radians, sqrt

import pytest

from guide.cli.figures_said import clock
from guide.cli.main import run

EXAMPLE = ["--readings", "0 12 20 8", "--unit", "thou"]
KEYS = [
    "unit", "positions", "mean", "eccentricity", "high_at_deg", "fitted_tir", "observed_tir",
    "form", "judged", "expanded_uncertainty", "verdict", "targets", "flags",
]  # fmt: skip


def calc(capsys, *arguments):
    """Exit code, standard output and standard error of one call."""
    with pytest.raises(SystemExit) as left:
        run(["calc", "runout", *arguments])
    said = capsys.readouterr()
    return left.value.code, said.out, said.err


def answer(capsys, *arguments):
    """The JSON answer of a call that succeeds."""
    code, out, err = calc(capsys, *arguments, "--json")
    assert (code, err) == (0, "")
    return json.loads(out)


def test_the_example_answers_with_the_contracts_keys(capsys):
    """Lengths in the unit given, in one JSON object on one line."""
    found = answer(capsys, *EXAMPLE, "--tolerance", "1", "--graduation", "0.5")
    assert list(found) == KEYS
    assert found["unit"] == "thou"
    assert found["fitted_tir"] == pytest.approx(2 * sqrt(104))
    assert found["expanded_uncertainty"] == pytest.approx(4 * 0.5 / sqrt(12) * sqrt(0.5))
    assert found["verdict"] == "outside"
    assert [target["bring_to"] for target in found["targets"]] == [10, 10, 10, 10]


def test_even_angles_are_the_default(capsys):
    """Giving them changes nothing."""
    assert answer(capsys, *EXAMPLE) == answer(capsys, *EXAMPLE, "--angles", "0 90 180 270")


def test_two_readings_give_one_pair(capsys):
    """pair_error and bring_to; what two readings cannot say is null."""
    found = answer(capsys, "--readings", "0 20", "--angles", "0 180", "--unit", "thou")
    assert (found["pair_error"], found["bring_to"]) == (10, 10)
    assert {found[key] for key in KEYS[2:11]} == {None}
    assert found["targets"] is found["flags"] is None


def test_numbers_are_free_of_binary_noise(capsys):
    """0.1 and 0.3 meet at 0.2, not at 0.20000000000000001."""
    _, out, _ = calc(capsys, "--readings", "0.1 0.2 0.3 0.2", "--unit", "mm", "--json")
    assert '"bring_to": 0.2}' in out
    assert "000000" not in out


@pytest.mark.parametrize("sign", ["-", "−"])
def test_negative_readings_are_values_not_options(capsys, sign):
    """Both minus signs."""
    found = answer(capsys, "--readings", f"{sign}1 0 1 0", "--unit", "mm")
    assert found["targets"][0]["reads"] == -1


def test_every_option_reaches_the_result(capsys):
    """Simple rule, six screws, clearance, play, closure, sweep and surface each show."""
    base = ["--readings", "0 1 2 3 2 1", "--unit", "thou", "--tolerance", "1", "--u", "0.2"]
    assert "zero-moved" in answer(capsys, *base, "--closure", "2")["flags"]
    assert "beyond-travel" in answer(capsys, *base, "--clearance", "0.5")["flags"]
    assert "spindle-limit" in answer(capsys, *base, "--play", "2")["flags"]
    assert "form" in answer(capsys, *base, "--watched", "0 9")["flags"]
    assert len(answer(capsys, *base, "--screws", "6")["targets"]) == 6
    plain, bore = answer(capsys, *base), answer(capsys, *base, "--surface", "inside")
    assert (plain["high_at_deg"], bore["high_at_deg"]) == (180, 0)
    near = ["--readings", "0 1 2 1", "--unit", "thou", "--tolerance", "2", "--u", "0.2"]
    assert answer(capsys, *near)["verdict"] == "undecided"
    assert answer(capsys, *near, "--rule", "simple")["verdict"] == "within"


def test_a_person_reads_the_judged_figure_and_the_verdict_first(capsys):
    """Then the high spot, then what to bring each screw to."""
    code, out, _ = calc(capsys, *EXAMPLE, "--tolerance", "1", "--graduation", "0.5")
    lines = out.splitlines()
    assert code == 0
    assert lines[0] == "Judged runout 20.4 thou, OUTSIDE TOLERANCE (tolerance 1 thou)"
    assert lines[1] == "High spot 169° from screw 1, nearest screw 3, about half past 5"
    assert "  3       20         10" in lines
    assert "range of the readings 20 thou" in out
    assert "! few-positions:" in out
    assert all(len(line) <= 100 for line in lines)


def test_two_readings_are_said_to_be_one_pair_only(capsys):
    """The other direction was not read."""
    _, out, _ = calc(capsys, "--readings", "0 20", "--angles", "0 180", "--unit", "thou")
    assert "This pair is 10 thou off." in out
    assert "say nothing of the other direction" in out


def test_words_follow_what_is_known(capsys):
    """No uncertainty, no eccentricity, near zero, a likely slip."""
    _, no_u, _ = calc(capsys, *EXAMPLE, "--tolerance", "1")
    assert "No verdict without an uncertainty" in no_u
    _, centred, _ = calc(capsys, "--readings", "0 0 0 0", "--unit", "thou", "--u", "0.2")
    assert "No high spot" in centred
    assert "no more than 0.47 thou" in centred
    _, slip, _ = calc(capsys, "--readings", "1 2 1 2000", "--unit", "thou")
    assert "may be a slipped point" in slip


def test_numbers_follow_the_language(capsys, monkeypatch):
    """A German types and reads a comma; JSON keeps its dot."""
    monkeypatch.setenv("SPINDLESIDE_LANGUAGE", "de")
    arguments = ["--readings", "0,5 1 1,5 1", "--unit", "mm", "--u", "0,1"]
    assert answer(capsys, *arguments)["targets"][0]["reads"] == 0.5
    assert "Judged runout 1 mm" in calc(capsys, *arguments)[1]
    assert "  1       0,5" in calc(capsys, *arguments)[1]
    told = calc(capsys, *arguments, "--repeats", "0,1 0,2", "--tolerance", "9")[1]
    assert "factor 1,83" in told


PARTS = [
    "--readings", "0 3 6 3 1 4 7 4", "--unit", "thou", "--tolerance", "5", "--graduation", "0.5",
]  # fmt: skip


def test_without_new_options_the_answer_is_what_it_was(capsys):
    """Byte for byte, in the contract's keys and no others."""
    _, out, _ = calc(capsys, *EXAMPLE, "--tolerance", "1", "--graduation", "0.5", "--json")
    assert out == (
        '{"unit": "thou", "positions": 4, "mean": 10.0, "eccentricity": 10.1980390272, '
        '"high_at_deg": 168.690067526, "fitted_tir": 20.3960780544, "observed_tir": 20.0, '
        '"form": 0.0, "judged": 20.3960780544, "expanded_uncertainty": 0.408248290464, '
        '"verdict": "outside", "targets": ['
        '{"screw": 1, "across": 3, "reads": 0.0, "bring_to": 10.0}, '
        '{"screw": 2, "across": 4, "reads": 12.0, "bring_to": 10.0}, '
        '{"screw": 3, "across": 1, "reads": 20.0, "bring_to": 10.0}, '
        '{"screw": 4, "across": 2, "reads": 8.0, "bring_to": 10.0}], '
        '"flags": ["few-positions"]}\n'
    )


@pytest.mark.parametrize(
    ("option", "value", "name", "u"),
    [
        ("--play", "0.6", "play", 0.6 / sqrt(12)),
        ("--permissible-error", "0.3", "indicator error", 0.3 / sqrt(3)),
        ("--hysteresis", "0.6", "hysteresis", 0.6 / sqrt(12)),
        ("--roundness", "0.6", "bar roundness", 0.6 / sqrt(12)),
        ("--grip", "0.6", "grip", 0.6 / sqrt(12)),
        ("--drift", "0.6", "drift", 0.6 / sqrt(12)),
        ("--repeats", "12 12.5 12", "repeats", 0.5 / sqrt(3)),
    ],
)
def test_each_part_reaches_the_budget(capsys, option, value, name, u):
    """By its name and its divisor, beside the graduation; U grows by it."""
    found = answer(capsys, *PARTS, option, value)
    named = {part["name"]: part["u"] for part in found["uncertainty"]["parts"]}
    assert named == pytest.approx({"graduation": 0.5 / sqrt(12), name: u})
    assert found["expanded_uncertainty"] > answer(capsys, *PARTS)["expanded_uncertainty"]
    assert list(found)[: len(KEYS)] == KEYS


def test_an_angle_error_counts_with_the_eccentricity_found(capsys):
    """e·radians/√3/√2 for ± 5 degrees."""
    found = answer(capsys, *PARTS, "--angle-error", "5")
    (part,) = (p for p in found["uncertainty"]["parts"] if p["name"] == "angle set by eye")
    assert part["u"] == pytest.approx(found["eccentricity"] * radians(5) / sqrt(6))


def test_few_repeats_are_reported_with_their_factors(capsys):
    """Repeats alone: k and the decision factor of three repeats, and the record of the rule."""
    found = answer(capsys, *PARTS[:-2], "--repeats", "12 12.5 12")
    told = found["uncertainty"]
    assert (told["degrees_of_freedom"], told["k"], told["factor"]) == (2, 4.53, 2.92)
    assert found["decision"]["factor"] == 2.92
    assert "JCGM 106" in found["decision"]["edition"]
    _, out, _ = calc(capsys, *PARTS[:-2], "--repeats", "12 12.5 12")
    assert "(k = 4.53)" in out
    assert "Few repeats: 2 effective degrees of freedom" in out
    assert "factor 2.92" in out


def test_u_and_parts_go_together(capsys):
    """A known u is the first part."""
    found = answer(capsys, *PARTS[:-2], "--u", "0.2", "--grip", "0.3")
    assert [part["name"] for part in found["uncertainty"]["parts"]] == ["reading", "grip"]


def test_play_alone_is_no_uncertainty(capsys):
    """It is compared with the tolerance and nothing more, as before."""
    found = answer(capsys, *PARTS[:-2], "--play", "6")
    assert found["expanded_uncertainty"] is None
    assert "uncertainty" not in found
    assert "spindle-limit" in found["flags"]


def test_a_person_reads_rule_factor_and_edition(capsys):
    """With the guard band in the unit."""
    _, out, _ = calc(capsys, *PARTS)
    assert "Rule: guarded, factor 1.645, guard band 0.24 thou;" in out
    assert "JCGM 106:2012 and ISO 14253-1:2017" in out
    _, simple, _ = calc(capsys, *PARTS, "--rule", "simple")
    assert "Rule: simple, factor 0, guard band 0 thou;" in simple


def test_a_person_reads_the_parts(capsys):
    """What averages and what does not."""
    _, out, _ = calc(capsys, *PARTS, "--grip", "0.6", "--play", "0.2")
    assert "  graduation         0.144" in out
    assert "more positions do not help" in out
    assert all(len(line) <= 100 for line in out.splitlines())


def test_orders_are_listed_where_asked_for(capsys):
    """With a warning where the positions cannot tell them apart."""
    oval = ["--readings", "1 0 -1 0 1 0 -1 0", "--unit", "thou", "--u", "0.1", "--orders"]
    sizes = {each["order"]: each["amplitude"] for each in answer(capsys, *oval)["orders"]}
    assert sizes == {1: 0, 2: 1, 3: 0}
    _, out, _ = calc(capsys, *oval)
    assert "2 oval             1 ± 0.1" in out
    assert "cannot be told apart" not in out
    _, few, _ = calc(capsys, *EXAMPLE, "--orders")
    assert "! few-positions: At these positions higher orders cannot be told apart" in few
    assert len(answer(capsys, *EXAMPLE, "--orders")["orders"]) == 1


@pytest.mark.parametrize(
    ("watched", "u", "flag", "said"),
    [
        ("0 7", "0.2", None, "agrees with the judged runout"),
        ("0 19", "0.2", "form", "contradicts: more was seen"),
        ("0 2", "0.2", "cannot-prove", "contradicts: less was seen"),
        ("0 7", None, None, "cannot be compared"),
    ],
)
def test_a_watched_sweep_is_said_to_agree_or_to_contradict(capsys, watched, u, flag, said):
    """In words, and in JSON beside the flag."""
    arguments = [*PARTS[:-2], "--watched", watched, *(["--u", u] if u else [])]
    found = answer(capsys, *arguments)["watched"]
    assert found == {"agrees": None if u is None else flag is None, "flag": flag}
    assert said in calc(capsys, *arguments)[1]


def test_equal_readings_of_a_coarse_dial_prove_nothing(capsys):
    """0.5 at four places hides 0.707; the contract's figures stay as they are."""
    equal = ["--readings", "3 3 3 3", "--unit", "thou", "--graduation", "0.5", "--tolerance"]
    assert "cannot-prove" in answer(capsys, *equal, "0.7")["flags"]
    assert "cannot-prove" not in answer(capsys, *equal, "0.75")["flags"]
    assert "not fine enough" in calc(capsys, *equal, "0.7")[1]


BAD = [
    (["--readings", "0 12", "--unit", "thou"], "Fewer than three readings"),
    (["--readings", "0 12", "--angles", "0 90", "--unit", "thou"], "Fewer than three readings"),
    (["--readings", "", "--unit", "thou"], "empty"),
    (["--readings", "0 x 20 8", "--unit", "thou"], "x is not a number"),
    (["--readings", "0 1e3 20 8", "--unit", "thou"], "1e3 is not a number"),
    (["--readings", "0 nan 20 8", "--unit", "thou"], "nan is not a number"),
    (["--readings", "0 1,000 20 8", "--unit", "thou"], "can be read as 1 or as 1000"),
    (["--readings", "0,02 1 2", "--unit", "mm"], "Write 0.02."),
    (["--readings", "0, 12, 20, 8", "--unit", "thou"], "spaces or semicolons"),
    ([*EXAMPLE, "--angles", "0 90 180"], "4 readings and 3 angles"),
    ([*EXAMPLE, "--angles", "0 90 180 360"], "same position"),
    ([*EXAMPLE, "--tolerance", "0"], "tolerance cannot be 0"),
    ([*EXAMPLE, "--tolerance", "-1"], "tolerance cannot be -1"),
    ([*EXAMPLE, "--u", "0"], "uncertainty cannot be 0"),
    ([*EXAMPLE, "--u", "1", "--graduation", "1"], "Give one of them"),
    ([*EXAMPLE, "--screws", "1"], "1 adjusting screws"),
    ([*EXAMPLE, "--screws", "four"], "four"),
    ([*EXAMPLE, "--watched", "3"], "two numbers"),
    ([*EXAMPLE, "--watched", "3 1"], "lowest"),
    ([*EXAMPLE, "--rule", "kind"], "kind"),
    ([*EXAMPLE, "--grip", "1"], "say nothing of one reading"),
    ([*EXAMPLE, "--u", "1", "--grip", "-1"], "--grip cannot be -1"),
    ([*EXAMPLE, "--u", "1", "--angle-error", "-1"], "--angle-error cannot be -1"),
    ([*EXAMPLE, "--repeats", "1"], "One reading says nothing about repeats"),
    ([*EXAMPLE, "--repeats", "1 1 1"], "Nothing is known of one reading"),
    ([*EXAMPLE, "--repeats", "1 x"], "x is not a number"),
    (["--readings", "0 12 20 8", "--unit", "cm"], "cm"),
    (["--unit", "thou"], "readings"),
    (["--readings", "0 12 20 8"], "unit"),
]


@pytest.mark.parametrize(("arguments", "said"), BAD)
def test_bad_input_is_one_line_on_standard_error(capsys, arguments, said):
    """Exit 2, nothing on standard output, no traceback."""
    code, out, err = calc(capsys, *arguments, "--json")
    assert (code, out) == (2, "")
    assert said in err
    assert err.count("\n") == 1
    assert "Traceback" not in err


@pytest.mark.parametrize(
    ("angle", "words"),
    [(0, "12 o'clock"), (90, "3 o'clock"), (169, "half past 5"), (355, "12 o'clock")],
)
def test_the_clock_has_screw_one_at_the_top(angle, words):
    """Half hours are as fine as an eye needs."""
    assert clock(angle) == words


def test_help_has_an_example_and_says_how_to_turn(capsys):
    """By hand, with the lathe isolated."""
    code, out, _ = calc(capsys, "--help")
    assert code == 0
    assert 'spindleside calc runout --readings "0 12 20 8"' in out
    assert "by hand, with the lathe isolated" in " ".join(out.split())


def test_a_call_loads_nothing_slow():
    """No locale data, YAML, database, terminal kit or numeric library for one calculation."""
    code = (
        "import sys; from guide.cli.main import run\n"
        "try: run(['calc', 'runout', '--readings', '0 12 20 8', '--unit', 'thou', '--json'])\n"
        "except SystemExit: pass\n"
        "slow = {'babel', 'yaml', 'sqlite3', 'textual', 'rich', 'numpy', 'transitions'}\n"
        "sys.exit(','.join(slow & set(sys.modules)) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
