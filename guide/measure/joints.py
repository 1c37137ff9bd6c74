"""Joints compared: what spindle, seat and grip each add to the play, and whether that is noise."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import fsum, inf, sqrt

from guide.measure.play import GIVES, Giver, Place, Play, compare
from guide.measure.rounding import tidy
from guide.measure.student import student
from guide.measure.uncertainty import Part, combined, of_graduation, of_repeats
from guide.plain import N_, BadInput


@dataclass(frozen=True, slots=True)
class Joint:
    """What one joint adds to the play; in the readings' unit."""

    gives: Giver
    at_most: float
    """The play here less the play at the place before it, without sign."""
    at_least: float | None
    """The same if all the play before it rocks and so grows with the reach; None without one."""
    expanded_uncertainty: float | None
    """k standard uncertainties of `at_most`, or None where nothing is known of one reading."""
    stands_out: bool
    """Whether the least it can add is more than its uncertainty."""

    def to_json(self) -> dict[str, object]:
        """The joint as `calc play` answers it."""
        u = self.expanded_uncertainty
        return {
            "joint": self.gives,
            "at_most": self.at_most,
            "at_least": self.at_least,
            "expanded_uncertainty": None if u is None else tidy(u),
            "stands_out": self.stands_out,
        }


@dataclass(frozen=True, slots=True)
class Joints:
    """The joints, from the spindle outward, and where to look first."""

    play: Play
    """The mean play at each place and the joint to look to."""
    joints: tuple[Joint, ...]
    repeats: Mapping[Place, int]
    """How often each place was pushed and pulled."""


def joints(
    plays: Mapping[Place, Sequence[Decimal]],
    *,
    graduation: float | None = None,
    reach: Mapping[Place, float] | None = None,
) -> Joints:
    """Which joint gives, from one or more plays at each place, pushed about as hard everywhere.

    One play is the difference of two readings, so a division g gives it u = g/√6; repeats give
    their standard deviation over √m, with Student's factor where they are few. What a joint adds
    is the difference of two plays. A pushed bar magnifies what rocks further in: with `reach`, the
    distance of each place from the point about which the spindle rocks (its front bearing, say),
    the play inside it may grow by the ratio of the distances. The truth lies between `at_least`
    (all of it rocks) and `at_most` (all of it slides).

    It assumes that push and pull seat every joint. It stops holding where a joint sticks, and
    where the push bends a slender bar, which counts as grip. Without a graduation or repeats any
    difference counts, as in `play.compare`. BadInput without a play, for a reach that is not above
    zero or shrinks going outward.
    """
    _refuse_reach(plays, reach)
    means = {place: _mean(plays[place]) for place in GIVES if place in plays}
    parts = {place: _of_place(plays[place], graduation) for place in means}
    found = _joints(means, parts, reach)
    return Joints(_looked(means, found), found, {place: len(plays[place]) for place in means})


def _looked(means: Mapping[Place, Decimal], found: Sequence[Joint]) -> Play:
    """The comparison, in which only joints that stand out count as giving."""
    plain = compare(means)
    if "nose" not in means:
        return plain
    giving = [joint for joint in found if joint.stands_out]
    most = max(giving, key=_least, default=None)
    return Play(plain.plays, plain.added, "none" if most is None else most.gives)


def _least(joint: Joint) -> float:
    """The least that a joint adds."""
    return joint.at_most if joint.at_least is None else joint.at_least


def _joints(
    means: Mapping[Place, Decimal],
    parts: Mapping[Place, Part],
    reach: Mapping[Place, float] | None,
) -> tuple[Joint, ...]:
    """Each joint whose two sides were read."""
    inward: tuple[Place | None, ...] = (None, *GIVES)
    return tuple(
        _joint(gives, place, inner, means, parts, reach)
        for (place, gives), inner in zip(GIVES.items(), inward, strict=False)
        if place in means and (inner is None or inner in means)
    )


def _joint(
    gives: Giver,
    place: Place,
    inner: Place | None,
    means: Mapping[Place, Decimal],
    parts: Mapping[Place, Part],
    reach: Mapping[Place, float] | None,
) -> Joint:
    """One joint: the play here less the play further in."""
    here, there = float(means[place]), 0.0 if inner is None else float(means[inner])
    ratio = 1.0 if inner is None or reach is None else reach[place] / reach[inner]
    inside = () if inner is None else (_scaled(parts[inner], 1.0),)
    magnified = () if inner is None else (_scaled(parts[inner], ratio),)
    at_most = max(here - there, 0.0)
    at_least = None if reach is None else max(here - ratio * there, 0.0)
    return Joint(
        gives,
        tidy(at_most, here),
        None if at_least is None else tidy(at_least, here),
        _expanded(parts[place], *inside),
        tidy(at_most if at_least is None else at_least, here)
        > (_expanded(parts[place], *magnified) or 0.0),
    )


def _expanded(*parts: Part) -> float | None:
    """k·u of the parts together; None where nothing is known."""
    whole = combined(parts)
    return student(max(whole.freedom, 1.0)) * whole.u if whole.u > 0 else None


def _scaled(part: Part, ratio: float) -> Part:
    """A part magnified by the reach."""
    return Part(part.name, ratio * part.u, part.freedom)


def _mean(plays: Sequence[Decimal]) -> Decimal:
    """The mean play."""
    return sum(plays, Decimal(0)) / len(plays)


def _of_place(plays: Sequence[Decimal], graduation: float | None) -> Part:
    """What the mean play at one place is uncertain by."""
    dial = Part("graduation", sqrt(2) * of_graduation(graduation or 0.0))
    if len(plays) < 2:
        return dial
    one = of_repeats([float(play) for play in plays])
    return combined((dial, Part("repeats", one.u / sqrt(len(plays)), one.freedom)))


def _refuse_reach(
    plays: Mapping[Place, Sequence[Decimal]], reach: Mapping[Place, float] | None
) -> None:
    """Refuse distances that are missing, not above zero, or do not grow outward."""
    if reach is None:
        return
    along = [reach.get(place, -inf) for place in GIVES if place in plays]
    if any(z <= 0 for z in along) or sorted(along) != along or not fsum(along) < inf:
        raise BadInput(
            N_("The reach of the places read cannot be {reach}."),
            N_("Give one distance above zero for each place, growing outward."),
            reach=", ".join(f"{z:g}" for z in along),
        )
