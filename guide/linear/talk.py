"""One question after the other: asked, answered by number or in words, asked again where not."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from guide.front.questions import Option, keys_of, must_be_known, none_of
from guide.linear.ends import Back, LeftAlone
from guide.linear.keys import Keys
from guide.linear.lines import Lines
from guide.plain import N_
from guide.present.tongue import say
from guide.present.visible import visible

AGAIN = ("?", "+")
"""Say it again with everything there is; a numeric keypad has no question mark."""
OTHER, BACK, NOT_KNOWN = "*", "/", "."
FIGURE = re.compile(r"[-+−]?[\d.,'’ /]*\d[\d.,]*")
"""A figure without a unit."""


def nothing() -> None:
    """Does nothing."""


def no_trouble(text: str) -> str:
    """Nothing is wrong."""
    return ""


@dataclass(frozen=True, slots=True)
class Line:
    """One question; with options it is answered by number, else in words or figures."""

    name: str
    ask: str
    options: tuple[Option, ...] = ()
    help: str = ""
    note: str = ""
    """What is known of it already and has to be answered all the same."""
    usual: tuple[str, ...] = ()
    """Answers that may be given by number instead of being typed."""
    units: tuple[str, ...] = ()
    may_be_unknown: bool = False
    may_be_blank: bool = False
    alone: str = ""
    """What a point alone stands for; blank where it stands for nothing."""
    trouble: Callable[[str], str] = no_trouble
    """What is wrong with an answer, as a sentence; blank when nothing is."""


class Talk:
    """Asks by lines and hears lines; `more` and `besides` are what `?` and `*` do."""

    def __init__(self, keys: Keys, lines: Lines) -> None:
        self.keys, self.lines = keys, lines
        self.more: Callable[[], None] = nothing
        self.besides: Callable[[], None] | None = None
        self.tick: Callable[[], None] | None = None
        """Raises `LeftAlone` once nobody has typed anything for too long."""
        self.left_alone: Callable[[], None] = nothing
        """Comes back once somebody has signed on again."""
        self.heard: Callable[[], None] = nothing
        """Told of every line: somebody is there."""

    def forget(self) -> None:
        """What the signs do at a setup is over with it."""
        self.more, self.besides, self.tick = nothing, None, None
        self.left_alone = self.heard = nothing

    @contextmanager
    def inside(self) -> Iterator[None]:
        """While something else is asked: `*` goes back from it."""
        before = self.besides
        self.besides = None
        try:
            yield
        finally:
            self.besides = before

    def say(self, sentence: str, /, **values: object) -> None:
        """One sentence of the catalogue."""
        self.lines.tell(say(sentence, **values))

    def hear(self) -> str:
        """The next line; whoever was left alone signs on first, and what came is thrown away."""
        self.lines.prompt()
        try:
            text = self.keys.line(self.tick)
            if self.tick is not None:
                self.tick()
        except LeftAlone:
            self.lines.end_line()
            self.left_alone()
            self.keys.drain()
            raise
        self.heard()
        return text.rstrip()

    def _hear_hidden(self) -> str:
        """The same, while the terminal shows nothing: it is silent before anything is asked."""
        with self.keys.silent():
            found = self.hear()
        if self.keys.terminal:
            self.lines.end_line()
        return found

    def answer(self, line: Line, standing: str = "") -> str:
        """What is answered; Enter alone takes what stands there.

        Raises `Back`, and `Elsewhere` where something else was done that moved the setup on.
        """
        while True:
            self._ask(line, standing)
            try:
                text = self.hear().strip()
            except LeftAlone:
                continue
            if not self._besides(text, line):
                found, sentence = self._taken(line, text, standing)
                if not sentence:
                    return found
                self.lines.tell(sentence)

    def choose(self, ask: str, options: Sequence[Option], help: str = "") -> str:
        """One of some answers."""
        return self.answer(Line("", ask, tuple(options), help))

    def secret(self, ask: str) -> str:
        """A PIN or passphrase, which a terminal does not show; a blank line goes back."""
        self.lines.tell(ask)
        try:
            found = self._hear_hidden().strip()
        except LeftAlone:
            raise Back from None
        if found in ("", BACK):
            raise Back
        return found

    def _ask(self, line: Line, standing: str) -> None:
        """The question, the answers by number, and what stands there."""
        self.lines.tell(line.ask)
        for number, words in self._numbered(line):
            self.lines.tell(f"{number}: {words}")
        if line.note:
            self.lines.tell(line.note)
        if line.alone:
            self.lines.tell(line.alone)
        elif line.may_be_unknown:
            self.say(N_("A point alone: not known here."))
        if line.may_be_blank and not standing:
            self.say(N_("Enter alone: no answer."))
        if standing:
            words = dict(line.options).get(standing, standing)
            self.say(N_("Stands there: {answer}. Enter takes it."), answer=visible(words))

    def _numbered(self, line: Line) -> list[tuple[str, str]]:
        """Each answer that can be given by number."""
        told = self._values(line)
        return list(zip(keys_of(tuple(value for value, _ in told)),
                        (words for _, words in told), strict=True))  # fmt: skip

    def _values(self, line: Line) -> tuple[Option, ...]:
        """Values and words of what can be given by number."""
        return line.options or tuple((each, visible(each)) for each in line.usual)

    def _besides(self, text: str, line: Line) -> bool:
        """Whether a line was one of the signs that are no answers."""
        if text == BACK:
            raise Back
        if text == OTHER:
            if self.besides is None:
                raise Back
            self.besides()
            return True
        if text in AGAIN:
            self.more()
            if line.help:
                self.lines.tell(line.help)
            return True
        return False

    def _taken(self, line: Line, text: str, standing: str) -> tuple[str, str]:
        """An answer and no sentence, or why it is none."""
        values = [value for value, _ in self._values(line)]
        if not text and (standing or line.may_be_blank):
            return standing, ""
        if text in (numbers := keys_of(values)):
            return values[numbers.index(text)], ""
        if line.options:
            return self._named(line, text, numbers)
        if text == NOT_KNOWN and line.alone:
            return NOT_KNOWN, ""
        if text == NOT_KNOWN and line.may_be_unknown:
            return "unknown", ""
        if line.units and FIGURE.fullmatch(text):
            text = f"{text} {self._unit(line.units)}"
        if not text:
            return "", say(N_("Nothing was typed. Answer it, or type / to go back."))
        return text, line.trouble(text)

    def _named(self, line: Line, text: str, numbers: Sequence[str]) -> tuple[str, str]:
        """An answer given in its own words, or what may be typed."""
        for value, words in line.options:
            if text and text.casefold() in (value.casefold(), words.casefold()):
                return value, ""
        if text == NOT_KNOWN and "unknown" in dict(line.options):
            return "unknown", ""
        if text == NOT_KNOWN:
            return "", must_be_known()
        if not text:
            return "", say(N_("Nothing was typed. Type one of these: {numbers}."),
                           numbers=", ".join(numbers))  # fmt: skip
        return "", none_of(text, numbers)

    def _unit(self, units: Sequence[str]) -> str:
        """The unit of a figure that was typed without one."""
        if len(units) == 1:
            return units[0]
        return self.choose(say(N_("In which unit?")), [(each, each) for each in units])
