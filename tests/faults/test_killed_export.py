"""An export killed at any moment: under its name stands the old file or the new one, whole."""

from __future__ import annotations

from guide.records.write import ENDINGS


def test_an_export_killed_before_any_of_its_calls_leaves_the_old_file_or_the_new_one(
    harness,
) -> None:
    """Every form, over an older file and where there is none."""
    found = harness("exporting", "--forms", *ENDINGS)
    assert found["wrong"] == []
    assert found["kills"] >= 8 * len(ENDINGS)


def test_an_export_cut_short_in_the_midst_of_a_write_does_too(harness) -> None:
    """At some bytes of the file, by a limit on file sizes."""
    found = harness("exporting", "--forms", ".html", ".jsonl", "--way", "RLIMIT_FSIZE")
    assert found["wrong"] == []
    assert found["kills"] >= 20
