"""Thread designations and stress areas."""

from __future__ import annotations

from math import floor, log10

import pytest

from guide.plain import BadInput
from guide.shop.published import rows
from guide.shop.threads import parse_thread, stress_area

NAMES = [row["thread"] for table in ("metric_threads", "inch_threads") for row in rows(table)]


def three_figures(size: float) -> float:
    """As the metric table rounds."""
    return round(size, 2 - floor(log10(abs(size))))


@pytest.mark.parametrize("row", rows("metric_threads"), ids=lambda row: row["thread"])
def test_metric_stress_area_is_the_tables_to_three_figures(row: dict) -> None:
    """ISO 898-1 (coarse transcribed, fine from memory): As = π/4·((d2 + d3)/2)²."""
    printed = float(row["stress_area_mm2"])
    assert three_figures(stress_area(parse_thread(row["thread"]))) == printed


@pytest.mark.parametrize("row", rows("inch_threads"), ids=lambda row: row["thread"])
def test_inch_stress_area_is_the_tables_to_its_rounding(row: dict) -> None:
    """A public bolt guide (seen), which rounds to 0.001 in² from 9/16 up and sometimes cuts."""
    area = stress_area(parse_thread(row["thread"])) / 25.4**2
    assert area == pytest.approx(float(row["stress_area_in2"]), abs=0.0011)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("M10", "M10x1.5"),
        ("m10", "M10x1.5"),
        ("M10x1.5", "M10x1.5"),
        ("M10 × 1.50", "M10x1.5"),
        ("M10*1.25", "M10x1.25"),
        ("M 6 x 1.0", "M6x1"),
        ("3/8-16", "3/8-16"),
        ('3/8" - 16'.replace('"', ""), "3/8-16"),
        ("1/2-13 UNC", "1/2-13"),
        ("1/2-20unf", "1/2-20"),
        ("1 1/8-7", "1-1/8-7"),
        ("1-8", "1-8"),
    ],
)
def test_a_thread_is_known_as_it_is_spoken(typed: str, name: str) -> None:
    """Case, spaces and the sign between do not matter; M10 alone is the coarse pitch."""
    assert parse_thread(typed).name == name


@pytest.mark.parametrize("name", NAMES)
def test_every_thread_of_the_tables_is_known(name: str) -> None:
    """Its own name leads back to it."""
    assert parse_thread(name).name == name


@pytest.mark.parametrize(
    "text", ["", "M", "M11", "M10x2", "10", "3/8", "3/8-17", "M10x", "Mx1", "½"]
)
def test_any_other_thread_is_refused(text: str) -> None:
    """Nothing is worked out for a thread that no table has."""
    with pytest.raises(BadInput):
        parse_thread(text)


def test_a_wrong_pitch_is_told_the_right_ones() -> None:
    """The refusal names the threads of the same diameter."""
    with pytest.raises(BadInput, match=r"M10x1\.5, M10x1\.25, M10x1"):
        parse_thread("M10x2")


def test_coarse_stands_first() -> None:
    """M10 must not turn into a fine thread."""
    for size in {row["diameter_mm"] for row in rows("metric_threads")}:
        same = [row for row in rows("metric_threads") if row["diameter_mm"] == size]
        assert float(same[0]["pitch_mm"]) == max(float(row["pitch_mm"]) for row in same)
