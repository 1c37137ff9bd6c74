"""`calc tilt` says how the bar leans and what it runs out elsewhere."""

from __future__ import annotations

import json

import pytest

from guide.cli.main import run

EXAMPLE = [
    "--near", "0 1 2 1", "--far", "0 3 6 3", "--stations", "1 5", "--unit", "thou",
    "--station-unit", "in",
]  # fmt: skip


def calc(capsys, *arguments):
    """Exit code, standard output and standard error of one call."""
    with pytest.raises(SystemExit) as left:
        run(["calc", "tilt", *arguments])
    said = capsys.readouterr()
    return left.value.code, said.out, said.err


def test_the_example_answers_as_json(capsys):
    """2 thou at 1 in and 6 thou at 5 in are 4 thou at 3 in, leaning half a thou an inch."""
    code, out, _ = calc(capsys, *EXAMPLE, "--at", "3", "--graduation", "0.5", "--json")
    found = json.loads(out)
    assert code == 0
    assert (found["slope"], found["toward_deg"]) == (0.5, 180)
    assert [place["fitted_tir"] for place in found["stations"]] == [2, 6]
    assert found["at"]["fitted_tir"] == 4
    assert "tilt" in found["flags"]


def test_a_person_reads_the_lean_first(capsys):
    """Then the stations in order, the one worked out marked as such."""
    _, out, _ = calc(capsys, *EXAMPLE, "--at", "3", "--graduation", "0.5")
    lines = out.splitlines()
    assert lines[0] == "The centre moves 0.5 thou for each in along the bar,"
    assert [line.split()[0] for line in lines if line.endswith(("°", "worked out"))] == [
        "1", "3", "5",
    ]  # fmt: skip
    assert "  3              4 thou       180°  worked out" in lines
    assert "no radial screw cures" in out


def test_without_another_station_nothing_is_worked_out(capsys):
    """`at` is null; distances are in the readings' unit unless said."""
    _, out, _ = calc(capsys, *EXAMPLE[:8], "--json")
    found = json.loads(out)
    assert found["at"] is None
    assert found["station_unit"] == "thou"


def test_a_working_range_answers_with_the_best_shift(capsys):
    """1.625 toward 0°, and half a thou an inch over 3.5 in is left whatever one does."""
    arguments = [*EXAMPLE, "--graduation", "0.5", "--working", "0.5 4", "--tolerance", "1"]
    code, out, _ = calc(capsys, *arguments, "--json")
    best = json.loads(out)["working"]
    assert code == 0
    assert (best["from"], best["to"], best["shift"], best["toward_deg"]) == (0.5, 4, 1.625, 0)
    assert best["largest"] == 1.75
    assert (best["verdict"], best["tilt_alone"]) == ("outside", "outside")
    assert [place["station"] for place in best["remains"]] == [0.5, 1, 4, 5]
    assert list(best["offset"]) == list(best["remains"][0])


def test_one_working_distance_is_made_true(capsys):
    """Nothing is left there, and how far the tilt lets it hold is said."""
    arguments = [*EXAMPLE, "--u", "0.1", "--working", "2.5", "--tolerance", "2"]
    best = json.loads(calc(capsys, *arguments, "--json")[1])["working"]
    assert (best["from"], best["to"], best["largest"], best["verdict"]) == (2.5, 2.5, 0, "within")
    assert (best["tilt_alone"], best["tilt_within_for"]) == (None, 2)
    _, out, _ = calc(capsys, *arguments)
    assert "Best for working at 2.5 in: shift the whole body 1.75 thou ±" in out
    assert "The tilt alone uses up the tolerance 2 in either side." in out


def test_a_person_reads_that_no_screw_cures_the_tilt(capsys):
    """With the rule, its factor and edition."""
    arguments = [*EXAMPLE, "--graduation", "0.5", "--working", "0.5 4", "--tolerance", "1"]
    _, out, _ = calc(capsys, *arguments)
    assert "The tilt alone is more than the tolerance allows: no radial screw cures it." in out
    assert "At most 1.75 thou is left, OUTSIDE TOLERANCE." in out
    assert "Rule: guarded, factor 1.645" in out
    assert "ISO 14253-1:2017" in out
    assert all(len(line) <= 100 for line in out.splitlines())


def test_without_a_working_distance_the_answer_has_no_such_key(capsys):
    """The keys are as before."""
    assert "working" not in json.loads(calc(capsys, *EXAMPLE, "--json")[1])


def test_screws_that_cannot_reach_are_said(capsys):
    """1.75 of shift against half of 2."""
    arguments = [*EXAMPLE, "--working", "2.5", "--clearance", "2", "--json"]
    assert "beyond-travel" in json.loads(calc(capsys, *arguments)[1])["flags"]


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (["--stations", "1"], "two numbers"),
        (["--stations", "2 2"], "two different stations"),
        (["--near", "0 1"], "Fewer than three"),
        (["--far", "0 1 x"], "x is not a number"),
        (["--angles", "0 90"], "4 readings and 2 angles"),
        (["--u", "1", "--graduation", "1"], "Give one of them"),
        (["--at", "1,000"], "1 or as 1000"),
        (["--station-unit", "ft"], "ft"),
        (["--working", "4 1"], "ends before it begins"),
        (["--working", "1 2 3"], "--working takes two numbers"),
        (["--working", "1", "--tolerance", "0"], "tolerance cannot be 0"),
    ],
)
def test_bad_input_is_one_line_on_standard_error(capsys, changed, said):
    """Exit 2 and no traceback."""
    code, out, err = calc(capsys, *EXAMPLE, *changed)
    assert (code, out) == (2, "")
    assert said in err
    assert err.count("\n") == 1


def test_help_has_an_example(capsys):
    """As every command."""
    code, out, _ = calc(capsys, "--help")
    assert code == 0
    assert "spindleside calc tilt --near" in out
