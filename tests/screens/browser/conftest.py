"""A tablet for tests of the page; they are skipped where there is no browser, but not in CI."""

from __future__ import annotations

import os
import sys
from collections.abc import AsyncIterator, Iterator
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

WANTED_BY = ("CI", "BROWSER_WANTED")
"""Variables that say that these tests have to run: a missing browser is then a failure."""
SERVER = Path(__file__).parents[2] / "serve" / "server.py"


def loaded(file: Path) -> ModuleType:
    """A module of the tests by its file (the tests are no package)."""
    name = f"browser_tests_{file.stem}"
    if name not in sys.modules:
        spec = spec_from_file_location(name, file)
        assert spec is not None
        assert spec.loader is not None
        sys.modules[name] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[name])
    return sys.modules[name]


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """Chromium, started once."""
    driver = loaded(Path(__file__).with_name("driver.py"))
    if driver.CHROMIUM is None and not any(os.environ.get(each) for each in WANTED_BY):
        pytest.skip("no Chromium here to look at the page with: `apt-get install chromium`")
    one = driver.Browser(tmp_path_factory.mktemp("profile"))
    yield one
    one.close()


@pytest.fixture
async def tablet(browser: Any) -> AsyncIterator[Any]:
    """A page of a tablet's size that is touched."""
    async with browser.tablet() as one:
        yield one


@pytest.fixture
def by_socket() -> ModuleType:
    """The server as a process of its own."""
    return loaded(SERVER)


@pytest.fixture
def server(by_socket: ModuleType, tmp_path: Path) -> Iterator[Any]:
    """A server on a journal where nobody signs on."""
    by_socket.alone(tmp_path)
    one = by_socket.Server(tmp_path)
    yield one
    one.close()
