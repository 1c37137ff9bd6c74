"""Along a bar between centres: readings and diameters say how far the tailstock is off."""

from __future__ import annotations

from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.along import out_of_line
from guide.plain import BadInput

sizes = st.decimals(min_value="-0.5", max_value="0.5", places=4)


@pytest.mark.parametrize(
    ("near", "far", "larger", "along", "set_over"),
    [
        ("0", "0.0031", "0.0002", "0.0030", 0.0036),
        ("0.0010", "0.0010", "0", "0", 0.0),
        ("0", "0", "0.0600", "-0.0300", -0.036),
    ],
    ids=["a ground bar", "in line", "two collars, by their diameters alone"],
)
def test_half_of_what_the_bar_is_thicker_is_the_bar_s_own(near, far, larger, along, set_over):
    """By hand, stations 10 apart on a bar of 12: what is left of the readings, and 12/10 of it."""
    found = out_of_line(D(near), D(far), larger=D(larger), apart=D(10), between=D(12))
    assert found.along == D(along)
    assert found.set_over == pytest.approx(set_over, abs=1e-12)


@given(off=sizes, taper=sizes, apart=st.integers(1, 900), before=st.integers(0, 90))
def test_a_tailstock_set_off_by_so_much_is_found_off_by_so_much(off, taper, apart, before):
    """Built from a straight line and a tapered bar, independent of how it is worked out."""
    between = apart + before + 10

    def surface(at: int) -> D:
        return off * at / between + (D(1) + taper * at / between) / 2

    far_at = before + apart
    found = out_of_line(
        surface(before),
        surface(far_at),
        larger=taper * apart / between,
        apart=D(apart),
        between=D(between),
    )
    assert found.set_over == pytest.approx(float(off), abs=1e-9)


def test_without_the_distances_only_the_difference_is_told():
    """The tailstock's own share is not guessed."""
    assert out_of_line(D("0.1"), D("0.3"), apart=D(10)).set_over is None


@pytest.mark.parametrize(("apart", "between"), [("12", "10"), ("0", "10"), ("-1", "10")])
def test_stations_that_cannot_lie_between_the_centres_are_refused(apart, between):
    """A slip of the pen would set the tailstock off."""
    with pytest.raises(BadInput, match="cannot be"):
        out_of_line(D(0), D(1), apart=D(apart), between=D(between))
