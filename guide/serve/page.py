"""The page: its own frame around the terminal of textual-serve, and the files that it may ask for.

Nothing is looked up in a folder by a name that a browser gave: what is not listed is not there.
"""

from __future__ import annotations

from functools import cache
from html import escape
from importlib.resources import files
from pathlib import Path
from string import Template

from guide.plain import N_
from guide.present.words import say
from guide.serve.seats import FELL, FULL, LEFT, MOST_PROGRAMS, TAKEN

OWN = Path(__file__).parent / "web"
ENTER = (OWN / "enter.html").read_text(encoding="utf-8")
SENTENCES = {
    "opening": N_("Opening …"),
    "lost": N_("The link to the program is lost. It comes back by itself as soon as it can."),
    "refused": N_("This page is of an earlier run: open the link that is printed now."),
    str(TAKEN): N_("This was opened in another window of this browser, and goes on there."),
    str(FELL): N_("The program ended by itself. What you had confirmed is kept."),
    str(FULL): N_("{most} pages are open, and more are not served: close one, then open this."),
    str(LEFT): N_("The program is closed."),
}
"""What the page says in place of the screens, by close code or state."""
HERE, KEYS = N_("Open it here"), N_("Keyboard")


@cache
def listed() -> dict[str, Path]:
    """Every file that may be asked for, by its name: our own, textual-serve's two, one font."""
    theirs = Path(str(files("textual_serve").joinpath("static")))
    fonts = Path(str(files("fontpkg_fira_code").joinpath("files")))
    return {
        **{each.name: each for each in OWN.iterdir() if each.suffix in (".css", ".js")},
        "xterm.css": theirs / "css" / "xterm.css",
        "textual.js": theirs / "js" / "textual.js",
        "mono.ttf": fonts / "FiraCode[wght].ttf",
    }


def screens_page(language: str) -> str:
    """The page with the screens."""
    said = "".join(
        f'<p data-when="{when}">{escape(say(each, language, most=MOST_PROGRAMS))}</p>'
        for when, each in SENTENCES.items()
    )
    here, keys = escape(say(HERE, language)), escape(say(KEYS, language))
    return _filled("screens.html", language, said=said, here=here, keys=keys)


def sentence_page(sentence: str, language: str) -> str:
    """A page that says one sentence."""
    return _filled("sentence.html", language, said=escape(say(sentence, language)))


def _filled(name: str, language: str, **values: str) -> str:
    text = (OWN / name).read_text(encoding="utf-8")
    return Template(text).substitute(values, language=escape(language))
