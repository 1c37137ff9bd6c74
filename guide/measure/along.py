"""Out of line: what an indicator carried along a bar between centres says of the tailstock."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from guide.plain import N_, BadInput


@dataclass(frozen=True, slots=True)
class OutOfLine:
    """How far the bar's middle line runs off the ways; both positive toward the dial."""

    along: Decimal
    """From the near station to the far one, in the readings' unit."""
    set_over: float | None
    """At the tailstock's centre, in the same unit; None where the distances are not known."""


def out_of_line(
    near: Decimal,
    far: Decimal,
    *,
    larger: Decimal = Decimal(0),
    apart: Decimal | None = None,
    between: Decimal | None = None,
) -> OutOfLine:
    """The line of a bar between centres against the carriage's way, from two readings on one side.

    The dial rides on the carriage with one zero, positive where the surface comes nearer. `larger`
    is the far diameter less the near one, in the readings' unit: half of it is the bar's own taper
    and not the tailstock's, so along = (far − near) − larger/2. With two collars cut at one setting
    of the tool the readings are equal and the diameters alone speak; with a ground bar it is the
    other way round. The headstock's centre stays where it is, so at the tailstock's it is
    along · between / apart, `apart` from station to station and `between` from centre to centre, in
    any one unit. Geometry, no source. It takes no account of a bar that sags or is bent, nor of
    what the micrometer is uncertain by.
    """
    along = far - near - larger / 2
    if apart is None or between is None:
        return OutOfLine(along, None)
    if not 0 < apart <= between:
        raise BadInput(
            N_("The stations are {apart} apart and the centres {between}: that cannot be."),
            N_("Measure both anew; the stations lie between the centres."),
            apart=apart,
            between=between,
        )
    return OutOfLine(along, float(Fraction(along) * Fraction(between) / Fraction(apart)))
