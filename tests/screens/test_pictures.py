"""A few pictures of the screens; each says what it must show.

They are of an invented procedure, so that they change only when the screens do.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from guide.screens.app import Spindleside
from guide.screens.steps.gate import GateForm
from guide.settings import Settings

SMALL = str(Path(__file__).with_name("small.yaml"))
READ = ("0.0000", "0.0014", "0.0020", "0.0014", "0.0001", "-0.0014")
SIZES = pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])


@pytest.fixture
def program(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Spindleside:
    """The program about to begin the small procedure, on a clock that stands still."""
    monkeypatch.setattr("guide.screens.sheet_text.at_clock", lambda at: "08:00")
    monkeypatch.setattr(GateForm, "clock", staticmethod(lambda: 0.0))
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("LC_ALL", "C.UTF-8")
    monkeypatch.delenv("NO_COLOR", raising=False)
    return Spindleside(Settings(home=tmp_path), procedure=SMALL, quiet=0)


@pytest.fixture
def walked(quick) -> Callable[..., Callable[[Pilot[int]], Awaitable[None]]]:
    """Walks so many pages before the picture is taken, then types some readings."""

    def upto(pages: int, readings: tuple[str, ...] = ()) -> Callable[..., Awaitable[None]]:
        async def run(pilot: Pilot[int]) -> None:
            at = quick(pilot.app, pilot, {"tolerance": "0.001 in"})
            await at.named()
            for _ in range(pages):
                await at.page()
            for value in readings:
                await at.type(at._line("reading"), value)
            await pilot.pause(0.3)

        return run

    return upto


@SIZES
def test_questions(snap_compare, program, walked, size) -> None:
    """Shows every question with its help, answers by number, `unknown`, the button and the keys."""
    assert snap_compare(program, terminal_size=size, run_before=walked(0))


@SIZES
def test_gate(snap_compare, program, walked, size) -> None:
    """Shows two open checks, each with its hazard and how to look, and no button."""
    assert snap_compare(program, terminal_size=size, run_before=walked(1))


@SIZES
def test_task(snap_compare, program, walked, size) -> None:
    """Shows what is done above, what to do, the caution, why, good, wrong, and what is next."""
    assert snap_compare(program, terminal_size=size, run_before=walked(2))


@SIZES
def test_readings(snap_compare, program, walked, size) -> None:
    """Shows what to turn to, the face with the screws and the high spot, sweep, rest, readings."""
    assert snap_compare(program, terminal_size=size, run_before=walked(3, READ))


def test_start_page(snap_compare, tmp_path: Path) -> None:
    """Shows what this is, that nothing is open, what can be begun, that there is no record yet."""
    assert snap_compare(Spindleside(Settings(home=tmp_path)), terminal_size=(80, 24),
                        run_before=_settled)  # fmt: skip


async def _settled(pilot: Pilot[int]) -> None:
    """Until the rows are there."""
    for _ in range(100):
        await pilot.pause(0.02)
        if pilot.app.screen.query("#rows Press"):
            return


async def test_a_slipped_point_is_doubted_once_and_believed_when_said_again(
    program, walked
) -> None:
    """A value a hundred times its neighbours: one sentence, nothing lost, then a person's word."""
    async with program.run_test(size=(80, 24)) as pilot:
        await walked(3, ("0.0000", "0.0010"))(pilot)
        form = pilot.app.screen.form
        for heard, kept in (("hundred times", ["0.0000", "0.0010"]), ("", ["0.9"])):
            form.take("0.9")
            await pilot.pause()
            assert heard in str(pilot.app.screen.query_one("#complaint").render())
            assert form.values[-len(kept) :] == kept
        assert form.values == ["0.0000", "0.0010", "0.9"]
