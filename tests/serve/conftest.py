"""Servers over real sockets, with the real program behind each page."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest


def beside(name: str) -> ModuleType:
    """A module that stands beside this file (the tests are no package)."""
    whole = f"serve_tests_{name}"
    if whole not in sys.modules:
        spec = spec_from_file_location(whole, Path(__file__).with_name(f"{name}.py"))
        assert spec is not None
        assert spec.loader is not None
        sys.modules[whole] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[whole])
    return sys.modules[whole]


@pytest.fixture(scope="session")
def by_socket() -> ModuleType:
    """The server as a process, and its pages."""
    return beside("server")


@pytest.fixture
def serving(by_socket: ModuleType, tmp_path: Path) -> Iterator[Callable[..., Any]]:
    """Starts servers on a journal where nobody signs on; none is left afterwards."""
    by_socket.alone(tmp_path)
    running: list[Any] = []

    def start(*arguments: str, **more: Any) -> Any:
        running.append(by_socket.Server(tmp_path, *arguments, **more))
        return running[-1]

    yield start
    for each in running:
        each.close()


@pytest.fixture(scope="module")
def server(by_socket: ModuleType, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """One server for tests that open no setup."""
    home = tmp_path_factory.mktemp("home")
    by_socket.alone(home)
    one = by_socket.Server(home)
    yield one
    one.close()
