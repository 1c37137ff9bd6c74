"""`spindleside procedures new`: a procedure of one's own to begin from."""

from __future__ import annotations

from pathlib import Path

import click

from guide.cli.output import say as tell
from guide.plain import N_, BadInput
from guide.settings import from_environment, own_procedures

ASKED = {
    "title": "What is to be done, in a few words that begin with a verb?",
    "purpose": "When is it needed, and what is so afterwards?",
    "author": "Who writes it?",
}


@click.command()
@click.argument("name")
@click.option("--title", help="What is to be done; asked for without it.")
@click.option("--purpose", help="When it is needed; asked for without it.")
@click.option("--author", help="Who writes it; asked for without it.")
@click.option("--to", "folder", default=".", metavar="DIR", help="The folder; this one without it.")
def new(name: str, title: str | None, purpose: str | None, author: str | None, folder: str) -> None:
    """Write NAME.yaml, a procedure that passes `check` as it stands, with comments on what to add.

    A file that is there already is left alone.

    \b
    Example:
      spindleside procedures new chuck-cleaning --title "Clean a chuck" --purpose "Every month." --author "A. Sample"
    """  # noqa: E501 # an example is one line to be pasted
    from guide.present.words import say
    from guide.procedure.begun import begun

    told = {"title": title, "purpose": purpose, "author": author}
    text = begun(name, **{key: each or click.prompt(ASKED[key]) for key, each in told.items()})
    path = Path(folder) / f"{name}.yaml"
    _write(path, text)
    wrote = N_(
        "Wrote {path}. Check it after every change: spindleside check {path}\n"
        "Put into {folder} it stands on the start page with the others."
    )
    tell(say(wrote, from_environment().language, path=path, folder=own_procedures()))


def _write(path: Path, text: str) -> None:
    """The file, where there is none yet."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise BadInput(
            N_("{path} is there already, and is left as it is."),
            N_("Give it another name, or remove it first."),
            path=path,
        ) from None
    except OSError as error:
        raise BadInput(
            N_("{path} cannot be written ({why})."), N_("Name a folder that is yours."),
            path=path, why=error.strerror or error,
        ) from None  # fmt: skip
