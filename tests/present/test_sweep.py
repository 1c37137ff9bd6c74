"""The sweep round the turn: readings, fitted curve and what is left."""

from __future__ import annotations

from math import cos, isclose, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measure.harmonic import fit
from guide.present.canvas import STYLES, text_of
from guide.present.chuck_face import screw_marks
from guide.present.sweep import SIGNS, axis, column_of, drawn, sweep, what_is_left

READ = (0.0, 0.0014, 0.0020, 0.0015, 0.0001, -0.0014, -0.0021, -0.0014)
"""Invented readings of a bar that is 2 thou off toward screw 2."""
ANGLES = tuple(45.0 * k for k in range(8))
TURNS = st.sampled_from([4, 6, 8, 12]).flatmap(
    lambda n: st.lists(st.integers(-200, 200).map(lambda x: x / 10000), min_size=n, max_size=n).map(
        lambda values: ([k * 360 / n for k in range(n)], values)
    )
)


@given(TURNS)
def test_the_curve_is_the_harmonic_fit_of_the_readings(turn) -> None:
    """The same as guide.measure.harmonic, and as the least squares of numpy.linalg.lstsq."""
    angles, values = turn
    told = sweep(angles, values)
    assert told.fitted == fit(angles, values)
    rows = [[1, cos(radians(a)), sin(radians(a))] for a in angles]
    reference = np.linalg.lstsq(np.array(rows), np.array(values), rcond=None)[0]
    found = (told.fitted.mean, told.fitted.a, told.fitted.b)
    assert np.allclose(found, reference, atol=1e-12)


@given(TURNS)
def test_what_is_left_adds_up_to_nothing(turn) -> None:
    """The residuals of a fit with a mean sum to zero."""
    angles, values = turn
    assert isclose(sum(sweep(angles, values).left), 0.0, abs_tol=1e-12)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("size", [(34, 5), (73, 9)])
def test_the_curve_is_drawn_where_the_fit_is(style: str, size: tuple[int, int]) -> None:
    """In every column its cell is the one of the fitted value, or a point stands there."""
    columns, lines = size
    told = sweep(ANGLES, READ)
    rows = drawn(told, columns, lines, style)
    low, high = told.reach()
    for column in range(columns):
        value = told.fitted.at(360 * column / (columns - 1))
        line = (high - value) / (high - low) * (lines - 0.5)
        near = {round(line), int(line), min(int(line) + 1, lines - 1)}
        inks = {rows[each][column].ink for each in near} | {
            rows[each][column].ground for each in near
        }
        assert inks & {"curve", "point"}, (column, line)


@pytest.mark.parametrize("style", STYLES)
def test_every_reading_is_a_point_in_its_column(style: str) -> None:
    """As many points as readings, the highest on top, the lowest at the bottom."""
    rows = drawn(sweep(ANGLES, READ), 37, 5, style)
    columns = {
        column
        for row in rows
        for column, cell in enumerate(row)
        if cell.sign == SIGNS[style]["point"] and cell.ink == "point"
    }
    assert columns == {column_of(angle, 37) for angle in ANGLES}
    assert rows[0][column_of(90, 37)].ink == "point"
    assert rows[-1][column_of(270, 37)].ink == "point"


@pytest.mark.parametrize("count", range(9))
@pytest.mark.parametrize("style", STYLES)
def test_it_shows_what_there_is_from_nothing_on(count: int, style: str) -> None:
    """As many points as were read; the drawing never changes its size."""
    told = sweep(ANGLES, READ[:count])
    rows = drawn(told, 30, 5, style)
    assert (len(rows), {len(row) for row in rows}) == (5, {30})
    assert sum(cell.ink == "point" for row in rows for cell in row) == count
    assert len(what_is_left(told, 30, 2, style)) == 2


@pytest.mark.parametrize("n", [4, 6, 8, 12])
def test_no_high_spot_is_told_before_half_a_turn_is_read(n: int) -> None:
    """Three readings on a small arc would turn a division of noise into a high spot anywhere."""
    angles = [k * 360 / n for k in range(n)]
    values = [0.001 * cos(radians(a - 100)) for a in angles]
    told = [sweep(angles, values[:k]).high is not None for k in range(n + 1)]
    assert told == sorted(told)
    assert not any(told[:3])
    assert not any(told[: n // 2])
    assert all(told[n // 2 + 1 :])


def test_beyond_the_last_reading_the_curve_is_only_a_guess() -> None:
    """It has another ink and stands in every other column."""
    rows = drawn(sweep(ANGLES, READ[:6]), 41, 5)
    beyond = column_of(ANGLES[5], 41) + 1
    guessed = [any(row[c].ink == "guess" for row in rows) for c in range(41)]
    assert not any(guessed[:beyond])
    assert 0 < sum(guessed) <= (41 - beyond + 1) // 2
    assert not any(
        "guess" in (c.ink, c.ground) for r in drawn(sweep(ANGLES, READ), 41, 5) for c in r
    )


def test_at_three_readings_nothing_is_called_left() -> None:
    """A curve with three numbers goes through three readings, whatever they are."""
    assert sweep((0, 120, 240), (0.0, 0.1, 0.3)).left == ()


def test_the_first_position_read_again_stands_at_the_end_and_is_no_part_of_the_fit() -> None:
    """A zero that moved is seen as the step between both ends."""
    told = sweep(ANGLES, READ, 0.0007)
    assert told.fitted == sweep(ANGLES, READ).fitted
    assert [row[-1].ink for row in drawn(told, 37, 5)].count("again") == 1


@pytest.mark.parametrize("style", STYLES)
def test_bars_of_what_is_left_stand_up_and_hang_down(style: str) -> None:
    """Above the line where the reading is above the curve, below it where it is below."""
    told = sweep(ANGLES, READ)
    up, down = what_is_left(told, 41, 2, style)
    for angle, value in zip(ANGLES, told.left, strict=True):
        column = column_of(angle, 41)
        assert (up[column].ink == "left") is (value > 0)
        assert ("left" in (down[column].ink, down[column].ground)) is (value < 0)


def test_the_axis_has_the_screws_where_they_come_round() -> None:
    """Screw 1 at both ends; without screws the quarters of the turn."""
    (line,) = text_of((axis(screw_marks(4), 37),))
    assert [line.index("2"), line.index("3"), line.index("4")] == [9, 18, 27]
    assert (line[0], line[-1]) == ("1", "1")
    (line,) = text_of((axis({}, 37),))
    assert line.split() == ["0°", "90°", "180°", "270°", "360°"]
    (line,) = text_of((axis({}, 37, "plain"),))
    assert line.isascii()


def test_the_plain_style_is_ascii() -> None:
    """Every terminal shows it."""
    told = sweep(ANGLES, READ, 0.0)
    assert "".join(
        text_of((*drawn(told, 37, 5, "plain"), *what_is_left(told, 37, 2, "plain")))
    ).isascii()
