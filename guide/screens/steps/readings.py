"""Readings round a turn: how many positions, one value after the other, the first one again."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from guide.plain import N_
from guide.present.chuck_face import positions
from guide.screens.messages import OfferChanged
from guide.screens.steps.form import Form, Offer
from guide.screens.tongue import say
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.face import Face
from guide.screens.widgets.field import Field


@dataclass(frozen=True, slots=True)
class Turn:
    """What a turn is read with: plain values."""

    unit: str
    marks: Mapping[float, str]
    """Screws by their angle; empty where there are none yet."""
    counts: tuple[int, ...]
    """How many positions may be chosen, the best first."""
    way: str
    """Which way the face turns, seen from the tailstock."""


Trouble = Callable[[str], str]
"""What is wrong with a reading as typed; blank when nothing is."""
High = Callable[[Sequence[str], Sequence[str]], float | None]
"""The high spot by angles and values so far, where it can be told."""
Doubt = Callable[[Sequence[str], str], str]
"""Why a value beside the others may be a slip; blank when it may well be so."""
Rolls = Callable[[Sequence[str]], bool]
"""Whether the pointer may have passed its zero in these values."""


class TurnForm(Form):
    """One line to type on, moved on from position to position; the list beside the drawing."""

    DEFAULT_CSS = """
    TurnForm .beside { height: auto; }
    TurnForm .column { width: 1fr; height: auto; }
    TurnForm #taken { height: auto; text-wrap: nowrap; padding: 0 2; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("f11", "one_back", show=False)]

    def __init__(
        self, turn: Turn, trouble: Trouble, high: High, doubt: Doubt, rolls: Rolls
    ) -> None:
        super().__init__()
        self.turn, self.trouble, self.high = turn, trouble, high
        self.doubt, self.rolls, self.doubted = doubt, rolls, ""
        self.count = turn.counts[0]
        self.values: list[str] = []
        self.noun = say(N_("screw"))

    def compose(self) -> ComposeResult:
        """The number of positions, the readings and the face, the watched turn."""
        options = [
            (str(count), say(N_("at {count}"), count=count)) for count in sorted(self.turn.counts)
        ]
        question = say(N_("How many positions round the turn?"))
        yield Choices("count", question, options, chosen=str(self.count), stacked=False)
        with Horizontal(classes="beside"):
            with Vertical(classes="column"):
                yield Field("reading", " ")
                yield Static("", id="taken", markup=False)
            yield Face(self.turn.marks, self.noun, self.turn.way)
        yield Choices(
            "rolled",
            say(N_("The pointer may have passed its zero on the way. Did it?")),
            [("yes", say(N_("yes, it went round"))), ("no", say(N_("no, read as typed")))],
            stacked=False,
        )
        yield Field("low", say(N_("Watched over a whole turn: the lowest (may stay blank)")))
        yield Field("high", say(N_("Watched over a whole turn: the highest (may stay blank)")))

    def on_mount(self) -> None:
        """Begin at the first position."""
        self._show()

    @property
    def angles(self) -> tuple[str, ...]:
        """Every position in order."""
        return positions(self.count)

    @property
    def complete(self) -> bool:
        """Whether every position and the first one again are read."""
        return len(self.values) > self.count

    def first(self) -> Widget:
        """The line to type on."""
        return self._field("low").entry if self.complete else self._entry

    @property
    def _entry(self) -> Input:
        """Where a reading is typed."""
        return self._field("reading").entry

    def _field(self, name: str) -> Field:
        """A line by its name."""
        return next(each for each in self.query(Field) if each.name == name)

    def offers(self) -> tuple[Offer, ...]:
        """Enter a reading, or record all of them; always a way back."""
        label = say(N_("Record these readings   ⏎")) if self.complete else say(N_("Next   ⏎"))
        back = ("back", say(N_("One back")))
        return (("record", label), back) if self.values else (("record", label),)

    @on(Input.Changed)
    def _typing(self, event: Input.Changed) -> None:
        """A complaint is about what was typed before."""
        event.stop()

    def chosen(self, name: str, value: str, onward: bool) -> None:
        """Another number of positions, a reading, or a watched value."""
        if name == "count":
            self._recount(int(value))
            if onward:
                self.first_focus()
        elif name == "reading":
            self.take()
        elif sentence := self.trouble(value) if value else "":
            self.complain(sentence)
        else:
            self.complain("")
            self.onward(name)

    def first_focus(self) -> None:
        """The focus goes where typing goes on."""
        (self._field("low") if self.complete else self._field("reading")).focus()

    def _recount(self, count: int) -> None:
        """Another number of positions; readings that were typed for other angles do not count."""
        if count != self.count:
            self.count, self.values = count, []
            self._show()

    def take(self) -> None:
        """One value as typed, or a sentence and nothing lost."""
        typed = self._field("reading").value
        if sentence := self.trouble(typed) or self._doubt_once(typed):
            self.complain(sentence)
            self._entry.focus()
            return
        self.complain("")
        self.doubted = ""
        self.values.append(typed)
        self._entry.value = ""
        self._show()
        self.first_focus()
        self.call_after_refresh(self._in_sight)

    def _doubt_once(self, typed: str) -> str:
        """A value far from its neighbours is asked about once; typed again it is believed."""
        if typed == self.doubted:
            return ""
        self.doubted = typed
        return self.doubt(self.values, typed)

    def _in_sight(self) -> None:
        """The line to type on and the face beside it."""
        self.query_one(".beside").scroll_visible(animate=False)

    def action_one_back(self) -> None:
        """The last value comes back to be typed again."""
        if self.values:
            self._entry.value = self.values.pop()
            self._show()
            self.first_focus()

    def pressed(self, name: str) -> None:
        """Next, record or back."""
        if name == "back":
            self.action_one_back()
        elif not self.complete:
            self.take()
        else:
            self._record()

    def _record(self) -> None:
        """Everything as typed."""
        watched = [self._field("low").value, self._field("high").value]
        data: dict[str, object] = {
            "angles": list(self.angles),
            "values": self.values[: self.count],
            "closing": self.values[self.count],
        }
        if self._rolled.display:
            data["rolled_over"] = self._rolled.value
        self.act("record", **data, **({"watched": watched} if any(watched) else {}))

    @property
    def _rolled(self) -> Choices:
        """The question about the pointer's zero."""
        return next(each for each in self.query(Choices) if each.name == "rolled")

    def _show(self) -> None:
        """The list, the question and the drawing by what is typed so far."""
        at = min(len(self.values), self.count)
        angle = float(self.angles[at % self.count])
        for name in ("low", "high"):
            self._field(name).display = self.complete
        self._rolled.display = self.complete and self.rolls(self.values[: self.count])
        self._field("reading").display = not self.complete
        self._field("reading").ask(self._ask(at, angle))
        self.query_one("#taken", Static).update(self._list())
        known = self.values[: self.count]
        self.query_one(Face).turn_to(angle, self.high(self.angles[: len(known)], known))
        self.post_message(OfferChanged())

    def _ask(self, at: int, angle: float) -> str:
        """What is read next, and where."""
        if at == self.count:
            return say(N_("Back at {angle}°: what does it read now?"), angle="0")
        mark = self.turn.marks.get(angle)
        where = say(N_(", screw {mark} under the plunger"), mark=mark) if mark else ""
        return say(N_("Turn to {angle}°{where}. Reads ({unit}):"),
                          angle=f"{angle:g}", where=where, unit=self.turn.unit)  # fmt: skip

    def _list(self) -> Content:
        """What was read, a position a line."""
        lines = []
        for place, value in enumerate(self.values):
            back = place == self.count
            angle = 0.0 if back else float(self.angles[place])
            mark = self.turn.marks.get(angle)
            name = say(N_("screw {mark}"), mark=mark) if mark else ""
            again = say(N_("again")) if back else name
            lines.append(f"{angle:>5g}°  {again:<9} {value:>10}")
        return Content("\n".join(lines))
