"""A tile to press, three lines tall: by Enter or space when it has the focus, or by a touch."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget

from guide.screens.messages import Picked


class Press(Widget, can_focus=True):
    """A row or button with a name; pressing it posts `Picked`."""

    DEFAULT_CSS = """
    Press {
        height: auto; min-height: 3; padding: 1 2 0 2; background: $panel; text-wrap: wrap;
        border-bottom: hkey $background;
    }
    Press.low { padding: 0 2; }
    Press:hover { background: $surface; }
    Press:focus { background: $primary; color: $background; text-style: bold; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space", "press", show=False),
        Binding("up,left", "app.focus_previous", show=False),
        Binding("slash", "screen.question_before", show=False),
        Binding("down,right", "app.focus_next", show=False),
    ]

    def __init__(self, name: str, label: str, *, classes: str = "") -> None:
        super().__init__(name=name, classes=classes)
        self.label = label

    def render(self) -> Content:
        """The label as it stands, never as markup."""
        return Content(self.label)

    def action_press(self) -> None:
        """Say that this was pressed."""
        self.post_message(Picked(self.name or ""))

    def on_click(self) -> None:
        """A click anywhere on it."""
        self.action_press()
