"""The bibliography: where each figure of the shop calculators comes from, and how it was seen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

Seen = Literal["seen", "transcribed", "from memory", "identity", "common practice, no source"]


@dataclass(frozen=True, slots=True)
class Source:
    """A document, its edition, and how its figures were read for this project."""

    document: str
    """Title and number, as it would be looked up."""
    edition: str
    """Year, revision or part; empty for mathematics and for facts of the trade."""
    how: Seen
    """`transcribed` means read in a public copy of the document's figures, not in it."""

    def __str__(self) -> str:
        """One line for a report."""
        return ", ".join(part for part in (self.document, self.edition, self.how) if part)


SOURCES: Mapping[str, Source] = MappingProxyType(
    {
        "niosh": Source(
            "Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110",
            "revised 9/2021",
            "transcribed",
        ),
        "iso-898-1": Source(
            "ISO 898-1, proof loads and stress areas of bolts, coarse threads",
            "two public copies of its table that agree",
            "transcribed",
        ),
        "iso-898-1-fine": Source("ISO 898-1, stress areas of fine threads", "", "from memory"),
        "iso-68-1": Source(
            "ISO 68-1, basic profile: d2 = d - 0.649519P, d3 = d - 1.226869P", "", "transcribed"
        ),
        "sae-j429": Source(
            "SAE J429, proof and yield strength of grades 5 and 8",
            "two public excerpts that agree but for one misprint",
            "transcribed",
        ),
        "unified-stress-area": Source(
            "Bolt guide with stress areas of unified threads", "public reference", "seen"
        ),
        "torque-tension": Source(
            "Torque and tension of SAE J429 bolts, 75 % of proof, K 0.15 to 0.20",
            "public engineering reference",
            "seen",
        ),
        "vdi-2230": Source(
            "VDI 2230, preload and torque at 90 % of yield, fine threads",
            "2001, a catalogue page that says so",
            "transcribed",
        ),
        "iso-898-1-yield": Source(
            "ISO 898-1, yield 640/660, 940 and 1100 MPa; they reproduce the VDI 2230 table",
            "",
            "from memory",
        ),
        "handbook-engagement": Source(
            "Mechanical design handbook, chapter on bolts, screws and thread calculations:"
            " length of engagement",
            "public excerpt",
            "seen",
        ),
        "tm-9-2320-303": Source(
            "US Army TM 9-2320-303-24-1, torque limits: aluminium needs two diameters", "", "seen"
        ),
        "tb-9-2320-279": Source(
            "US Army TB 9-2320-279-13&P-2, torque limits: 70 % and again at 100 %", "", "seen"
        ),
        "pcc-1": Source(
            "ASME PCC-1, cross passes at 20-30, 50-70 and 100 %, then a circular check pass",
            "as quoted; written for pressure flanges, used by analogy",
            "transcribed",
        ),
        "density-steel": Source(
            "Density of steel, 7750 to 8050 kg/m3", "public engineering references", "seen"
        ),
        "density-cast-iron": Source(
            "Density of grey cast iron, 6950 to 7350 kg/m3, and 6600 to 7400 in another table",
            "public engineering references",
            "seen",
        ),
        "exact-units": Source(
            "NIST SP 811, 1 lb = 0.453 592 37 kg, 1 in = 25.4 mm", "2008", "from memory"
        ),
        "trade": Source("A fact of the trade", "", "common practice, no source"),
    }
)
"""Key to source; the keys stand in the calculators' docstrings and in the published tables."""
