"""Some questions one after the other, read out at the end, each open to be answered again."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from guide.linear.ends import Back
from guide.linear.talk import Line, Talk
from guide.plain import N_
from guide.present.tongue import say
from guide.present.visible import visible

RECORD = "0"


class Sheet:
    """Asks lines until all are answered and confirmed; what follows from answers is for others."""

    confirm = N_("0: record this. Or a number from above to answer that one again.")
    reads_out = True
    """Whether every answer is read out before it is confirmed."""

    def __init__(self, talk: Talk, lines: Iterable[Line] = ()) -> None:
        self.talk, self.given = talk, tuple(lines)
        self.told: dict[str, str] = {}
        self.stands: dict[str, str] = {}
        """What stands there before it is answered."""
        self.order: list[str] = []
        """What was answered, the latest last."""

    def lines(self) -> tuple[Line, ...]:
        """The questions by what has been told so far."""
        return self.given

    def offer(self, line: Line) -> None:
        """Told before a question is asked."""

    def answered(self, name: str, value: str) -> None:
        """Told of every answer."""

    def fill(self, enter: Callable[[dict[str, str]], bool]) -> None:
        """Ask until `enter` has taken the answers."""
        while True:
            self._ask_all()
            if self._confirmed():
                if enter({each.name: self.told[each.name] for each in self.lines()}):
                    return
                if len(self.lines()) == 1:
                    self._again(self.lines()[0].name)

    def forget(self, names: Iterable[str]) -> None:
        """These are to be asked again."""
        for name in names:
            self.told.pop(name, None)
            self.stands.pop(name, None)

    def _ask_all(self) -> None:
        """Every question that has no answer yet, in order."""
        while (line := next((each for each in self.lines() if self._open(each)), None)) is not None:
            try:
                self.offer(line)
                value = self.talk.answer(line, self.stands.get(line.name, ""))
            except Back:
                self._back()
                continue
            self.told[line.name] = value
            self.order = [*(each for each in self.order if each != line.name), line.name]
            self.answered(line.name, value)

    def _open(self, line: Line) -> bool:
        """Whether a question has no answer that it may have."""
        value = self.told.get(line.name)
        return value is None or bool(line.options and value not in dict(line.options))

    def _back(self) -> None:
        """The last answer is asked again, and stands there."""
        if not self.order:
            self.talk.say(N_("This is the first question here. Type * for what else can be done."))
            return
        name = self.order.pop()
        self._again(name)

    def _again(self, name: str) -> None:
        """An answer is asked again; what was answered stands there."""
        if name in self.told:
            self.stands[name] = self.told.pop(name)

    def _confirmed(self) -> bool:
        """Whether all of it is to be recorded; else one is asked again."""
        lines = self.lines()
        if len(lines) == 1 and self.reads_out:
            return True
        numbers = [(str(n), each.name) for n, each in enumerate(lines, start=1)]
        if self.reads_out:
            self.talk.lines.tell("\n".join(self.read_back()))
        picks = (*numbers, (RECORD, RECORD))
        more = "" if self.reads_out else "\n".join(self.read_back())
        last = Line("", say(self.confirm), help=more, trouble=lambda text: self._odd(text, picks))
        try:
            found = self.talk.answer(last)
        except Back:
            self._back()
            return False
        if found != RECORD:
            self._again(dict(numbers)[found])
        return found == RECORD

    def _odd(self, text: str, picks: Iterable[tuple[str, str]]) -> str:
        """What is wrong with a line at the end."""
        known = [number for number, _ in picks]
        if text in known:
            return ""
        return say(N_("“{text}” is none of the answers. Type one of these: {numbers}."),
                   text=visible(text), numbers=", ".join(known))  # fmt: skip

    def read_back(self) -> Iterator[str]:
        """Every question with its answer, by number."""
        for number, line in enumerate(self.lines(), start=1):
            value = self.told.get(line.name, "")
            words = dict(line.options).get(value, value) or say(N_("no answer"))
            yield f"{number}: {line.ask} {visible(words)}"
