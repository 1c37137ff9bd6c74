"""How the screens look and move, and how much they say at first: changed at once and kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult

from guide.plain import N_
from guide.present.words import own_name
from guide.screens.messages import Chosen
from guide.screens.page import Page, quiet
from guide.screens.tongue import language, say
from guide.screens.widgets.choices import Choices
from guide.settings import LIKED, keep, may_be, variable

if TYPE_CHECKING:
    from guide.screens.app import Spindleside

TITLE = N_("These screens")
HOLDS = N_("What is chosen holds at once, for everybody who uses this journal.")
NOT_KEPT = N_("It could not be kept: {why}.")
ASKED = {
    "look": N_("How do the screens look?"),
    "language": N_("Which language do they speak?"),
    "detail": N_("How much does a step say at first?"),
    "motion": N_("May anything move by itself? Only the needle of practice does."),
}
WORDS = {
    "dark": N_("light writing on dark"),
    "light": N_("dark writing on light"),
    "high-contrast": N_("high contrast: black, white, one yellow"),
    "no-colour": N_("no colour at all"),
    "terminal": N_("light or dark, as the terminal says"),
    "full": N_("everything"),
    "brief": N_("the short list; cautions and gates are the same"),
    "usual": N_("yes"),
    "still": N_("no: it jumps to where it stops"),
}


class LikedPage(Page[None]):
    """A row of answers for each setting; what stands is chosen."""

    app: Spindleside
    title_text = TITLE

    def body(self) -> ComposeResult:
        """Every setting with what may be chosen."""
        yield quiet(say(HOLDS))
        for name in LIKED:
            now = getattr(self.app.settings, name)
            yield Choices(name, say(ASKED[name]), options(name), chosen=now, help=self._held(name))

    def _held(self, name: str) -> str:
        """That what is chosen does not hold here, where the environment does."""
        if name not in self.app.settings.held:
            return ""
        by = "NO_COLOR" if name == "look" and not self.app.settings.colour else variable(name)
        return say(N_("{name} in the environment comes first here; what is chosen is kept."),
                   name=by)  # fmt: skip

    def on_mount(self) -> None:
        """Begin at the first."""
        self._row("look").focus()

    def _row(self, name: str) -> Choices:
        """The row of a setting."""
        return next(each for each in self.query(Choices) if each.name == name)

    @on(Chosen)
    async def _chosen(self, event: Chosen) -> None:
        """Keep it and show it."""
        event.stop()
        spoke = language()
        try:
            self.app.show_as(keep(self.app.settings, event.name, event.value))
            self.complain("")
        except OSError as error:
            self.complain(say(NOT_KEPT, why=error.strerror or error))
        if language() != spoke:
            await self._said_anew()

    async def _said_anew(self) -> None:
        """This page and the one below it in another language."""
        await self.app.start_page.say_anew()
        await self.recompose()
        self._row("language").focus()


def options(name: str) -> list[tuple[str, str]]:
    """What may be chosen, in words; a language calls itself by its own name."""
    may = may_be(name)
    if name != "language":
        return [(each, say(WORDS[each])) for each in may]
    return [(each, own_name(each)) for each in may]
