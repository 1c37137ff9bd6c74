"""The drawing of the chuck face, as seen from the tailstock."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from guide.present.chuck_face import (
    PLUNGER,
    allowed_counts,
    drawing,
    positions,
    screw_marks,
    seen_at,
    under_plunger,
)

SCREWS = st.sampled_from([2, 3, 4, 6, 8])


def place(lines: tuple[str, ...], mark: str) -> tuple[int, int]:
    """Line and column of a mark."""
    return next((row, line.index(mark)) for row, line in enumerate(lines) if mark in line)


@given(SCREWS, st.data())
def test_the_screw_turned_to_stands_under_the_plunger(screws: int, data: st.DataObject) -> None:
    """Turned by (k−1)·360/n, screw k is at the top, in the plunger's column (DESIGN §5)."""
    screw = data.draw(st.integers(1, screws))
    turned = (screw - 1) * 360 / screws
    for way in ("anticlockwise", "clockwise"):
        lines = drawing(screw_marks(screws), turned, way=way)
        assert place(lines, str(screw)) == (1, place(lines, PLUNGER)[1])
    assert under_plunger(screw_marks(screws), turned) == str(screw)


def test_in_normal_forward_the_numbers_run_clockwise() -> None:
    """Screw 2 of four is on the right before anything is turned, on the left in reverse."""
    middle = place(drawing({}), "+")
    assert place(drawing(screw_marks(4)), "2")[1] > middle[1]
    assert place(drawing(screw_marks(4), way="clockwise"), "2")[1] < middle[1]


def test_the_face_turns_anticlockwise_in_normal_forward() -> None:
    """Screw 1 leaves the plunger to the left, seen from the tailstock."""
    assert place(drawing(screw_marks(4), 90), "1")[1] < place(drawing({}), "+")[1]


@given(st.floats(0, 359), st.floats(0, 359))
def test_reverse_is_the_mirror_of_forward(angle: float, turned: float) -> None:
    """Whatever is clockwise of the plunger in one is as far anticlockwise in the other."""
    assert (seen_at(angle, turned) + seen_at(angle, turned, "clockwise")) % 360 == 0


@given(SCREWS, st.floats(0, 360), st.floats(0, 360))
def test_every_line_is_as_wide_as_the_others(screws: int, turned: float, high: float) -> None:
    """The picture stands still while the face turns."""
    assert len({len(line) for line in drawing(screw_marks(screws), turned, high)}) == 1


def test_positions_are_even_and_start_at_screw_1() -> None:
    """Four positions are the quarters of the turn."""
    assert positions(4) == ("0", "90", "180", "270")


def test_three_and_six_screws_are_read_at_twelve_first() -> None:
    """Twelve where there are three or six screws, else eight (DESIGN §5)."""
    assert [allowed_counts(n)[0] for n in (3, 4, 6, 8)] == [12, 8, 12, 8]
