"""What can be done at the bench, as it lies on a numeric keypad: one place for key, words, deed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from guide.plain import N_
from guide.practice.bench import HAIR_DEG, STEP_DEG, Bench, Said

Deed = Callable[[Bench, int], Said]
"""What is done at a bench, given how many positions are read round the turn."""


@dataclass(frozen=True, slots=True)
class Control:
    """One thing to do."""

    name: str
    key: str
    words: str
    deed: Deed
    tool: str = ""
    """What has to lie on the bench for it; blank for nothing."""


def _key(bench: Bench, _: int) -> Said:
    """The key goes into the chosen screw, or comes out."""
    return bench.key_out() if bench.key is not None else bench.key_in()


def _push(bench: Bench, _: int) -> Said:
    """Push, pull, let go, in turn."""
    return bench.push({0: 1, 1: -1, -1: 0}[bench.hand])


FIRST: tuple[Control, ...] = (
    Control("key", "7", N_("key in/out"), _key),
    Control("tighten", "8", N_("tighten"), lambda bench, _: bench.turn_key(8)),
    Control("tighten-hair", "9", N_("a hair"), lambda bench, _: bench.turn_key(1)),
    Control("back", "4", N_("back"), lambda bench, _: bench.turn(-STEP_DEG)),
    Control("next", "5", N_("to next"), lambda bench, count: bench.next_place(count)),
    Control("on", "6", N_("turn on"), lambda bench, _: bench.turn(STEP_DEG)),
    Control("other", "1", N_("next screw"), lambda bench, _: bench.other_screw()),
    Control("ease", "2", N_("ease"), lambda bench, _: bench.turn_key(-8)),
    Control("ease-hair", "3", N_("a hair"), lambda bench, _: bench.turn_key(-1)),
    Control("bolts-ease", "0", N_("ease bolts"), lambda bench, _: bench.ease_bolts()),
    Control("bolts-torque", ".", N_("torque"), lambda bench, _: bench.torque_bolts()),
)
"""The first page of the keypad, as the keys lie."""
SECOND: tuple[Control, ...] = (
    Control("zero", "7", N_("set zero"), lambda bench, _: bench.zero_here()),
    Control("push", "8", N_("push"), _push),
    Control("feel", "9", N_("feel at"), lambda bench, _: bench.feel_at()),
    Control("back-hair", "4", N_("back 2°"), lambda bench, _: bench.turn(-HAIR_DEG)),
    Control("on-hair", "6", N_("on 2°"), lambda bench, _: bench.turn(HAIR_DEG)),
    Control("slide", "1", N_("slide dial"), lambda bench, _: bench.slide_indicator(), "slide"),
    Control("bar", "2", N_("turn bar"), lambda bench, _: bench.turn_bar(), "bar"),
)
"""What is needed less often; `/` turns the page."""
BY_NAME = {each.name: each for each in (*FIRST, *SECOND)}
ANYWHERE = {"plus": "on-hair", "minus": "back-hair", "left": "back-hair", "right": "on-hair",
            "up": "tighten-hair", "down": "ease-hair"}  # fmt: skip
"""Other keys that do the same from either page."""
PAGES = (FIRST, SECOND)


def offered(page: int, tools: tuple[str, ...], bolts: bool) -> tuple[Control, ...]:
    """The controls of a page that are of use here."""
    return tuple(
        each
        for each in PAGES[page]
        if (not each.tool or each.tool in tools) and (bolts or not each.name.startswith("bolts"))
    )
