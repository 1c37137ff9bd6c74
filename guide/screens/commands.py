"""The commands of the setup sheet: key, footer, help and what they do, from one place each."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from typing import TYPE_CHECKING

from textual.binding import Binding

from guide.front.doable import correctable, may_deviate_here, may_do_again, runs
from guide.front.signing_words import DEVIATED, NOBODY_ELSE
from guide.plain import N_
from guide.present.usual import ABANDONED
from guide.screens.tongue import language, say, written

if TYPE_CHECKING:
    from guide.people.hand import Hand
    from guide.screens.sheet import SetupSheet


class Command(ABC):
    """One command: `key` anywhere, `letter` where nothing is being typed, the menu for both."""

    name = ""
    key = ""
    letter = ""
    footer = ""
    told = ""
    """What it does, for the help."""
    on_pad = ""
    """What gives it on the menu, where the last sign of its key does not."""

    def open_at(self, sheet: SetupSheet) -> bool:
        """Whether it can be given now."""
        return not sheet.state.ended

    @abstractmethod
    async def give(self, sheet: SetupSheet) -> None:
        """Do it."""


class Help(Command):
    """What the words on the page mean, and what the keys do."""

    name, key, letter = "help", "f1", "question_mark"
    footer, told = N_("help"), N_("Explain the words on this page, and show what every key does.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Always."""
        return True

    async def give(self, sheet: SetupSheet) -> None:
        """Show the help over the sheet."""
        from guide.screens.modals.help import HelpScreen
        from guide.screens.said_here import said_here

        lines = [(shown_key(each.key), each.letter, each.told) for each in COMMANDS]
        page = said_here(sheet, "#present")
        await sheet.app.push_screen(HelpScreen(lines, page))


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
        from guide.front.questions import question, trouble
        from guide.screens.modals.correct import CorrectScreen

        facts, given = sheet.setup.procedure.facts, correctable(sheet.setup)
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
        return may_do_again(sheet.setup)

    async def give(self, sheet: SetupSheet) -> None:
        """The step of the last entry."""
        sheet.enter("again", {"step": sheet.state.entries[-1].place})


class Pause(Command):
    """Pause the setup."""

    name, key, letter = "pause", "f5", "p"
    footer, told = N_("pause"), N_("Pause; everything is looked at again before work goes on.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Not where it is paused already."""
        return runs(sheet.state)

    async def give(self, sheet: SetupSheet) -> None:
        """With power on, stop and isolate come first; then the reason."""
        await sheet.pause(N_("Why is it paused? (may stay blank)"))


class TakeOver(Command):
    """Another person goes on."""

    name, key, letter = "take_over", "f6", "t"
    footer, told = N_("take over"), N_("Another person goes on from here.")

    async def give(self, sheet: SetupSheet) -> None:
        """Ask who, and where people sign on for the PIN."""
        from guide.screens.people import AskScreen
        from guide.screens.signing import signing

        people = sheet.people()
        if sheet.signed and not people:
            sheet.complain_with(say(NOBODY_ELSE))
            return
        attempt = signing(sheet.sign, sheet.go_on_with)
        asks = AskScreen.for_person(N_("Who takes over?"), people, attempt, sheet.signed)
        await sheet.app.push_screen_wait(asks)


class Deviate(Command):
    """A task that cannot be done as written."""

    name, key, letter = "deviate", "f7", "n"
    footer, told = N_("deviate"), N_("Record that this task was not done as written.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """At a task that is not a look; a gate is never passed this way, practice has no use."""
        return may_deviate_here(sheet.setup)

    async def give(self, sheet: SetupSheet) -> None:
        """Ask why, and who allows it."""
        from guide.screens.signing import deviation_of

        step, by = sheet.setup.step, sheet.state.person
        if step is None:
            return

        def enter(told: Mapping[str, str], hand: Hand | None) -> str:
            allowed = {"allowed": {"person": told["person"]}} if hand is None else {}
            data = {"why": told["why"], **allowed}
            return sheet.entered("deviate", data, person=by, beside=hand)

        asks = deviation_of(written(step.title), sheet.who_allow(), sheet.sign, enter)
        if await sheet.app.push_screen_wait(asks) and sheet.state.place == step.name:
            sheet.note(say(DEVIATED))


class SignOut(Command):
    """Nobody is signed on until somebody signs on again."""

    name, key, letter = "sign_out", "f9", "s"
    footer, told = N_("sign out"), N_("Sign out; whoever goes on gives a PIN.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Where people sign on."""
        return sheet.signed and not sheet.state.ended

    async def give(self, sheet: SetupSheet) -> None:
        """Sign out at once."""
        sheet.sign_out(N_("You have signed out. What was typed is kept for {person}."))


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
            usual=ABANDONED,
            yes=N_("End it   ⏎"),
        )
        why = await sheet.app.push_screen_wait(asks)
        if why is not None:
            sheet.enter("abandon", {"why": why})


class Ask(Command):
    """Ask the indicator on the wire for a value."""

    name, key, letter, on_pad = "ask", "f12", "r", "7"
    footer, told = N_("read dial"), N_("Ask the indicator on the wire for a value.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Where a dial is read, and the indicator has to be asked."""
        reads = sheet.form is not None and sheet.form.takes_values
        return reads and sheet.wires is not None and sheet.wires.asked

    async def give(self, sheet: SetupSheet) -> None:
        """What it answers goes on the line."""
        if sheet.wires is not None:
            sheet.wires.ask()


class Speak(Command):
    """Another language, whoever it is that reads now."""

    name, letter, on_pad = "speak", "l", "."
    footer, told = N_("language"), N_("Let these screens speak another language.")

    def open_at(self, sheet: SetupSheet) -> bool:
        """Always."""
        return True

    async def give(self, sheet: SetupSheet) -> None:
        """Ask which; then the sheet is said anew, with what was answered on it."""
        from guide.screens.modals.tongue import TongueScreen

        spoke = language()
        await sheet.app.push_screen_wait(TongueScreen(sheet.state.person))
        if language() != spoke:
            await sheet.say_anew()


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
    Help(), Detail(), Correct(), Again(), Pause(), TakeOver(), Deviate(), Abandon(), SignOut(),
    Leave(), Ask(), Speak(),
)  # fmt: skip
"""In the order of their keys."""
RARE = ("abandon", "detail", "correct", "again")
"""What is left out at the foot where it does not fit, the first one first; the help has it."""
BY_NAME = {command.name: command for command in COMMANDS}


def shown_key(key: str) -> str:
    """A key as it is printed on the keyboard."""
    return key.upper()


def bindings() -> list[Binding]:
    """Every command's key, and its letter for where nothing is typed."""
    return [
        Binding(_keys(each), f"give('{each.name}')", each.footer, show=False) for each in COMMANDS
    ]


def _keys(command: Command) -> str:
    """What gives a command, besides the menu."""
    return ",".join(filter(None, (command.key, command.letter)))


def at_foot(sheet: SetupSheet) -> list[tuple[str, str, str]]:
    """The commands that can be given now by a key anywhere: name, key, words."""
    return [(each.name, shown_key(each.key), say(each.footer)) for each in _open(sheet) if each.key]


def on_menu(sheet: SetupSheet) -> list[tuple[str, str, str]]:
    """All that can be given now, for the menu: name, the digit of its key, words."""
    return [(each.name, each.on_pad or each.key[-1], say(each.footer)) for each in _open(sheet)]


def _open(sheet: SetupSheet) -> list[Command]:
    """The commands that can be given now."""
    return [each for each in COMMANDS if each.open_at(sheet)]
