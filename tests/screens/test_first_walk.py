"""The walk for newcomers: about three minutes, by a keypad alone, and nothing is written."""

from __future__ import annotations

from guide.screens.first_walk import LAST, STOPS, FirstWalk
from guide.screens.start import StartPage

A_MINUTE = 200
"""Words that most people read in a minute (from memory)."""
KEYS = (("2",), (*"200", "enter", "2"), ("1", None, "2", None),
        ("0", "full_stop", *"0040", "enter"), ("0", "full_stop", *"0020", "enter"), ("3",),
        ("enter",))  # fmt: skip
"""What each stop asks for; None is a moment of waiting."""
ALONE = 0.45


def test_its_words_are_read_in_two_to_three_minutes() -> None:
    """The rest of three minutes is for the keys."""
    words = sum(len(f"{each.title} {each.words} {each.do}".split()) for each in (*STOPS, LAST))
    assert 2 <= words / A_MINUTE <= 3


async def test_it_is_walked_by_a_keypad_from_the_start_page_and_back(opened, keyboard) -> None:
    """Each stop goes on when what it asks for was done, and not before; no journal is made."""
    async with opened(keyboard, first_use=True) as at:
        await at.row("first:")
        await at.pilot.press("5")
        await at.until(FirstWalk)
        for place, keys in enumerate(KEYS):
            await at.pilot.pause(0.1)
            assert at.app.screen.place == place
            for key in keys:
                if key is None:
                    await at.pilot.pause(ALONE)
                else:
                    await at.pilot.press(key)
                    await at.pilot.pause(0.35 if place == 2 else 0)
        await at.until(StartPage)
    assert list(opened.settings.home.iterdir()) == []


async def test_enter_does_not_open_its_gate(opened, keyboard) -> None:
    """Nor do both numbers pressed at once: it is the same gate as in a setup."""
    async with opened(keyboard, first_use=True) as at:
        await at.row("first:")
        await at.pilot.press("5")
        await at.until(FirstWalk)
        at.app.screen.place = 2
        await at.app.screen._show()
        await at.pilot.press("enter", "1", "2", "enter")
        await at.pilot.pause(0.6)
        assert at.app.screen.place == 2


async def test_it_can_be_passed_over_and_left(opened, mouse) -> None:
    """By the tiles at its foot, at every stop."""
    async with opened(mouse, first_use=True) as at:
        await at.pick(await at.row("first:"))
        await at.until(FirstWalk)
        await at.press("on")
        await at.pilot.pause(0.1)
        assert at.app.screen.place == 1
        await at.press("back")
        await at.until(StartPage)
