"""PINs and private keys: not on the screen, not on the clipboard, not in a file, not in a crash."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from textual.worker import WorkerFailed

from guide.screens.people import AskScreen


def shown(at: Any) -> str:
    """Everything on the screen."""
    return "\n".join(strip.text for strip in at.app.screen._compositor.render_strips())


async def typed(at: Any, pin: str) -> Any:
    """The PIN on its line, in the window before a new setup."""
    await at.pilot.pause()
    await at.pick(await at.row("begin:chuck-removal"))
    await at.until(AskScreen)
    await at.choose(at.app.screen.line("person"), "A. Sample")
    line = at._line("pin").entry
    line.focus()
    await at.pilot.press(*pin)
    return line


async def test_a_pin_is_neither_shown_nor_copied(opened, keyboard, shop) -> None:
    """Marked and copied or cut, the clipboard stays empty and the line keeps what it had."""
    shop()
    async with opened(keyboard) as at:
        line = await typed(at, "fourtin")
        assert line.value == "fourtin"
        assert "fourtin" not in shown(at)
        assert "•" * 7 in shown(at)
        for key in ("ctrl+c", "ctrl+x"):
            await at.pilot.press("home", "shift+end", key)
            await at.pilot.pause()
        assert (at.app.clipboard, line.value) == ("", "fourtin")


async def test_no_file_holds_a_pin_or_a_private_key(
    opened, quick, small, shop, tmp_path: Path, pin
) -> None:
    """Of a whole signed setup with a take-over, neither as text nor as bytes."""
    shop()
    async with opened(quick, procedure=small) as at:
        await at.begun()
        first = at.sheet.setup.hands["A. Sample"]
        at.sheet.action_give("take_over")
        await at.until(AskScreen)
        await at.fill(person="C. Sample", pin=pin)
        await at.settle()
        hands = (first, at.sheet.setup.hands["C. Sample"])
        secrets = [pin.encode(), *(e.seed for e in hands), *(e.seed.hex().encode() for e in hands)]
        files = [each.read_bytes() for each in tmp_path.rglob("*") if each.is_file()]
    assert any(first.key.encode() in each for each in files)
    assert not [each for each in secrets if any(each in file for file in files)]


async def test_a_crash_does_not_tell_the_pin(
    opened, quick, small, shop, pin, monkeypatch, capsys
) -> None:
    """What went wrong is told with its lines, not with the values that were in them."""
    shop()

    def broken(seal: str, pin: str) -> bytes:
        raise RuntimeError("an invented fault")

    monkeypatch.setattr("guide.journal.keys.unsealed", broken)

    async def crash() -> None:
        async with opened(quick, procedure=small) as at:
            await at.until(AskScreen)
            await at.fill(person="A. Sample", pin=pin, lathe="Lathe 2")

    with pytest.raises((RuntimeError, WorkerFailed)):
        await crash()
    told = capsys.readouterr().err
    assert "an invented fault" in told
    assert "sign_on" in told
    assert pin not in told
