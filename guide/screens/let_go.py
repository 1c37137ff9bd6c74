"""Textual remembers what it drew and found; a page that is gone is let go here."""

from __future__ import annotations

import gc
from typing import Any

from textual._styles_cache import StylesCache
from textual.screen import Screen

SWEPT = 0.05
"""Seconds after which the next page stands; nobody can have read it yet."""


def let_go(screen: Screen[Any]) -> None:
    """Nothing of a page that was taken away is kept.

    Up to Textual 8.2 the last 1024 widgets' drawn lines stay behind the colours of their edges,
    whose cache takes the widget's own for its class, and what a query found stays too: over a whole
    setup that is as much memory as a bare app takes. The page itself is looked for when the next
    one stands.
    """
    screen._query_one_cache.clear()
    StylesCache.get_inner_outer.cache_clear()
    screen.set_timer(SWEPT, gc.collect)
