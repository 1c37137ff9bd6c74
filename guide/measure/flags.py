"""The closed list of flags: one sentence each, and what to check in a machinist's order.

The causes are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from guide.plain import N_


@dataclass(frozen=True, slots=True)
class Flag:
    """Something a person must know about a result."""

    key: str
    sentence: str
    """One plain sentence."""
    causes: tuple[str, ...]
    """Likely causes, in the order in which to check them."""


_ALL = (
    Flag(
        "beyond-travel",
        N_("The body is further off than the screws can shift it."),
        (
            N_("a chip or burr between plate and body"),
            N_("the body joined at the wrong witness mark"),
            N_("a screw already at its end on one side"),
            N_("a bar that does not sit straight in the jaws"),
            N_("a plate that itself runs out"),
        ),
    ),
    Flag(
        "tilt",
        N_("The bar leans: its runout changes along its length, which no radial screw cures."),
        (
            N_("a bent bar, or one gripped on a chip"),
            N_("jaws worn bell-mouthed"),
            N_("dirt or a burr on the plate's face"),
            N_("bolts drawn up unevenly"),
            N_("a plate face that runs out on the nose"),
        ),
    ),
    Flag(
        "form",
        N_("The readings show more than the centre being off: form, or one of these."),
        (
            N_("a surface that is not round there: rolled stock, or a bar that is not ground"),
            N_("a burr, a chip or dirt under the plunger"),
            N_("a reading taken at the wrong angle or typed wrong"),
            N_("the indicator's stand or the spindle giving way"),
        ),
    ),
    Flag(
        "few-positions",
        N_("At these positions a three-lobed bar can be missed or look like eccentricity."),
        (
            N_("read at eight positions or more, twelve with three or six screws"),
            N_("watch the needle over a whole turn and note its lowest and highest"),
        ),
    ),
    Flag(
        "zero-moved",
        N_("The first position did not read the same after a whole turn: zero moved, read again."),
        (
            N_("the stand or its magnet was knocked"),
            N_("a loose clamp on the indicator"),
            N_("the spindle was not turned back to the same place"),
            N_("the bar slipped in the jaws"),
        ),
    ),
    Flag(
        "drifting",
        N_("The zero goes on moving from turn to turn."),
        (
            N_("a stand that creeps"),
            N_("a machine that is still warming up or cooling down"),
            N_("snug bolts that let the body settle"),
        ),
    ),
    Flag(
        "spindle-limit",
        N_("The spindle's own play is as large as what is asked for."),
        (
            N_("bearings that want adjusting by the maker's manual"),
            N_("play in the seat taken for play in the spindle"),
            N_("a tolerance finer than this lathe can show"),
        ),
    ),
    Flag(
        "wrong-way",
        N_("The needle went the other way than the move was to take it."),
        (
            N_("the screw across was turned instead"),
            N_("the screws work in the other sense than was noted"),
            N_("the opposite screw was not eased first"),
            N_("an inside surface read as an outside one"),
        ),
    ),
    Flag(
        "process-limited",
        N_("More rounds no longer make it better: tightening moves it as much as it is out."),
        (
            N_("bolts drawn up unevenly or in steps that are too large"),
            N_("screws not nipped evenly before the last reading"),
            N_("a burr on the seat of a bolt"),
            N_("play or stick-slip larger than what is left"),
        ),
    ),
    Flag(
        "cannot-prove",
        N_("These readings are not fine enough to show that the tolerance is met."),
        (
            N_("a dial with too coarse a graduation"),
            N_("too few positions"),
            N_("a watched sweep that does not agree with the readings"),
            N_("plate and nose not read alone before the chuck went on"),
        ),
    ),
)

FLAGS: Mapping[str, Flag] = MappingProxyType({flag.key: flag for flag in _ALL})
"""Every flag there is, by its key."""


def in_order(keys: set[str]) -> tuple[str, ...]:
    """The keys in the order of the closed list; a key outside it is a programming error."""
    if not keys <= FLAGS.keys():
        raise KeyError(*(keys - FLAGS.keys()))
    return tuple(key for key in FLAGS if key in keys)
