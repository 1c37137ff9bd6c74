"""What readings are judged against, and the check of each figure at the door."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from guide.measure.uncertainty import of_graduation
from guide.measure.verdict import FACTORS
from guide.plain import N_, BadInput

Number = Decimal | int | float


@dataclass(frozen=True, slots=True)
class Limits:
    """What the readings are judged against; lengths in the readings' unit, None where unknown."""

    tolerance: Number | None = None
    """The largest full runout allowed."""
    graduation: Number | None = None
    """One division of the dial."""
    u: Number | None = None
    """Standard uncertainty of one reading; it goes before graduation/√12."""
    rule: str = "guarded"
    clearance: Number | None = None
    """Diametral clearance between body and register."""
    play: Number | None = None
    """Play at the bare nose."""

    def __post_init__(self) -> None:
        for name in ("tolerance", "graduation", "u", "clearance"):
            _refuse_not_above_zero(name, getattr(self, name))
        if self.play is not None and not 0 <= self.play < float("inf"):
            raise BadInput(
                N_("Play cannot be {play}."), N_("Give it without a sign."), play=self.play
            )
        if self.rule not in FACTORS:
            raise BadInput(
                N_("The rule {rule} is not known."), N_("Say guarded or simple."), rule=self.rule
            )

    @property
    def u_reading(self) -> float | None:
        """Standard uncertainty of one reading, or None where nothing is known of it."""
        if self.u is not None:
            return float(self.u)
        return None if self.graduation is None else of_graduation(float(self.graduation))


def as_decimal(value: Number) -> Decimal:
    """A reading as a decimal; BadInput for what is not a finite number."""
    try:
        number = value if isinstance(value, Decimal) else Decimal(str(value))
    except InvalidOperation:
        number = Decimal("nan")
    if not number.is_finite():
        raise BadInput(
            N_("A reading of {value} is not a number."), N_("Read the dial again."), value=value
        )
    return number


def _refuse_not_above_zero(name: str, value: Number | None) -> None:
    """Refuse a limit that is given and not above zero."""
    if value is not None and not 0 < value < float("inf"):
        raise BadInput(
            N_("The {name} cannot be {value}."),
            N_("Give a number above zero, or leave it out."),
            name="uncertainty" if name == "u" else name,
            value=value,
        )
