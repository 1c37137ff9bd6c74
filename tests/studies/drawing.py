"""From a key to its paint at a turn's readings, with the drawings and without; run by hand.

    .venv/bin/python tests/studies/drawing.py

The real screen in this process, at both sizes, a terminal's bytes made but not sent. A run types
values as fast as they are painted: "sign" is one more sign on the line, "value" is Enter to the
next question. Without means that both drawings stand empty. Runs take turns, so that a slow moment
of the machine falls on both. Prints medians and 95th percentiles in milliseconds, ratios, and how
many pictures were drawn between a key and its paint, which has to be none.
"""

from __future__ import annotations

import asyncio
import importlib.util
import statistics
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic, perf_counter
from types import ModuleType
from typing import Any
from unittest.mock import patch

TOP = Path(__file__).parents[2]
SMALL = str(TOP / "tests" / "screens" / "small.yaml")
READ = ("0.0000", "0.0014", "0.0020", "0.0015", "0.0001", "-0.0014", "-0.0021", "-0.0014")
"""Invented readings."""
NAMES = {".": "full_stop", "-": "minus"}
RUNS, ROUNDS = 3, 3


def hands() -> ModuleType:
    """The hands that the tests of the screens use."""
    spec = importlib.util.spec_from_file_location(
        "hands", TOP / "tests" / "screens" / "conftest.py"
    )
    assert spec
    assert spec.loader
    module = sys.modules["hands"] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


class Clock:
    """When a key came, and when what it changed was painted."""

    def __init__(self) -> None:
        self.text, self.painted, self.rasters = "", 0.0, 0

    def display(self, app: Any, screen: Any, renderable: Any) -> None:
        """Make the bytes of a paint, as for a terminal."""
        if hasattr(renderable, "render_segments"):
            self.text += renderable.render_segments(app.console)
            self.painted = perf_counter()

    async def key(self, app: Any, key: str, sign: str, words: str) -> float:
        """Milliseconds from a key to the paint that has these words, or to the next one."""
        from textual.events import Key

        self.text, self.rasters, start = "", 0, perf_counter()
        app.post_message(Key(key, sign))
        end = monotonic() + 2
        while (words not in self.text or not self.text) and monotonic() < end:
            await asyncio.sleep(0)
        return (self.painted - start) * 1000


@contextmanager
def without() -> Iterator[None]:
    """Both drawings stand empty."""
    with ExitStack() as stack:
        for name in ("face.FaceView", "sweep.SweepView"):
            for method in ("_later",):
                stack.enter_context(
                    patch(f"guide.screens.widgets.{name}.{method}", lambda self: None)
                )
        yield


async def run(size: tuple[int, int], told: dict[str, list[float]], drawn: list[int]) -> None:
    """One setup at its first turn, read some times over."""
    from guide.present.canvas import Canvas
    from guide.screens.app import Spindleside
    from guide.settings import Settings

    clock, made = Clock(), Canvas.__init__

    def counted(self: Any, *args: Any, **more: Any) -> None:
        clock.rasters += 1
        made(self, *args, **more)

    with TemporaryDirectory() as home, patch.object(Canvas, "__init__", counted):
        app = Spindleside(Settings(home=Path(home)), procedure=SMALL, quiet=0)
        async with app.run_test(size=size) as pilot:
            at = hands().Quick(app, pilot, {"tolerance": "0.001 in"})
            await at.named()
            for _ in range(3):
                await at.page()
            await pilot.pause(0.3)
            app._display = lambda screen, what: clock.display(app, screen, what)  # type: ignore[method-assign]
            for _ in range(ROUNDS):
                await turn(app, at.form, clock, told, drawn)


async def turn(
    app: Any, form: Any, clock: Clock, told: dict[str, list[float]], drawn: list[int]
) -> None:
    """The values of one turn, key by key."""
    form.values = []
    form._show()
    await asyncio.sleep(0.3)
    for place, value in enumerate(READ):
        for sign in value:
            told["sign"].append(await clock.key(app, NAMES.get(sign, sign), sign, ""))
            drawn.append(clock.rasters)
        words = f"Turn to {(place + 1) * 45}°" if place < 7 else "Back at"
        told["value"].append(await clock.key(app, "enter", "\r", words))
        drawn.append(clock.rasters)
        await asyncio.sleep(0.15)


def main() -> None:
    """Both sizes, with and without in turn."""
    sys.path.insert(0, str(TOP))
    for size in ((80, 24), (120, 40)):
        on: dict[str, list[float]] = {"sign": [], "value": []}
        off: dict[str, list[float]] = {"sign": [], "value": []}
        drawn: list[int] = []
        for _ in range(RUNS):
            asyncio.run(run(size, on, drawn))
            with without():
                asyncio.run(run(size, off, []))
        for name in on:
            pairs = [(statistics.median(each), p95(each)) for each in (on[name], off[name])]
            (with_m, with_p), (out_m, out_p) = pairs
            print(
                f"{size[0]}×{size[1]} {name:<6} with {with_m:6.2f} (95 %: {with_p:6.2f}) ms, "
                f"without {out_m:6.2f} (95 %: {out_p:6.2f}) ms, ratio {with_m / out_m:.2f}"
            )
        print(f"{size[0]}×{size[1]} pictures drawn between a key and its paint: {sum(drawn)}")


def p95(values: list[float]) -> float:
    """The 95th percentile."""
    return statistics.quantiles(values, n=20)[-1]


if __name__ == "__main__":
    main()
