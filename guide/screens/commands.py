"""The commands of the setup sheet: key, footer, help and what they do, from one place each."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import TYPE_CHECKING

from textual.binding import Binding

from guide.plain import N_
from guide.screens.tongue import say
from guide.walk.state import MADE_SAFE, PAUSED

if TYPE_CHECKING:
    from guide.screens.sheet import SetupSheet


DONE = ("done", "acknowledge", "record")
"""What goes on from a step."""


class Command(ABC):
    """One command: `key` anywhere, `letter` where nothing is being typed."""

    name = ""
    key = ""
    letter = ""
    footer = ""
    told = ""
    """What it does, for the help."""

    def open_at(self, sheet: SetupSheet) -> bool:
        """Whether it can be given now."""
        return not sheet.state.ended

    @abstractmethod
    async def give(self, sheet: SetupSheet) -> None:
        """Do it."""


class Help(Command):
    """What the keys do."""

    name, key, letter = "help", "f1", "question_mark"
    footer, told = N_("help"), N_("Show what every key does.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Always."""
        return True

    async def give(self, sheet: SetupSheet) -> None:
        """Show the help over the sheet."""
        from guide.screens.modals.help import HelpScreen

        lines = [(shown_key(each.key), each.letter, each.told) for each in COMMANDS]
        await sheet.app.push_screen(HelpScreen(lines))


class Detail(Command):
    """Full or brief."""

    name, key, letter = "detail", "f2", "d"
    footer, told = N_("detail"), N_("Say everything of a step, or only the short list.")

    async def give(self, sheet: SetupSheet) -> None:
        """Turn it over."""
        sheet.detail = "brief" if sheet.detail == "full" else "full"


class Correct(Command):
    """Correct an answer."""

    name, key, letter = "correct", "f3", "c"
    footer, told = N_("correct"), N_("Correct an answer given before; the old one stays on record.")

    async def give(self, sheet: SetupSheet) -> None:
        """Ask which, the new answer and why."""
        from guide.screens.modals.correct import CorrectScreen
        from guide.screens.pages import question, trouble

        facts = sheet.setup.procedure.facts
        given = {n: v for n, v in sheet.state.facts.items() if n in facts and n != "lathe"}
        if not given:
            sheet.complain_with(say(N_("Nothing was answered yet that could be corrected.")))
            return
        asked = [question(facts[name], each) for name, each in given.items()]
        told = await sheet.app.push_screen_wait(
            CorrectScreen(asked, lambda name, text: trouble(facts[name], text))
        )
        if told:
            sheet.enter("correct", {**told, "old": given[told["fact"]]})


class Again(Command):
    """Do the step just done again."""

    name, key, letter = "again", "f4", "a"
    footer, told = N_("again"), N_("Do the step just done again.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Where the step just done is one that can be done again."""
        step = sheet.setup.procedure.by_name.get(sheet.state.entries[-1].place)
        back = step is not None and (step.again is not None or step.kind in ("readings", "facts"))
        return back and sheet.setup.step is not None and sheet.state.entries[-1].kind in DONE

    async def give(self, sheet: SetupSheet) -> None:
        """The step of the last entry."""
        sheet.enter("again", {"step": sheet.state.entries[-1].place})


class Pause(Command):
    """Pause the setup."""

    name, key, letter = "pause", "f5", "p"
    footer, told = N_("pause"), N_("Pause; everything is looked at again before work goes on.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Not where it is paused already."""
        return not sheet.state.ended and sheet.state.place not in (PAUSED, MADE_SAFE)

    async def give(self, sheet: SetupSheet) -> None:
        """With power on, stop and isolate come first; then the reason."""
        await sheet.pause(N_("Why is it paused? (may stay blank)"))


class TakeOver(Command):
    """Another person goes on."""

    name, key, letter = "take_over", "f6", "t"
    footer, told = N_("take over"), N_("Another person goes on from here.")

    async def give(self, sheet: SetupSheet) -> None:
        """Ask who."""
        from guide.screens.people import AskScreen

        asks = AskScreen.for_person(N_("Who takes over?"), sheet.people())
        told = await sheet.app.push_screen_wait(asks)
        if told:
            sheet.enter("take-over", {"from": sheet.state.person}, person=told["person"])


class Abandon(Command):
    """End the setup unfinished."""

    name, key, letter = "abandon", "f8", "x"
    footer, told = N_("abandon"), N_("End this setup unfinished, with a reason.")

    async def give(self, sheet: SetupSheet) -> None:
        """Ask why."""
        from guide.screens.modals.reason import ReasonScreen

        asks = ReasonScreen(
            N_("End this setup unfinished?"),
            N_("The record keeps what is on the lathe now, and the next setup begins there."),
            N_("Why is it abandoned?"),
            wanted=True,
        )
        why = await sheet.app.push_screen_wait(asks)
        if why is not None:
            sheet.enter("abandon", {"why": why})


class Leave(Command):
    """Close the sheet."""

    name, key, letter = "leave", "f10", "q"
    footer, told = N_("leave"), N_("Close this sheet; a running setup is paused.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Always."""
        return True

    async def give(self, sheet: SetupSheet) -> None:
        """Pause what runs, then close."""
        await sheet.leave()


COMMANDS: tuple[Command, ...] = (
    Help(), Detail(), Correct(), Again(), Pause(), TakeOver(), Abandon(), Leave(),
)  # fmt: skip
BY_NAME = {command.name: command for command in COMMANDS}


def shown_key(key: str) -> str:
    """A key as it is printed on the keyboard."""
    return key.upper()


def bindings() -> list[Binding]:
    """Every command's key, and its letter for where nothing is typed."""
    return [
        Binding(f"{each.key},{each.letter}", f"give('{each.name}')", each.footer, show=False)
        for each in COMMANDS
    ]


def at_foot(sheet: SetupSheet) -> list[tuple[str, str, str]]:
    """The commands that can be given now: name, key, words."""
    return [
        (each.name, shown_key(each.key), say(each.footer))
        for each in COMMANDS
        if each.open_at(sheet)
    ]
