"""The picture of the chuck that a turn is read on."""

from __future__ import annotations

from guide.front.turn import Turn
from guide.present.chuck_face import Face
from guide.screens.widgets.inks import style_here


def face_of(turn: Turn) -> Face:
    """The chuck before it is turned."""
    jaws = turn.jaws if turn.marks else 0
    return Face(turn.marks, way=turn.way, jaws=jaws, style=style_here())
