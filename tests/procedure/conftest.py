"""Where the rehearsals of the shipped procedures are written."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One folder for all of them, each walked once."""
    return tmp_path_factory.mktemp("rehearsed")
