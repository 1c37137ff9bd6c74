"""The bar turned half round splits what follows it from what stays with the chuck."""

from __future__ import annotations

from math import hypot

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.angles import apart, even
from guide.measure.reversal import WHY, reversal
from guide.plain import BadInput

part = st.integers(-40, 40).map(lambda tenths: tenths / 10)


def turns(bar, chuck, n=8, means=(3.0, -7.0), slip_deg=0.0):
    """Readings before and after a bar off by `bar` in a chuck off by `chuck` is turned round."""
    turn, back = np.radians(even(n)), -complex(*bar) * np.exp(1j * np.radians(slip_deg))
    centres = (complex(*chuck) + complex(*bar), complex(*chuck) + back)
    return [
        (mean + c.real * np.cos(turn) + c.imag * np.sin(turn)).tolist()
        for mean, c in zip(means, centres, strict=True)
    ]


@given(part, part, part, part, st.sampled_from([3, 4, 6, 8, 12]))
def test_both_parts_come_back_from_half_sum_and_half_difference(a, b, c, d, n):
    """Identity: any bar in any chuck, whatever the dial's zero each time."""
    found = reversal(*turns((a, b), (c, d), n), "thou")
    for share, (x, y) in ((found.bar, (a, b)), (found.chuck, (c, d))):
        assert share.eccentricity == pytest.approx(hypot(x, y), abs=1e-9)
        assert share.fitted_tir == pytest.approx(2 * hypot(x, y), abs=1e-9)
        if hypot(x, y) > 0.01:
            assert apart(share.high_at_deg, np.degrees(np.arctan2(y, x))) < 1e-5


@given(part, part, part, part)
def test_reading_the_turns_in_the_other_order_turns_only_the_bars_part(a, b, c, d):
    """What was before is after: the chuck's part is the same, the bar's lies half a turn round."""
    one = reversal(*turns((a, b), (c, d)), "thou", u=0.1)
    other = reversal(*reversed(turns((a, b), (c, d))), "thou", u=0.1)
    assert other.chuck.eccentricity == pytest.approx(one.chuck.eccentricity, abs=1e-9)
    assert other.bar.eccentricity == pytest.approx(one.bar.eccentricity, abs=1e-9)
    if one.bar.eccentricity > 0.01:
        assert apart(other.bar.high_at_deg, one.bar.high_at_deg + 180) < 1e-5


@pytest.mark.parametrize(
    ("bar", "chuck", "owner", "larger"),
    [
        ((3, 0), (0, 0), "bar", "bar"),
        ((0, 0), (0, 3), "chuck", "chuck"),
        ((2, 0), (0, 1), "both", "bar"),
        ((2, 0), (0, 2), "both", None),
        ((0.05, 0), (0, 0.05), "neither", None),
    ],
)
def test_what_stands_out_is_named(bar, chuck, owner, larger):
    """By 2.448 standard uncertainties of a plane vector."""
    found = reversal(*turns(bar, chuck), "thou", u=0.2)
    assert (found.looks_to, found.larger) == (owner, larger)
    assert found.why == WHY[owner]


def test_without_an_uncertainty_nothing_is_said_to_stand_out():
    """The parts are given all the same."""
    found = reversal(*turns((3, 0), (0, 0)), "thou")
    assert found.looks_to == "unknown"
    assert (found.bar.stands_out, found.larger, found.bar.expanded_uncertainty) == (None,) * 3


def test_both_parts_scatter_as_stated_with_the_grip_counted_twice():
    """Simulated: noise on every reading and a grip of its own for each turn."""
    rng = np.random.default_rng(59)
    truth, found = turns((5, 0), (0, 4)), []
    for _ in range(1500):
        rows = []
        for row in truth:
            slip = rng.uniform(-0.3, 0.3, 2)
            turn = np.radians(even(8))
            rows.append(row + slip @ [np.cos(turn), np.sin(turn)] + rng.normal(0, 0.1, 8))
        found.append(reversal(*rows, "thou", u=0.1, grip=0.6))
    for shares in ([each.bar for each in found], [each.chuck for each in found]):
        scatter = 2 * np.std([share.fitted_tir for share in shares])
        assert shares[0].expanded_uncertainty == pytest.approx(scatter, rel=0.06)
    assert found[0].bar.expanded_uncertainty == pytest.approx(
        2 * 2 * np.sqrt(2 * 0.1**2 * 2 / 8 + 2 * 0.6**2 / 12) / 2
    )


def test_a_half_turn_set_by_eye_is_counted():
    """Simulated: ± 5° on the half turn moves the chuck's part by e·angle/2, across the high spot.

    The direction across is the worst, and that is the one stated.
    """
    rng = np.random.default_rng(61)
    across = []
    for slip in rng.uniform(-5, 5, 1000):
        chuck = reversal(*turns((4, 0), (0, 3), slip_deg=slip), "thou").chuck
        across.append(chuck.eccentricity)
    plain, slack = (
        reversal(*turns((4, 0), (0, 3)), "thou", u=1e-6, turned_within_deg=t) for t in (0, 5)
    )
    assert plain.chuck.expanded_uncertainty < 1e-4
    assert slack.chuck.expanded_uncertainty == pytest.approx(4 * np.std(across), rel=0.05)


def test_noise_alone_stands_out_one_time_in_twenty():
    """Simulated with a perfect bar in a perfect chuck."""
    rng = np.random.default_rng(67)
    found = [reversal(*rng.normal(0, 0.2, (2, 8)), "thou", u=0.2) for _ in range(1200)]
    for name in ("bar", "chuck"):
        said = np.mean([getattr(each, name).stands_out for each in found])
        assert said == pytest.approx(0.05, abs=0.02)


def test_inside_a_bore_both_high_spots_are_opposite():
    """The dial rises where the wall comes in."""
    outside, inside = (
        reversal(*turns((3, 0), (0, 2)), "thou", surface=s) for s in ("outside", "inside")
    )
    assert apart(outside.bar.high_at_deg, inside.bar.high_at_deg) == pytest.approx(180)
    assert apart(outside.chuck.high_at_deg, inside.chuck.high_at_deg) == pytest.approx(180)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"grip": -1}, "grip of -1"),
        ({"u": 0}, "uncertainty cannot be 0"),
        ({"unit": "cm"}, "unit cm"),
        ({"surface": "top"}, "outside or inside"),
        ({"before": (0, 1), "angles": None}, "Fewer than three"),
        ({"angles": (0, 90, 180, 360)}, "same position"),
        ({"after": (0, 1, 2)}, "3 readings and 4 angles"),
    ],
)
def test_what_cannot_be_is_refused(changed, said):
    """One plain sentence."""
    given_ = {
        "before": (0, 1, 2, 1), "after": (0, 1, 2, 1), "unit": "thou",
        "angles": (0, 90, 180, 270), **changed,
    }  # fmt: skip
    with pytest.raises(BadInput, match=said):
        reversal(**given_)
