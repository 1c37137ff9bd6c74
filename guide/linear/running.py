"""Runs the front end of lines on this program's own input and output."""

from __future__ import annotations

import os
import sys

from guide.linear.ends import Back, Ended
from guide.linear.keys import Keys
from guide.linear.lines import Lines
from guide.linear.start import Start
from guide.linear.talk import Talk
from guide.plain import N_
from guide.present.drawing_style import is_utf_8
from guide.present.tongue import SPOKEN, Spoken
from guide.settings import Settings

A_TERMINAL, A_PROGRAM = "terminal", "program"
"""What is recorded as the input; one that is no terminal marks the setup for ever."""
HOW = N_(
    "Answer by number and Enter. ? or + says all again with why; * lists what else can be done;"
    " / goes back; a point alone is “not known here”."
)


def run(
    settings: Settings, *, procedure: str = "", setup: str = "", width: int | None = None
) -> int:
    """The start list, or one setup; gives the exit code. The end of the input is no failure."""
    SPOKEN.set(Spoken(settings.language))
    keys = Keys(sys.stdin.fileno())
    ascii_only = not is_utf_8(os.environ, sys.stdout.encoding or "ascii")
    talk = Talk(keys, Lines(sys.stdout, width, ascii_only))
    start = Start(settings, talk, A_TERMINAL if keys.terminal else A_PROGRAM)
    try:
        with keys.heeding():
            talk.say(HOW)
            _opened(start, procedure, setup)
    except Ended:
        talk.lines.end_line()
        talk.say(N_("The input has ended. What was recorded is kept."))
    finally:
        start.close()
    return 0


def _opened(start: Start, procedure: str, setup: str) -> None:
    """What was asked for; a way back out of it ends the program."""
    if not procedure and not setup:
        start.offer()
        return
    try:
        start.open("begin" if procedure else "resume", procedure or setup)
    except Back:
        return
