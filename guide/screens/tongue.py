"""The language of the screens, under the name that every screen asks for."""

from guide.present.tongue import SPOKEN, Spoken, language, say, written

__all__ = ["SPOKEN", "Spoken", "language", "say", "written"]
