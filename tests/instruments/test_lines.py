"""What indicators send, put together from pieces and understood: nothing grows and nothing hangs.

Forms of lines are invented or common practice, no source.
"""

from __future__ import annotations

from dataclasses import asdict
from time import perf_counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.instruments.frames import LONGEST, Frames, Line
from guide.instruments.instrument import Instrument, instrument_of
from guide.instruments.kept import FILE, forget, instruments, keep, named
from guide.instruments.pace import Pace
from guide.instruments.pattern import NAMED, pattern_of
from guide.instruments.understood import Odd, Over, Value, understood
from guide.plain import BadInput

SET = Instrument("Indicator 3 (invented)", "/dev/ttyUSB0", pattern="plain", unit="mm")


def told(text: str, **more: object):
    """What a line says to an indicator that is set so."""
    return understood(Line(text), instrument_of({**asdict(SET), **more}))


@pytest.mark.parametrize(
    ("text", "more", "number", "unit"),
    [
        ("+0.0012", {}, "0.0012", "mm"),
        ("-00012.345", {}, "-12.345", "mm"),
        ("0.0012-", {}, "-0.0012", "mm"),
        ("0.0012 - mm", {}, "-0.0012", "mm"),
        ("  - .0021in ", {}, "-0.0021", "in"),
        ('.0021"', {}, "0.0021", '"'),
        ("-0,012", {"decimal": "comma"}, "-0.012", "mm"),
        ("1,234", {"decimal": "comma"}, "1.234", "mm"),
        ("-0.000", {}, "0.000", "mm"),
        ("0.010", {"positive": "out"}, "-0.010", "mm"),
        ("-0.010", {"positive": "out"}, "0.010", "mm"),
        ("X=+0.010 mm", {"pattern": "labelled"}, "0.010", "mm"),
        ("0017 -0.010 mm", {"pattern": "counted"}, "-0.010", "mm"),
        ("01A+00000.012", {"pattern": "01A{value}"}, "0.012", "mm"),
        ("mm: 0.4;ok", {"pattern": "{unit}: {value};ok"}, "0.4", "mm"),
    ],
)
def test_a_line_is_understood(text: str, more: dict[str, object], number: str, unit: str) -> None:
    """Sign before or behind, unit before or behind, either decimal sign where it is set."""
    assert told(text, **more) == Value(number, unit)


@pytest.mark.parametrize(
    ("text", "more"),
    [
        ("", {}), ("abc", {}), ("0.1.2", {}), ("-0.1-", {}), ("0,012", {}), ("1,234", {}),
        ("0.012", {"decimal": "comma"}), ("1,234.5", {}), ("0.1 0.2", {}), ("1.2E-3", {}),
        ("X=0.1", {}), ("01B+0.1", {"pattern": "01A{value}"}), ("\x1b[2J0.1", {}), ("-", {}),
    ],
)  # fmt: skip
def test_what_can_be_read_two_ways_or_none_is_not_understood(text: str, more) -> None:
    """Neither a thousands sign, nor a power of ten, nor a line of another form."""
    assert isinstance(told(text, **more), Odd)


@pytest.mark.parametrize("text", ["OL", "over", "Err.", "-----", "****"])
def test_past_its_range_is_known(text: str) -> None:
    """By usual words and strokes, and by the indicator's own."""
    assert told(text) == Over(text)
    assert told("9999.99", over="9999.99") == Over("9999.99")


def test_what_was_not_understood_steers_no_terminal_and_is_short() -> None:
    """Each odd sign is spelled out."""
    odd = told("\x1b]0;x\x07é" + "y" * 200)
    assert odd.raw.startswith("\\x1b]0;x\\x07\\xe9")
    assert odd.raw.isascii()
    assert len(odd.raw) <= 63


@pytest.mark.parametrize("end", [b"\r", b"\n", b"\r\n", b"\n\r", b"\r\r\n"])
def test_every_usual_end_ends_a_line_once(end: bytes) -> None:
    """Two lines in one piece are two, and no blank one comes between."""
    frames = Frames()
    assert frames.fed(b"0.1" + end + b"\x020.2\x03" + end) == [Line("0.1"), Line("0.2")]
    assert frames.kept == 0


def test_a_line_that_comes_byte_by_byte_is_one_line() -> None:
    """However it is cut."""
    frames = Frames()
    pieces = [frames.fed(bytes([each])) for each in b"+0.0012\r\n"]
    assert [line for piece in pieces for line in piece] == [Line("+0.0012")]


@pytest.mark.parametrize("end", [b"", b"\r\n"], ids=["no end", "ended"])
def test_a_megabyte_without_an_end_is_one_cut_line_and_does_not_grow(end: bytes) -> None:
    """What comes behind it is understood again once it ended."""
    frames = Frames()
    lines = [line for _ in range(1024) for line in frames.fed(b"\xff" * 1024)]
    assert [(len(each.text), each.whole) for each in lines] == [(LONGEST, False)]
    assert frames.kept == 0
    assert frames.fed(end + b"0.1\r") == ([Line("0.1")] if end else [])


def test_half_a_line_of_a_lost_wire_is_not_put_before_the_next() -> None:
    """0.0 and then 34 is not 0.034."""
    frames = Frames()
    frames.fed(b"0.0")
    frames.broken_off()
    assert frames.fed(b"34\r") == [Line("34")]


def test_the_rest_of_a_line_that_began_before_is_left_out() -> None:
    """The end of 0.0012 is not 12."""
    frames = Frames()
    frames.begun_before()
    assert frames.fed(b"12\r0.2\r") == [Line("0.2")]


@given(st.binary(max_size=400), st.lists(st.integers(0, 400), max_size=8))
def test_lines_do_not_depend_on_how_the_bytes_were_cut(data: bytes, cuts: list[int]) -> None:
    """One piece or many: the same lines."""
    places = sorted({min(cut, len(data)) for cut in (0, *cuts)})
    frames, whole = Frames(), Frames()
    pieces = [data[a:b] for a, b in zip(places, [*places[1:], len(data)], strict=True)]
    assert [e for piece in pieces for e in frames.fed(piece)] == whole.fed(data)
    assert frames.kept <= LONGEST


@given(st.text(max_size=120), st.sampled_from([*NAMED, "01A{value}", "{unit}={value};"]),
       st.sampled_from(["point", "comma"]))  # fmt: skip
def test_no_line_breaks_what_reads_it(text: str, pattern: str, decimal: str) -> None:
    """Any text is a value of plain digits, or is told as not understood in plain signs."""
    found = told(text, pattern=pattern, decimal=decimal)
    if isinstance(found, Value):
        assert found.number.removeprefix("-").replace(".", "", 1).isdecimal()
    else:
        assert found.raw.isascii()


@given(
    st.decimals(-999, 999, allow_nan=False, places=4),
    st.sampled_from(["{v}", "+{v}", "  {v}  ", "{v} mm", "{v}mm"]),
)
def test_every_number_comes_through_as_it_was_sent(number, form: str) -> None:
    """With its sign and with as many decimals; written back it is the same number."""
    text = form.format(v=f"{number:f}") if number < 0 else form.format(v=f"{abs(number):f}")
    if "+-" in text:
        return
    found = told(text)
    assert isinstance(found, Value)
    assert (found.number, found.unit) == (f"{number if number else abs(number):f}", "mm")


@pytest.mark.parametrize(
    "template",
    ["", "{unit}", "{value}{value}", "{value}{count}", "{count}{value}", "{value", "value}", "{}",
     "{digits}{value}", "(a+)+{value}" + "x" * 60, "{value}\n", "{unit}{value}{unit}"],
)  # fmt: skip
def test_a_template_that_cannot_be_read_one_way_is_refused(template: str) -> None:
    """In one sentence that says how to write it."""
    with pytest.raises(BadInput, match=r"X=\{value\} \{unit\}"):
        pattern_of(template)


def test_no_template_can_hang() -> None:
    """Signs that repeat elsewhere stand for themselves here, and a long line is read at once."""
    began = perf_counter()
    for template in ("(a+)+{value}", "{label}{value}", "(.*)*{value}{unit}", "{value} {unit}"):
        assert pattern_of(template).found("a" * 20000 + "!") is None
        assert pattern_of(template).found("1" * 20000 + "!") is None
    assert perf_counter() - began < 1


@pytest.mark.parametrize(
    ("setting", "told"),
    [("speed", 9601), ("speed", "9600"), ("format", "9N1"), ("unit", "thou"), ("positive", "up"),
     ("decimal", ";"), ("port", " "), ("name", ""), ("pattern", "{x}"), ("ask", "\\q"),
     ("ask", "\\x1"), ("port", "a\nb"), ("name", 3), ("colour", "red")],
)  # fmt: skip
def test_a_setting_that_cannot_be_is_refused(setting: str, told: object) -> None:
    """Before anything is kept."""
    with pytest.raises(BadInput):
        instrument_of({**asdict(SET), setting: told})


def test_a_request_is_spelled_out() -> None:
    """Bytes that nobody can type."""
    made = instrument_of({**asdict(SET), "ask": "R1\\r\\x1b\\\\"})
    assert made.request == b"R1\r\x1b\\"


def test_settings_are_kept_until_they_are_forgotten(tmp_path) -> None:
    """Set again they are the new ones; the name is found in any spelling of its case."""
    assert instruments(tmp_path) == ()
    keep(tmp_path, SET)
    keep(tmp_path, instrument_of({**asdict(SET), "speed": 4800}))
    assert [each.speed for each in instruments(tmp_path)] == [4800]
    assert named(tmp_path, " indicator 3  (INVENTED)").speed == 4800
    forget(tmp_path, SET.name)
    assert instruments(tmp_path) == ()
    with pytest.raises(BadInput, match="No indicator called"):
        named(tmp_path, SET.name)


@pytest.mark.parametrize("text", ["", "[]", "{", '{"version": 9, "instruments": []}', "\x00",
                                  '{"version": 1, "instruments": [{"name": "a"}]}',
                                  '{"version": 1, "instruments": [3]}'])  # fmt: skip
def test_a_file_that_is_none_is_one_sentence(tmp_path, text: str) -> None:
    """And it is left as it is."""
    (tmp_path / FILE).write_text(text)
    with pytest.raises(BadInput):
        instruments(tmp_path)
    assert (tmp_path / FILE).read_text() == text


def test_values_without_pause_are_a_stream_until_they_pause() -> None:
    """Four within a second may be somebody's; the fifth is not, nor what follows at that pace."""
    pace = Pace()
    assert [pace.streams(0.1 * n) for n in range(8)] == [False] * 4 + [True] * 4
    assert not pace.streams(5.0)
    slows = Pace()
    assert [slows.streams(0.1 * n) for n in range(6)][-1]
    assert [slows.streams(0.5 + 0.6 * n) for n in range(1, 6)][-1] is False
    slow = Pace()
    assert not any(slow.streams(0.3 * n) for n in range(50))
