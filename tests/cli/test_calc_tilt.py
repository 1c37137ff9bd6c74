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
