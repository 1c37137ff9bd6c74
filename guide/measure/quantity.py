"""Quantities as a person typed them: the text, an exact decimal and the unit, never a binary float.

Exact by definition: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, standard gravity 9.806 65 m/s²
(NIST SP 811, 2008 edition, appendix B, from memory); `thou` = 0.001 in, `tenth` = 0.0001 in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import MAX_EMAX, MIN_EMIN, Context, Decimal, Inexact
from fractions import Fraction
from types import MappingProxyType
from typing import ClassVar, Self

from guide.measure.numerals import parse_number
from guide.plain import N_, BadInput

EXACT = Context(prec=200, Emax=MAX_EMAX, Emin=MIN_EMIN, traps=[Inexact])
"""Decimal arithmetic that raises rather than round."""

LENGTHS = MappingProxyType(
    {
        "in": Decimal("25.4"),
        "mm": Decimal(1),
        "thou": Decimal("0.0254"),
        "tenth": Decimal("0.00254"),
        "um": Decimal("0.001"),
    }
)
"""Units of length and what one of each is in millimetres."""

MASSES = MappingProxyType({"kg": Decimal(1), "lb": Decimal("0.45359237")})
"""Units of mass and what one of each is in kilograms."""

TORQUES = MappingProxyType({"N·m": Decimal(1), "lbf·ft": Decimal("1.3558179483314004")})
"""Units of torque and what one of each is in newton metres (lb × standard gravity × 0.3048 m)."""

SPEEDS = MappingProxyType({"rev/min": Decimal(1)})
"""The unit of spindle speed."""


@dataclass(frozen=True, slots=True, eq=False)
class Quantity:
    """One figure as typed; two are equal when they are the same size, however they were written."""

    UNITS: ClassVar[Mapping[str, Decimal]] = MappingProxyType({})
    FRACTIONS: ClassVar[frozenset[str]] = frozenset()

    text: str
    """What the person typed, kept for the record."""
    unit: str
    """One of this kind's units."""
    value: Decimal
    """The exact number, in `unit`."""

    @classmethod
    def parse(cls, text: str, unit: str, locale: str = "en") -> Self:
        """The quantity typed as `text` in `unit`; BadInput when it can be read two ways."""
        cls.factor(unit)
        return cls(text, unit, parse_number(text, locale, fractions=unit in cls.FRACTIONS))

    @classmethod
    def of(cls, value: Decimal | int, unit: str) -> Self:
        """A quantity that was worked out, not typed; its text is the plain decimal."""
        cls.factor(unit)
        number = Decimal(value)
        return cls(f"{number:f}", unit, number)

    @classmethod
    def factor(cls, unit: str) -> Decimal:
        """How many base units one `unit` is; BadInput for a unit this kind does not have."""
        if unit not in cls.UNITS:
            raise BadInput(
                N_("The unit {unit} is not known here."),
                N_("Use one of: {units}."),
                unit=unit,
                units=", ".join(cls.UNITS),
            )
        return cls.UNITS[unit]

    def exactly(self, unit: str) -> Fraction:
        """The size in `unit` as an exact fraction, which every conversion has."""
        return Fraction(self.value) * Fraction(self.factor(self.unit)) / Fraction(self.factor(unit))

    def to(self, unit: str) -> Self:
        """The same size in `unit`, exact; BadInput where no finite decimal is (1 mm in inches)."""
        value = finite(self.exactly(unit))
        if value is None:
            raise BadInput(
                N_("{quantity} is not a finite decimal in {unit}."),
                N_("Keep it in {own}, or round it for showing only."),
                quantity=self,
                unit=unit,
                own=self.unit,
            )
        return self.of(value, unit)

    def rounded(self, unit: str, places: int) -> Decimal:
        """The size in `unit` rounded half to even at `places` decimals, for showing only."""
        return Decimal(round(self.exactly(unit) * 10**places)).scaleb(-places, EXACT)

    def __add__(self, other: Self) -> Self:
        """The exact sum, in this unit if it ends there as a decimal, else in the base."""
        return self._sum(other, 1)

    def __sub__(self, other: Self) -> Self:
        """The exact difference, in this unit if it ends there as a decimal, else in the base."""
        return self._sum(other, -1)

    def _sum(self, other: Self, sign: int) -> Self:
        """This plus `sign` times the other, exact."""
        base = next(iter(unit for unit, size in self.UNITS.items() if size == 1))
        unit = self.unit if finite(other.exactly(self.unit)) is not None else base
        return self.of(_decimal(self.exactly(unit) + sign * other.exactly(unit)), unit)

    def _size(self) -> Fraction:
        """The size in base units."""
        return Fraction(self.value) * Fraction(self.factor(self.unit))

    def __eq__(self, other: object) -> bool:
        """The same kind and the same size."""
        if not isinstance(other, Quantity) or type(other) is not type(self):
            return NotImplemented
        return other._size() == self._size()

    def __hash__(self) -> int:
        """One hash for one size."""
        return hash((type(self), self._size()))

    def __lt__(self, other: Self) -> bool:
        """Smaller in size."""
        return self._size() < other._size()

    def __le__(self, other: Self) -> bool:
        """Not larger in size."""
        return self._size() <= other._size()

    def __str__(self) -> str:
        """As typed, with its unit."""
        return f"{self.text} {self.unit}"


class Length(Quantity):
    """A length in in, mm, thou, tenth or um; inch and millimetre are equals."""

    __slots__ = ()
    UNITS: ClassVar[Mapping[str, Decimal]] = LENGTHS
    FRACTIONS: ClassVar[frozenset[str]] = frozenset({"in"})


class Mass(Quantity):
    """A mass in kg or lb."""

    __slots__ = ()
    UNITS: ClassVar[Mapping[str, Decimal]] = MASSES


class Torque(Quantity):
    """A torque in N·m or lbf·ft."""

    __slots__ = ()
    UNITS: ClassVar[Mapping[str, Decimal]] = TORQUES


class Speed(Quantity):
    """A spindle speed in rev/min."""

    __slots__ = ()
    UNITS: ClassVar[Mapping[str, Decimal]] = SPEEDS


def finite(size: Fraction) -> Decimal | None:
    """The fraction as an exact decimal, or None where its decimals never end."""
    rest = size.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return EXACT.divide(Decimal(size.numerator), Decimal(size.denominator)) if rest == 1 else None


def _decimal(size: Fraction) -> Decimal:
    """A fraction known to be finite, as a decimal."""
    value = finite(size)
    if value is None:
        raise ArithmeticError(size)
    return value
