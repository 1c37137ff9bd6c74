"""A number chooses on a page whose answers stand there from before, or it is said how to change."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Static

from guide.screens.onward import in_sight
from guide.screens.steps.facts import FactsForm
from guide.screens.widgets.bar import ActionBar

BASE = (Path(__file__).parents[1] / "broken" / "sound-base.yaml").read_text(encoding="utf-8")
FACTS = """\
  bore:
    ask: What is the bore now?
    kind: choice
    of: {right: right, small: too small}
    usual: small
  rule:
    ask: Which rule?
    kind: choice
    of: {guarded: guarded, simple: simple}
    usual: guarded
stages:
"""
STEP = """\
      - step: measured
        kind: facts
        title: Say what it measures
        full: Say what it measures.
        brief: What it measures.
        ask: [%s]
      - step: nose-facts
"""


@pytest.fixture
def page(tmp_path: Path):
    """Writes a procedure whose first page asks what already has an answer."""

    def write(asked: str) -> str:
        text = BASE.replace("stages:\n", FACTS, 1).replace(
            "      - step: nose-facts\n", STEP % asked, 1
        )
        if "rule" not in asked:
            text = text.replace("ask: [nose]", "ask: [nose, rule]", 1)
        path = tmp_path / "measured.yaml"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


async def test_a_number_chooses_where_the_page_asks_one_thing(opened, quick, page) -> None:
    """What stood there is not recorded for want of a key that reaches it."""
    async with opened(quick, procedure=page("bore")) as at:
        await at.named()
        assert isinstance(at.form, FactsForm)
        assert at.form.told() == {"bore": "small"}
        assert at.app.screen.query_one(ActionBar).has_focus_within
        await at.pilot.press("1")
        await at.pilot.pause()
        assert at.form.told() == {"bore": "right"}
        assert at.app.screen.query_one(ActionBar).has_focus_within


async def test_with_several_answers_it_is_said_how_to_change_one(opened, quick, page) -> None:
    """No number is taken for a line that nobody pointed at."""
    async with opened(quick, procedure=page("bore, rule")) as at:
        await at.named()
        before = at.form.told()
        await at.pilot.press("1")
        await at.pilot.pause()
        assert at.form.told() == before
        assert "Every line has an answer" in at.text("#complaint")
        await at.pilot.press("up", "1")
        await at.pilot.pause()
        assert at.form.told()["rule"] == "guarded"
        assert "Every line" not in at.text("#complaint")


async def test_of_a_widget_whose_page_is_going_nothing_is_in_sight(opened, quick, page) -> None:
    """A key that comes just then turns the page, and ends nothing."""
    async with opened(quick, procedure=page("bore")) as at:
        await at.named()
        assert not in_sight(at.app.screen, Static("gone"))
