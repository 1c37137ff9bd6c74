"""The command line called whole, with each procedure's proof worked out once."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from functools import cache
from typing import NamedTuple

import pytest

from guide.cli import proven
from guide.cli.main import run
from guide.procedure.load import read


class Said(NamedTuple):
    """What one call left behind."""

    code: object
    out: str
    err: str


def called(*arguments: object) -> Said:
    """One call of the program, in this process."""
    out, err = io.StringIO(), io.StringIO()
    code: object = None
    with redirect_stdout(out), redirect_stderr(err):
        try:
            run([str(each) for each in arguments])
        except SystemExit as left:
            code = left.code
    return Said(code, out.getvalue(), err.getvalue())


WHOLE = proven.of


@cache
def once(text: str, file: str, shown: str) -> proven.Proven:
    """The proof of a text, worked out once however often this room is come back to."""
    return WHOLE(read(text, file), shown)


@pytest.fixture(scope="module")
def call() -> Iterator[Callable[..., Said]]:
    """Calls the program; the same procedure text is not walked whole a second time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(
            proven, "of", lambda procedure, file="": once(procedure.text, procedure.file, file)
        )
        yield called
