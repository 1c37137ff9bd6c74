"""`calc torque` on the command line."""

from __future__ import annotations

import json
import shlex

import pytest

from guide.cli.main import run

BOLT = [
    *shlex.split("calc torque --thread 3/8-16 --class 8 --female steel --k 0.20 --engagement"),
    "5/8 in",
]
RING = [*BOLT, "--bolts", "4", "--maker-torque", "40 lbf·ft"]


def said(capsys: pytest.CaptureFixture, *arguments: str) -> tuple[int, str, str]:
    """Exit code, standard output, standard error."""
    with pytest.raises(SystemExit) as leaving:
        run(list(arguments))
    return (leaving.value.code, *capsys.readouterr())


def test_json_has_the_tables_torque(capsys) -> None:
    """44 ft-lb at 6974 lbf for 3/8-16 grade 8, K 0.20 (a public reference, seen)."""
    code, out, _ = said(capsys, *BOLT, "--json")
    answer = json.loads(out)
    assert code == 0
    assert answer["torque_ftlb"] == pytest.approx(44, abs=0.5)
    assert answer["preload_n"] == pytest.approx(6974 * 4.44822, rel=1e-3)
    assert answer["stress_area_mm2"] == pytest.approx(0.0775 * 25.4**2, rel=1e-3)
    assert "K = 0.20" in answer["basis"]
    assert answer["order"] is None
    assert answer["stages"] is None


def test_only_the_makers_torque_is_staged(capsys) -> None:
    """The stages are shares of the figure given; without one they are percentages alone."""
    _, out, _ = said(capsys, *RING, "--json")
    answer = json.loads(out)
    assert answer["order"] == [1, 3, 2, 4]
    assert [stage["percent"] for stage in answer["stages"]] == [30, 70, 100, 100]
    assert [stage["torque_ftlb"] for stage in answer["stages"]] == [12, 28, 40, 40]
    assert answer["stages"][2]["torque_nm"] == pytest.approx(54.2)
    assert answer["maker_over_calculated"] == pytest.approx(40 / 43.6, abs=0.01)
    _, out, _ = said(capsys, *BOLT, "--bolts", "4", "--json")
    assert {stage["torque_nm"] for stage in json.loads(out)["stages"]} == {None}


def test_words_lead_with_the_comparison_and_end_with_the_maker(capsys) -> None:
    """The figure is called a comparison, the last line defers to the manual."""
    _, out, _ = said(capsys, *RING)
    lines = out.splitlines()
    assert lines[0].startswith("Calculated for comparison only: 59 N·m (44 lbf·ft)")
    assert "the maker's is the one to use" in lines[1]
    assert "1. cross at 30 %, 12 lbf·ft: bolts 1 3 2 4" in lines
    assert any(line.startswith("Without a torque wrench") for line in lines)
    assert "maker's manual" in lines[-1]


def test_without_the_female_thread_there_is_no_figure(capsys) -> None:
    """Exit 0, null figures, each missing thing in a sentence."""
    code, out, _ = said(
        capsys, *shlex.split("calc torque --thread M10 --class 8.8 --k 0.15 --json")
    )
    answer = json.loads(out)
    assert code == 0
    assert (answer["torque_nm"], answer["preload_n"]) == (None, None)
    assert "female" in answer["why_not"]
    assert "engaged" in answer["why_not"]
    _, words, _ = said(capsys, *shlex.split("calc torque --thread M10"))
    assert words.startswith("No calculated torque.")


def test_the_friction_basis(capsys) -> None:
    """M10x1.25 10.9 at friction 0.12: 46.4 kN and 75 N·m (VDI 2230, 2001, transcribed)."""
    _, out, _ = said(
        capsys,
        *shlex.split("calc torque --thread M10x1.25 --class 10.9 --female steel --engagement 15mm"),
        *shlex.split("--friction 0.12 --head 14.63mm --hole 11mm --json"),
    )
    answer = json.loads(out)
    assert answer["torque_nm"] == pytest.approx(75, abs=1)
    assert answer["preload_n"] == pytest.approx(46400, rel=0.005)
    assert "yield" in answer["basis"]


def test_the_friction_basis_in_inches(capsys) -> None:
    """3/8-16: T over preload by the handbook's formula (p. 1665, seen), named as by analogy."""
    line = "calc torque --thread 3/8-16 --class 8 --female steel --friction 0.15 --engagement"
    more = ["--head", "9/16 in", "--hole", "0.375 in", "--json"]
    _, out, _ = said(capsys, *shlex.split(line), "5/8 in", *more)
    answer = json.loads(out)
    printed = 0.159 / 16 + 0.531 * 0.15 * 0.375 + 0.625 * 0.15 * 0.375
    found = answer["torque_ftlb"] * 12 / (answer["preload_n"] / 4.44822)
    assert found == pytest.approx(printed, rel=0.02)
    assert "by analogy" in answer["basis"]


@pytest.mark.parametrize("typed", ["60 N·m", "60Nm", "60 N-m", "60 nm", "60.0 N.m"])
def test_newton_metres_as_people_type_them(capsys, typed: str) -> None:
    """The sign between N and m does not matter."""
    _, out, _ = said(capsys, *BOLT, "--bolts", "3", "--maker-torque", typed, "--json")
    assert json.loads(out)["stages"][1]["torque_nm"] == 30


@pytest.mark.parametrize("typed", ["44 lbf·ft", "44 ft-lb", "44ftlb", "44 lb-ft", "44 ft·lbf"])
def test_foot_pounds_as_people_type_them(capsys, typed: str) -> None:
    """Either way round, with or without the f."""
    _, out, _ = said(capsys, *BOLT, "--bolts", "3", "--maker-torque", typed, "--json")
    assert json.loads(out)["stages"][1]["torque_ftlb"] == 22


@pytest.mark.parametrize(
    "more",
    [
        ["--thread", "M11"],
        ["--class", "8.8"],
        ["--engagement", "16"],
        ["--engagement", "1,5 in"],
        ["--engagement", "0 mm"],
        ["--k", "0.3"],
        ["--k", "dry"],
        ["--friction", "0.12"],
        ["--bolts", "1"],
        ["--maker-torque", "40"],
        ["--maker-torque", "40 kg"],
        ["--maker-torque", "0 Nm", "--bolts", "4"],
        ["--maker-torque", "1,234 Nm"],
        ["--maker-torque", "480 in-lb"],
        ["--female", "cheese"],
    ],
)
def test_bad_input_is_one_sentence_and_exit_2(capsys, more: list[str]) -> None:
    """Nothing on standard output, no traceback."""
    code, out, err = said(capsys, *BOLT, *more)
    assert (code, out) == (2, "")
    assert err.startswith("spindleside: ")
    assert "Traceback" not in err


def test_half_a_friction_basis_is_refused(capsys) -> None:
    """The face under the head and the hole are needed with the coefficient."""
    code, _, err = said(
        capsys, *shlex.split("calc torque --thread M10 --friction 0.12 --head 16mm")
    )
    assert code == 2
    assert "hole" in err


def test_help_has_an_example(capsys) -> None:
    """And says that a calculated torque is never staged."""
    code, out, _ = said(capsys, "calc", "torque", "--help")
    plain = " ".join(out.split())
    assert code == 0
    assert "Example: spindleside calc torque" in plain
    assert "never a calculated one" in plain
