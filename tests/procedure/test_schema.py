"""The schema for editors: it knows the same closed sets and shapes as the loader."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from guide.procedure.schema import schema
from guide.procedure.shelf import files

BROKEN = Path(__file__).parents[1] / "broken"
SHAPES = (
    "missing-key", "unknown-key", "unknown-kind", "key-of-another-kind", "gate-without-checks",
    "check-without-hazard", "title-a-list", "does-a-mapping", "unknown-decision",
    "choice-without-answers",
)  # fmt: skip
"""Broken files whose defect is one of shape or of a closed set."""


@pytest.fixture(scope="module")
def validator() -> Draft202012Validator:
    """The schema in a general-purpose library that did not make it."""
    Draft202012Validator.check_schema(schema())
    return Draft202012Validator(schema())


def as_text(path: Path) -> object:
    """A file with every scalar as text, as the loader reads it."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


@pytest.mark.parametrize("path", files(), ids=lambda path: path.stem)
def test_every_shipped_procedure_is_one(validator, path) -> None:
    """No key and no value is marked."""
    assert not list(validator.iter_errors(as_text(path)))


@pytest.mark.parametrize("name", SHAPES)
def test_a_defect_of_shape_is_marked_in_the_editor(validator, name) -> None:
    """What the loader refuses for its shape the schema refuses too."""
    assert list(validator.iter_errors(as_text(BROKEN / f"{name}.yaml")))


def test_it_is_plain_json() -> None:
    """An editor reads it back as it was."""
    assert json.loads(json.dumps(schema())) == schema()
