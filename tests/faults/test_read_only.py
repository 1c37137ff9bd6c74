"""Somebody without rights: what can be read is read to the last byte, what cannot is a sentence."""

from __future__ import annotations

BARRED = "its folder to all"


def test_a_journal_that_cannot_be_written_is_read_as_any_other(harness) -> None:
    """Folder, files or the whole file system read-only, closed or as a killed process leaves it, or
    barred to reading as well: verify, records and export answer as of a sound one, or refuse in one
    sentence; so does every writing; and no file is touched.
    """
    found = harness("barring")
    assert [each for each in found["wrong"] if not each.startswith(BARRED)] == []
    assert found["sound"]
    assert found["ways"] - found["mounted"] == 12
    assert found["readable"] - found["mounted"] >= 7
    assert found["tries"] == found["ways"] * 10


def test_a_folder_that_may_not_be_looked_into_is_said_in_a_sentence(harness) -> None:
    """It is not said that there is no journal in it."""
    found = harness("barring", BARRED)
    assert found["tries"] == 10
    assert found["wrong"] == []
