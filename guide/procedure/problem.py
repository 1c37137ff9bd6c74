"""One thing wrong with a procedure or answers file, with the place where it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from guide.plain import N_, CheckFailed


@dataclass(frozen=True, slots=True)
class Place:
    """A line and a column, both counted from 1, of a file: blank for the procedure's own."""

    line: int = 0
    column: int = 0
    file: str = ""

    @property
    def in_order(self) -> tuple[str, int, int]:
        """The procedure's own places first, then those of each part, as they are read."""
        return self.file, self.line, self.column


@dataclass(frozen=True)
class Problem:
    """A sentence about one line of a file, with its values and the step it belongs to."""

    place: Place
    sentence: str
    values: Mapping[str, object] = field(hash=False)
    step: str = ""

    def text(self, file: str) -> str:
        """The problem as one line: file:line:column, step, sentence.

        `file` is how the procedure's own file is named; a part's problem names the part's.
        """
        where = f"{self.place.file or file}:{self.place.line}:{self.place.column}"
        said = self.sentence.format_map(self.values)
        return f"{where}: {self.step}: {said}" if self.step else f"{where}: {said}"


def problem(place: Place, sentence: str, step: str = "", **values: object) -> Problem:
    """A problem with its values by name."""
    return Problem(place, sentence, values, step)


class Unusable(CheckFailed):
    """A procedure or answers file with problems: none of it is used."""

    def __init__(self, file: str, problems: tuple[Problem, ...]) -> None:
        lines = "\n".join(each.text(file) for each in problems)
        super().__init__(
            N_("{file} cannot be used:\n{lines}"),
            N_("Mend these lines and check it again."),
            file=file,
            lines=lines,
        )
        self.problems = problems
