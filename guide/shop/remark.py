"""One sentence that goes with a result: why there is no figure, or what to look out for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Remark:
    """A catalogue entry with `{named}` places, and the values that fill them."""

    sentence: str
    values: Mapping[str, object]

    def __str__(self) -> str:
        """The sentence in English, values filled in."""
        return self.sentence.format_map(dict(self.values))


def remark(sentence: str, /, **values: object) -> Remark:
    """A remark with its values by name."""
    return Remark(sentence, MappingProxyType(values))


def joined(remarks: Iterable[Remark]) -> str | None:
    """The sentences in a row, or None when there are none."""
    return " ".join(str(each) for each in remarks) or None
