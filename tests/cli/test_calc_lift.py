"""`calc lift` on the command line."""

from __future__ import annotations

import json
import shlex

import pytest

from guide.cli.main import run

GUIDE = shlex.split(
    "calc lift --unit metric --h 30 --v 75 --a 30 --d 50 --per-minute 3 --coupling fair --load 15"
)


def said(capsys: pytest.CaptureFixture, *arguments: str) -> tuple[int, str, str]:
    """Exit code, standard output, standard error."""
    with pytest.raises(SystemExit) as leaving:
        run(list(arguments))
    return (leaving.value.code, *capsys.readouterr())


def test_json_has_the_methods_figures(capsys) -> None:
    """RWL 13.88 kg and index 1.08 of a public method guide (seen)."""
    code, out, err = said(capsys, *GUIDE, "--json")
    answer = json.loads(out)
    assert (code, err) == (0, "")
    assert answer["rwl_kg"] == pytest.approx(13.88, abs=0.005)
    assert answer["lifting_index"] == pytest.approx(1.08, abs=0.005)
    assert answer["applicable"] is True
    assert answer["why_not"] is None
    assert list(answer["multipliers"]) == ["HM", "VM", "DM", "AM", "FM", "CM"]


def test_words_lead_with_the_answer_and_end_with_what_they_do_not_say(capsys) -> None:
    """The first line is the limit, the last one that it is not a safe lift."""
    code, out, _ = said(capsys, *GUIDE)
    lines = out.splitlines()
    assert code == 0
    assert lines[0].startswith("Recommended weight limit: 13.9 kg (30.6 lb)")
    assert "Above 1" in lines[1]
    assert "does not say that the lift is safe" in lines[-1]


def test_an_index_of_one_or_less_is_not_a_permission(capsys) -> None:
    """The words for a small index refuse to be one."""
    _, out, _ = said(
        capsys, *shlex.split("calc lift --unit us --h 10 --v 30 --d 10 --coupling good --load 10")
    )
    assert "not permission" in out
    assert not {"safe to lift", "allowed", "permitted", "acceptable"} & {
        word for word in ("safe to lift", "allowed", "permitted", "acceptable") if word in out
    }


def test_outside_the_equation_is_an_answer_not_an_error(capsys) -> None:
    """Exit 0, no figure, the reason in words."""
    code, out, _ = said(capsys, *GUIDE, "--condition", "team", "--json")
    answer = json.loads(out)
    assert code == 0
    assert answer["applicable"] is False
    assert answer["lifting_index"] is None
    assert "one person" in answer["why_not"]
    _, words, _ = said(capsys, *GUIDE, "--condition", "team")
    assert words.startswith("The equation does not apply")
    assert "no pass" in words


def test_the_destination_stands_for_the_travel(capsys) -> None:
    """D is worked out from the two heights, and the worse end holds."""
    code, out, _ = said(
        capsys,
        *shlex.split("calc lift --unit us --h 18 --v 30 --coupling fair --json --destination"),
        "24 42 0",
    )
    answer = json.loads(out)
    assert code == 0
    assert answer["governs"] == "destination"
    assert answer["multipliers"]["DM"] == pytest.approx(0.82 + 1.8 / 12)


def test_part_of_a_quarter_hour_is_averaged(capsys) -> None:
    """Ten a minute for 8 of 15 minutes is 5.33 a minute (manual, p. 16): FM .80 - .05/3."""
    _, out, _ = said(
        capsys,
        *shlex.split("calc lift --unit us --h 10 --v 30 --d 10 --coupling good --per-minute 10"),
        *shlex.split("--for-minutes 8 --json"),
    )
    assert json.loads(out)["multipliers"]["FM"] == pytest.approx(0.80 - 0.05 / 3, abs=1e-4)


def test_sessions_without_recovery_are_added_up(capsys) -> None:
    """30, 10, 45 minutes are 75 in a row, so moderate (DHHS 94-110, 1994, from memory)."""
    _, out, _ = said(capsys, *GUIDE, "--sessions", "30 10 45", "--json")
    answer = json.loads(out)
    assert answer["duration"] == {
        "class": "moderate", "work_minutes": 75, "recovery_minutes": 22.5,
    }  # fmt: skip
    assert answer["multipliers"]["FM"] == 0.79
    _, words, _ = said(capsys, *GUIDE, "--sessions", "30 10 45")
    assert "Counted as moderate: 75 minutes" in words


def test_both_ends_stand_beside_each_other(capsys) -> None:
    """With a destination the figures of each end are told, and the lower one leads."""
    line = "calc lift --unit us --h 18 --v 30 --a 30 --coupling fair --load 50 --destination"
    _, out, _ = said(capsys, *shlex.split(line), "24 42 0", "--json")
    answer = json.loads(out)
    limits = {end: told["rwl_lb"] for end, told in answer["ends"].items()}
    assert answer["rwl_lb"] == min(limits.values()) == limits["destination"]
    _, words, _ = said(capsys, *shlex.split(line), "24 42 0")
    assert "at the origin" in words


@pytest.mark.parametrize(
    "more",
    [
        ["--sessions", "30 10"],
        ["--sessions", "30 10 45", "--hours", "1"],
        ["--h", "x"],
        ["--h", "1,5"],
        ["--h", "0"],
        ["--load", "-3"],
        ["--destination", "40"],
        ["--destination", "40 200"],
        ["--unit", "stone"],
        ["--coupling", "tight"],
        ["--condition", "flying"],
        ["--hours", "0"],
    ],
)
def test_bad_input_is_one_sentence_and_exit_2(capsys, more: list[str]) -> None:
    """Nothing on standard output, no traceback."""
    code, out, err = said(capsys, *GUIDE, *more)
    assert (code, out) == (2, "")
    assert err.startswith("spindleside: ")
    assert "Traceback" not in err


def test_help_has_an_example(capsys) -> None:
    """And says what every letter means."""
    code, out, _ = said(capsys, "calc", "lift", "--help")
    assert code == 0
    assert "Example: spindleside calc lift" in " ".join(out.split())
    assert "never permission" in " ".join(out.split())
