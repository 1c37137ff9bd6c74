"""How drawings are made, by what the terminal can show."""

from __future__ import annotations

import pytest

from guide.present.drawing_style import drawing_style

UTF_8 = {"TERM": "xterm-256color", "LANG": "en_GB.UTF-8"}


@pytest.mark.parametrize(
    ("environ", "style"),
    [
        (UTF_8, "blocks"),
        ({**UTF_8, "NO_COLOR": ""}, "blocks"),
        ({**UTF_8, "NO_COLOR": "1"}, "braille"),
        ({**UTF_8, "TERM": "vt220"}, "braille"),
        ({**UTF_8, "TERM": "dumb"}, "plain"),
        ({**UTF_8, "TERM": "linux"}, "blocks"),
        ({**UTF_8, "TERM": "linux", "NO_COLOR": "1"}, "plain"),
        ({"TERM": "linux", "LANG": "C"}, "plain"),
        ({"TERM": "xterm", "LANG": "en_US.ISO-8859-1"}, "plain"),
        ({"TERM": "xterm", "LANG": "de_DE.utf8@euro"}, "blocks"),
        ({"TERM": "xterm", "LANG": "C", "LC_ALL": "C.UTF-8"}, "blocks"),
        ({"TERM": "xterm", "LANG": "en_GB.UTF-8", "LC_ALL": "POSIX"}, "plain"),
    ],
)
def test_the_style_follows_the_terminal(environ: dict[str, str], style: str) -> None:
    """Blocks with UTF-8 and colours; braille without colours; else signs that every one has.

    `NO_COLOR` counts when it is present and not empty (no-color.org); of the variables of the
    locale `LC_ALL` wins over `LC_CTYPE` and that over `LANG` (POSIX.1-2017, base definitions, 8.2).
    """
    assert drawing_style(environ) == style


def test_what_the_program_writes_in_counts_where_no_variable_says_what_the_locale_is() -> None:
    """A program that cannot write the signs does not draw with them."""
    assert drawing_style({}, "utf-8") == "blocks"
    assert drawing_style({}, "ascii") == "plain"
