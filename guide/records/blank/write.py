"""A blank setup sheet into a file: the form from the ending."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from guide.procedure.model import Procedure
from guide.records.write import known, put


def _pdf(procedure: Procedure, language: str) -> bytes:
    """Pages."""
    from guide.records.blank.to_pdf import to_pdf

    return to_pdf(procedure, language)


def _html(procedure: Procedure, language: str) -> bytes:
    """One page for a browser that prints."""
    from guide.records.blank.to_html import to_html

    return to_html(procedure, language).encode()


FORMS: dict[str, Callable[[Procedure, str], bytes]] = {".pdf": _pdf, ".html": _html}


def write(procedure: Procedure, path: Path, language: str = "en") -> None:
    """The sheet under its name in one move; raises `BadInput` for another ending."""
    put(path, FORMS[known(path, tuple(FORMS))](procedure, language))
