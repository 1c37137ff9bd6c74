"""What a calculated torque is based on: a nut factor and proof load, or friction and yield."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt
from typing import Protocol

from guide.plain import N_, BadInput
from guide.shop.bolt_class import BoltClass
from guide.shop.remark import Remark, remark
from guide.shop.threads import Thread, stress_area

PROOF_SHARE = 0.75
"""Preload over proof load in the K tables (`torque-tension`)."""
YIELD_SHARE = 0.9
"""Combined stress over yield in the friction tables (`vdi-2230`)."""
K_RANGE = (0.15, 0.20)
"""The K that the tables print: 0.15 lubricated, 0.20 plain and dry."""
FRICTION_RANGE = (0.10, 0.15)
"""The friction coefficients that the formula was checked against: 0.10 to 0.14 (`vdi-2230`), 0.15
(`handbook-torque`)."""


class Basis(Protocol):
    """A way from a bolt to its preload (N) and torque (N·m), which can name itself."""

    def sentence(self, thread: Thread) -> Remark:
        """The basis in words, with the standard that this thread's figures come from."""

    def preload_n(self, thread: Thread, grade: BoltClass) -> float:
        """The preload aimed at, in N."""

    def torque_nm(self, thread: Thread, preload_n: float) -> float:
        """The torque for that preload, in N·m."""


@dataclass(frozen=True, slots=True)
class NutFactor:
    """F = 0.75·proof stress·stress area, T = K·d·F (`torque-tension`).

    K stands for all friction at once and spreads by a quarter or more in practice.
    """

    k: float

    def __post_init__(self) -> None:
        """Refuse a K that no table prints."""
        _refuse_beyond(self.k, K_RANGE, N_("A nut factor K of {size} is outside {low} to {high}."))

    def sentence(self, thread: Thread) -> Remark:
        """The basis in words."""
        return remark(
            N_("75 % of the proof load of {standard}, as transcribed; T = K·d·F with K = {k}."),
            standard="ISO 898-1" if thread.system == "metric" else "SAE J429",
            k=f"{self.k:.2f}",
        )

    def preload_n(self, thread: Thread, grade: BoltClass) -> float:
        """0.75 of the proof load, in N."""
        return PROOF_SHARE * grade.proof_mpa * stress_area(thread)

    def torque_nm(self, thread: Thread, preload_n: float) -> float:
        """K·d·F in N·m."""
        return self.k * thread.diameter_mm * preload_n / 1000


@dataclass(frozen=True, slots=True)
class Friction:
    """Combined stress 0.9 of yield, T = F·(0.16·P + 0.58·d2·µG + DKm/2·µK) (`vdi-2230`).

    Metric threads were checked against that table. For inch threads the torque was checked against
    a handbook's (`handbook-torque`), and the share of yield is taken over by analogy. A preload
    higher than the proof basis gives.
    """

    in_thread: float
    """µG."""
    under_head: float
    """µK."""
    head_mm: float
    """Outer diameter of the face under the head (or washer) that bears, in mm."""
    hole_mm: float
    """Diameter of the hole under it, in mm; DKm is the mean of the two."""

    def __post_init__(self) -> None:
        """Refuse coefficients outside the table, and a head that falls through its hole."""
        for size in (self.in_thread, self.under_head):
            _refuse_beyond(
                size, FRICTION_RANGE, N_("A friction of {size} is outside {low} to {high}.")
            )
        if not 0 < self.hole_mm < self.head_mm:
            raise BadInput(
                N_("The face under the head must be larger than the hole under it."),
                N_("Measure both across."),
            )

    def sentence(self, thread: Thread) -> Remark:
        """The basis in words."""
        return remark(
            N_(
                "90 % of yield under tension and torsion together, friction {thread} in the thread"
                " and {head} under the head, after VDI 2230 (2001) as transcribed."
            )
            if thread.system == "metric"
            else N_(
                "90 % of the yield of SAE J429 under tension and torsion together, friction"
                " {thread} in the thread and {head} under the head, after VDI 2230 (2001) as"
                " transcribed, by analogy: that table is for metric threads."
            ),
            thread=f"{self.in_thread:.2f}",
            head=f"{self.under_head:.2f}",
        )

    def preload_n(self, thread: Thread, grade: BoltClass) -> float:
        """0.9·yield·As / √(1 + 3·(3/2·d2/d0·(P/(π·d2) + 1.155·µG))²), d0 of the stress area."""
        _refuse_unfit(thread, self.hole_mm)
        d2 = thread.pitch_diameter_mm
        d0 = sqrt(4 * stress_area(thread) / pi)
        twist = 1.5 * d2 / d0 * (thread.pitch_mm / (pi * d2) + 1.155 * self.in_thread)
        return YIELD_SHARE * grade.yield_mpa * stress_area(thread) / sqrt(1 + 3 * twist**2)

    def torque_nm(self, thread: Thread, preload_n: float) -> float:
        """F·(0.16·P + 0.58·d2·µG + DKm/2·µK) in N·m."""
        head = (self.head_mm + self.hole_mm) / 4 * self.under_head
        thread_part = 0.16 * thread.pitch_mm + 0.58 * thread.pitch_diameter_mm * self.in_thread
        return preload_n * (thread_part + head) / 1000


def _refuse_beyond(size: float, limits: tuple[float, float], sentence: str) -> None:
    """Refuse a coefficient outside the published range; nothing is extrapolated."""
    low, high = limits
    if not low <= size <= high:
        raise BadInput(
            sentence,
            N_("Use one within it, or the maker's torque alone."),
            size=f"{size:g}",
            low=f"{low:.2f}",
            high=f"{high:.2f}",
        )


def _refuse_unfit(thread: Thread, hole_mm: float) -> None:
    """Refuse a hole that the bolt does not pass."""
    if hole_mm < thread.diameter_mm:
        raise BadInput(
            N_("A hole of {hole} mm does not pass {thread}."),
            N_("Measure the hole under the head."),
            hole=f"{hole_mm:g}",
            thread=thread.name,
        )
