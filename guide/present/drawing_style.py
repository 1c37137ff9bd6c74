"""How drawings are made, by what the terminal can show."""

from __future__ import annotations

from collections.abc import Mapping

from guide.present.canvas import BLOCKS, BRAILLE, PLAIN

UTF_8 = ("utf-8", "utf8")
NO_COLOURS = ("vt52", "vt100", "vt102", "vt220", "vt320", "xterm-mono", "screen-mono", "rxvt-mono")
"""Kinds of terminal that have no colours (the terminfo database gives them none)."""
FEW_SIGNS = ("linux", "cons25", "wsvt25")
"""Consoles whose fonts have blocks and no braille."""


def drawing_style(environ: Mapping[str, str], encoding: str = "utf-8") -> str:
    """`blocks`, `braille` or `plain` by the variables of an environment.

    `encoding` is what the program writes in; it counts where no variable says what the locale is.
    UTF-8 with colours gives blocks; without colours braille, where the font has it; else plain.
    """
    term = environ.get("TERM", "")
    if term in ("dumb", "unknown") or not is_utf_8(environ, encoding):
        return PLAIN
    if not environ.get("NO_COLOR") and term not in NO_COLOURS:
        return BLOCKS
    return PLAIN if term in FEW_SIGNS else BRAILLE


def is_utf_8(environ: Mapping[str, str], encoding: str) -> bool:
    """Whether the locale is one of UTF-8, by the first variable that is set (POSIX order)."""
    locale = next(filter(None, map(environ.get, ("LC_ALL", "LC_CTYPE", "LANG"))), encoding)
    return locale.lower().split("@")[0].endswith(UTF_8)
