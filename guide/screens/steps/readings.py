"""Readings round a turn: how many positions, one value after the other, the first one again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import takewhile
from typing import Any, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.widget import Widget
from textual.widgets import Input, Static

from guide.front.turn import Doubt, High, Rolls, Trouble, Turn
from guide.measure.numerals import parse_number
from guide.plain import N_, Refusal
from guide.present.chuck_face import positions
from guide.present.sweep import Sweep, sweep
from guide.screens.messages import OfferChanged
from guide.screens.steps.form import Offer
from guide.screens.steps.listening import DialChoices, ListeningForm
from guide.screens.steps.turn import face_of
from guide.screens.tongue import say
from guide.screens.widgets.face import FaceView
from guide.screens.widgets.field import NOT_KNOWN, Field
from guide.screens.widgets.inks import style_here
from guide.screens.widgets.sweep import SweepView
from guide.screens.widgets.taken import Taken
from guide.walk.sent_by import CLOSING

__all__ = ["Turn", "TurnForm"]

WATCHED = ("low", "high")
"""The lines of what was seen over a whole turn."""
SETTLED = 0.1
"""Seconds after which a line that came or went below the page has its place."""


class TurnForm(ListeningForm):
    """One line to type on, moved on from position to position; drawings beside and below it."""

    DEFAULT_CSS = """
    TurnForm .told { color: $warning; height: auto; padding: 0 0 1 2; }
    TurnForm #why { color: $quiet; height: auto; padding: 0 2; }
    TurnForm .turning { height: auto; margin: 0 0 1 0; }
    TurnForm .beside { height: auto; }
    TurnForm .column { width: 1fr; height: auto; }
    TurnForm .watched { layout: horizontal; height: 3; margin: 0; }
    TurnForm .watched .question { width: 1fr; height: 3; }
    TurnForm .watched Input { width: 16; margin: 0 1 0 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("f11", "one_back", show=False)]

    def __init__(
        self, turn: Turn, trouble: Trouble, high: High, doubt: Doubt, rolls: Rolls
    ) -> None:
        super().__init__()
        self.turn, self.trouble, self.high = turn, trouble, high
        self.doubt, self.rolls, self.doubted = doubt, rolls, ""
        self.unit = turn.unit
        self.count = turn.counts[0]
        self.values: list[str] = []
        self.noun = turn.say(N_("screw"))
        self.offered = self.offers()
        """The buttons as they were offered last; while they stay, none is made anew."""

    def compose(self) -> ComposeResult:
        """What is said first, the number of positions, readings and drawings, the watched turn."""
        for each in self.turn.told:
            yield Static(f"! {each}", classes="told", markup=False)
        if self.turn.why:
            yield Static(self.turn.why, id="why", markup=False)
        options = [
            (str(count), say(N_("at {count}"), count=count)) for count in sorted(self.turn.counts)
        ]
        question = say(N_("How many positions round the turn?"))
        yield DialChoices("count", question, options, chosen=str(self.count))
        with Vertical(classes="turning"):
            with Horizontal(classes="beside"):
                with Vertical(classes="column"):
                    yield Field("reading", " ", dial=True, hands_over=True)
                    yield SweepView(self.turn.marks, self.turn.unit, style_here())
                    yield from self._watched()
                yield FaceView(face_of(self.turn), self.noun, map(float, self.angles))
            yield Taken(self.turn)
        yield DialChoices(
            "rolled",
            say(N_("The pointer may have passed its zero on the way. Did it?")),
            [("yes", say(N_("yes, it went round"))), ("no", say(N_("no, read as typed")))],
        )

    def _watched(self) -> Iterator[Field]:
        """The lowest and the highest that were seen over a whole turn."""
        low = say(N_("Watched over a turn: lowest (or blank)"))
        high = say(N_("Watched over a turn: highest (or blank)"))
        yield Field("low", low, dial=True, classes="watched")
        yield Field("high", high, dial=True, classes="watched")

    def on_mount(self) -> None:
        """Begin at the first position, unless the page is gone before it was whole."""
        if not self.query(Field):
            return
        self._show()
        self.watch(self.screen.query_one("#page"), "virtual_size", self._laid_out, init=False)

    @property
    def angles(self) -> tuple[str, ...]:
        """Every position in order."""
        return positions(self.count)

    @property
    def complete(self) -> bool:
        """Whether every position and the first one again are read."""
        return len(self.values) > self.count

    @property
    def begun(self) -> bool:
        """An instrument may have typed before the page was whole."""
        return bool(self.values)

    def first(self) -> Widget:
        """The line to type on."""
        return self._field("low").entry if self.complete else self._entry

    def line(self) -> Field | None:
        """Where a value goes while there is something to read."""
        return None if self.complete else self._field("reading")

    def reading_on(self, line: Field) -> str:
        """Readings of the turn are numbered from 1, the first one again closes it."""
        if line.name != "reading":
            return super().reading_on(line)
        place = len(self.values)
        return CLOSING if place == self.count else str(place + 1)

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
        back = ("back", say(N_("One back   /")))
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
            self.take(value)
        else:
            sentence = self._watched_trouble(name, value)
            self.complain(sentence)
            if onward and not sentence:
                self.onward(name)
                if name == WATCHED[0] and not self.away:
                    self._field(WATCHED[1]).retype()

    def _watched_trouble(self, name: str, value: str) -> str:
        """What is wrong with a watched value; its line keeps the number alone."""
        if name == "rolled" or not value:
            return ""
        if value == NOT_KNOWN:
            self._field(name).put("")
            return ""
        number, sentence = self.number(value)
        sentence = sentence or self.trouble(number)
        if sentence:
            self._field(name).put_back(value)
        else:
            self._field(name).entry.value = number
        return sentence

    def first_focus(self) -> None:
        """The focus goes where typing goes on."""
        self.focus_on(self._field("low") if self.complete else self._field("reading"))

    def _recount(self, count: int) -> None:
        """Another number of positions; readings that were typed for other angles do not count."""
        if count != self.count:
            self.count, self.values = count, []
            self._begin_anew()
            self.query_one(FaceView).expect(map(float, self.angles))
            self._show()

    def take(self, typed: str) -> None:
        """One value as typed, or a sentence and nothing lost."""
        if self.complete:
            self._nowhere(typed)
            return
        number, sentence = self.number(typed)
        if sentence := sentence or self.trouble(number) or self._doubt_once(number):
            self.complain(sentence)
            self._field("reading").put_back(typed)
            self.focus_on(self._entry)
            self._field("reading").scroll_visible(animate=False)
            return
        self.complain("")
        self.doubted = ""
        self.values.append(number)
        self._show()
        self.first_focus()
        self._laid_out()

    def _doubt_once(self, typed: str) -> str:
        """A value far from its neighbours is asked about once; typed again it is believed."""
        if typed == self.doubted:
            return ""
        self.doubted = typed
        return self.doubt(self.values, typed)

    def on_resize(self, event: events.Resize) -> None:
        """What is above the line has gone or come."""
        self._laid_out()

    def _laid_out(self) -> None:
        """Keep the readings in sight; once more when the lines round the page have settled."""
        if self.values:
            self.call_after_refresh(self._in_sight)
            self.set_timer(SETTLED, self._in_sight)

    def _in_sight(self) -> None:
        """The line to type on, and of what is drawn beside and below it as much as fits."""
        if not self.is_attached:
            return
        page, turning = self.screen.query_one("#page"), self.query_one(".turning")
        top, tall = _place_on(page, turning), turning.outer_size.height
        put = min(max(page.scroll_offset.y, top + tall - page.size.height), top)
        if put != page.scroll_offset.y:
            page.scroll_to(y=put, animate=False, force=True)

    def one_back(self) -> bool:
        """A stroke where one reads takes the last value back, as it does in lines."""
        on_high = self._field("high").entry.has_focus
        if not self.values or on_high or not isinstance(self.app.focused, Input):
            return False
        self.action_one_back()
        return True

    def action_one_back(self) -> None:
        """The last value comes back to be typed again; the watched stay while the turn does."""
        if self.values:
            self._entry.value = ""
            self._field("reading").put_back(self.values.pop())
            self.sent.pop(self.reading_on(self._field("reading")), None)
            if len(self.values) < self.count:
                self._begin_anew()
            self._show()
            self.first_focus()

    def _begin_anew(self) -> None:
        """What was watched belongs to the turn that was read, and goes with it."""
        for name in WATCHED:
            self._field(name).put("")
            self.sent.pop(name, None)
        self._rolled.chosen = ""

    def kept(self) -> Mapping[str, Any]:
        """Every reading, and what was watched."""
        turn = {"count": self.count, "values": self.values, "sent": self.sent}
        lines = {each.name: each.value for each in self.query(Field)}
        return {**turn, "lines": lines, "rolled": self._rolled.value}

    def put_back(self, kept: Mapping[str, Any]) -> None:
        """The same turn, read as far as it was."""
        self.count, self.values = kept["count"], [*kept["values"]]
        self.sent = {**kept["sent"]}
        self._row("count").chosen, self._rolled.chosen = str(self.count), kept["rolled"]
        self.query_one(FaceView).expect(map(float, self.angles))
        for name, each in kept["lines"].items():
            self._field(name).put(each)
        self._show()

    def pressed(self, name: str) -> None:
        """Next, record or back; never by a key of a value that a dial typed."""
        if self.of_a_value(name):
            return
        if name == "back":
            self.action_one_back()
        elif not self.complete:
            typed, self._entry.value = self._entry.value.strip(), ""
            self.take(typed)
        else:
            self._record()

    def _record(self) -> None:
        """Everything as typed."""
        watched = []
        for name in WATCHED:
            value = self._field(name).value
            if sentence := self._watched_trouble(name, value):
                self.complain(sentence)
                self._field(name).focus()
                return
            watched.append(self._field(name).value)
        if any(watched) and not all(watched):
            self.complain(say(N_("A watched turn is two values: give both, or neither.")))
            self._field(WATCHED[watched.index("")]).focus()
            return
        data: dict[str, object] = {
            "angles": list(self.angles),
            "values": self.values[: self.count],
            "closing": self.values[self.count],
        }
        if self._rolled.display:
            data["rolled_over"] = self._rolled.value
        self.act("record", **data, **({"watched": watched} if any(watched) else {}))

    @property
    def _rolled(self) -> DialChoices:
        """The question about the pointer's zero."""
        return self._row("rolled")

    def _row(self, name: str) -> DialChoices:
        """A row of answers by its name."""
        return next(each for each in self.query(DialChoices) if each.name == name)

    def _show(self) -> None:
        """The list, the question and the drawings by what is typed so far."""
        at = min(len(self.values), self.count)
        angle = float(self.angles[at % self.count])
        for each in (self._row("count"), *self.query("#why")):
            each.display = not self.values
        for name in WATCHED:
            self._field(name).display = self.complete
        self._rolled.display = self.complete and self.rolls(self.values[: self.count])
        self._field("reading").display = not self.complete
        self._field("reading").ask(self._ask(at, angle))
        self.query_one(Taken).show(self.angles, self.values)
        known = self.values[: self.count]
        high = self.high(self.angles[: len(known)], known)
        self.query_one(FaceView).turn_to(angle, high)
        self.query_one(SweepView).show(self._sweep(), self.count, self._places())
        if self.offered != self.offers():
            self.offered = self.offers()
            self.post_message(OfferChanged())

    def _ask(self, at: int, angle: float) -> str:
        """What is read next, and where."""
        if at == self.count:
            return say(N_("Back at {angle}°: what does it read now?"), angle="0")
        mark = self.turn.marks.get(angle)
        where = self.turn.say(N_(", screw {mark} under the plunger"), mark=mark) if mark else ""
        return say(N_("Turn to {angle}°{where}. Reads ({unit}):"),
                          angle=f"{angle:g}", where=where, unit=self.turn.unit)  # fmt: skip

    def _sweep(self) -> Sweep:
        """The readings so far as numbers; those that cannot be read as one are left out."""
        values = [value for value in map(_as_number, self.values) if value is not None]
        again = values[self.count] if len(values) > self.count else None
        return sweep([float(each) for each in self.angles], values[: self.count], again)

    def _places(self) -> int:
        """Decimals of the finest reading."""
        return max((len(each.partition(".")[2]) for each in self.values), default=0)


def _place_on(page: Widget, widget: Widget) -> int:
    """Lines from the top of a page down to a widget on it, wherever it has been moved to."""
    inside = list(takewhile(lambda each: each is not page, widget.ancestors_with_self))
    parts = (each.virtual_region.y for each in inside if isinstance(each, Widget))
    edges = (each.gutter.top for each in inside[1:] if isinstance(each, Widget))
    return sum(parts) + sum(edges)


def _as_number(typed: str) -> float | None:
    """A reading as a number; None where it is none."""
    try:
        return float(parse_number(typed))
    except Refusal:
        return None
