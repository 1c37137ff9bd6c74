"""Makes the pictures of the README from the running screens, with invented data.

Run it from the checkout: `python tests/pictures/make.py`; nothing outside a temporary folder and
`tests/pictures/` is written.
"""

from __future__ import annotations

import asyncio
import importlib.util
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from types import ModuleType
from unittest.mock import patch

HERE = Path(__file__).parent
SIZE = (100, 38)
"""Columns and lines."""
READ = ("0.0000", "0.0014", "0.0020", "0.0015", "0.0001", "-0.0014", "-0.0020", "-0.0013", "0.0000")
"""Invented readings of a bar that is 2 thou off toward screw 2."""


def hands() -> ModuleType:
    """The hands that the tests of the screens use."""
    path = HERE.parent / "screens" / "conftest.py"
    spec = importlib.util.spec_from_file_location("hands", path)
    assert spec
    assert spec.loader
    module = sys.modules["hands"] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


async def made(home: Path) -> dict[str, str]:
    """Four screens of one invented setup, as SVG by their names."""
    from guide.screens.app import Spindleside
    from guide.screens.steps.correction import CorrectionForm
    from guide.screens.steps.gate import GateForm
    from guide.screens.steps.readings import TurnForm
    from guide.settings import Settings

    app, pictures = Spindleside(Settings(home=home), quiet=0), {}
    async with app.run_test(size=SIZE) as pilot:

        async def take(name: str) -> None:
            await pilot.pause(0.4)
            pictures[name] = app.export_screenshot(title="spindleside")

        at = hands().Quick(app, pilot, {"value": "-0.0020"})
        at.decisions = ["accept", "another-round"]
        await at.row("begin:adjustable-chuck")
        await take("start")
        await at.begin("adjustable-chuck")
        await at.to(GateForm)
        await take("gate")
        await at.to(TurnForm)
        while not at.form.turn.marks:
            await at.quick_page()
            await at.to(TurnForm)
        count = next(each for each in at.form.query("Choices") if each.name == "count")
        await at.choose(count, "8")
        for value in READ[:6]:
            await at.type(at._line("reading"), value)
        await take("readings")
        for value in READ[6:]:
            await at.type(at._line("reading"), value)
        await at.press("record")
        await at.to(CorrectionForm)
        await take("correction")
    return pictures


def main() -> None:
    """Write the pictures; spaces are kept by every program that shows them."""
    sys.path.insert(0, str(HERE.parents[1]))
    with TemporaryDirectory() as home, patch("guide.screens.sheet_text.at_clock", _clock):
        hands().alone(Path(home) / "journal.sqlite3")
        made_of = asyncio.run(made(Path(home)))
    for name, svg in made_of.items():
        kept = svg.replace("<text ", '<text xml:space="preserve" ')
        (HERE / f"{name}.svg").write_text(kept, encoding="utf-8")


def _clock(at: str) -> str:
    """The same time in every picture."""
    return "08:00"


if __name__ == "__main__":
    main()
