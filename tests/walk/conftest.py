"""What several tests of the walk use: dangers written by hand, a driver, a journal in memory."""

from __future__ import annotations

import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

import pytest


def beside(name: str) -> ModuleType:
    """A module that stands beside this file (the tests are no package)."""
    whole = f"walk_tests_{name}"
    if whole not in sys.modules:
        spec = spec_from_file_location(whole, Path(__file__).with_name(f"{name}.py"))
        assert spec is not None
        assert spec.loader is not None
        sys.modules[whole] = module_from_spec(spec)
        spec.loader.exec_module(sys.modules[whole])
    return sys.modules[whole]


@pytest.fixture(scope="session")
def by_hand() -> ModuleType:
    """Dangers and moments written by hand."""
    return beside("by_hand")


@pytest.fixture(scope="session")
def set_aside() -> ModuleType:
    """The table with some variables set aside."""
    return beside("set_aside")


@pytest.fixture(scope="session")
def driver() -> ModuleType:
    """Walks any procedure with invented answers."""
    return beside("driver")


@pytest.fixture(scope="session")
def memory() -> ModuleType:
    """A journal in memory."""
    return beside("memory")


@pytest.fixture(scope="session")
def by_the_book() -> ModuleType:
    """Where an act may lead, worked out by hand."""
    return beside("by_the_book")
