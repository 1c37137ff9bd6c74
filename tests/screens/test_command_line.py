"""The line of commands at the foot: whole commands or none, and the help has every one."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from guide.screens.commands import COMMANDS, RARE, shown_key
from guide.screens.modals.help import HelpScreen
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.command_line import CommandLine, fitting

ALL = [(each.name, shown_key(each.key), each.footer) for each in COMMANDS]
COMMANDS_AT_ONCE = st.lists(st.sampled_from(ALL), unique=True).map(
    lambda some: [each for each in ALL if each in some or each[0] == "help"]
)


def text(shown) -> str:
    """As it is drawn where it is tight."""
    return " ".join(f"{key} {words}" for _, key, words in shown)


@given(COMMANDS_AT_ONCE, st.integers(8, 200))
def test_whatever_is_offered_it_fits_and_only_rare_ones_go_first(offered, width) -> None:
    """At any width a command is there whole or not at all; a common one goes after every rare."""
    shown = fitting(offered, RARE, width)
    assert len(text(shown)) <= width
    assert [each for each in offered if each in shown] == list(shown)
    gone = [name for name, _, _ in offered if name not in dict.fromkeys(e[0] for e in shown)]
    if not set(gone) <= set(RARE):
        assert not {name for name, _, _ in shown} & set(RARE)


def test_at_eighty_columns_only_rare_ones_are_ever_left_out() -> None:
    """With everything offered at once, signing out and leaving too are in sight."""
    shown = [name for name, _, _ in fitting(ALL, RARE, 80)]
    assert {each.name for each in COMMANDS if each.key} - set(shown) <= set(RARE)
    assert {"help", "take_over", "deviate", "sign_out", "leave"} <= set(shown)


async def test_the_help_can_be_read_to_its_end_at_the_smallest_size(
    opened, keyboard, small, shop
) -> None:
    """Every command with what it does, by one key where it goes on below; the buttons stay."""
    shop()
    async with opened(keyboard, procedure=small) as at:
        await at.begun()
        assert at.sheet.query_one(CommandLine).region.right <= 80
        await at.pilot.press("f1")
        await at.until(HelpScreen)
        read = drawn(at)
        for _ in range(3):
            await at.pilot.press("pagedown")
            read += drawn(at)
        assert all(each.told[:40] in read for each in COMMANDS)
        assert "It never opens a" in read
        assert at.app.screen.query_one(ActionBar).region.bottom <= 23


def drawn(at) -> str:
    """What stands on the screen."""
    return "\n".join(strip.text for strip in at.app.screen._compositor.render_strips())
