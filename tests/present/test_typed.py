"""Figures typed with their units are read one way or refused."""

from __future__ import annotations

import pytest

from guide.plain import BadInput
from guide.present import typed
from guide.present.typed import length_mm


@pytest.mark.parametrize(
    ("typed", "mm"),
    [("15 mm", 15), ("15mm", 15), (" 0.5 in ", 12.7), ("3 3/8 in", 85.725), ("1/2in", 12.7)],
)
def test_a_length_has_its_unit_with_it(typed: str, mm: float) -> None:
    """Millimetres, decimal inches and fractions of an inch."""
    assert length_mm(typed) == pytest.approx(mm)


@pytest.mark.parametrize("typed", ["15", "", "mm", "15 cm", "1/2 mm", "1,5 mm", "15 mm 2 in"])
def test_a_length_that_can_be_read_two_ways_is_refused(typed: str) -> None:
    """No unit, another unit, or no number."""
    with pytest.raises(BadInput):
        length_mm(typed)


@pytest.mark.parametrize(
    ("read", "text", "size"),
    [
        (typed.mass_kg, "20 kg", 20),
        (typed.mass_kg, "50 lb", 22.6796185),
        (typed.mass_kg, "50lbs", 22.6796185),
        (typed.rpm, "1200", 1200),
        (typed.rpm, "1200 rpm", 1200),
        (typed.rpm, "1200 rev/min", 1200),
        (typed.cutting_m_min, "30 m/min", 30),
        (typed.cutting_m_min, "100 ft/min", 30.48),
        (typed.stress_mpa, "350 MPa", 350),
        (typed.stress_mpa, "350 N/mm2", 350),
        (typed.stress_mpa, "350 N/mm²", 350),
        (typed.stress_mpa, "50 ksi", 344.7378647),
        (typed.celsius, "21 C", 21),
        (typed.celsius, "70°F", 21.1111111),
        (typed.celsius, "-5 °C", -5),
        (typed.degrees, "45", 45),
        (typed.degrees, "45°", 45),
        (typed.length_mm, "2 thou", 0.0508),
        (typed.length_mm, "50 µm", 0.05),
    ],
)
def test_units_as_people_type_them(read, text: str, size: float) -> None:
    """Each by its exact factor (inch, pound and foot by definition)."""
    assert read(text) == pytest.approx(size)


@pytest.mark.parametrize(
    ("read", "text"),
    [
        (typed.mass_kg, "20"),
        (typed.mass_kg, "20 stone"),
        (typed.rpm, "20 m/min"),
        (typed.rpm, ""),
        (typed.cutting_m_min, "30"),
        (typed.stress_mpa, "350 bar"),
        (typed.celsius, "21"),
        (typed.celsius, "21 K"),
        (typed.degrees, "45 rad"),
        (typed.whole, "2.5"),
        (typed.whole, "two"),
        (typed.torque, "40"),
        (typed.torque, "40 kg"),
    ],
)
def test_what_can_be_read_two_ways_or_not_at_all_is_refused(read, text: str) -> None:
    """No unit, another kind of unit, no number."""
    with pytest.raises(BadInput):
        read(text)
