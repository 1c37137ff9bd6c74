"""A procedure that was changed while a setup of it stood open."""

from __future__ import annotations

from guide.plain import N_, Refusal
from guide.present.tongue import say
from guide.present.visible import visible
from guide.procedure.model import Procedure
from guide.procedure.shelf import find

CHANGED = N_(
    "This setup goes on with revision {old} of the procedure, with which it was opened; revision"
    " {new} is there now. Before the next step, ask whoever changed it whether this one may still"
    " be finished as it was begun."
)
SAME_NUMBER = N_("{revision}, with other words")


def changed_since(opened: Procedure) -> str:
    """What to say of a setup whose procedure is another one on the shelf now; else blank."""
    try:
        now = find(opened.name)
    except Refusal:
        return ""
    if now.text == opened.text:
        return ""
    old, new = visible(opened.revision), visible(now.revision)
    return say(CHANGED, old=old, new=say(SAME_NUMBER, revision=new) if old == new else new)
