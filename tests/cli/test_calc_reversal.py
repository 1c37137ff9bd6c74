"""`calc reversal` says whether the bar or the chuck runs out."""

from __future__ import annotations

import json

import pytest

from guide.cli.main import run

EXAMPLE = ["--before", "0 3 6 3", "--after", "4 3 2 3", "--unit", "thou"]


def calc(capsys, *arguments):
    """Exit code, standard output and standard error of one call."""
    with pytest.raises(SystemExit) as left:
        run(["calc", "reversal", *arguments])
    said = capsys.readouterr()
    return left.value.code, said.out, said.err


def test_the_example_answers_as_json(capsys):
    """3 toward 180° before and 1 toward 0° after: 2 follow the bar, 1 stays."""
    code, out, _ = calc(capsys, *EXAMPLE, "--graduation", "0.5", "--json")
    found = json.loads(out)
    assert code == 0
    assert (found["bar"]["eccentricity"], found["chuck"]["eccentricity"]) == (2, 1)
    assert (found["bar"]["high_at_deg"], found["chuck"]["high_at_deg"]) == (180, 180)
    assert (found["looks_to"], found["larger"]) == ("both", "bar")
    assert list(found) == ["unit", "bar", "chuck", "looks_to", "larger", "why", "flags"]


@pytest.mark.parametrize(
    ("after", "said"),
    [
        ("6 3 0 3", "The high spot follows the bar: it is the bar."),
        ("0 3 6 3", "The high spot stays with the chuck: it is the chuck, not the bar."),
        ("4 3 2 3", "The larger part is that of the bar."),
    ],
)
def test_a_person_reads_first_whose_it_is(capsys, after, said):
    """Then both parts with their uncertainty."""
    arguments = ["--before", "0 3 6 3", "--after", after, "--unit", "thou", "--graduation", "0.5"]
    _, out, _ = calc(capsys, *arguments, "--grip", "0.3", "--turned-within", "5")
    assert said in out
    assert "follows the bar" in out
    assert "±" in out
    assert all(len(line) <= 100 for line in out.splitlines())


def test_a_grip_that_scatters_hides_both(capsys):
    """Neither stands out where one grip differs from the next by as much."""
    found = json.loads(calc(capsys, *EXAMPLE, "--u", "0.1", "--grip", "9", "--json")[1])
    assert found["looks_to"] == "neither"


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (["--after", "0 1"], "2 readings"),
        (["--before", "0 1 x"], "x is not a number"),
        (["--u", "1", "--graduation", "1"], "Give one of them"),
        (["--grip", "-1"], "grip of -1"),
        (["--unit", "cm"], "cm"),
    ],
)
def test_bad_input_is_one_line_on_standard_error(capsys, changed, said):
    """Exit 2 and no traceback."""
    code, out, err = calc(capsys, *EXAMPLE, "--angles", "0 90 180 270", *changed)
    assert (code, out) == (2, "")
    assert said in err
    assert err.count("\n") == 1


def test_help_has_an_example_and_says_isolated(capsys):
    """Jaws are loosened and the spindle turned by hand."""
    code, out, _ = calc(capsys, "--help")
    assert code == 0
    assert "spindleside calc reversal --before" in out
    told = " ".join(out.split())
    assert "with the lathe isolated" in told
    assert "chuck key out" in told
