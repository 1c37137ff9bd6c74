"""What holds for every test: the real data folder raises when it is touched."""

from __future__ import annotations

from pathlib import Path
from typing import NoReturn

import pytest


@pytest.fixture(autouse=True)
def kept_from_the_real_data_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A test's data folder is its own, and asking the platform for the real one raises."""
    monkeypatch.setenv("SPINDLESIDE_HOME", str(tmp_path))
    monkeypatch.setattr("platformdirs.user_data_dir", touched)


def touched(*arguments: object, **named: object) -> NoReturn:
    """Stands where the platform would name the user's data folder."""
    raise AssertionError("a test touched the real data folder")
