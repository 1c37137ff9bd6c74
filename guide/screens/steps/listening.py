"""A form that takes readings from a dial which types, wherever the focus is."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from functools import partial
from typing import Any

from textual import events
from textual.keys import KEY_TO_UNICODE_NAME, REPLACED_KEYS
from textual.widget import Widget
from textual.widgets import Input

from guide.plain import N_, Refusal
from guide.present.dial_text import dial_text
from guide.present.gate_keys import QUIET
from guide.present.value_keys import END, OTHER, PART, TAIL, ValueKeys
from guide.present.words import refused
from guide.screens.steps.form import Form
from guide.screens.tongue import language, say
from guide.screens.widgets.bar import ActionBar
from guide.screens.widgets.choices import Choices
from guide.screens.widgets.field import Field
from guide.walk.sent_by import sent_in

LAG = 0.1
"""Seconds to wait beyond the rule's own, for a key that is still on its way."""
SOON = 1.0
"""Seconds after a value's last key in which a button that is pressed was pressed by that value."""


class DialChoices(Choices):
    """Answers whose numbers a dial may type too: the form says which of both a digit was."""

    def on_key(self, event: events.Key) -> None:
        """Leave every key to the form."""
        event.prevent_default()


class ListeningForm(Form):
    """Sends every key of a value to its line; a key counts as anything else only if it was alone.

    A digit that no other key comes near is an answer's number, a space that stands alone presses
    what has the focus, and a value never presses a button or chooses an answer.
    """

    takes_values = True
    unit = ""
    """The unit that the dial is read in."""

    def __init__(self) -> None:
        super().__init__()
        self.heard = ValueKeys()
        self.going_on = False
        """Whether what is typed stands on the line while the focus is still elsewhere."""
        self.held = ""
        """A button that was pressed by a space which may be the beginning of a value."""
        self.target: Field | None = None
        """The line that it stands on."""
        self.away = False
        """Whether a value is taken whose keys go elsewhere: then the focus moves after the last."""
        self.refused_on: Field | None = None
        """The line of a value that came from elsewhere and was not taken."""
        self.by_person = False
        """Whether the last key was one that presses a button and belonged to no value."""
        self.said = ""
        """The last complaint."""
        self.sent: dict[str, tuple[str, str]] = {}
        """What came by wire, by the name of the reading: the value, and from which indicator."""

    def act(self, trigger: str, **data: object) -> None:
        """What is entered says which readings came by wire."""
        super().act(trigger, **data, **sent_in(data, self.sent))

    def kept(self) -> Mapping[str, Any]:
        """What was answered, and what of it came by wire."""
        return {**super().kept(), "sent": self.sent}

    def put_back(self, kept: Mapping[str, Any]) -> None:
        """The same on the page in another language."""
        self.sent = {**kept["sent"]}
        super().put_back(kept)

    def take_sent(self, typed: str, name: str) -> None:
        """A value that an indicator of that name sent, with its unit: on its line, and moved on.

        It goes under the cursor, else to the first open line; it never presses or chooses anything.
        """
        number, sentence = self.number(typed)
        under = (each for each in self.query(Field) if each.entry.has_focus and each.display)
        line = next(under, None) or self.line()
        if line is None:
            everything = N_("Everything is read here: {text} was not taken.")
            sentence = sentence or say(everything, text=typed)
        if sentence or line is None:
            self.complain(sentence)
            return
        reading = self.reading_on(line)
        line.entry.value = "" if line.hands_over else number
        self.said = ""
        self.chosen(line.name or "", number, True)
        if not self.said:
            self.sent[reading] = (number, name)

    def reading_on(self, line: Field) -> str:
        """The name of the reading that a line takes next, as the journal has it."""
        return line.name or ""

    def line(self) -> Field | None:
        """Where a value goes now; None where nothing is left to read."""
        return next((each for each in self.query(Field) if each.display and not each.value), None)

    def number(self, typed: str) -> tuple[str, str]:
        """The number alone and no sentence, or what was typed and why it cannot be taken."""
        try:
            return dial_text(typed, self.unit, language()), ""
        except Refusal as refusal:
            return typed, refused(refusal, language())

    def on_key(self, event: events.Key) -> None:
        """A key that a row of answers left alone."""
        if isinstance(self.app.focused, Input):
            return
        if self._hear(event.character or event.key, event.key, event.time):
            event.stop()

    def key_came(self, key: str, at: float) -> None:
        """A key while the focus is outside the form."""
        if self.app.focused is None or self not in self.app.focused.ancestors:
            self._hear(sign_of(key), key, at)

    def _hear(self, sign: str, key: str, at: float) -> bool:
        """Whether the key belonged to a value."""
        before = self.heard.text if self.heard.lone else ""
        kind = self.heard.press(sign if sign.isprintable() else key, at, self.going_on)
        self.by_person = kind == OTHER and key in ("enter", "space")
        if kind == PART:
            self._part()
        elif kind == END:
            self._end(self.heard.text)
        elif kind == OTHER:
            self.going_on = False
            self._alone(before, onward=False)
        if kind != OTHER:
            self._look_again(at)
        return kind != OTHER

    def _part(self) -> None:
        """One more sign of a value: on the line, unless it may be a key of its own."""
        if self._may_mean_more():
            return
        if not self.going_on:
            self.going_on, self.target = True, self.line()
        if self.target is not None:
            self.target.entry.value = self.heard.text.lstrip()
            self.target.entry.cursor_position = len(self.target.entry.value)

    def _look_again(self, at: float) -> None:
        """Look when no other key can have come close to this one."""
        self.set_timer(QUIET + LAG, partial(self._after_every_key, at))

    def _after_every_key(self, at: float) -> None:
        """Look again when every key that is already on its way has come."""
        self.app.call_later(self.call_later, self._quiet, at)

    def _may_mean_more(self) -> bool:
        """Whether the one sign so far would do something where the focus is."""
        if not self.heard.lone:
            return False
        return self.heard.text == " " or self._row_of_answers(self.heard.text) is not None

    def _row_of_answers(self, sign: str) -> Choices | None:
        """The row that has the focus, if a sign is the number of one of its answers."""
        row = self.app.focused
        named = isinstance(row, Choices) and sign.isdecimal() and sign in row.keys
        return row if named and isinstance(row, Choices) else None

    def _quiet(self, at: float) -> None:
        """No key came behind this one: it was alone, or a person types on the line from now on."""
        if self.heard.last != at:
            return
        if self.going_on or self.heard.kind in (END, TAIL):
            begun = self.target if self.going_on else None
            self.going_on, self.target = False, None
            self.heard.forget()
            self._focus_again(begun)
        else:
            self._alone(self.heard.text if self.heard.lone else "", onward=True)

    def _alone(self, sign: str, onward: bool) -> None:
        """What a key does that was no part of a value."""
        self.heard.forget()
        held, self.held = self.held, ""
        if sign == " " and held:
            self.by_person = True
            self.pressed(held)
        elif sign == " " and isinstance(self.app.focused, Choices):
            self.app.focused.action_onward()
        elif sign and (row := self._row_of_answers(sign)):
            row.press(sign, onward)

    def _end(self, text: str) -> None:
        """A whole value came while the focus was elsewhere."""
        line = self.target if self.going_on else self.line()
        self.going_on, self.held, self.target = False, "", None
        if line is None:
            self._nowhere(text)
            return
        line.entry.value = "" if line.hands_over else text.strip()
        self.away = True
        self.chosen(line.name or "", text.strip(), True)
        self.away = False
        self.refused_on = line if self.said else None

    def _nowhere(self, text: str) -> None:
        """A value for which there is no line; a number of an answer may be one."""
        row = self._row_of_answers(text)
        if row is not None:
            row.press(text)
        else:
            self.complain(say(N_("Everything is read here: {text} was not taken."),
                              text=text.strip()))  # fmt: skip

    def _focus_again(self, begun: Field | None) -> None:
        """The focus goes where typing goes on: a begun or refused value, the next open question."""
        where, self.refused_on = self.refused_on or begun or self.first(), None
        if where is None:
            self.screen.query_one(ActionBar).focus_first()
        else:
            where.focus()

    def focus_on(self, widget: Widget) -> None:
        """Move the focus, unless keys that belong together are still on their way elsewhere."""
        if not self.away:
            widget.focus()

    def onward(self, name: str) -> None:
        """The same for the next question."""
        if not self.away:
            super().onward(name)

    def retype(self, asked: Choices | Field) -> None:
        """What a dial typed and is not taken was put back, marked."""

    def complain(self, sentence: str) -> None:
        """Say one sentence, and know that it was said."""
        self.said = sentence
        super().complain(sentence)

    def of_a_value(self, name: str) -> bool:
        """Whether a button was pressed by the keys of a value and not by a person.

        One that a lone space pressed is held until it is known what the space was.
        """
        since = events.Idle().time - self.heard.valued
        if since > SOON or self.by_person:
            return False
        if self.heard.lone and self.heard.text == " ":
            self.held = name
        return True


def sign_of(key: str) -> str:
    """The sign that a key prints, by its name; the name itself where it prints none."""
    if len(key) == 1:
        return key
    name = REPLACED_KEYS.get(key, key)
    try:
        return unicodedata.lookup(KEY_TO_UNICODE_NAME.get(name, name.replace("_", " ")))
    except KeyError:
        return key
