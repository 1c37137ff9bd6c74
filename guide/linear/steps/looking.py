"""Looking at the whole machine: every variable, nothing chosen beforehand."""

from __future__ import annotations

from guide.front.looks import Look, looks_of, rule_under, seen_under
from guide.linear.sheet import Sheet
from guide.linear.sitting import Sitting
from guide.linear.talk import Line
from guide.plain import N_
from guide.present.tongue import say


class Looking(Sheet):
    """What is seen, line by line, becomes the machine state."""

    confirm = N_("0: this is what I see. ? reads out every line, with its number to change it.")
    reads_out = False

    def __init__(self, at: Sitting) -> None:
        super().__init__(at.talk)
        self.at, self.looks = at, looks_of(at.state)

    def lines(self) -> tuple[Line, ...]:
        """Every variable; what may be seen of it hangs on the power."""
        may = seen_under(self.at.state, self.told.get("power", ""))
        return tuple(Line(each.name, f"{each.ask}:", may[each.name], note=_note(each))
                     for each in self.looks)  # fmt: skip

    def offer(self, line: Line) -> None:
        """The rule of the wrench, before the power is answered."""
        if line.name == "power":
            self.talk.lines.tell(rule_under(self.at.state, ""))

    def answered(self, name: str, value: str) -> None:
        """The same once it is."""
        if name == "power":
            self.talk.lines.tell(rule_under(self.at.state, value))


def _note(each: Look) -> str:
    """What was recorded last, which is no answer."""
    return say(N_("Recorded last: {value}."), value=each.recorded) if each.recorded else ""


def looking(at: Sitting, trigger: str) -> None:
    """Ask every line, and enter what is seen."""
    Looking(at).fill(lambda told: at.enter(trigger, {"seen": told}))
