"""Makes a picture of every screen, to be looked at.

`python tests/pictures/every.py FOLDER [WxH [LOOK [LANGUAGE]]]`
"""

from __future__ import annotations

import asyncio
import importlib.util
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from types import ModuleType
from typing import Any

TESTS = Path(__file__).parents[1]


def loaded(name: str) -> ModuleType:
    """A module of the screens' tests."""
    spec = importlib.util.spec_from_file_location(name, TESTS / "screens" / f"{name}.py")
    assert spec
    assert spec.loader
    module = sys.modules[name] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


async def made(home: Path, folder: Path, size: tuple[int, int], **liked: str) -> None:
    """One SVG a screen."""
    from guide.screens.app import Spindleside
    from guide.settings import Settings

    gallery, hands = loaded("gallery"), loaded("conftest")
    hands.alone(home / "journal.sqlite3")
    app: Any = Spindleside(Settings(home=home, **liked), quiet=0, guarded=False)
    async with app.run_test(size=size) as pilot:
        async for name in gallery.shown(hands.Quick(app, pilot, {})):
            (folder / f"{name}.svg").write_text(app.export_screenshot(title=name))


def main(folder: str, size: str = "80x24", look: str = "dark", language: str = "en") -> None:
    """Write them into a folder that is made where it is not there."""
    sys.path.insert(0, str(TESTS.parent))
    Path(folder).mkdir(parents=True, exist_ok=True)
    width, height = map(int, size.split("x"))
    with TemporaryDirectory() as home:
        asyncio.run(made(Path(home), Path(folder), (width, height), look=look, language=language))


if __name__ == "__main__":
    main(*sys.argv[1:])
