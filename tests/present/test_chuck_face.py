"""The drawing of the chuck face, as seen from the tailstock."""

from __future__ import annotations

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.present.canvas import BLOCKS, BRAILLE, PLAIN, STYLES, Rows, text_of
from guide.present.chuck_face import (
    DEEP,
    HEAD,
    LARGE,
    SIGNS,
    SMALL,
    WAYS,
    Face,
    allowed_counts,
    bare,
    cell_at,
    face,
    positions,
    screw_marks,
    seen_at,
    under_plunger,
)

SCREWS = st.sampled_from([3, 4, 6])
PICTURES = st.builds(
    Face,
    marks=SCREWS.map(screw_marks),
    turned=st.floats(0, 359),
    way=st.sampled_from(WAYS),
    high=st.none() | st.floats(0, 359),
    jaws=st.sampled_from([0, 3, 4]),
    across=st.sampled_from([SMALL, LARGE]),
    style=st.sampled_from(STYLES),
)


def place(rows: Rows, mark: str) -> tuple[int, int]:
    """Line and column of a mark."""
    lines = text_of(rows)
    return next((row, line.index(mark)) for row, line in enumerate(lines) if mark in line)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("across", [SMALL, LARGE])
def test_the_face_is_round_within_a_cell(style: str, across: int) -> None:
    """The outermost cell of every line is crossed by the circle, or half a cell away from it."""
    rows = bare(Face(jaws=0, across=across, style=style))[2:]
    middle = (across / 2, HEAD + across / 2)
    for number, row in enumerate(rows, start=2):
        drawn = [column for column, cell in enumerate(row) if cell.sign != " "]
        for column in (drawn[0], drawn[-1]):
            corners = [
                hypot(x - middle[0], y - middle[1])
                for x in (column - 0.5, column + 1.5)
                for y in (2 * number - 1, 2 * number + 3)
            ]
            assert min(corners) <= across / 2 <= max(corners)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("across", [SMALL, LARGE])
def test_the_face_is_as_wide_as_it_is_high(style: str, across: int) -> None:
    """Columns across, and twice as few lines, below the plunger's."""
    rows = bare(Face(jaws=0, across=across, style=style))
    assert {len(row) for row in rows} == {across}
    assert len(rows) == (across + HEAD) // 2


@given(SCREWS, st.data(), st.sampled_from(STYLES), st.sampled_from([SMALL, LARGE]))
def test_the_screw_turned_to_stands_under_the_plunger(
    screws: int, data: st.DataObject, style: str, across: int
) -> None:
    """Turned by (k−1)·360/n, screw k is below the plunger, in its column (DESIGN §5)."""
    screw = data.draw(st.integers(1, screws))
    turned = (screw - 1) * 360 / screws
    for way in WAYS:
        picture = Face(screw_marks(screws), turned, way, style=style, across=across)
        rows = face(picture)
        assert place(rows, SIGNS[style]["plunger"]) == (0, across // 2)
        assert rows[2][across // 2].sign == str(screw)
        assert rows[2][across // 2].ink == "under"
    assert under_plunger(screw_marks(screws), turned) == str(screw)


@given(PICTURES)
def test_the_plunger_stands_still_at_the_top(picture: Face) -> None:
    """However far the face is turned under it."""
    sign = SIGNS[picture.style]["plunger"]
    assert place(face(picture), sign) == (0, picture.across // 2)


@given(PICTURES)
def test_every_number_is_written_upright_in_one_piece(picture: Face) -> None:
    """Each screw's number is on the face once, as a sign and not as dots."""
    signs = [cell for row in face(picture) for cell in row if cell.ink in ("screw", "under")]
    if picture.high is None:
        assert sorted(cell.sign for cell in signs) == sorted(picture.marks.values())


@pytest.mark.parametrize("screws", [3, 4, 6])
def test_numbers_run_clockwise_in_forward_and_the_other_way_in_reverse(screws: int) -> None:
    """Screw 2 is on the right before anything is turned, on the left in reverse."""
    for way, right in zip(WAYS, (True, False), strict=True):
        column, _ = cell_at(Face(screw_marks(screws), way=way), 360 / screws, 2.5)
        assert (column > SMALL // 2) is right


@pytest.mark.parametrize("style", STYLES)
def test_the_face_turns_anticlockwise_in_normal_forward(style: str) -> None:
    """Screw 1 leaves the plunger to the left, seen from the tailstock."""
    turned = {
        way: place(face(Face(screw_marks(4), 45, way, jaws=0, style=style)), "1")[1] for way in WAYS
    }
    assert turned["anticlockwise"] < SMALL // 2 < turned["clockwise"]


@given(st.floats(0, 359), st.floats(0, 359))
def test_reverse_is_the_mirror_of_forward(angle: float, turned: float) -> None:
    """Whatever is clockwise of the plunger in one is as far anticlockwise in the other."""
    assert (seen_at(angle, turned) + seen_at(angle, turned, "clockwise")) % 360 == 0


@pytest.mark.parametrize("style", STYLES)
def test_what_a_colour_tells_a_sign_tells_too(style: str) -> None:
    """High spot, tighten and ease each have a sign of their own, and no two have the same."""
    picture = Face(screw_marks(4), 0, high=45, tighten=(1,), ease=(3,), style=style)
    lines = "\n".join(text_of(face(picture)))
    signs = SIGNS[style]
    assert len(set(signs.values())) == len(signs)
    assert f"{signs['tighten']}1" in lines
    assert f"{signs['ease']}3" in lines
    assert signs["high"] in lines
    assert not any(each in "\n".join(text_of(face(Face(screw_marks(4), jaws=0, style=style))))
                   for each in (signs["high"], signs["tighten"], signs["ease"]))  # fmt: skip


@pytest.mark.parametrize("across", [SMALL, LARGE])
@pytest.mark.parametrize("screws", [3, 4, 6])
def test_a_sign_stands_beside_its_number_wherever_the_screw_is(screws: int, across: int) -> None:
    """On its inner side, on the body and never on the rim, at every angle of a turn."""
    for turned in range(0, 360, 15):
        picture = Face(screw_marks(screws), turned, tighten=(1,), ease=(2,), across=across)
        rows = face(picture)
        for ink, screw in (("tighten", 1), ("ease", 2)):
            column, line = cell_at(picture, (screw - 1) * 360 / screws, 2.5)
            beside = column + 1 if column < across // 2 else column - 1
            assert (rows[line][column].sign, rows[line][column].ink) == (str(screw), ink)
            assert rows[line][beside].sign == SIGNS[BLOCKS][ink]
            assert rows[line][beside].ground == "body"


@given(PICTURES, st.floats(0, 359))
def test_the_high_spot_turns_with_the_face(picture: Face, high: float) -> None:
    """Its sign stands where that place of the face is now."""
    rows = face(Face(picture.marks, picture.turned, picture.way, high, style=picture.style))
    column, line = cell_at(Face({}, picture.turned, picture.way), high, SMALL * DEEP)
    assert rows[line][column].sign == SIGNS[picture.style]["high"]


@given(PICTURES)
def test_every_line_is_as_wide_as_the_others(picture: Face) -> None:
    """The picture stands still while the face turns."""
    rows = face(picture)
    assert {len(row) for row in rows} == {picture.across}
    assert len(rows) == (picture.across + HEAD) // 2


@given(PICTURES)
def test_the_plain_style_is_ascii_and_braille_has_no_blocks(picture: Face) -> None:
    """A terminal that has no other signs shows every one of them."""
    text = "".join(text_of(face(picture)))
    if picture.style == PLAIN:
        assert text.isascii()
    if picture.style == BRAILLE:
        assert not set(text) & set("▀▄█")


def test_without_screws_the_first_position_is_marked_and_there_are_no_jaws() -> None:
    """A bare nose has neither; the mark turns with it."""
    rows = face(Face({}, 90, jaws=0))
    assert rows[cell_at(Face({}, 90), 0, 2.5)[1]][2].sign == SIGNS[BLOCKS]["start"]
    assert not any(cell.ink in ("jaw", "bar") for row in rows for cell in row)


@pytest.mark.parametrize("jaws", [3, 4])
def test_there_are_as_many_jaws_as_the_chuck_has(jaws: int) -> None:
    """Round a circle half-way out the ink changes to a jaw's once for each."""
    rows = bare(Face({}, jaws=jaws, across=LARGE))
    round_it = [
        "jaw" in (rows[line][column].ink, rows[line][column].ground)
        for column, line in (cell_at(Face(across=LARGE), a, LARGE * 0.26) for a in range(360))
    ]
    assert sum(now and not before for before, now in zip([round_it[-1], *round_it], round_it,
                                                         strict=False)) == jaws  # fmt: skip


def test_positions_are_even_and_start_at_screw_1() -> None:
    """Four positions are the quarters of the turn."""
    assert positions(4) == ("0", "90", "180", "270")


def test_three_and_six_screws_are_read_at_twelve_first() -> None:
    """Twelve where there are three or six screws, else eight (DESIGN §5)."""
    assert [allowed_counts(n)[0] for n in (3, 4, 6, 8)] == [12, 8, 12, 8]
