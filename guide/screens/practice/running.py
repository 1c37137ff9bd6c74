"""A practice setup from the lesson that is picked to the debrief."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from guide.front.own_language import speak_as_set, speak_for
from guide.front.shelf import people_and_lathes
from guide.plain import N_
from guide.practice.debrief import debrief
from guide.practice.lesson import DRAWN
from guide.practice.session import Practised, practised
from guide.screens.people import Ask, AskScreen, Attempt, person
from guide.screens.practice.debrief import DebriefScreen
from guide.screens.practice.intro import IntroScreen
from guide.screens.practice.lessons import LessonsScreen
from guide.screens.practice.opening import begun, wanted
from guide.screens.practice.sheet import PracticeSheet
from guide.screens.signing import signing

if TYPE_CHECKING:
    from guide.journal.holding import Hold
    from guide.people.hand import Hand
    from guide.screens.app import Spindleside
    from guide.walk.setup import Setup


async def practise(app: Spindleside, told: str) -> None:
    """Ask which lesson where none is told, then who; open it, walk it, and tell how it went.

    `told` is lesson, seed and unit behind each other with `;`, each of which may be blank.
    """
    name, seed, unit = (*told.split(";"), "", "")[:3]
    if not told.strip(";"):
        name = await app.push_screen_wait(LessonsScreen())
        if not name:
            return
    people, _ = people_and_lathes(app.settings)
    opened: list[tuple[Practised, Hold]] = []
    if await app.push_screen_wait(IntroScreen(wanted(name, seed, unit or None)[0])) is None:
        return

    def begin(answers: Mapping[str, str], _: Hand | None) -> None:
        one, number = wanted(name, answers.get("seed", seed), unit or None)
        opened.append(begun(app.store, one, number, answers["person"], app.typed_at))

    if await app.push_screen_wait(_asks(name, seed, people, signing(None, begin))):
        await walk_on_the_bench(app, *opened[0], people)


def _asks(name: str, seed: str, people: list[str], attempt: Attempt) -> AskScreen:
    """Who practises, and for a drawn chuck the seed, where it was not told."""
    asks = [*person(people)]
    if name in ("", DRAWN) and not seed:
        asks.append(Ask("seed", N_("Seed, a whole number (0 makes one up):")))
    told = N_("It is recorded under this name, marked as practice for ever.")
    return AskScreen(N_("Practice"), told, asks, attempt)


async def walk_on_the_bench(app: Spindleside, setup: Setup, hold: Hold, people: list[str]) -> None:
    """The sheet with its bench until it is left; what has ended is told about."""
    walk = setup if isinstance(setup, Practised) else practised(setup)
    app.at_setup(walk.state.setup)
    speak_for(walk.state.person, app.settings)
    with hold:
        await app.push_screen_wait(PracticeSheet(walk, people, app.quiet))
    app.at_setup("")
    if walk.state.ended:
        await app.push_screen_wait(DebriefScreen(debrief(walk)))
    speak_as_set(app.settings)
    await app.start_page.fill()
