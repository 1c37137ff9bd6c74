"""The published tables behind the lifting equation, row by row."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from guide.plain import BadInput
from guide.shop.lift_multipliers import (
    SYSTEMS,
    averaged_frequency,
    coupling,
    distance,
    frequency,
    horizontal,
)

METRIC, US = SYSTEMS["metric"], SYSTEMS["us"]
TABLE = (
    (Path(__file__).parents[1] / "outside" / "shop_frequency_multipliers.txt")
    .read_text(encoding="utf-8")
    .splitlines()[1:]
)
COLUMNS = [(hours, v) for hours in (1, 2, 8) for v in (29.9, 30)]


def printed() -> list[tuple[float, int, float, float]]:
    """Frequency, hours, height in inches and multiplier, from the transcription in the tests."""
    return [
        (float(often.lstrip("≤")), hours, v, float(size))
        for often, sizes in (line.split(": ") for line in TABLE[:-1])
        for (hours, v), size in zip(COLUMNS, sizes.split(), strict=True)
    ]


@pytest.mark.parametrize(("often", "hours", "v", "size"), printed())
def test_every_corner_of_the_frequency_table(often, hours, v, size) -> None:
    """Table 5, p. 15: each printed value, in both systems (V 30 in counts as 75 cm)."""
    assert frequency(often, hours, v, US) == size
    assert frequency(often, hours, 75 if v == 30 else 74.9, METRIC) == size


def test_the_frequency_table_has_all_its_rows() -> None:
    """Seventeen rows of six, so a lost row shows."""
    assert len(printed()) == 17 * 6


@pytest.mark.parametrize("hours", [1, 2, 8])
@pytest.mark.parametrize("v", [0, 40])
def test_beyond_the_frequency_table(hours: float, v: float) -> None:
    """Below 0.2 the first row holds, above 15 or past 8 hours the multiplier is 0."""
    assert frequency(0.01, hours, v, US) == frequency(0.2, hours, v, US)
    assert frequency(15.0001, hours, v, US) == 0
    assert frequency(1, 8.0001, v, US) == 0


@pytest.mark.parametrize("column", COLUMNS)
def test_between_two_rows_the_multiplier_is_in_the_middle(column) -> None:
    """Linear in F: half-way between any two neighbours is their mean."""
    rows = [(often, size) for often, hours, v, size in printed() if (hours, v) == column]
    for (f0, m0), (f1, m1) in pairwise(rows):
        assert frequency((f0 + f1) / 2, *column, US) == pytest.approx((m0 + m1) / 2)


def test_the_duration_columns_change_above_one_and_two_hours() -> None:
    """At most 1 h, at most 2 h, at most 8 h."""
    sizes = [frequency(0.2, hours, 30, US) for hours in (0.5, 1, 1.01, 2, 2.01, 8)]
    assert sizes == [1, 1, 0.95, 0.95, 0.85, 0.85]


def test_fair_coupling_is_not_inverted() -> None:
    """Table 7, p. 18: fair 0.95 below 75 cm and 1.00 from there up; poor 0.90 at both."""
    assert [coupling("fair", v, METRIC) for v in (74.9, 75)] == [0.95, 1.00]
    assert [coupling("fair", v, US) for v in (29.9, 30)] == [0.95, 1.00]
    assert [coupling("good", v, US) for v in (0, 60)] == [1.00, 1.00]
    assert [coupling("poor", v, US) for v in (0, 60)] == [0.90, 0.90]


def test_no_multiplier_is_above_one() -> None:
    """Closer than 25 cm and less than 25 cm of travel count as 25 cm."""
    assert horizontal(5, METRIC) == horizontal(25, METRIC) == 1
    assert distance(0, METRIC) == distance(25, METRIC) == 1
    assert horizontal(5, US) == distance(0, US) == 1


def test_lifting_that_fills_part_of_a_quarter_hour() -> None:
    """Ten a minute during 8 of 15 minutes count as 5.33 (p. 16, transcribed)."""
    assert averaged_frequency(10, 8) == pytest.approx(5.33, abs=0.005)


@pytest.mark.parametrize("minutes", [0, -1, 15.1])
def test_minutes_outside_the_quarter_hour_are_refused(minutes: float) -> None:
    """The averaging is defined for 15 minutes."""
    with pytest.raises(BadInput):
        averaged_frequency(10, minutes)
