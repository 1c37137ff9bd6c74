"""The same screens with a page of a browser as their terminal: bytes go through two pipes."""

from __future__ import annotations

import os
from contextlib import suppress
from threading import Timer
from typing import TYPE_CHECKING

from textual import messages
from textual.drivers.web_driver import WebDriver

from guide.screens.app import Spindleside, as_a_program

if TYPE_CHECKING:
    from guide.settings import Settings

SERVE = "serve"
"""What is recorded as the input of a setup that was walked on a page of `spindleside serve`."""
AT_SETUP = "at-setup"
"""The kind of the packet that tells the server which setup is open."""
GRACE = 2.0
"""Seconds in which the program closes by itself once its server is gone."""


class ServedDriver(WebDriver):
    """Textual's own way through pipes, which ends when its server does."""

    def write(self, data: str) -> None:
        """Draw; nothing is drawn for a server that is gone, and that is no trouble of its own."""
        with suppress(BrokenPipeError):
            super().write(data)

    def write_meta(self, data: dict[str, object]) -> None:
        """Tell the server something, if it is there."""
        with suppress(BrokenPipeError):
            super().write_meta(data)

    def run_input_thread(self) -> None:
        """Read until the pipe ends; an end that the program did not want is its server's death."""
        super().run_input_thread()
        if not self.exit_event.is_set():
            last = Timer(GRACE, os._exit, [1])
            last.daemon = True
            last.start()
            self._app.post_message(messages.ExitApp())


class ServedSpindleside(Spindleside):
    """The program for one page; a finger on it presses, or moves the page along, line by line."""

    ALLOW_SELECT = False

    def at_setup(self, setup: str) -> None:
        """The server is told, so that a page whose program fell comes back to the same setup.

        A sheet that closes because the program falls is not one that was left.
        """
        if (setup or not self.return_code) and isinstance(self._driver, ServedDriver):
            self._driver.write_meta({"type": AT_SETUP, "setup": setup})


def run_served(settings: Settings, setup: str, size: tuple[int, int]) -> int:
    """Run the screens over the pipes of this process, straight at a setup unless it is blank."""
    app = ServedSpindleside(settings, setup=setup or None, typed_at=SERVE)
    app.driver_class = ServedDriver
    app.scroll_sensitivity_y = 1.0
    as_a_program(app)
    app.run(size=size)
    return app.return_code or 0
