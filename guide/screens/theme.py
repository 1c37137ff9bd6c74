"""Colours as tokens: the only place where a colour has a value."""

from __future__ import annotations

from textual.theme import Theme

QUIET = "#a3aaab"
"""Writing that is read second, still above 7:1 on the background."""

DARK = Theme(
    name="spindleside",
    dark=True,
    primary="#9fc3d6",
    secondary="#c8b98a",
    accent="#e8d9a0",
    foreground="#e9e7e1",
    background="#15181a",
    surface="#1d2225",
    panel="#2a3135",
    success="#a9cfa4",
    warning="#e6c36a",
    error="#f0a08c",
    variables={
        "quiet": QUIET,
        "block-cursor-text-style": "none",
        "footer-background": "#2a3135",
        "footer-key-foreground": "#e8d9a0",
        "input-cursor-background": "#e8d9a0",
        "input-cursor-foreground": "#15181a",
        "input-selection-background": "#9fc3d6 35%",
    },
)
"""Light writing on dark slate; every state also has a word or a sign."""
