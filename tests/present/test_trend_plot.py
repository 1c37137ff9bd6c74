"""The picture over time can be read as signs alone: every result, the limit, the days, the unit."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections import Counter
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.present.trend_plot import BAR, BOTH, FOUND, LEFT, LIMIT, Shown, plot
from guide.present.trend_svg import svg

BEGUN = date(2030, 1, 1)
SVG = "{http://www.w3.org/2000/svg}"


def result(day: int, size: float, *, left: bool = True, reach: float | None = 0.0001) -> Shown:
    """A result so many days after the first, against 0.001."""
    return Shown(BEGUN + timedelta(days=day), size, reach, 0.001, left)


def area(lines: tuple[str, ...]) -> str:
    """The picture without its days and its key."""
    end = next(n for n, line in enumerate(lines) if "2030-" in line)
    return "\n".join(lines[:end])


def test_as_found_and_as_left_are_told_apart_by_their_shape() -> None:
    """An open ring above a filled one, the limit above both."""
    lines = plot([result(0, 0.0002), result(100, 0.0008, left=False), result(100, 0.0003)],
                 "in", 70, 20)  # fmt: skip
    rows = area(lines).splitlines()
    row = {sign: next(n for n, line in enumerate(rows) if sign in line) for sign in (FOUND, LIMIT)}
    assert row[LIMIT] < row[FOUND] < max(n for n, line in enumerate(rows) if LEFT in line)
    assert Counter(area(lines))[LEFT] == 2


def test_two_results_in_one_place_are_one_sign_that_says_so() -> None:
    """Neither hides the other."""
    lines = plot([result(0, 0.0005, left=False), result(0, 0.0005)], "in", 50, 12)
    assert Counter(area(lines))[BOTH] == 1
    assert not {FOUND, LEFT} & set(area(lines))


def test_the_first_and_the_last_day_the_unit_and_the_limit_are_written() -> None:
    """And what the signs mean."""
    text = "\n".join(plot([result(0, 0.0002), result(400, 0.0004)], "in", 70, 16))
    for words in ("2030-01-01", "2031-02-05", "full runout, in", "0.001", "as found", "tolerance"):
        assert words in text


def test_the_bar_reaches_as_far_as_the_uncertainty() -> None:
    """A quarter of the height up and down; no bar where it is not known."""
    rows = area(plot([result(0, 0.0005, reach=0.00025)], "in", 40, 23)).splitlines()
    marked = [n for n, line in enumerate(rows) if BAR in line or LEFT in line]
    tall = len(rows) - 1
    assert marked[-1] - marked[0] == pytest.approx(tall / 2, abs=1)
    assert BAR not in area(plot([result(0, 0.0005, reach=None)], "in", 40, 23))


def test_nothing_is_drawn_of_nothing() -> None:
    """No axis without a result."""
    assert plot([], "in", 70, 16) == ()
    assert "No result yet" in svg([], "in", 400, 200, "C 7")


SHOWN = st.lists(
    st.builds(
        Shown, st.integers(0, 4000).map(lambda n: BEGUN + timedelta(days=n)),
        st.floats(0, 1), st.none() | st.floats(0, 1), st.none() | st.floats(0, 1), st.booleans(),
    ),
    min_size=1, max_size=12,
)  # fmt: skip


@given(SHOWN, st.integers(0, 120), st.integers(0, 40))
def test_it_stays_in_its_place(shown: list[Shown], width: int, height: int) -> None:
    """At most so wide and so high, however wild the results, and each of them shows."""
    lines = plot(shown, "mm", width, height)
    assert len(lines) <= max(height, 8)
    assert max(map(len, lines)) <= max(width, 30)
    picture = set("".join(lines[:-2]))
    assert picture & ({LEFT, BOTH} if any(each.left for each in shown) else {FOUND})


@given(SHOWN)
def test_the_print_holds_every_result(shown: list[Shown]) -> None:
    """Well-formed, one ring each inside the page, nothing that runs or is fetched."""
    page = ET.fromstring(svg(shown, "mm", 500, 220, "C & 7 <invented>"))
    rings = page.findall(f"{SVG}circle")
    assert len(rings) == len(shown)
    filled = sum(each.get("fill") != "#fff" for each in rings)
    assert filled == sum(each.left for each in shown)
    for ring in rings:
        assert 0 <= float(ring.get("cx", "-1")) <= 500
        assert 0 <= float(ring.get("cy", "-1")) <= 220
    assert {each.tag for each in page} <= {f"{SVG}{name}" for name in
                                           ("title", "path", "text", "circle")}  # fmt: skip
