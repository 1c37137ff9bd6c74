"""The bench beside the sheet: a live dial, what is in which hand, and the keys as they lie."""

from __future__ import annotations

from collections.abc import Callable

from rich.cells import set_cell_size
from textual import events
from textual.content import Content
from textual.geometry import Offset
from textual.message import Message
from textual.timer import Timer
from textual.widget import Widget

from guide.plain import N_
from guide.practice.bench import QUIET, Bench, Said
from guide.screens.practice.controls import ANYWHERE, BY_NAME, Control, offered
from guide.screens.practice.dial_face import dial_style, face, glass
from guide.screens.practice.pieces import Piece, PieceLine, drawn, hit, spot
from guide.screens.tongue import say
from guide.screens.widgets.inks import content, line, style_here
from guide.screens.widgets.wrapped import wrapped

FRAMES, FRAME = 6, 1 / 30
"""Pictures in which a needle goes from one place to another, and seconds between them."""
NARROW, WIDE = 38, 50
SMALL, LARGE = 19, 31
"""Columns of the dial where there is little room, and where there is much."""
ROOMY = 28
"""Lines from which on the large dial has room."""


class BackToSheet(Message):
    """The learner wants to type."""


class Typed(Message):
    """A display types what it shows."""

    def __init__(self, value: str) -> None:
        super().__init__()
        self.value = value


class BenchView(Widget, can_focus=True):
    """The simulated chuck under keys and pointer."""

    DEFAULT_CSS = """
    BenchView { height: 100%; width: 38; padding: 0 0 0 1; text-wrap: nowrap; display: none;
        border-left: solid $panel; }
    BenchView:focus { border-left: solid $accent; }
    BenchView.wordy { width: 46; }
    BenchView.wide { width: 50; }
    """

    FOCUS_ON_CLICK = False
    """A click is answered as things stood before it; only then the hand is here."""

    def __init__(
        self, bench: Bench, tools: tuple[str, ...] = (), before: Callable[[], None] = lambda: None
    ) -> None:
        super().__init__()
        self.bench, self.tools = bench, tools
        self.before = before
        """Called before anything is done here: what was typed until then was read as it stands."""
        self.page, self.count = 0, 8
        self.said: Said = QUIET
        self.needle = bench.needle()
        """Where the needle is drawn; it follows what it shows."""
        self.way: list[float] = []
        """The places that it still goes through."""
        self._going: Timer | None = None

    def on_mount(self) -> None:
        """The needle has its own clock while it moves."""
        self._going = self.set_interval(FRAME, self._one_frame, pause=True)

    def on_resize(self) -> None:
        """Another size of the terminal, or words that want another width."""
        self.set_class(self._is_wordy(), "wordy")
        self.set_class(self.app.size.width >= 110 and self.app.size.height >= 32, "wide")

    def _is_wordy(self) -> bool:
        """Whether some key's words are longer than the key in this language."""
        named = (each for keys in (self._row(self._by_key(), keys) for keys in ROWS[:3])
                 for each in keys[1:])  # fmt: skip
        return any(named)

    def stand(self, count: int | None = None) -> None:
        """Show the bench as it stands, with so many positions to the turn."""
        self.count = count or self.count
        self.said, self.page = QUIET, 0
        self._arrive()

    def do(self, name: str) -> None:
        """Do one thing at the bench; the needle follows."""
        if name == "more":
            self.page = 1 - self.page
        elif name == "go":
            self.screen.set_focus(self)
        elif name == "type":
            self._to_sheet()
        else:
            self._work(BY_NAME[name])
        self.refresh()

    def _work(self, control: Control) -> None:
        """One deed, and the way that the needle takes through it."""
        self.before()
        bench = self.bench
        angle, needle = bench.angle, bench.needle()
        self.said = control.deed(bench, self.count)
        if self._still():
            self._arrive()
            return
        turned = (bench.angle - angle + 180) % 360 - 180
        now = bench.needle()
        steps = [(each + 1) / FRAMES for each in range(FRAMES)]
        if turned:
            places = [bench.needle(angle + turned * part) for part in steps]
            self.way = [*places[:-1], now]
        else:
            self.way = [needle + (now - needle) * part for part in steps]
        if self._going is not None:
            self._going.resume()

    def _still(self) -> bool:
        """Whether nothing may move by itself."""
        settings = getattr(self.app, "settings", None)
        return settings is not None and settings.motion == "still"

    def _one_frame(self) -> None:
        """The needle goes on by one picture."""
        if self.way:
            self.needle = self.way.pop(0)
            self.refresh()
        elif self._going is not None:
            self._going.pause()

    def _arrive(self) -> None:
        """The needle stands where it is."""
        self.way, self.needle = [], self.bench.needle()
        self.refresh()

    def _to_sheet(self) -> None:
        """Type what is shown, where there is a display that can; else the learner types."""
        if self.bench.dial.digital:
            self.post_message(Typed(self.bench.shown()))
        else:
            self.post_message(BackToSheet())

    def on_key(self, event: events.Key) -> None:
        """The keypad, whichever page of it is open."""
        name = self.control_of(event.key, event.character or "")
        if name:
            event.stop()
            event.prevent_default()
            self.do(name)

    def control_of(self, key: str, sign: str) -> str:
        """What a key does here; blank for nothing."""
        if key == "enter":
            return "type"
        if sign == "/":
            return "more"
        by_key = {each.key: each.name for each in self._controls()}
        return by_key.get(sign) or ANYWHERE.get(key, "")

    def _controls(self) -> tuple[Control, ...]:
        """The controls of the open page."""
        return offered(self.page, self.tools, self.bench.bolts != "none")

    def on_click(self, event: events.Click) -> None:
        """A click on one of the controls."""
        inside = event.get_content_offset(self)
        lines = self._keys()
        row = inside.y - (self._height - len(lines)) if inside else -1
        name = hit(lines[row], inside.x) if inside and 0 <= row < len(lines) else "go"
        if name != "type":
            self.screen.set_focus(self)
        if name:
            self.do(name)

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The wheel turns the spindle on."""
        event.stop()
        self.do("on-hair")

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """And back."""
        event.stop()
        self.do("back-hair")

    def spot(self, name: str) -> Offset:
        """Where a control is drawn, for a pointer, within this widget; KeyError if it is not."""
        lines = self._keys()
        for row, pieces in enumerate(lines):
            if (column := spot(pieces, name)) is not None:
                return Offset(column + 2, self._height - len(lines) + row)
        raise KeyError(name)

    @property
    def _height(self) -> int:
        """Lines there are."""
        return self.content_size.height or 18

    @property
    def _width(self) -> int:
        """Columns there are."""
        return self.content_size.width or NARROW - 2

    def render(self) -> Content:
        """Dial and words, the glass, the keys at the foot."""
        keys = self._keys()
        room = self._height - len(keys)
        across = LARGE if room >= ROOMY - 5 and self._width > LARGE + 14 else SMALL
        glass_lines = self._glass()
        above = room - len(glass_lines)
        top = self._display() if self.bench.dial.digital else self._top(across, above)
        lines = [*top[:above], *glass_lines]
        gap = [Content("")] * (room - len(lines))
        return Content("\n").join([*lines, *gap, *map(drawn, keys)])

    def _top(self, across: int, above: int) -> list[Content]:
        """The round dial with how things stand beside it; the words alone where they need its room.

        The glass below shows the needle all the same.
        """
        style = dial_style(style_here())
        dial = self.bench.dial
        rows = [*map(line, face(dial, dial.pointer(self.needle), across, style))]
        words = self._words(self._width - across - 2)
        if len(words) > above:
            return self._words(self._width)
        words += [Content("")] * (len(rows) - len(words))
        return [Content.assemble(one, "  ", other) for one, other in zip(rows, words, strict=False)]

    def _display(self) -> list[Content]:
        """A display shows a number, with how things stand below it."""
        dial = self.bench.dial
        shown = f"{dial.nearest(self.needle):+f} {dial.unit}"
        frame = "─" * (len(shown) + 4)
        box = [f"┌{frame}┐", f"│  {shown}  │", f"└{frame}┘"]
        told = [Content.styled(each, "bold $accent") for each in box]
        return [*told, Content(""), *self._words(self._width)]

    def _words(self, width: int) -> list[Content]:
        """Where the spindle stands, the key, the bolts, and what the bench says."""
        lines = [(each, "") for told in self._stands() for each in wrapped(told, width)]
        sentence = say(self.said.sentence, **self.said.values)
        warning = "bold $warning" if self.said.refused else "$accent"
        lines += [(each, warning) for each in wrapped(sentence, width)]
        return [Content.styled(text, style) for text, style in lines]

    def _stands(self) -> list[str]:
        """How things stand, a line each."""
        bench = self.bench
        under = say(N_(", {screw} under"), screw=bench.under) if bench.under else ""
        key = N_("key in screw {screw}") if bench.key else N_("key out, at {screw}")
        told = [
            say(N_("{angle}°{under}"), angle=f"{bench.angle:g}", under=under),
            say(key, screw=bench.key or bench.chosen),
        ]
        if bench.bolts != "none":
            told.append(say(BOLTS[bench.bolts]))
        if len(bench.stations) > 1:
            place = f"{bench.dial.of_inches(bench.station):g} {bench.unit}"
            told.append(say(N_("dial at {place}"), place=place))
        division = f"{bench.dial.graduation} {bench.unit}"
        return [*told, say(N_("div. {division}"), division=division)]

    def _glass(self) -> list[Content]:
        """The scale about the needle."""
        if self.bench.dial.digital:
            return []
        style = dial_style(style_here())
        shown = glass(self.bench.dial, self.needle, self._width // 2 * 2, style)
        return content(shown).split("\n", allow_blank=True)

    def _keys(self) -> list[PieceLine]:
        """The keypad in words, as the keys lie."""
        here = self._by_key()
        lines = [line for keys in ROWS[: 4 if "0" in here else 3] for line in self._row(here, keys)]
        first, *rest = self._columns
        go = N_("Enter: type it") if self.has_focus else N_("* to the bench")
        if self.has_focus and self.bench.dial.digital:
            go = N_("Enter types it")
        foot = side_by_side(
            (say(N_("/ more") if self.page == 0 else N_("/ back")), first, "more"),
            (say(go), sum(rest), "type" if self.has_focus else "go"),
        )
        return [line for line in (*lines, *foot) if any(piece.does for piece in line)]

    def _by_key(self) -> dict[str, Control]:
        """What each key of the open page does."""
        return {each.key: each for each in self._controls()}

    @property
    def _columns(self) -> tuple[int, ...]:
        """Columns of the keys of a row."""
        return WORDY if self.has_class("wordy") else WIDTHS

    def _row(self, here: dict[str, Control], keys: str) -> list[PieceLine]:
        """One row of the keypad; blank where a key does nothing."""
        found = [(here.get(key), width) for key, width in zip(keys, self._columns, strict=False)]
        told = ((f"{each.key} {say(each.words)}", width, each.name) if each else ("", width, "")
                for each, width in found)  # fmt: skip
        return side_by_side(*told)


ROWS = ("789", "456", "123", "0.")
WIDTHS, WORDY = (13, 11, 11), (16, 14, 13)
"""Columns of the keys of a row, and where their words are long."""
KEY = "on $panel"
BOLTS = {
    "tight": N_("bolts tight"),
    "snug": N_("bolts snug"),
    "slack": N_("bolts slack!"),
}


def side_by_side(*keys: tuple[str, int, str]) -> list[PieceLine]:
    """Keys of one row, each with its columns and what it does, on as many lines as they need."""
    told = [wrapped(words, width - 1) for words, width, _ in keys]
    return [
        [Piece(set_cell_size("".join(lines[row : row + 1]), width), KEY, does)
         for lines, (_, width, does) in zip(told, keys, strict=True)]
        for row in range(max(map(len, told)))
    ]  # fmt: skip
