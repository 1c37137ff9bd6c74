"""`runout` keeps the contract of `calc runout`, special cases and refusals included."""

from __future__ import annotations

import json
from decimal import Decimal
from math import cos, radians, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.angles import apart, even
from guide.measure.reading import Sweep
from guide.measure.rounding import tidy
from guide.measure.runout import KEYS, runout
from guide.measure.uncertainty import Part
from guide.plain import BadInput

CONTRACT = [
    "unit", "positions", "mean", "eccentricity", "high_at_deg", "fitted_tir", "observed_tir",
    "form", "judged", "expanded_uncertainty", "verdict", "targets", "flags",
]  # fmt: skip
dial = st.integers(-500, 500).map(lambda tenths: Decimal(tenths) / 10)
series = st.integers(3, 14).flatmap(lambda n: st.lists(dial, min_size=n, max_size=n))


def lobed(n, e=1.0, lobes=0.0, high=40.0):
    """Readings of a bar off centre by e with three lobes."""
    return [e * cos(radians(t - high)) + lobes * cos(3 * radians(t) + 0.4) for t in even(n)]


def test_the_contracts_example():
    """0 12 20 8 thou on four screws, worked by hand: a = −10, b = 2, pairs meet at 10."""
    answer = runout((0, 12, 20, 8), "thou", tolerance=1, graduation=Decimal("0.5")).to_json()
    assert list(answer) == CONTRACT == list(KEYS)
    assert answer["eccentricity"] == pytest.approx(sqrt(104))
    assert answer["fitted_tir"] == answer["judged"] == pytest.approx(2 * sqrt(104))
    assert answer["high_at_deg"] == pytest.approx(168.690067526)
    assert (answer["mean"], answer["observed_tir"], answer["form"]) == (10, 20, 0)
    assert answer["expanded_uncertainty"] == pytest.approx(4 * 0.5 / sqrt(12) * sqrt(2 / 4))
    assert answer["verdict"] == "outside"
    assert answer["targets"] == [
        {"screw": 1, "across": 3, "reads": 0, "bring_to": 10},
        {"screw": 2, "across": 4, "reads": 12, "bring_to": 10},
        {"screw": 3, "across": 1, "reads": 20, "bring_to": 10},
        {"screw": 4, "across": 2, "reads": 8, "bring_to": 10},
    ]
    assert answer["flags"] == ["few-positions"]


def test_two_readings_half_a_turn_apart_give_one_pair():
    """They differ by 20: bring the dial to the middle (common practice, no source)."""
    answer = runout((0, 20), "thou", (0, 180), tolerance=1, u=1).to_json()
    assert (answer.pop("pair_error"), answer.pop("bring_to")) == (10, 10)
    assert (answer.pop("unit"), answer.pop("positions")) == ("thou", 2)
    assert set(answer.values()) == {None}


def test_three_positions_have_no_form_and_three_screws_nothing_across():
    """bring_to is the fitted mean where there is no pair."""
    answer = runout((0, 3, 6), "mm", screws=3).to_json()
    assert answer["form"] is None
    assert answer["targets"] == [
        {"screw": k, "across": None, "reads": v, "bring_to": 3} for k, v in ((1, 0), (2, 3), (3, 6))
    ]


def test_a_screw_that_was_not_read_gets_the_fitted_mean():
    """Six places on four screws: 1 and 3 were read, 2 and 4 were not."""
    answer = runout((1, 2, 3, 5, 2, 2), "thou").to_json()
    reads = [target["reads"] for target in answer["targets"]]
    bring = [target["bring_to"] for target in answer["targets"]]
    assert reads == [1, None, 5, None]
    assert bring == [3, 2.5, 3, 2.5]


def test_without_uncertainty_or_tolerance_there_is_no_verdict():
    """Neither is guessed."""
    assert runout((0, 1, 2, 1), "thou", tolerance=5).verdict is None
    assert runout((0, 1, 2, 1), "thou", tolerance=5).expanded_uncertainty is None
    assert runout((0, 1, 2, 1), "thou", u=1).verdict is None
    assert runout((0, 1, 2, 1), "thou", tolerance=5, rule="simple").verdict is None


@pytest.mark.parametrize(
    ("tolerance", "rule", "verdict"),
    [
        (3.0, "guarded", "within"),
        (2.3, "guarded", "undecided"),
        (1.8, "guarded", "undecided"),
        (1.5, "guarded", "outside"),
        (2.0, "simple", "within"),
        (1.99, "simple", "outside"),
    ],
)
def test_verdicts_on_a_true_two_thou_of_runout(tolerance, rule, verdict):
    """0 1 2 1 is 2e = 2 with u(2e) = 2·0.2·√(2/4) and g = 0.465."""
    assert runout((0, 1, 2, 1), "thou", tolerance=tolerance, u=0.2, rule=rule).verdict == verdict


@pytest.mark.parametrize("n", [4, 8, 12])
def test_u_stands_before_graduation(n):
    """--u is the standard uncertainty of one reading; U = 4·u·√(2/n)."""
    found = runout(lobed(n), "mm", u=0.2, graduation=9)
    assert found.expanded_uncertainty == pytest.approx(4 * 0.2 * sqrt(2 / n))


@given(series, st.lists(st.sampled_from([3, 4, 6]), min_size=1, max_size=1))
def test_answers_agree_with_numpy_and_are_plain_json(values, screws):
    """Mean, eccentricity and range by numpy; nothing in the answer but JSON numbers."""
    answer = runout(values, "thou", screws=screws[0], u=0.3, tolerance=2).to_json()
    numbers = np.array([float(value) for value in values])
    assert answer["mean"] == pytest.approx(numbers.mean(), abs=1e-9)
    assert answer["observed_tir"] == pytest.approx(np.ptp(numbers), abs=1e-9)
    assert answer["eccentricity"] == pytest.approx(
        2 * abs(np.fft.rfft(numbers)[1]) / len(numbers), abs=1e-9
    )
    assert json.loads(json.dumps(answer, allow_nan=False)) == answer


@given(series, st.sampled_from([("in", "thou", 1000), ("thou", "tenth", 10), ("mm", "um", 1000)]))
def test_the_unit_scales_lengths_and_nothing_else(values, units):
    """The same bar in a finer unit: lengths times the factor, angle, verdict and flags the same."""
    unit, finer, factor = units
    one = runout(values, unit, tolerance=3, u=Decimal("0.4"))
    other = runout(
        [value * factor for value in values], finer, tolerance=3 * factor, u=Decimal("0.4") * factor
    )
    assert other.eccentricity == pytest.approx(one.eccentricity * factor, abs=1e-6)
    assert other.judged == pytest.approx(one.judged * factor, abs=1e-6)
    assert (other.verdict, other.flags) == (one.verdict, one.flags)


@given(series, st.integers(-500, 500))
def test_the_dial_zero_does_not_matter(values, added):
    """A constant added moves mean and bring_to by as much and nothing else."""
    one = runout(values, "thou", u=0.3, tolerance=2)
    other = runout([value + added for value in values], "thou", u=0.3, tolerance=2)
    assert other.judged == pytest.approx(one.judged, abs=1e-6)
    assert other.flags == one.flags
    for before, after in zip(one.targets, other.targets, strict=True):
        assert after.bring_to == pytest.approx(before.bring_to + added, abs=1e-6)


@given(st.integers(-90, 90), st.integers(-90, 90), st.sampled_from([4, 6, 8]))
def test_the_high_spot_moves_with_the_screw_that_is_called_one(a, b, n):
    """Starting at the next position turns the high spot back by one position."""
    values = [10 + a * cos(radians(t)) + b * cos(radians(t - 90)) for t in even(n)]
    one, other = runout(values, "um"), runout(values[1:] + values[:1], "um")
    assert other.eccentricity == pytest.approx(one.eccentricity, abs=1e-8)
    if one.eccentricity > 0.1:
        assert apart(other.high_at_deg, one.high_at_deg - 360 / n) < 1e-6


def test_inside_a_bore_the_high_spot_is_opposite():
    """The dial rises where the wall comes in, which is where the body is not."""
    outside, inside = (
        runout((0, 12, 20, 8), "thou", surface=surface) for surface in ("outside", "inside")
    )
    assert apart(outside.high_at_deg, inside.high_at_deg) == pytest.approx(180)
    assert inside.targets == outside.targets


def test_equal_readings_have_no_eccentricity_and_no_noise():
    """Nothing is left over of rounding."""
    answer = runout([Decimal("0.1")] * 7, "mm", u=0.001, tolerance=1).to_json()
    assert (answer["eccentricity"], answer["form"], answer["high_at_deg"]) == (0, 0, 0)
    assert answer["mean"] == 0.1
    assert answer["verdict"] == "within"


@pytest.mark.parametrize(
    ("number", "size", "clean"),
    [(0.1 + 0.2, None, 0.3), (1.8e-15, 20.0, 0.0), (-0.0, None, 0.0), (2 / 3, 1, 0.66666666667)],
)
def test_answers_are_rid_of_binary_noise(number, size, clean):
    """Twelve digits of the size, and no minus zero."""
    assert str(tidy(number, size)) == str(clean)


def test_three_lobes_are_flagged_where_places_show_them_and_doubted_where_they_do_not():
    """At twelve places form is seen; at four it hides, and the flag says so."""
    seen = runout(lobed(12, 1.0, 0.3), "thou", u=0.02, tolerance=9)
    hidden = runout(lobed(4, 1.0, 0.3), "thou", u=0.02, tolerance=9)
    assert seen.flags == ("form",)
    assert seen.judged > seen.fitted_tir
    assert hidden.flags == ("few-positions",)


@pytest.mark.parametrize(
    ("clearance", "flagged"), [(20, False), (19.9, True), (30, False), (None, False)]
)
def test_travel_is_half_the_clearance(clearance, flagged):
    """e = 10 against a diametral clearance of 20 is just reached, less is beyond."""
    found = runout((0, 10, 20, 10), "thou", clearance=clearance)
    assert ("beyond-travel" in found.flags) is flagged


def test_a_coarse_dial_cannot_prove_a_fine_tolerance():
    """Behind equal readings at four places half a thou of division hides 0.707 thou."""
    fine, coarse = (
        runout((3, 3, 3, 3), "thou", tolerance=Decimal(t), graduation=Decimal("0.5")).flags
        for t in ("0.71", "0.70")
    )
    assert "cannot-prove" not in fine
    assert "cannot-prove" in coarse


def test_readings_that_vary_are_judged_by_their_uncertainty():
    """U = 0.41 of a half-thou dial at four places against 0.5 and 0.4."""
    fine, coarse = (
        runout((0, 3, 6, 3), "thou", tolerance=Decimal(t), graduation=Decimal("0.5")).flags
        for t in ("0.5", "0.4")
    )
    assert "cannot-prove" not in fine
    assert "cannot-prove" in coarse


def test_parts_stand_before_graduation_and_u():
    """The budget is theirs, and few repeats widen U and the guard band by Student's factors."""
    parts = (Part("repeats", 0.2, 3),)
    found = runout((0, 1, 2, 1), "thou", tolerance=5, graduation=9, u=9, parts=parts)
    assert found.budget.parts == parts
    assert found.expanded_uncertainty == pytest.approx(3.31 * 2 * 0.2 * sqrt(2 / 4))
    assert found.decision.factor == 2.35
    assert found.decision.guard == pytest.approx(2.35 * 2 * 0.2 * sqrt(2 / 4))
    assert list(found.to_json()) == CONTRACT


def test_play_limits_what_can_be_shown():
    """Play above the tolerance, or a result that is not within and no larger than the play."""

    def flags(play, tolerance=1):
        return runout((0, 0.5, 1, 0.5), "thou", tolerance=tolerance, u=0.2, play=play).flags

    assert "spindle-limit" in flags(1.5)
    assert "spindle-limit" in flags(1)
    assert "spindle-limit" not in flags(0.5)
    assert "spindle-limit" not in flags(1, tolerance=5)


@pytest.mark.parametrize(("closure", "moved"), [(0, False), (0.5, False), (-0.6, True)])
def test_a_closure_beyond_the_dials_fineness_says_zero_moved(closure, moved):
    """One division may be the dial's own."""
    found = runout((0, 1, 2, 1), "thou", graduation=Decimal("0.5"), closure=closure)
    assert ("zero-moved" in found.flags) is moved


@pytest.mark.parametrize(
    ("high", "verdict", "flag"),
    [
        ("2.2", "within", None),
        ("4", "undecided", "form"),
        ("9", "outside", "form"),
        ("0.5", "undecided", "cannot-prove"),
    ],
)
def test_a_watched_sweep_must_not_contradict(high, verdict, flag):
    """More than was judged is form the readings missed; less than was read proves nothing."""
    found = runout(
        (0, 1, 2, 1), "thou", tolerance=5, u=0.2, watched=Sweep(Decimal(0), Decimal(high))
    )
    assert found.verdict == verdict
    assert found.contradicted == flag
    assert set(found.flags) - {"few-positions"} == ({flag} if flag else set())


def test_near_zero_a_one_sided_limit_is_given():
    """There the fitted TIR reads high."""
    assert runout((0, 0, 0, 0), "thou", u=0.2).at_most == pytest.approx(1.645 * 0.4 * sqrt(0.5))
    assert runout((0, 12, 20, 8), "thou", u=0.2).at_most is None


def test_positions_all_on_one_side_are_too_few():
    """They leave the centre to the noise, which U shows and the flag says."""
    found = runout((0, 1, 2, 3, 4), "thou", (0, 5, 10, 15, 20), u=0.1)
    assert "few-positions" in found.flags
    assert found.expanded_uncertainty > 5 * 4 * 0.1 * sqrt(2 / 5)


BAD = [
    ({"readings": ()}, "Fewer than three readings"),
    ({"readings": (1, 2)}, "Fewer than three readings"),
    ({"readings": (1, 2), "angles": (0, 90)}, "Fewer than three readings"),
    ({"readings": (1, 2, 3), "angles": (0, 180)}, "3 readings and 2 angles"),
    ({"readings": (1, 2, 3), "angles": (0, 90, 0)}, "same position"),
    ({"readings": (1, 2, 3), "angles": (0, 90, 360)}, "same position"),
    ({"readings": (1, 2, 3), "angles": (-90, 90, 270)}, "same position"),
    ({"readings": (1, 2, 3), "angles": (0, 1e-5, 2e-5)}, "too close together"),
    ({"readings": (1, 2, float("nan"))}, "not a number"),
    ({"readings": (1, 2, Decimal("inf"))}, "not a number"),
    ({"unit": "cm"}, "unit cm"),
    ({"screws": 2}, "2 adjusting screws"),
    ({"screws": 99}, "99 adjusting screws"),
    ({"tolerance": 0}, "tolerance cannot be 0"),
    ({"tolerance": -1}, "tolerance cannot be -1"),
    ({"graduation": 0}, "graduation cannot be 0"),
    ({"u": Decimal(0)}, "uncertainty cannot be 0"),
    ({"u": float("nan")}, "uncertainty cannot be nan"),
    ({"clearance": -1}, "clearance cannot be -1"),
    ({"play": -1}, "Play cannot be -1"),
    ({"rule": "kind"}, "guarded or simple"),
    ({"surface": "top"}, "outside or inside"),
    ({"closure": float("inf")}, "not a number"),
]


@pytest.mark.parametrize(("changed", "said"), BAD, ids=lambda value: str(value)[:40])
def test_what_cannot_be_is_refused_with_a_sentence(changed, said):
    """One plain sentence and a remedy."""
    given_ = {"readings": (0, 12, 20, 8), "unit": "thou", **changed}
    with pytest.raises(BadInput) as refusal:
        runout(**given_)
    assert said in str(refusal.value)
    assert refusal.value.remedy
