"""`calc play` says which joint gives."""

from __future__ import annotations

import json

import pytest

from guide.cli.main import run

EXAMPLE = ["--nose", "-0.2 0.3", "--plate", "-0.3 0.3", "--bar", "-0.9 0.9", "--unit", "thou"]


def calc(capsys, *arguments):
    """Exit code, standard output and standard error of one call."""
    with pytest.raises(SystemExit) as left:
        run(["calc", "play", *arguments])
    said = capsys.readouterr()
    return left.value.code, said.out, said.err


def test_the_answer_as_json(capsys):
    """Plays at the places read, what each joint adds, and where to look."""
    code, out, _ = calc(capsys, *EXAMPLE, "--graduation", "0.1", "--json")
    assert code == 0
    found = json.loads(out)
    assert found["plays"] == {"nose": 0.5, "plate": 0.6, "bar": 1.8}
    assert found["added"] == {"spindle": 0.5, "seat": 0.1, "grip": 1.2}
    assert (found["looks_to"], found["flags"]) == ("grip", [])


def test_a_person_reads_where_to_look_first(capsys):
    """And is told where the spindle is the limit."""
    _, out, _ = calc(capsys, *EXAMPLE[:2], *EXAMPLE[-2:], "--tolerance", "0.4")
    assert out.startswith("Look to: spindle.")
    assert "! spindle-limit:" in out
    assert "the maker's manual" in out


def test_without_the_bare_nose_nothing_is_said_of_the_spindle(capsys):
    """The answer is unknown, with the reason."""
    _, out, _ = calc(capsys, "--bar", "0 2", "--unit", "thou", "--tolerance", "1", "--json")
    found = json.loads(out)
    assert (found["looks_to"], found["added"], found["flags"]) == ("unknown", {}, [])


def test_repeats_and_graduation_give_an_uncertainty(capsys):
    """Two pushes at the nose; the mean is compared."""
    arguments = ["--nose", "0 0.4 0 0.6", "--bar", "0 2", "--unit", "thou"]
    found = json.loads(calc(capsys, *arguments, "--graduation", "0.1", "--json")[1])
    assert found["plays"] == {"nose": 0.5, "bar": 2}
    (joint,) = found["joints"]
    assert joint["expanded_uncertainty"] > 0.1
    assert "mean of 2" in calc(capsys, *arguments)[1]


def test_the_reach_is_allowed_for(capsys):
    """What a rocking spindle shows further out is not put on the grip."""
    arguments = ["--nose", "0 0.3", "--plate", "0 0.4", "--bar", "0 0.9", "--unit", "thou"]
    plain = json.loads(calc(capsys, *arguments, "--graduation", "0.02", "--json")[1])
    reach = ["--graduation", "0.02", "--reach", "3 4 9"]
    far = json.loads(calc(capsys, *arguments, *reach, "--json")[1])
    assert (plain["looks_to"], far["looks_to"]) == ("grip", "spindle")
    assert [joint["at_least"] for joint in plain["joints"]] == [None, None, None]
    assert far["joints"][2]["at_least"] == 0
    _, out, _ = calc(capsys, *arguments, *reach)
    assert "the grip         adds 0 thou to 0.5 thou" in out
    assert "the reach alone may do that" in out
    assert all(len(line) <= 100 for line in out.splitlines())


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--unit", "thou"], "bare nose"),
        (["--nose", "1", "--unit", "thou"], "--nose takes two numbers"),
        (["--nose", "1 2 3", "--unit", "thou"], "two numbers"),
        (["--nose", "1 soft", "--unit", "thou"], "soft is not a number"),
        (["--nose", "1 2"], "unit"),
        (["--nose", "1 2", "--unit", "thou", "--reach", "1 2"], "1 places and 2 distances"),
        (["--nose", "1 2", "--unit", "thou", "--reach", "0"], "reach"),
        (["--nose", "1 2", "--unit", "thou", "--graduation", "-1"], "graduation cannot be -1"),
    ],
)
def test_bad_input_is_one_line_on_standard_error(capsys, arguments, said):
    """Exit 2 and no traceback."""
    code, out, err = calc(capsys, *arguments)
    assert (code, out) == (2, "")
    assert said in err
    assert err.count("\n") == 1


def test_help_has_an_example_and_says_standing(capsys):
    """Pushing a spindle is done with the lathe isolated."""
    code, out, _ = calc(capsys, "--help")
    assert code == 0
    assert "spindleside calc play --nose" in out
    assert "isolated and standing" in out
