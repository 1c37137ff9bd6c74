"""Colours as tokens: the only place where a colour has a value."""

from __future__ import annotations

from textual.theme import Theme

Colours = dict[str, str]


def look(name: str, dark: bool, colours: Colours) -> Theme:
    """A theme of these colours, with what the library derives from them pinned."""
    quiet = colours.pop("quiet")
    more = {
        "quiet": quiet,
        "block-cursor-text-style": "none",
        "footer-background": colours["panel"],
        "footer-key-foreground": colours["accent"],
        "input-cursor-background": colours["accent"],
        "input-cursor-foreground": colours["background"],
        "input-selection-background": colours["primary"],
        "input-selection-foreground": colours["background"],
        "scrollbar": quiet,
        "scrollbar-hover": colours["foreground"],
        "scrollbar-active": colours["accent"],
        "scrollbar-background": colours["background"],
    }
    return Theme(name=f"spindleside-{name}", dark=dark, variables=more, **colours)  # type: ignore[arg-type]


LOOKS = {
    "dark": look("dark", True, {
        "primary": "#9fc3d6", "secondary": "#c8b98a", "accent": "#e8d9a0",
        "foreground": "#e9e7e1", "background": "#15181a", "surface": "#1d2225",
        "panel": "#2a3135", "success": "#a9cfa4", "warning": "#e6c36a", "error": "#f0a08c",
        "quiet": "#a9b0b1",
    }),
    "light": look("light", False, {
        "primary": "#1f4e66", "secondary": "#5a4715", "accent": "#6a4600",
        "foreground": "#1b1e20", "background": "#f8f6f0", "surface": "#efece3",
        "panel": "#e2dfd4", "success": "#1d5a2c", "warning": "#734200", "error": "#962012",
        "quiet": "#4a5052",
    }),
    "high-contrast": look("high-contrast", True, {
        "primary": "#ffe45c", "secondary": "#ffffff", "accent": "#ffe45c",
        "foreground": "#ffffff", "background": "#000000", "surface": "#0c0c0c",
        "panel": "#1f1f1f", "success": "#b6ffb0", "warning": "#ffc65c", "error": "#ffb0a0",
        "quiet": "#e0e0e0",
    }),
    "no-colour": look("no-colour", True, {
        "primary": "#ffffff", "secondary": "#ffffff", "accent": "#ffffff",
        "foreground": "#ffffff", "background": "#000000", "surface": "#000000",
        "panel": "#000000", "success": "#ffffff", "warning": "#ffffff", "error": "#ffffff",
        "quiet": "#ffffff",
    }),
}  # fmt: skip
"""Light writing on dark slate, dark writing on paper, black and white with one yellow, and none;
in each of them every state also has a word or a sign."""
QUIET = LOOKS["dark"].variables["quiet"]
"""Writing that is read second."""
