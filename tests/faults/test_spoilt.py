"""Bits that turn, sectors that are lost, files that are cut: found, or without any effect.

Never is something else read than what was written, and called sound.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

SEED = 20310302
EVERYWHERE = (
    "header", "schema", "event", "link", "sealed", "text", "glance", "tally", "free pages",
    "signatures", "heads of links", "log header", "frame headers", "frames",
)  # fmt: skip
ANSWERS = {
    "found": (1,),
    "refused": (1, 2),
    "harmless": (0,),
    "cut end": (0,),
}
"""How `verify` leaves by what was done to the journal; a cut end it tells by --head."""


@pytest.fixture(scope="module")
def spoilt(harness, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """540 harms to three signed journals, and a copy of one in 25."""
    kept = tmp_path_factory.mktemp("spoilt")
    found: dict[str, Any] = harness(
        "spoiling", "--harms", 180, "--seed", SEED, "--keep", kept, "--every", 25
    )
    return found


def test_every_harm_is_found_or_harmless(spoilt: dict[str, Any]) -> None:
    """And nothing but a refusal comes of any, whether it is verified, listed, read or gone on with.

    While somebody keeps the log from being brought in, its end can be lost with no trace inside:
    then the head that is kept elsewhere tells of it, and what is left is whole.
    """
    assert spoilt["wrong"] == []
    assert spoilt["harms"] == 540
    assert {each.split(": ")[0] for each in spoilt["parts"]} >= set(EVERYWHERE)
    assert not {"closed: cut end", "killed: cut end"} & set(spoilt["outcomes"])


def test_damage_to_the_schema_to_indexes_and_to_the_list_is_found(harness) -> None:
    """Where SQLite itself stumbles: names that are no text any more, rows that are not found.

    And where the list of setups is: nowhere is an open setup missing from what is said to be open.
    """
    parts = ("schema", "sqlite_autoindex_event_1", "sqlite_autoindex_link_1", "glance", "tally")
    told = ("--journals", "closed", "--harms", 270, "--seed", SEED, "--parts", *parts)
    found = harness("spoiling", *told)
    assert found["wrong"] == []
    assert found["harms"] == 270


def test_the_command_line_says_it_in_a_sentence(harness, spoilt: dict[str, Any]) -> None:
    """`verify` and `records` on two dozen of them: exit 0, 1 or 2, one line of complaint."""
    kept = spoilt["kept"]
    folders = [("--journal", each["folder"]) for each in kept]
    asked = [(what, *folder) for what in ("verify", "records") for folder in folders]
    asked += [("verify", "--head", each["head"], "--journal", each["folder"]) for each in kept]
    said = harness("calling", json.dumps(asked))
    for arguments, (code, out, err) in zip(asked, said, strict=True):
        assert code in (0, 1, 2), arguments
        assert "Traceback" not in out + err, arguments
        assert err.count("\n") <= 1, err
        assert err == "" or err.startswith("spindleside: "), err
    codes = [code for code, _, _ in said]
    for each, plain, headed in zip(kept, codes[: len(kept)], codes[-len(kept) :], strict=True):
        assert plain in ANSWERS[each["outcome"]], each
        assert headed == 0 or each["outcome"] != "harmless", each
        assert headed != 0 or each["outcome"] == "harmless", each
    assert len(kept) >= 20
