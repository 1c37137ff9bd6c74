"""Which language the screens speak, asked over a setup: it follows the person at any moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult

from guide.plain import N_
from guide.screens.liked import ASKED, HOLDS, NOT_KEPT, TITLE, options
from guide.screens.messages import Chosen
from guide.screens.modals.window import Window
from guide.screens.tongue import language, say
from guide.screens.widgets.choices import Choices
from guide.settings import keep

if TYPE_CHECKING:
    from guide.screens.app import Spindleside


class TongueScreen(Window[str]):
    """Speaks the language that is chosen, as soon as it is, and gives it back."""

    app: Spindleside
    title_text = TITLE
    told_text = HOLDS
    yes = ""
    no = N_("Back   *")

    def questions(self) -> ComposeResult:
        """Every language in its own words."""
        now = language()
        yield Choices("language", say(ASKED["language"]), options("language"), chosen=now)

    @on(Chosen)
    async def _speak(self, event: Chosen) -> None:
        """This one, once it is pressed; not while the arrows go past it."""
        event.prevent_default()
        event.stop()
        if not event.onward:
            return
        try:
            self.app.show_as(keep(self.app.settings, event.name, event.value))
        except OSError as error:
            self.complain(say(NOT_KEPT, why=error.strerror or error))
            return
        await self.app.start_page.say_anew()
        self.dismiss(event.value)
