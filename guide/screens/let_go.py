"""Textual remembers what it drew and found; a page that is gone is let go here."""

from __future__ import annotations

from typing import Any

from textual._styles_cache import StylesCache
from textual.screen import Screen


def let_go(screen: Screen[Any]) -> None:
    """Nothing of a page that was taken away is kept.

    Up to Textual 8.2 the last 1024 widgets' drawn lines stay behind the colours of their edges,
    whose cache takes the widget's own for its class, and what a query found stays too: over a whole
    setup that is as much memory as a bare app takes.
    """
    screen._query_one_cache.clear()
    StylesCache.get_inner_outer.cache_clear()
