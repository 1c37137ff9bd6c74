"""What a stored text says when it need not be believed: read with nothing refused."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def said(body: str) -> Mapping[str, Any]:
    """The fields of the text, none where it is not a JSON object."""
    import json

    try:
        fields = json.loads(body)
    except (TypeError, ValueError, RecursionError):
        return {}
    return fields if isinstance(fields, dict) else {}


def word(fields: Mapping[str, Any], name: str) -> str:
    """The field if it is text, else blank."""
    value = fields.get(name)
    return value if isinstance(value, str) else ""
