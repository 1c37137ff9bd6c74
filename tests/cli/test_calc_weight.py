"""`calc weight` on the command line."""

from __future__ import annotations

import json
import shlex

import pytest

from guide.cli.main import run

CHUCK = [*shlex.split("calc weight --material steel --bore 55mm --length 85mm --diameter"), "8 in"]


def said(capsys: pytest.CaptureFixture, *arguments: str) -> tuple[int, str, str]:
    """Exit code, standard output, standard error."""
    with pytest.raises(SystemExit) as leaving:
        run(list(arguments))
    return (leaving.value.code, *capsys.readouterr())


def test_json_is_a_band_that_holds_the_trades_fact(capsys) -> None:
    """An 8 in steel three-jaw weighs about 50 lb (common practice, no source)."""
    code, out, _ = said(capsys, *CHUCK, "--json")
    answer = json.loads(out)
    assert code == 0
    assert answer["low_lb"] < 50 < answer["high_lb"]
    assert answer["plan_with_kg"] == answer["high_kg"]


def test_words_lead_with_the_band_and_end_with_what_is_not_in_it(capsys) -> None:
    """The heavier end to plan with, a mark or scales first, what comes on top."""
    _, out, _ = said(capsys, *CHUCK)
    lines = out.splitlines()
    assert lines[0].startswith("Between ")
    assert lines[1].startswith("Plan the lift with the heavier end")
    assert "scales beat this estimate" in lines[2]
    assert "come on top" in lines[-1]
    assert "does not say that the lift is safe" in lines[-1]


def test_inch_and_millimetre_are_equals(capsys) -> None:
    """8 in and 203.2 mm are one part."""
    one = said(capsys, *CHUCK, "--json")
    other = said(capsys, *CHUCK, "--diameter", "203.2 mm", "--json")
    assert one == other


def test_a_plate_comes_on_top(capsys) -> None:
    """Its own band is told, the sum leads, and it may be of another material."""
    more = ["--plate-diameter", "160 mm", "--plate-length", "25 mm", "--plate-material"]
    _, out, _ = said(capsys, *CHUCK, *more, "cast-iron", "--json")
    answer = json.loads(out)
    parts = answer["parts"]
    assert answer["high_kg"] == parts["body"]["high_kg"] + parts["plate"]["high_kg"]
    _, words, _ = said(capsys, *CHUCK, *more, "cast-iron")
    assert "Of that the plate is between" in words
    assert "grey cast iron" in words


@pytest.mark.parametrize(
    "more",
    [
        ["--plate-diameter", "160 mm"],
        ["--plate-length", "25 mm"],
        ["--diameter", "8"],
        ["--diameter", "8 km"],
        ["--bore", "9 in"],
        ["--jaws", "9"],
        ["--jaws", "x"],
        ["--material", "brass"],
    ],
)
def test_bad_input_is_one_sentence_and_exit_2(capsys, more: list[str]) -> None:
    """Nothing on standard output, no traceback."""
    code, out, err = said(capsys, *CHUCK, *more)
    assert (code, out) == (2, "")
    assert err.startswith("spindleside: ")
    assert "Traceback" not in err


def test_help_has_an_example(capsys) -> None:
    """And says what beats the estimate."""
    code, out, _ = said(capsys, "calc", "weight", "--help")
    plain = " ".join(out.split())
    assert code == 0
    assert "Example: spindleside calc weight" in plain
    assert "scales beat the estimate" in plain
