"""What must be refused: each file of `tests/broken` has one defect and names its line and words.

A file begins with `# expect: LINE: STEP: words` for each finding it must give, where ` … ` stands
for words left out and a line of a part is `parts/NAME.yaml:LINE`, and with `# mended: FILE` for the
sound procedure that it is but for the defect.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from guide.procedure.load import load
from guide.procedure.problem import Place, Unusable
from guide.walk.proof import check

FOLDER = Path(__file__).parents[1] / "broken"
SOUND = tuple(sorted(FOLDER.glob("sound-*.yaml")))
BROKEN = tuple(sorted(set(FOLDER.glob("*.yaml")) - set(SOUND)))
EXPECT = re.compile(r"# expect: ((?:parts/\S+:)?\d+): (.+)")
MENDED = re.compile(r"# mended: (\S+)")
FOLLOWS = "no walk ever reaches this step"
"""Said of steps behind the refused one too, as nothing can be shown of what lies beyond it."""
LONGEST_DEFECT = 20
"""Lines in which a defect must have room, so that each file has one only."""

each_broken = pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
each_sound = pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)


@cache
def found(path: Path) -> tuple[tuple[str, str], ...]:
    """The line of each finding and what is said behind the place: step and sentence."""
    try:
        problems = check(load(path)).problems
    except Unusable as refusal:
        problems = refusal.problems
    return tuple((line_of(each.place), each.text("").split(": ", 1)[1]) for each in problems)


def line_of(place: Place) -> str:
    """A line of the file itself by its number, one of a part behind the part's file."""
    return f"{place.file}:{place.line}" if place.file else str(place.line)


def expected(path: Path) -> tuple[tuple[str, str], ...]:
    """What a file's first lines say must be found."""
    heads = map(EXPECT.fullmatch, path.read_text(encoding="utf-8").splitlines())
    return tuple((head[1], head[2]) for head in heads if head)


def is_said(words: str, sentence: str) -> bool:
    """Whether the words stand in a sentence, from its start and in their order."""
    pattern = ".*".join(map(re.escape, words.split(" … ")))
    return re.match(pattern, sentence, re.DOTALL) is not None


def answers(finding: tuple[str, str], wanted: tuple[str, str]) -> bool:
    """Whether a finding is the one that was wanted: its line and its words."""
    return finding[0] == wanted[0] and is_said(wanted[1], finding[1])


def lines(path: Path) -> list[str]:
    """A file's lines behind its first comments."""
    text = path.read_text(encoding="utf-8")
    return text[text.index("procedure:") :].splitlines()


def alike(one: list[str], other: list[str]) -> int:
    """How many lines two files begin with in common."""
    pairs = zip(one, other, strict=False)
    return next((n for n, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


@each_broken
def test_the_defect_is_found_at_its_step_and_line_in_these_words(path: Path) -> None:
    """A foreman is sent to the line, the step and the reason that the file itself names."""
    wanted = expected(path)
    assert wanted, "the file does not say what must be found"
    for each in wanted:
        assert any(answers(finding, each) for finding in found(path)), (each, found(path))


@each_broken
def test_nothing_is_found_that_is_not_the_defect(path: Path) -> None:
    """One defect gives its own findings, and at most the steps that lie behind it."""
    wanted = expected(path)
    for finding in found(path):
        assert FOLLOWS in finding[1] or any(answers(finding, each) for each in wanted), finding


@each_broken
def test_the_defect_is_all_that_a_file_differs_in_from_a_sound_one(path: Path) -> None:
    """Mended in that one place it is the sound file, which the check lets pass."""
    sound = FOLDER / MENDED.findall(path.read_text(encoding="utf-8"))[0]
    assert sound in SOUND
    broken, mended = lines(path), lines(sound)
    start = alike(broken, mended)
    end = alike(broken[start:][::-1], mended[start:][::-1])
    assert broken != mended
    assert max(len(broken), len(mended)) - start - end <= LONGEST_DEFECT


@each_sound
def test_a_sound_procedure_is_let_pass(path: Path) -> None:
    """The files from which the broken ones are made have nothing wrong with them."""
    assert found(path) == ()


@each_sound
def test_the_proof_of_a_sound_procedure_is_not_empty(path: Path) -> None:
    """Passing means that steps were walked and changes were tried."""
    finding = check(load(path))
    assert finding.spots >= len(load(path).steps)
    assert finding.changes > finding.spots


def test_every_sound_file_is_the_mended_form_of_some_broken_one() -> None:
    """No base is kept that nothing is shown with."""
    used = {name for path in BROKEN for name in MENDED.findall(path.read_text(encoding="utf-8"))}
    assert used == {path.name for path in SOUND}


def test_many_defects_of_every_sort_are_kept() -> None:
    """The folder was not emptied by accident."""
    assert len(BROKEN) >= 50
