"""Which language the screens speak, asked over a setup: it follows the person at any moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult

from guide.front.own_language import keep_language, speak_for
from guide.plain import N_
from guide.present.visible import visible
from guide.screens.liked import ASKED, NOT_KEPT, TITLE, options
from guide.screens.messages import Chosen
from guide.screens.modals.window import Window
from guide.screens.tongue import language, say
from guide.screens.widgets.choices import Choices

if TYPE_CHECKING:
    from guide.screens.app import Spindleside

FOR_ONE = N_("It holds at once, and whenever {person} is at a setup here.")


class TongueScreen(Window[str]):
    """Speaks the language that somebody chooses, as soon as it is chosen, and gives it back."""

    app: Spindleside
    title_text = TITLE
    yes = ""
    no = N_("Back   *")

    def __init__(self, person: str) -> None:
        super().__init__()
        self.person = person
        self.told_text = say(FOR_ONE, person=visible(person))

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
            keep_language(self.person, event.value, self.app.settings)
        except OSError as error:
            self.complain(say(NOT_KEPT, why=error.strerror or error))
            return
        speak_for(self.person, self.app.settings)
        self.dismiss(event.value)
