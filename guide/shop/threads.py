"""Screw threads: what a designation such as M10x1.5 or 3/8-16 stands for, and its stress area."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import pi

from guide.plain import N_, BadInput
from guide.shop.published import rows

MM_PER_IN = 25.4


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread of the published tables, all lengths in mm."""

    name: str
    system: str
    """`metric` or `inch`."""
    diameter_mm: float
    pitch_mm: float
    table_area_mm2: float
    """The stress area as printed; for inch threads the printed square inches converted."""

    @property
    def pitch_diameter_mm(self) -> float:
        """d2 = d − 0.649519·P (`iso-68-1`)."""
        return self.diameter_mm - 0.649519 * self.pitch_mm

    @property
    def root_diameter_mm(self) -> float:
        """d3 = d − 1.226869·P (`iso-68-1`)."""
        return self.diameter_mm - 1.226869 * self.pitch_mm


def stress_area(thread: Thread) -> float:
    """The tensile stress area in mm², by formula; the table rounds it to three figures.

    Metric π/4·((d2 + d3)/2)² (`iso-898-1`); inch 0.7854·(D − 0.9743/n)² (`unified-stress-area`).

    >>> round(stress_area(parse_thread("M10")), 1)
    58.0
    """
    if thread.system == "inch":
        return 0.7854 * (thread.diameter_mm - 0.9743 * thread.pitch_mm) ** 2
    return pi / 4 * ((thread.pitch_diameter_mm + thread.root_diameter_mm) / 2) ** 2


def parse_thread(text: str) -> Thread:
    """The thread typed as M10, M10x1.5, 3/8-16 or 1/2-13 UNC; M10 alone is the coarse pitch.

    Only threads of the tables are known; BadInput names those of the same diameter.
    """
    typed = _tidy(text)
    known = _known()
    if typed in known:
        return known[typed]
    same = [name for name in known if re.split("[x-]", name)[0] == re.split("[xX-]", typed)[0]]
    raise BadInput(
        N_("{text} is not a thread of the tables."),
        N_("Use one such as {names}."),
        text=text.strip()[:24],
        names=", ".join(same) or "M10x1.5, 3/8-16",
    )


def _tidy(text: str) -> str:
    """The designation as the tables spell it."""
    plain = re.sub(r"(UNC|UNF|UN)$", "", text.strip().upper().rstrip('"')).strip()
    metric = re.fullmatch(r"M *(\d+) *(?:[X×*] *(\d+(?:\.\d+)?))?", plain)
    if metric and metric.group(2):
        return f"M{metric.group(1)}x{float(metric.group(2)):g}"
    if metric:
        return _coarse(f"M{metric.group(1)}")
    return re.sub(r"^(1) (\d/\d)", r"\1-\2", re.sub(r" *- *", "-", plain))


def _coarse(size: str) -> str:
    """The first thread of the table with this diameter, which is the coarse one."""
    return next((name for name in _known() if name.startswith(f"{size}x")), size)


def _known() -> dict[str, Thread]:
    """Every thread of the two tables, by name."""
    metric = (
        Thread(
            row["thread"],
            "metric",
            float(row["diameter_mm"]),
            float(row["pitch_mm"]),
            float(row["stress_area_mm2"]),
        )
        for row in rows("metric_threads")
    )
    inch = (
        Thread(
            row["thread"],
            "inch",
            float(row["diameter_in"]) * MM_PER_IN,
            MM_PER_IN / float(row["per_inch"]),
            float(row["stress_area_in2"]) * MM_PER_IN**2,
        )
        for row in rows("inch_threads")
    )
    return {thread.name: thread for thread in (*metric, *inch)}
