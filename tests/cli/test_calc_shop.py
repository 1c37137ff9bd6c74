"""The other shop calculators on the command line."""

from __future__ import annotations

import json
import shlex

import pytest

from guide.cli.main import run

CALLS = {
    "sling": 'sling --load "10000 lb" --legs 2 --angle 45',
    "balance": 'balance --grade 2.5 --rpm 3600 --mass "20 kg" --shift "0.05 mm"',
    "speed": 'speed --chuck 2000 --lathe 1800 --cutting "60 ft/min" --diameter "5 in"'
    ' --body "8 in"',
    "fit": 'fit --plate "160.00 mm" --body "160.254 mm" --plate-u "0.01 mm" --runout "0.1 mm"',
    "nose": 'nose --kind camlock --diameter "106.30 mm" --diameter-u "0.05 mm" --pins 6'
    ' --circle "133.2 mm" --circle-u "0.3 mm"',
    "lever": 'lever --readings "0.200" --angle 30',
    "cradle": 'cradle --centre "170 mm" --diameter "200 mm"',
    "bar": 'bar --load "25 kg" --diameter "40 mm" --way both-ends --length "600 mm" '
    '--yield "350 MPa"',
}
"""One call of each that can be worked out."""
BAD = [
    ("sling", '--load "10000"'),
    ("sling", "--legs 9"),
    ("sling", "--angle x"),
    ("sling", "--included 60"),
    ("balance", "--grade 0"),
    ("balance", "--rpm -5"),
    ("balance", '--shift "0.05"'),
    ("speed", "--chuck worn"),
    ("speed", '--cutting "60"'),
    ("speed", '--diameter "0 mm"'),
    ("fit", '--plate "160"'),
    ("fit", '--plate-u "200 mm"'),
    ("fit", "--body-temperature 20"),
    ("fit", "--body-material brass"),
    ("nose", "--kind faceplate"),
    ("nose", '--diameter "5 mm"'),
    ("nose", "--circle 133"),
    ("nose", "--pins 2.5"),
    ("lever", "--angle 61"),
    ("lever", '--readings ""'),
    ("lever", "--correction half"),
    ("cradle", "--vee 10"),
    ("cradle", '--diameter "1 mm"'),
    ("bar", '--bore "40 mm"'),
    ("bar", '--at "700 mm"'),
    ("bar", '--yield "350"'),
    ("bar", "--way hung"),
]


def said(capsys: pytest.CaptureFixture, line: str) -> tuple[int, str, str]:
    """Exit code, standard output, standard error."""
    with pytest.raises(SystemExit) as leaving:
        run(["calc", *shlex.split(line)])
    return (leaving.value.code, *capsys.readouterr())


def told(capsys: pytest.CaptureFixture, line: str) -> dict:
    """The JSON of a call that can be worked out."""
    code, out, err = said(capsys, f"{line} --json")
    assert (code, err) == (0, "")
    return json.loads(out)


def test_a_sling_leg_of_the_suppliers_table(capsys) -> None:
    """10 000 lb on two legs at 45° is 7 070 lb a leg (suppliers' tables, seen)."""
    answer = told(capsys, CALLS["sling"])
    assert answer["leg_tension"] == pytest.approx(7070, abs=2)
    assert answer["unit"] == "lb"
    same = told(capsys, 'sling --load "10000 lb" --legs 2 --included 90')
    assert same == answer


def test_a_flat_sling_is_an_answer_without_a_figure(capsys) -> None:
    """Exit 0, no figure, and the words say to rig again."""
    answer = told(capsys, 'sling --load "120 kg" --legs 2 --angle 20')
    assert answer["leg_tension"] is None
    _, words, _ = said(capsys, 'sling --load "120 kg" --legs 2 --angle 20')
    assert words.startswith("No figure for this sling.")
    assert "rig again" in words


def test_balance_has_the_contracts_keys(capsys) -> None:
    """G 2.5 at 3600 rev/min is 6.631 µm (ISO 21940-11, transcribed)."""
    answer = told(capsys, CALLS["balance"])
    assert answer["permissible_eccentricity_um"] == pytest.approx(6.631, abs=0.001)
    assert answer["rpm_at_grade"] == pytest.approx(9549 * 2.5 / 50, abs=0.1)
    assert answer["unbalance_gmm"] == 1000
    assert told(capsys, "balance --grade 2.5 --rpm 3600")["rpm_at_grade"] is None


def test_speed_has_the_lowest_mark_and_the_treatises_cut(capsys) -> None:
    """60 ft/min at 5 in is 46 revolutions (Turning and Boring, transcribed)."""
    answer = told(capsys, CALLS["speed"])
    assert (answer["lowest_rpm"], answer["set_by"]) == (1800, "lathe")
    assert answer["rpm_for_cut"] == pytest.approx(46, abs=0.5)
    gone = told(capsys, "speed --chuck damaged --lathe 1800")
    assert (gone["lowest_rpm"], gone["rpm_for_cut"]) == (None, None)
    assert "find the maker's figure" in gone["why_not"]


def test_fit_gives_travel_and_reach(capsys) -> None:
    """0.010 in of clearance is 0.005 in each way (common practice, no source)."""
    answer = told(capsys, CALLS["fit"])
    assert answer["travel_each_way_mm"] == pytest.approx(0.127)
    assert answer["within_reach"] == "yes"


def test_nose_names_a_size_or_says_that_it_does_not(capsys) -> None:
    """D1-6 by taper, pins and circle (distributors' charts, transcribed); three pins contradict."""
    answer = told(capsys, CALLS["nose"])
    assert (answer["size"], answer["pin_mm"], answer["pin_circle_mm"]) == ("D1-6", 23, 133.4)
    _, words, _ = said(capsys, 'nose --kind camlock --diameter "82.57 mm" --pins 3')
    assert words.startswith("Undecided between: D1-3, D1-4, D1-5, none of these.\n")
    assert "The number of pins contradicts the taper." in words
    _, words, _ = said(capsys, 'nose --kind camlock --diameter "285.8 mm" --pins 6')
    assert words.startswith("None of these: ")
    _, words, _ = said(capsys, "nose --kind long")
    assert "3 1/2 in on the foot, 16.594° in all" in words
    assert "from memory only, and no such figure is given" in words


def test_lever_is_corrected_or_left_as_read(capsys) -> None:
    """0.200 at 30° is 0.174 by the makers' table (seen), or stands where that is chosen."""
    assert told(capsys, CALLS["lever"])["corrected"][0] == pytest.approx(0.174, abs=0.001)
    left = told(capsys, f"{CALLS['lever']} --correction none")
    assert (left["corrected"], left["factor"]) == ([0.2], 1)


def test_cradle_gives_the_root(capsys) -> None:
    """√2 radii under the axis in a right-angled vee (identity)."""
    answer = told(capsys, CALLS["cradle"])
    assert answer["root_height_mm"] == pytest.approx(170 - 100 * 2**0.5, abs=1e-3)


def test_bar_states_a_ratio(capsys) -> None:
    """Yield over stress, and a caution that denies that it is enough."""
    answer = told(capsys, CALLS["bar"])
    assert answer["yield_over_stress"] == pytest.approx(
        350 / answer["bending_stress_mpa"], rel=0.01
    )
    _, words, _ = said(capsys, CALLS["bar"])
    assert "does not say that the bar is enough" in words.splitlines()[-1]


@pytest.mark.parametrize("name", CALLS)
def test_words_end_with_what_is_not_said(capsys, name: str) -> None:
    """The last line denies and defers, and a source stands before it."""
    code, out, _ = said(capsys, CALLS[name])
    lines = out.splitlines()
    assert code == 0
    assert lines[-1].startswith("It does not ")
    assert any(line.startswith("Source: ") for line in lines)


@pytest.mark.parametrize("name", CALLS)
def test_help_has_an_example_that_works(capsys, name: str) -> None:
    """The example of the help is a call that can be worked out."""
    code, out, _ = said(capsys, f"{name} --help")
    assert code == 0
    example = " ".join(out.split("Example:")[1].split("Options:")[0].split())
    code, out, err = said(capsys, example.removeprefix("spindleside calc "))
    assert (code, err) == (0, "")


@pytest.mark.parametrize(("name", "more"), BAD)
def test_bad_input_is_one_sentence_and_exit_2(capsys, name: str, more: str) -> None:
    """Nothing on standard output, no traceback."""
    code, out, err = said(capsys, f"{CALLS[name]} {more}")
    assert (code, out) == (2, "")
    assert err.startswith("spindleside: ")
    assert err.count("\n") == 1
    assert "Traceback" not in err


@pytest.mark.parametrize("name", CALLS)
def test_without_options_one_sentence_says_what_is_missing(capsys, name: str) -> None:
    """Exit 2."""
    code, out, err = said(capsys, name)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
