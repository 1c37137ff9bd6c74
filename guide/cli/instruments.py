"""`spindleside instruments`: indicators that are read by wire."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import asdict
from time import monotonic
from typing import TYPE_CHECKING, Any

import click

from guide.cli.output import emit, say_now
from guide.cli.output import say as tell
from guide.cli.places import journal_option, json_option, settings
from guide.instruments.instrument import DECIMALS, SIGNS, SPEEDS, UNITS
from guide.instruments.pattern import NAMED
from guide.plain import N_, CheckFailed

if TYPE_CHECKING:
    from guide.instruments.instrument import Instrument
    from guide.instruments.link import Said

SECONDS = 15.0
"""How long `try` listens where nothing else is told."""


@click.group(invoke_without_command=True)
@journal_option
@json_option
@click.pass_context
def instruments(ctx: click.Context, journal: str | None, as_json: bool) -> None:
    """List the indicators that are read by wire, with their settings.

    A value that one sends goes on the reading line wherever a dial is read, and nowhere else. An
    indicator that types like a keyboard needs no settings. Reading by wire needs the extra
    `serial`: pip install 'spindleside[serial]'

    \b
    Example:
      spindleside instruments set "Indicator 3" --port /dev/ttyUSB0 --unit in
      spindleside instruments try "Indicator 3"
      spindleside instruments forget "Indicator 3"
    """
    from guide.instruments.kept import instruments as kept

    ctx.obj = journal
    if ctx.invoked_subcommand is None:
        listed = kept(settings(journal).home)
        emit({"instruments": [asdict(each) for each in listed]}, as_json, _lines(listed))


@instruments.command("set")
@click.argument("name")
@click.option("--port", required=True, help="Where it is plugged in: /dev/ttyUSB0, COM3.")
@click.option("--speed", type=click.Choice([str(each) for each in SPEEDS]), default="9600",
              show_default=True, help="Bits a second.")  # fmt: skip
@click.option("--format", default="8N1", show_default=True, help="Data bits, parity, stop bits.")
@click.option("--pattern", default="plain", show_default=True, metavar="NAME|TEMPLATE",
              help=f"What a line looks like: {', '.join(NAMED)}, or a template of your own with "
              "{value}, and perhaps {unit}, {label} (no digits) and {count}.")  # fmt: skip
@click.option("--unit", type=click.Choice(UNITS), required=True, help="Where a line names none.")
@click.option("--positive", type=click.Choice(SIGNS), default="in", show_default=True,
              help="Whether it counts up when the plunger goes in or out.")  # fmt: skip
@click.option("--decimal", type=click.Choice(DECIMALS), default="point", show_default=True,
              help="The decimal sign that it sends.")  # fmt: skip
@click.option("--ask", default="", metavar="TEXT",
              help=r"What is sent to ask it for a value, with \r or \x1b spelled so.")  # fmt: skip
@click.option("--over", default="", metavar="TEXT", help="What it sends when past its range.")
@json_option
@click.pass_obj
def set_(journal: str | None, /, name: str, speed: str, as_json: bool, **told: str) -> None:
    """Set how the indicator NAME of the shop's equipment is read.

    \b
    Example:
      spindleside instruments set "Indicator 3" --port /dev/ttyUSB0 --unit mm --decimal comma
      spindleside instruments set "Indicator 4" --port COM3 --speed 4800 --format 7E2 \\
          --pattern "01A{value}" --unit in --ask "R\\r"
    """
    from guide.cli.equipment import indicator_of_the_shop
    from guide.instruments.instrument import instrument_of
    from guide.instruments.kept import keep

    found = indicator_of_the_shop(journal, name)
    made = instrument_of({**told, "name": found, "speed": int(speed)})
    keep(settings(journal).home, made)
    emit(asdict(made), as_json, _lines((made,)))


@instruments.command()
@click.argument("name")
@click.pass_obj
def forget(journal: str | None, name: str) -> None:
    """Read NAME by wire no more; what it sent stays on record.

    \b
    Example:
      spindleside instruments forget "Indicator 3"
    """
    from guide.instruments.kept import forget as gone

    made = gone(settings(journal).home, name)
    tell(_say(N_("{name} is not read by wire any more."), name=_visible(made.name)))


@instruments.command("try")
@click.argument("name")
@click.option("--seconds", type=click.FloatRange(0.1, 3600), default=SECONDS, show_default=True,
              help="How long to listen; Ctrl-C ends it sooner.")  # fmt: skip
@json_option
@click.pass_obj
def try_(journal: str | None, name: str, seconds: float, as_json: bool) -> None:
    """Show what comes from NAME, and how it is understood; exit 1 where no value came.

    Nothing is recorded. With --json each line that came is an object on a line of its own.

    \b
    Example:
      spindleside instruments try "Indicator 3" --seconds 30
    """
    from guide.instruments.kept import named

    made = named(settings(journal).home, name)
    if not as_json:
        told = N_("Listening to {name} on {port}: send a value from it.")
        tell(_say(told, name=_visible(made.name), port=_visible(made.port)))
    shown = say_now if as_json else _spoken
    if not sum(shown_and_counted(made, seconds, shown)):
        raise CheckFailed(
            N_("No value came from {name} in {seconds} s."),
            N_("Look at its switch, plug, speed, format and pattern, then try again."),
            name=name,
            seconds=f"{seconds:g}",
        )


def shown_and_counted(
    made: Instrument, seconds: float, show: Callable[[dict[str, Any]], None]
) -> Iterator[bool]:
    """Whether each thing that came was a value, after it was shown; a Refusal for no port."""
    from queue import Empty, SimpleQueue

    from guide.instruments.link import Link, Trouble

    came: SimpleQueue[Said] = SimpleQueue()
    link, end = Link(made, came.put), monotonic() + seconds
    link.start()
    if made.ask:
        link.ask()
    try:
        while (left := end - monotonic()) > 0:
            try:
                told = came.get(timeout=left)
            except Empty:
                break
            if isinstance(told, Trouble):
                raise told.why
            show(_answer(told))
            yield "value" in _answer(told)
    except KeyboardInterrupt:
        return
    finally:
        link.stop()
        link.wait()


def _answer(told: Said) -> dict[str, Any]:
    """One thing that came, as JSON keys."""
    from guide.instruments.link import Streams
    from guide.instruments.understood import Over, Value

    if isinstance(told, Value):
        return {"value": told.number, "unit": told.unit}
    if isinstance(told, Streams):
        return {"streams": True}
    raw = getattr(told, "raw", "")
    return {"over": raw} if isinstance(told, Over) else {"not_understood": raw}


def _spoken(answer: dict[str, Any]) -> None:
    """The same as a line."""
    values = {name: _visible(each) for name, each in answer.items()}
    tell(_say(SPOKEN[next(iter(answer))], **values))


SETTINGS = N_(
    "{name}: {port}, {speed} {format}, pattern {pattern}, {unit}, decimal {decimal}, "
    "plunger {positive} counts up"
)
SPOKEN = {
    "value": N_("{value} {unit}"),
    "over": N_("{over}: past its range, not taken"),
    "not_understood": N_("{not_understood}: not understood, not taken"),
    "streams": N_("values without pause: not taken; set it to send when it is told to"),
}


def _lines(listed: tuple[Instrument, ...]) -> Iterator[str]:
    """Each indicator with its settings."""
    if not listed:
        yield _say(N_("No indicator is set to be read by wire."))
    for each in listed:
        told = {name: _visible(value) for name, value in asdict(each).items()}
        yield _say(SETTINGS, **told)
        if each.ask:
            yield _say(N_("  asked with {ask}"), **told)


def _say(sentence: str, **values: object) -> str:
    """A sentence in the language of the environment."""
    from guide.present.words import say

    return say(sentence, settings(None).language, **values)


def _visible(text: object) -> str:
    from guide.present.visible import visible

    return visible(str(text))
