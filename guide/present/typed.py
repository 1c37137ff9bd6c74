"""Figures typed with their units: each read one way, or refused with a sentence."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from guide.measure.numerals import parse_number, shown
from guide.measure.quantity import Length, Mass, Quantity, Torque
from guide.plain import N_, BadInput

WITH_UNIT = re.compile(r"(.*?)\s*([^\d\s.,/+−-][^\d]*?\d?)")
"""A figure, and the sign or letters after it."""
PER_FT = 0.3048
PER_KSI = 6.894757293168361

LENGTHS = MappingProxyType({"mm": "mm", "in": "in", "thou": "thou", "um": "um", "µm": "um"})
MASSES = MappingProxyType({"kg": "kg", "lb": "lb", "lbs": "lb"})
SPEEDS = MappingProxyType({"rpm": 1.0, "rev/min": 1.0, "r/min": 1.0, "u/min": 1.0})
CUTTING = MappingProxyType({"m/min": 1.0, "ft/min": PER_FT, "sfm": PER_FT, "fpm": PER_FT})
STRESSES = MappingProxyType({"mpa": 1.0, "n/mm2": 1.0, "ksi": PER_KSI, "psi": PER_KSI / 1000})
TORQUES = MappingProxyType(
    {"nm": "N·m", "lbfft": "lbf·ft", "ftlbf": "lbf·ft", "lbft": "lbf·ft", "ftlb": "lbf·ft"}
)
"""How a torque's unit may be typed, without its dots, dashes and spaces."""


def number(text: str, language: str = "en") -> float:
    """One number in the reader's decimal sign."""
    return float(parse_number(text, language))


def whole(text: str, language: str = "en") -> int:
    """One whole number."""
    found = parse_number(text, language)
    if found != int(found):
        raise BadInput(N_("{text} is not a whole number."), N_("Count again."), text=shown(text))
    return int(found)


def length_mm(text: str, language: str = "en", usual: str = "") -> float:
    """A length such as 15 mm or 1 1/2 in, in mm; `usual` stands for a missing unit."""
    return _exact(
        Length,
        _with(text, LENGTHS, usual),
        "mm",
        language,
        N_("The length {text} has no unit."),
        N_("Write it with mm or in, such as 15 mm."),
    )


def mass_kg(text: str, language: str = "en", usual: str = "") -> float:
    """A mass with its unit, such as 20 kg or 50 lb, in kg."""
    return _exact(
        Mass,
        _with(text, MASSES, usual),
        "kg",
        language,
        N_("The mass {text} has no unit."),
        N_("Write it with kg or lb, such as 20 kg."),
    )


def rpm(text: str, language: str = "en") -> float:
    """A spindle speed in rev/min, with its unit or bare."""
    return _times(text, SPEEDS, "rpm", language, N_("Write it such as 1200 rpm."))


def cutting_m_min(text: str, language: str = "en", usual: str = "") -> float:
    """A cutting speed with its unit, such as 30 m/min or 100 ft/min, in m/min."""
    return _times(text, CUTTING, usual, language, N_("Write it such as 30 m/min or 100 ft/min."))


def stress_mpa(text: str, language: str = "en", usual: str = "") -> float:
    """A strength with its unit, such as 350 MPa or 50 ksi, in MPa."""
    return _times(text, STRESSES, usual, language, N_("Write it such as 350 MPa or 50 ksi."))


def celsius(text: str, language: str = "en") -> float:
    """A temperature with its unit, such as 21 C or 70 F, in °C."""
    found, unit = _split(text.replace("°", ""))
    if unit.upper() not in ("C", "F"):
        raise _no_unit(text, N_("Write it such as 21 °C or 70 °F."))
    size = number(found, language)
    return size if unit.upper() == "C" else (size - 32) / 1.8


def degrees(text: str, language: str = "en") -> float:
    """An angle in degrees, with their sign or bare."""
    return number(text.strip().removesuffix("°"), language)


def torque(text: str, language: str = "en") -> Torque:
    """A torque typed with its unit, such as 60 N·m, 60 Nm or 44 ft-lb."""
    found = re.fullmatch(r"([^A-Za-z]*?)\s*([A-Za-z].*)", text.strip())
    unit = TORQUES.get(re.sub(r"[^a-z]", "", found.group(2).lower())) if found else None
    if found is None or unit is None:
        raise BadInput(
            N_("The torque {text} has no unit known here."),
            N_("Write it such as 60 N·m or 44 lbf·ft."),
            text=shown(text),
        )
    return Torque.parse(found.group(1), unit, language)


def _with(text: str, units: Mapping[str, str], usual: str) -> tuple[str, str, str]:
    """As typed, the figure, and the unit's own name; blank where there is none known."""
    found, unit = _split(text)
    return text, found, units.get(unit.lower(), "") if unit else usual


def _split(text: str) -> tuple[str, str]:
    """The figure and what stands after it."""
    found = WITH_UNIT.fullmatch(text.strip())
    return (found.group(1), found.group(2)) if found else (text.strip(), "")


def _exact(
    kind: type[Quantity],
    typed: tuple[str, str, str],
    base: str,
    language: str,
    sentence: str,
    remedy: str,
) -> float:
    """A quantity in its base unit, by exact factors."""
    text, found, unit = typed
    if not unit or not found:
        raise BadInput(sentence, remedy, text=shown(text))
    return float(kind.parse(found, unit, language).exactly(base))


def _times(text: str, units: Mapping[str, float], usual: str, language: str, remedy: str) -> float:
    """A figure times what its unit is."""
    found, unit = _split(text)
    each = units.get(unit.lower().replace("²", "2") or usual)
    if each is None:
        raise _no_unit(text, remedy)
    return number(found, language) * each


def _no_unit(text: str, remedy: str) -> BadInput:
    """The refusal of a figure whose unit is not known."""
    return BadInput(N_("{text} has no unit known here."), remedy, text=shown(text))
