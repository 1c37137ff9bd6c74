"""What a calculator asks and what it answers: plain data, for the screen and the command line."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from guide.measure.quantity import Torque
from guide.plain import N_, BadInput
from guide.present import typed
from guide.present.numbers import plain
from guide.present.words import say
from guide.shop.remark import Remark
from guide.shop.sources import SOURCES

Kind = Literal[
    "choice", "text", "number", "whole", "length", "mass", "rpm", "mark", "cutting", "stress",
    "celsius", "degrees", "torque", "numbers",
]  # fmt: skip

METRIC, INCH = "metric", "inch"
USUAL: Mapping[str, Mapping[str, str]] = {
    METRIC: {"length": "mm", "mass": "kg", "cutting": "m/min", "stress": "mpa"},
    INCH: {"length": "in", "mass": "lb", "cutting": "ft/min", "stress": "ksi"},
}
"""The unit of a bare figure, once a person has chosen the system."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One question of a calculator; `name` is what its answer is kept under."""

    name: str
    ask: str
    kind: Kind = "number"
    help: str = ""
    options: tuple[tuple[str, str], ...] = ()
    """Value and words, where it is chosen."""
    needed: bool = True
    given: str = ""
    """What stands there beforehand."""
    none: str = N_("not said")
    """The words for no answer, where it is chosen and not needed."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A result as plain values, and as sentences in the reader's language."""

    plain: Mapping[str, object]
    lines: tuple[str, ...]
    without: frozenset[str] = frozenset()
    """Sources of the calculator that this answer did not use."""


@dataclass(frozen=True, slots=True)
class Typed:
    """Answers as they were typed, read when a calculator asks for them."""

    values: Mapping[str, str]
    language: str = "en"
    system: str = ""
    """`metric` or `inch`: the unit of bare figures; blank where none was chosen."""

    def text(self, name: str) -> str:
        """The answer as typed; BadInput where there is none."""
        if not self.has(name):
            raise BadInput(N_("{name} has no answer yet."), N_("Give it."), name=name)
        return self.values[name].strip()

    def has(self, name: str) -> bool:
        """Whether it was answered."""
        return bool(self.values.get(name, "").strip())

    def number(self, name: str) -> float:
        """One number."""
        return typed.number(self.text(name), self.language)

    def whole(self, name: str) -> int:
        """One whole number."""
        return typed.whole(self.text(name), self.language)

    def numbers(self, name: str) -> list[float]:
        """Several numbers."""
        from guide.measure.numerals import parse_many

        return [float(each) for each in parse_many(self.text(name), self.language)]

    def length(self, name: str) -> float:
        """A length in mm."""
        return typed.length_mm(self.text(name), self.language, self._usual("length"))

    def mass(self, name: str) -> float:
        """A mass in kg."""
        return typed.mass_kg(self.text(name), self.language, self._usual("mass"))

    def rpm(self, name: str) -> float:
        """A spindle speed in rev/min."""
        return typed.rpm(self.text(name), self.language)

    def mark(self, name: str) -> float | str:
        """A marked speed in rev/min, or what is wrong with the mark."""
        from guide.shop.speed import UNREADABLE

        said = self.text(name).lower()
        return said if said in UNREADABLE else self.rpm(name)

    def cutting(self, name: str) -> float:
        """A cutting speed in m/min."""
        return typed.cutting_m_min(self.text(name), self.language, self._usual("cutting"))

    def stress(self, name: str) -> float:
        """A strength in MPa."""
        return typed.stress_mpa(self.text(name), self.language, self._usual("stress"))

    def celsius(self, name: str) -> float:
        """A temperature in °C."""
        return typed.celsius(self.text(name), self.language)

    def degrees(self, name: str) -> float:
        """An angle in degrees."""
        return typed.degrees(self.text(name), self.language)

    def torque(self, name: str) -> Torque:
        """A torque with its unit."""
        return typed.torque(self.text(name), self.language)

    def read(self, asked: Asked) -> object:
        """One answer by its kind; BadInput where it cannot be read."""
        if asked.kind in ("choice", "text"):
            return self.text(asked.name)
        reads: Mapping[str, Callable[[str], object]] = {
            "number": self.number, "whole": self.whole, "numbers": self.numbers,
            "length": self.length, "mass": self.mass, "rpm": self.rpm, "mark": self.mark,
            "cutting": self.cutting, "stress": self.stress, "celsius": self.celsius,
            "degrees": self.degrees, "torque": self.torque,
        }  # fmt: skip
        return reads[asked.kind](asked.name)

    def _usual(self, kind: str) -> str:
        """The unit of a bare figure."""
        return USUAL.get(self.system, {}).get(kind, "")

    def say(self, sentence: str, /, **values: object) -> str:
        """A sentence in the reader's language."""
        return say(sentence, self.language, **values)

    def remarks(self, remarks: Iterable[Remark]) -> Iterator[str]:
        """Each remark as a sentence."""
        return (self.say(each.sentence, **dict(each.values)) for each in remarks)

    def figure(self, size: float | Decimal, places: int) -> str:
        """A number rounded to some places, in the reader's decimal sign."""
        return plain(size, places, self.language)

    def long(self, mm: float, places: int = 2) -> str:
        """A length in millimetres and in inches, each at its own fineness."""
        return f"{self.figure(mm, places)} mm ({self.figure(mm / 25.4, places + 2)} in)"


@dataclass(frozen=True, slots=True)
class Calculator:
    """One calculator: its questions, its work, and where its figures come from."""

    name: str
    title: str
    about: str
    asks: tuple[Asked, ...]
    work: Callable[[Typed], Answer]
    sources: tuple[str, ...]
    """Keys of the bibliography."""
    caution: str
    """What it does not say, what can hurt, and what comes first."""
    assumed: str = ""

    @property
    def has_units(self) -> bool:
        """Whether a bare figure needs a system of units chosen."""
        return any(each.kind in USUAL[METRIC] for each in self.asks)

    def rests_on(self, answer: Answer, language: str = "en") -> tuple[str, ...]:
        """What is assumed, and where the figures come from, one line each."""
        used = [key for key in self.sources if key not in answer.without]
        lines = [say(N_("Source: {source}."), language, source=SOURCES[key]) for key in used]
        return tuple(each for each in (say(self.assumed, language), *lines) if each)

    def told(self, answer: Answer, language: str = "en") -> tuple[str, ...]:
        """Everything in order: the answer, what it rests on, the caution last."""
        return (*answer.lines, *self.rests_on(answer, language), say(self.caution, language))
