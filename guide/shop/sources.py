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
        "handbook-torque": Source(
            "Machinery's Handbook, torque and tension in fasteners: T = P(0.159l + 0.531µd +"
            " 0.625µd) and its example of a 1/2-13 bolt",
            "31st edition, p. 1665",
            "seen",
        ),
        "niosh-duration": Source(
            "Applications Manual for the Revised NIOSH Lifting Equation, lifting duration: recovery"
            " of 1.2 times the work up to 1 h, 0.3 times up to 2 h",
            "1994",
            "from memory",
        ),
        "sling-angle": Source(
            "Sling angle tables: 60° 1.155, 45° 1.414, 30° 2.000 times the straight pull",
            "suppliers' public tables, US and UK",
            "seen",
        ),
        "asme-b30-9": Source("ASME B30.9, sling angles under 30°", "as quoted", "transcribed"),
        "navy-rigging": Source(
            "US Navy training manual, bridle hitches: two legs may take the whole of a rigid load;"
            " keep sling angles above 45°",
            "public copy numbered 14080",
            "transcribed",
        ),
        "iso-21940-11": Source(
            "ISO 21940-11, balance tolerances of rigid rotors: e = 9549·G/n", "", "transcribed"
        ),
        "unbalance-example": Source(
            "Toolholder catalogue, pages on balancing: grades 0.16 to 4000, U = 9549·G·m/n and its"
            " example",
            "public page",
            "seen",
        ),
        "newton": Source("Centrifugal force m·e·ω²", "", "identity"),
        "cutting-speed": Source(
            "Turning and Boring, a treatise for machinists: revolutions = 12·C/(π·d)",
            "public copy of the book",
            "transcribed",
        ),
        "expansion-steel": Source(
            "Linear expansion of carbon and low-alloy steels, 11.2 to 12.3 µm/(m·K) at 0 to 100 °C",
            "public engineering reference",
            "seen",
        ),
        "expansion-cast-iron": Source(
            "Linear expansion of grey cast iron, 6.0 µin/(in·°F), and 5.56 in an older textbook",
            "public engineering references",
            "seen",
        ),
        "iso-1": Source("ISO 1, reference temperature 20 °C", "", "from memory"),
        "gum": Source(
            "JCGM 100, guide to the expression of uncertainty: combining two figures",
            "2008",
            "from memory",
        ),
        "circle-in-vee": Source(
            "A circle that touches two lines: r/sin β from where they meet, r/tan β along each",
            "",
            "identity",
        ),
        "beam-tables": Source(
            "Beam formulas: simple beam with a load anywhere, cantilever, their own weight; bending"
            " stress M·c/I",
            "public engineering references",
            "seen",
        ),
        "steel-modulus": Source(
            "Elastic modulus of steel, 200 GPa", "public engineering references", "seen"
        ),
        "camlock-charts": Source(
            "Charts of cam-lock spindle noses D1-3 to D1-11: short taper, pins and their circle",
            "distributors' public pages",
            "transcribed",
        ),
        "long-taper": Source(
            "Handbook's text on long taper key-drive noses L00 to L3: 3 1/2 in on the foot,"
            " self-releasing, over 16° in all",
            "public excerpt",
            "seen",
        ),
        "exact-units": Source(
            "NIST SP 811, 1 lb = 0.453 592 37 kg, 1 in = 25.4 mm", "2008", "from memory"
        ),
        "trade": Source("A fact of the trade", "", "common practice, no source"),
    }
)
"""Key to source; the keys stand in the calculators' docstrings and in the published tables."""
