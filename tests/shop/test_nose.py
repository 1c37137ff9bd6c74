"""Which nose it is: one size, between some, none of these, or no table that vouches for it."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.plain import BadInput
from guide.shop.nose import (
    CIRCLE_MM,
    KINDS,
    OVER_MM,
    UNDER_MM,
    Measured,
    chart,
    included_angle_deg,
    nose,
)

SEEN = json.loads(
    (Path(__file__).parents[1] / "outside" / "shop_nose.json").read_text(encoding="utf-8")
)
SIZES = SEEN["camlock"]["sizes"]
each_size = pytest.mark.parametrize("name", SIZES)


def exact(name: str, **other: float) -> Measured:
    """Everything measured as the chart has it."""
    taper, pins, _, circle = SIZES[name]
    told = {"taper_mm": taper, "taper_u_mm": 0.02, "pins": pins, "circle_mm": circle}
    return Measured(**{**told, "circle_u_mm": 0.2, **other})


def test_the_table_is_the_charts() -> None:
    """Every row, and no more (distributors' charts, transcribed)."""
    found = {s.name: [s.taper_mm, s.pins, s.pin_mm, s.circle_mm] for s in chart()}
    assert found == SIZES


@each_size
def test_a_nose_as_the_chart_has_it_is_that_size_and_its_plate_is_named(name: str) -> None:
    """Taper, pins, pin diameter and circle (distributors' charts, transcribed)."""
    plain = nose("camlock", exact(name)).to_json()
    got = [plain["taper_mm"], plain["pins"], plain["pin_mm"], plain["pin_circle_mm"]]
    assert (plain["answer"], plain["size"], got) == ("one", name, SIZES[name])


def test_the_room_for_measuring_never_joins_two_sizes() -> None:
    """Between neighbours there is a gap in which the answer is none of these."""
    for one, other in pairwise(chart()):
        assert one.taper_mm + OVER_MM < other.taper_mm - UNDER_MM
        assert one.circle_mm + CIRCLE_MM < other.circle_mm - CIRCLE_MM
        middle = (one.taper_mm + other.taper_mm) / 2
        assert nose("camlock", Measured(middle, 0.05)).told == "none"


@pytest.mark.parametrize("taper", [30.0, 73.0, 120.0, 160.0, 285.8])
def test_a_taper_outside_the_chart_is_none_of_these_whatever_the_pins_say(taper: float) -> None:
    """Nothing is stretched to the nearest size."""
    for pins in (None, 3, 6):
        found = nose("camlock", Measured(taper, 0.05, pins, 133.4, 0.2))
        assert (found.told, found.size, found.between) == ("none", None, ())


@each_size
def test_a_coarse_measure_is_undecided_and_says_between_what(name: str) -> None:
    """With a ± beyond the room it may be a nose that the chart does not have."""
    found = nose("camlock", exact(name, taper_u_mm=1.2))
    assert (found.told, found.between) == ("undecided", (name, "none of these"))


def test_a_rule_between_two_sizes_leaves_both_and_the_circle_tells_them_apart() -> None:
    """58 ± 5 mm is D1-3 or D1-4; a circle of 82 mm leaves D1-4, and still not for certain."""
    both = nose("camlock", Measured(58, 5, pins=3))
    assert both.between == ("D1-3", "D1-4", "none of these")
    one = nose("camlock", Measured(58, 5, pins=3, circle_mm=82, circle_u_mm=1))
    assert one.between == ("D1-4", "none of these")


@each_size
def test_pins_that_contradict_are_said_and_nothing_is_decided(name: str) -> None:
    """Its own size by the taper, those with that many pins, and none of these."""
    wrong = 6 if SIZES[name][1] == 3 else 3
    found = nose("camlock", exact(name, pins=wrong, circle_mm=None, circle_u_mm=0))
    with_pins = {each for each, row in SIZES.items() if row[1] == wrong}
    assert (found.told, found.against, found.size) == ("undecided", ("pins",), None)
    assert set(found.between) == {name, *with_pins, "none of these"}


@each_size
def test_a_circle_that_contradicts_is_said(name: str) -> None:
    """That of another size, or of none."""
    other = next(row[3] for each, row in SIZES.items() if each != name)
    for circle in (other, 150.0):
        found = nose("camlock", exact(name, circle_mm=circle))
        assert (found.told, found.against) == ("undecided", ("circle",))
        assert name in found.between


def test_pins_and_circle_that_each_fit_another_of_two_sizes_are_both_said() -> None:
    """By a coarse taper two sizes are open, and pins and circle point apart."""
    found = nose("camlock", Measured(73, 9, pins=6, circle_mm=82.6, circle_u_mm=0.2))
    assert (found.told, found.against) == ("undecided", ("pins", "circle"))
    assert "none of these" in found.between


@given(st.floats(10, 1000), st.floats(0, 0.9), st.sampled_from([None, 2, 3, 6]))
def test_one_size_is_never_named_against_the_chart(taper: float, u: float, pins: int) -> None:
    """Where one is named, taper and ± lie in its room and the pins are its own."""
    found = nose("camlock", Measured(taper, u, pins))
    if found.size is not None:
        assert found.size.taper_mm - UNDER_MM <= taper - u + 1e-9
        assert taper + u <= found.size.taper_mm + OVER_MM + 1e-9
        assert pins in (None, found.size.pins)
    assert (found.told == "one") is (found.size is not None)


def test_what_was_not_measured_is_said() -> None:
    """A ± that was not given, and pins that were not counted."""
    notes = " ".join(map(str, nose("camlock", Measured(106.3)).notes))
    assert "counts as exact" in notes
    assert "does not tell a cam-lock from a bolted nose" in notes
    assert nose("camlock", exact("D1-6")).notes == ()


def test_the_long_taper_is_what_the_handbook_says() -> None:
    """3 1/2 in on the foot is more than 16 degrees in all (seen), 16.594 by its tangent."""
    case = SEEN["long"]
    found = included_angle_deg(case["in_per_ft"])
    assert found > case["over_deg"]
    assert found == pytest.approx(case["by_atan_deg"], abs=case["tolerance"])
    assert nose("long").to_json()["included_angle_deg"] == case["by_atan_deg"]


@pytest.mark.parametrize("kind", SEEN["not_vouched"]["kinds"])
def test_a_kind_without_a_table_names_no_size_whatever_is_measured(kind: str) -> None:
    """No diameter of it is printed; the words send to the maker's manual."""
    for measured in (None, *map(exact, SIZES)):
        found = nose(kind, measured)
        plain = found.to_json()
        assert (found.told, found.sizes, plain["taper_mm"]) == ("no-table", (), None)
        words = " ".join(map(str, found.notes))
        assert "maker's manual" in words
        assert not re.search(r"\d\s*(mm|in)\b", words)
        assert ("compared with nothing" in words) is (measured is not None)


def test_the_record_speaks_json() -> None:
    """Named keys, plain values."""
    for kind in KINDS:
        plain = nose(kind, exact("D1-4")).to_json()
        assert json.loads(json.dumps(plain)) == plain


@pytest.mark.parametrize(
    ("kind", "measured"),
    [
        ("faceplate", Measured(63.5)),
        ("camlock", None),
        ("camlock", Measured(9)),
        ("camlock", Measured(float("nan"))),
        ("camlock", Measured(63.5, -0.1)),
        ("camlock", Measured(63.5, 12.7)),
        ("camlock", Measured(63.5, float("nan"))),
        ("camlock", Measured(63.5, 0.1, 0)),
        ("camlock", Measured(63.5, 0.1, 25)),
        ("camlock", Measured(63.5, 0.1, 3, 5)),
        ("camlock", Measured(63.5, 0.1, 3, 82.6, 17)),
    ],
)
def test_what_is_no_nose_is_refused(kind: str, measured: Measured | None) -> None:
    """Kinds, sizes, counts and a ± that cannot be."""
    with pytest.raises(BadInput):
        nose(kind, measured)
