"""`spindleside rehearse`: an answers file walked unattended to its end."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from guide.cli.completing import procedures
from guide.cli.output import emit, say
from guide.cli.places import json_option
from guide.plain import N_
from guide.settings import from_environment

if TYPE_CHECKING:
    from guide.journal.store import Store
    from guide.rehearse import Watch
    from guide.walk.setup import Setup


@click.command()
@click.argument("procedure", shell_complete=procedures)
@click.option("--answers", required=True, metavar="FILE", help="The answers, as a YAML file.")
@click.option(
    "--journal", metavar="DIR", help="Keep the rehearsal in this folder's journal; else nothing is."
)
@click.option("--setup", metavar="ID", help="Name of the setup; a new one is made up without it.")
@click.option("--watch", is_flag=True, help="Show each event; walk again when a file changes.")
@json_option
def rehearse(
    procedure: str, answers: str, journal: str | None, setup: str | None, watch: bool, as_json: bool
) -> None:
    """Walk a PROCEDURE with the answers of a file, through the same engine as a person's setup.

    The procedure is checked first. The record is marked as a rehearsal for ever. It fails where
    an answer is refused, is missing, or is meant for another step.

    \b
    Example:
      spindleside rehearse adjustable-chuck --answers tests/answers/adjustable-chuck-inch.yaml
    """
    if watch:
        _watched(procedure, Path(answers))
        return
    with ExitStack() as stack:
        answer = _walked(procedure, Path(answers), journal, stack, setup)
    emit(answer, as_json, _lines(answer))


def _walked(
    procedure: str,
    answers: Path,
    journal: str | None,
    stack: ExitStack,
    setup: str | None = None,
    watch: Watch | None = None,
) -> dict[str, Any]:
    """The procedure checked, then walked to its end."""
    from guide.cli.proven import must_hold, of
    from guide.procedure.shelf import find
    from guide.rehearse import read_answers, unwatched
    from guide.rehearse import rehearse as walk

    found, told = find(procedure), read_answers(answers)
    must_hold(of(found))
    store = _store(journal, stack)
    return _answer(walk(found, told, store, setup or _new_id(), watch or unwatched), store)


def _watched(procedure: str, answers: Path) -> None:
    """Event by event, in a journal that is thrown away, again after every change of a file."""
    from guide.cli.watched import again_and_again, line_of
    from guide.procedure.shelf import find

    language = from_environment().language

    def show(walk: Setup) -> None:
        say(line_of(walk, language))

    def once() -> None:
        with ExitStack() as stack:
            say(*_lines(_walked(procedure, answers, None, stack, watch=show)))

    own = [Path(procedure)] if procedure.endswith((".yaml", ".yml")) else []
    if not own:
        find(procedure)
    again_and_again([*own, answers], once, language)


def _store(journal: str | None, stack: ExitStack) -> Store:
    """The journal of that folder, or one that is gone when the stack is closed."""
    from tempfile import TemporaryDirectory

    from guide.journal.store import Store

    home = journal or stack.enter_context(TemporaryDirectory(prefix="rehearsal-"))
    return stack.enter_context(Store(from_environment(home=home).journal_file))


def _new_id() -> str:
    """A setup id from the time and chance."""
    from secrets import token_hex

    return f"rehearsal-{datetime.now(UTC):%Y%m%d-%H%M%S}-{token_hex(2)}"


def _answer(done: Setup, store: Store) -> dict[str, Any]:
    """The walk as JSON keys."""
    state = done.state
    left = state.taken.get("as-left")
    return {
        "setup": state.setup,
        "procedure": done.procedure.name,
        "place": state.place,
        "events": state.sequence,
        "head": store.last(state.setup)[1],
        "as_left": _plain(left.figures) if left else None,
    }


def _plain(value: Any) -> Any:
    """Frozen mappings and tuples as JSON takes them."""
    if hasattr(value, "items"):
        return {name: _plain(each) for name, each in value.items()}
    return [_plain(each) for each in value] if isinstance(value, tuple) else value


def _lines(answer: dict[str, Any]) -> Iterator[str]:
    """The walk as a person reads it."""
    from guide.present.read_out import result
    from guide.present.words import say as words

    language = from_environment().language
    yield words(
        N_("Rehearsed {procedure} as {setup}: {place}, {events} events; this was no real lathe."),
        language,
        **answer,
    )
    if left := answer["as_left"]:
        figures = result(left, left["unit"], language)
        yield words(N_("As left: {figures}."), language, figures=figures)
    yield words(N_("Digest of the last event: {head}"), language, head=answer["head"])
