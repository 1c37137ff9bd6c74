"""No more room: the event is refused in a sentence, those before it stand, and the walk goes on."""

from __future__ import annotations

import pytest

FULL = "The disk that holds the journal {path} is full."
FAILS = "The disk that holds the journal {path} does not answer as it should."


@pytest.mark.parametrize(("way", "least"), [("disk", 30), ("size", 30), ("pages", 30)])
def test_what_has_no_room_is_refused_and_written_when_there_is(
    harness, way: str, least: int
) -> None:
    """A whole rehearsal at each of 48 levels: free room from none on, met at other events each
    time; in some the journal is left while the disk is still full. Reading goes on at all of them,
    and in the end every journal is byte for byte the one that there would be with room enough.
    """
    found = harness("filling", way, "--levels", 48)
    assert found["wrong"] == []
    assert found["levels_refused"] >= least
    assert set(found["sentences"]) <= {FULL, FAILS}
    assert found["events"] == found["levels"] * found["whole"]
    if found["way"] != "size":
        assert found["sentences"][FULL] >= least
