"""Results over the years as an SVG picture for print: shapes and text, nothing that runs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from html import escape

from guide.plain import N_
from guide.present.trend_plot import Shown, labels, meanings, share_of, stretches, top_of
from guide.present.words import say

LEFT_EDGE, RIGHT_EDGE, TOP_EDGE, BOTTOM_EDGE = 60.0, 20.0, 24.0, 52.0
"""Room around the picture for what is written there."""
INK, RING, SERIF = "#000", 4.0, 3.0
"""One ink: nothing is told by colour."""


def svg(
    shown: Sequence[Shown], unit: str, width: float, height: float, title: str, language: str = "en"
) -> str:
    """The picture as one `svg` element of so many points; one that says so where nothing is."""
    inside = "\n".join(_shapes(shown, unit, width, height, language)) if shown else _empty(language)
    said = escape(title, quote=True)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}pt" height="{height:g}pt"'
        f' viewBox="0 0 {width:g} {height:g}" role="img" aria-label="{said}"'
        f' font-family="sans-serif" font-size="10">\n<title>{said}</title>\n{inside}\n</svg>\n'
    )


def _empty(language: str) -> str:
    return _words(10, 20, say(N_("No result yet."), language))


def _shapes(
    shown: Sequence[Shown], unit: str, width: float, height: float, language: str
) -> Iterator[str]:
    """Axis, tolerance, bars, results, days and the key."""
    across, high = width - LEFT_EDGE - RIGHT_EDGE, height - TOP_EDGE - BOTTOM_EDGE
    top, ordered = top_of(shown), sorted(shown, key=lambda each: (each.day, each.left))

    def x(share: float) -> float:
        return LEFT_EDGE + share * across

    def y(size: float) -> float:
        return TOP_EDGE + (1 - min(max(size / top, 0.0), 1.0)) * high

    yield _line(x(0), y(0), x(1), y(0))
    yield _line(x(0), y(0), x(0), y(top))
    for size, number in labels(shown, unit, language).items():
        yield _words(LEFT_EDGE - 6, y(size) + 3, number, "end")
    for each, start, end in stretches(ordered):
        if each.tolerance is not None:
            yield _line(x(start), y(each.tolerance), x(end), y(each.tolerance), "4 3")
    for each in ordered:
        yield from _result(x(share_of(each.day, shown)), each, y)
    days = sorted({ordered[0].day, ordered[-1].day})
    for day, anchor in zip(days, ("start", "end") if days[1:] else ("middle",), strict=True):
        yield _words(x(share_of(day, shown)), height - BOTTOM_EDGE + 16, day.isoformat(), anchor)
    yield _words(LEFT_EDGE, height - 12, " · ".join(meanings(unit, language)))


def _result(x: float, each: Shown, y: Callable[[float], float]) -> Iterator[str]:
    """One result and the reach of its uncertainty."""
    if each.reach is not None:
        high, low = y(each.size + each.reach), y(each.size - each.reach)
        yield _line(x, high, x, low)
        for end in (high, low):
            yield _line(x - SERIF, end, x + SERIF, end)
    fill = INK if each.left else "#fff"
    place = f'cx="{x:.2f}" cy="{y(each.size):.2f}"'
    yield f'<circle {place} r="{RING:g}" fill="{fill}" stroke="{INK}"/>'


def _line(x: float, y: float, u: float, v: float, dashes: str = "") -> str:
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'<path d="M{x:.2f} {y:.2f}L{u:.2f} {v:.2f}" fill="none" stroke="{INK}"{dashed}/>'


def _words(x: float, y: float, text: str, anchor: str = "start") -> str:
    return f'<text x="{x:.2f}" y="{y:.2f}" text-anchor="{anchor}">{escape(text)}</text>'
