"""No test can reach the real data folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from guide.settings import from_environment, user_data_folder


def test_asking_for_the_real_data_folder_raises() -> None:
    """Whoever forgets to name a folder in a test is told."""
    with pytest.raises(AssertionError, match="real data folder"):
        user_data_folder()
    with pytest.raises(AssertionError, match="real data folder"):
        from_environment({})


def test_a_test_has_a_data_folder_of_its_own(tmp_path: Path) -> None:
    """What a test writes without naming a place lies in its own folder."""
    assert from_environment().home == tmp_path
