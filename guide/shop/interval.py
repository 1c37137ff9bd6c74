"""When a chuck is to be looked at again, from what it was found to be each time before.

The method is the automatic adjustment or “staircase” over calendar time; `G24` says how much of it
was read where. A due date is a reminder, never permission to go on until then.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

from guide.plain import N_, BadInput
from guide.shop.remark import Remark, remark
from guide.shop.sources import Source

G24 = Source(
    "ILAC-G24 / OIML D 10, 6.2, method 1: automatic adjustment or “staircase” (calendar time)",
    "heading of the 2022 edition in a public copy; the rule of 2007 as a public article repeats it",
    "transcribed",
)
"""Where the method comes from. As repeated: extended where something is found within, say, 80 % of
its permissible error, reduced where it is found outside it; no factors are repeated there."""
WELL_WITHIN = Fraction(4, 5)
"""Up to this share of the tolerance an interval is lengthened: a choice, the share that `G24` gives
as its example. That the uncertainty counts with it is a stricter choice of this tool's own."""
LONGER, SHORTER = Fraction(3, 2), Fraction(1, 2)
"""What an interval is multiplied by; common practice, no source. One metrologist's public page,
seen, halves too, and doubles where here it is half as much again."""
SHORTEST, LONGEST = 7, 730
"""Days between which an interval is adjusted; common practice, no source. The same page has 24
months as the longest."""
VERDICTS = ("within", "outside", "undecided")


@dataclass(frozen=True, slots=True)
class AsFound:
    """One result read before anything was touched; lengths in one unit, `tolerance` full runout."""

    day: date
    judged: Decimal
    expanded_uncertainty: Decimal | None
    """None where it is not known: then the interval is never lengthened."""
    tolerance: Decimal
    verdict: str
    """`within`, `outside` or `undecided`."""

    def __post_init__(self) -> None:
        """Refuse (BadInput) a result that cannot be."""
        sizes = (self.judged, self.expanded_uncertainty or Decimal(0), self.tolerance)
        sound = all(each.is_finite() and each >= 0 for each in sizes) and self.tolerance > 0
        if not sound or self.verdict not in VERDICTS:
            raise BadInput(
                N_("The result as found of {day} cannot be used."),
                N_("It needs sizes that are not negative, a tolerance above zero, and a verdict."),
                day=self.day.isoformat(),
            )

    @property
    def well_within(self) -> bool:
        """Whether judged runout and uncertainty together leave a fifth of the tolerance."""
        if self.verdict != "within" or self.expanded_uncertainty is None:
            return False
        reached = Fraction(self.judged) + Fraction(self.expanded_uncertainty)
        return reached <= WELL_WITHIN * Fraction(self.tolerance)


@dataclass(frozen=True, slots=True)
class Step:
    """What one result did to the interval."""

    day: date
    before: int
    after: int
    """Days."""
    reason: Remark


@dataclass(frozen=True, slots=True)
class Interval:
    """How long until the next look, the day it falls on, and why."""

    days: int
    due: date
    steps: tuple[Step, ...]
    assumptions: tuple[Remark, ...]


def interval(
    first: int,
    begun: date,
    found: Sequence[AsFound],
    *,
    since: date | None = None,
    voided: date | None = None,
) -> Interval:
    """The interval after all results as found, and the day it ends.

    `first` is the user's own interval in days from `begun`, the first day the chuck was left true;
    `found` in the order of their days; the interval runs from `since`, the last day it was left
    true or found so (by default the last of `found`). `voided` is a day on which that result
    ceased to count: then a look is due on it. Adjusted are whole days, rounded down, between 7 and
    730. A longer interval rests on no more time than really passed between two looks, and a
    shorter one on no more either: a chuck found outside after ten days did not hold for ten.

    >>> looks = [AsFound(date(2031, 1, 1), Decimal("0.0004"), Decimal("0.0001"), Decimal("0.001"),
    ...                  "within")]
    >>> interval(365, date(2030, 1, 1), looks).days
    547
    """
    _in_order(first, begun, found)
    steps = tuple(_steps(first, begun, found))
    days = steps[-1].after if steps else first
    start = since or (found[-1].day if found else begun)
    due = start + timedelta(days=days)
    if voided is not None and voided < due:
        due = voided
    return Interval(days, due, steps, tuple(_assumed(first, found, voided)))


def _in_order(first: int, begun: date, found: Sequence[AsFound]) -> None:
    """Refuse an interval of no days, and results that are not one after the other."""
    if not 1 <= first <= MOST_TYPED:
        raise BadInput(
            N_("A first interval of {days} days cannot be used."),
            N_("Give 1 to {most} days."),
            days=first,
            most=MOST_TYPED,
        )
    days = [begun, *(each.day for each in found)]
    if days != sorted(days):
        raise BadInput(N_("The results are not in the order of their days."), N_("Sort them."))


MOST_TYPED = 36_500
"""A hundred years, beyond which a day is a slip of the keys."""


def _steps(first: int, begun: date, found: Sequence[AsFound]) -> list[Step]:
    """What each result did, one after the other."""
    steps: list[Step] = []
    days, last = first, begun
    for each in found:
        steps.append(_step(each, days, (each.day - last).days))
        days, last = steps[-1].after, each.day
    return steps


def _step(found: AsFound, days: int, passed: int) -> Step:
    """What one result does to an interval of so many days, of which so many had passed."""
    told = {"passed": passed, "percent": int(WELL_WITHIN * 100), "before": days}
    held = min(days, passed)
    if found.well_within:
        after = max(days, min(int(held * LONGER), LONGEST))
        sentence = WELL if after > days else WELL_BUT_LONGEST if days >= LONGEST else WELL_BUT_EARLY
    elif found.verdict == "within":
        after, sentence = days, WITHIN
    else:
        after = min(days, max(int(held * SHORTER), SHORTEST))
        sentence = OUTSIDE if found.verdict == "outside" else UNDECIDED
    return Step(found.day, days, after, remark(sentence, **told, after=after))


WELL = N_(
    "Found after {passed} days within {percent} % of the tolerance, uncertainty included:"
    " {before} days become {after}."
)
WELL_BUT_EARLY = N_(
    "Found within {percent} % of the tolerance, but after {passed} days only: {before} days stay."
)
WELL_BUT_LONGEST = N_(
    "Found within {percent} % of the tolerance; {before} days are the longest: they stay."
)
WITHIN = N_("Found within tolerance, but not surely within {percent} % of it: {before} days stay.")
OUTSIDE = N_("Found outside tolerance after {passed} days: {before} days become {after}.")
UNDECIDED = N_("Found undecided after {passed} days: {before} days become {after}.")


def _assumed(first: int, found: Sequence[AsFound], voided: date | None) -> list[Remark]:
    """What the answer rests on, in words."""
    said = [remark(N_("The first interval of {days} days is your own."), days=first)]
    if not found:
        said.append(remark(N_("No result as found yet: nothing supports another interval.")))
    else:
        said.append(
            remark(
                N_(
                    "Staircase by calendar time, a method that {source} names; × 1.5 and × 0.5 and"
                    " the limits of {least} and {most} days are common practice, no source."
                ),
                source="ILAC-G24 / OIML D 10",
                least=SHORTEST,
                most=LONGEST,
            )
        )
    if voided is not None:
        said.append(
            remark(N_("The result ceased to count on {day}: due at once."), day=voided.isoformat())
        )
    said.append(remark(N_("After a crash, a regrip or a doubt, look at once whatever the date.")))
    return said
