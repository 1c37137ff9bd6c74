"""Every screen at three sizes as it was when somebody looked at it last, in every look.

What stands on a screen is kept as text, so that a change can be read; the styles of each look are
kept as a digest. `python -m pytest tests/screens/test_every_screen.py --keep-screens` keeps them
anew: then look at the pictures (tests/pictures/every.py) before they are committed.
"""

from __future__ import annotations

import json
import re
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parent
KEPT = HERE / "every"
SIZES = ((80, 24), (120, 40), (200, 60))
TERMINAL = {"COLORTERM": "truecolor", "TERM": "xterm-256color", "LC_ALL": "C.UTF-8"}
CLOCK, AT = re.compile(r"20\d\d-\d\d-\d\d \d\d:\d\d"), "2030-01-31 08:00"
"""When a setup ended, as the start page says it, and what stands for that here."""
LOOKS = ("dark", "light", "no-colour")


def drawn(app: Any) -> tuple[str, str]:
    """What stands there, and a digest of the styles it stands in."""
    strips = app.screen._compositor.render_strips()
    lines = [CLOCK.sub(AT, strip.text).rstrip() for strip in strips]
    filters = [each for each in app._filters if each.enabled]
    styles = sha256()
    for strip in strips:
        for each in filters:
            strip = strip.apply_filter(each, app.screen.background_colors[1])
        for segment in strip:
            styles.update(f"{CLOCK.sub(AT, segment.text)}|{segment.style}\n".encode())
    return "\n".join(lines).rstrip() + "\n", styles.hexdigest()[:16]


@pytest.mark.long
@pytest.mark.parametrize("size", SIZES, ids=[f"{w}x{h}" for w, h in SIZES])
async def test_every_screen_is_as_it_was_looked_at(
    opened, quick, gallery, monkeypatch, request, size: tuple[int, int]
) -> None:
    """Pages, windows, steps of every kind, a refusal, the end and the record; none has moved."""
    monkeypatch.setattr("guide.screens.sheet_text.at_clock", lambda *_: "08:00")
    monkeypatch.setattr("guide.screens.steps.gate.GateForm.clock", lambda _: 0.0)
    for name, value in TERMINAL.items():
        monkeypatch.setenv(name, value)
    monkeypatch.delenv("NO_COLOR", raising=False)
    seen: dict[str, tuple[str, dict[str, str]]] = {}
    async with opened(quick, size=size) as at:
        async for name in gallery(at):
            seen[name] = await in_each_look(at)
    place = KEPT / f"{size[0]}x{size[1]}"
    if request.config.getoption("--keep-screens"):
        keep(place, seen)
    styles = json.loads((place / "styles.json").read_text())
    assert sorted(styles) == sorted(seen)
    for name, (text, digests) in seen.items():
        assert (place / f"{name}.txt").read_text() == text, name
        assert digests == styles[name], name


async def in_each_look(at: Any) -> tuple[str, dict[str, str]]:
    """The text, and the digest of its styles in each look; back in the first one afterwards."""
    digests, text = {}, ""
    for look in (*LOOKS[1:], LOOKS[0]):
        at.app.show_as(replace(at.app.settings, look=look))
        await at.pilot.pause()
        text, digests[look] = drawn(at.app)
    return text, digests


def keep(place: Path, seen: dict[str, tuple[str, dict[str, str]]]) -> None:
    """These are looked at now."""
    place.mkdir(parents=True, exist_ok=True)
    for old in place.iterdir():
        old.unlink()
    for name, (text, _) in seen.items():
        (place / f"{name}.txt").write_text(text)
    styles = {name: digests for name, (_, digests) in sorted(seen.items())}
    (place / "styles.json").write_text(json.dumps(styles, indent=1, sort_keys=True) + "\n")
