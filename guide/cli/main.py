"""Arguments in, exit code out: each command's code is loaded only when it is called."""

from __future__ import annotations

import io
import os
import sys

import click

from guide.cli.complaints import complain
from guide.cli.lazily import LazyGroup
from guide.cli.plain import plain_options
from guide.plain import Refusal

COMMANDS = {
    "start": "guide.cli.start:start",
    "resume": "guide.cli.resume:resume",
    "rehearse": "guide.cli.rehearse:rehearse",
    "practice": "guide.cli.practice:practice",
    "procedures": "guide.cli.procedures:procedures",
    "check": "guide.cli.check:check",
    "records": "guide.cli.records:records",
    "export": "guide.cli.export:export",
    "label": "guide.cli.label:label",
    "verify": "guide.cli.verify:verify",
    "advise": "guide.cli.advise:advise",
    "history": "guide.cli.history:history",
    "equipment": "guide.cli.equipment:equipment",
    "instruments": "guide.cli.instruments:instruments",
    "people": "guide.cli.people:people",
    "serve": "guide.cli.serve:serve",
    "calc": "guide.cli.calc:calc",
    "settings": "guide.cli.settings:settings",
    "completion": "guide.cli.completion:completion",
}


@click.command(cls=LazyGroup, places=COMMANDS, invoke_without_command=True)
@click.version_option(package_name="spindleside", prog_name="spindleside")
@plain_options
@click.pass_context
def spindleside(ctx: click.Context, plain: bool, width: int | None) -> None:
    """Walk a lathe setup step by step, true a chuck, and keep a record of who did what.

    Without a command, opens the start page. Example: spindleside start adjustable-chuck
    """
    if ctx.invoked_subcommand is None:
        from guide.cli.start import open_start_page

        open_start_page(plain, width)
    elif plain or width is not None:
        raise click.UsageError("--plain and --width stand behind the command.", ctx)


def run(arguments: list[str] | None = None) -> None:
    """Run the command line and leave with its exit code."""
    _take_any_sign()
    try:
        code = spindleside.main(arguments, prog_name="spindleside", standalone_mode=False)
        sys.stdout.flush()
    except click.exceptions.Abort:
        code = 2
    except click.ClickException as error:
        code = complain(usage(error), 2)
    except Refusal as refusal:
        code = complain(refusal)
    except BrokenPipeError:
        code = _nobody_reads()
    sys.exit(code if isinstance(code, int) else 0)


def usage(error: click.ClickException) -> str:
    """What is wrong with the command line, on one line, and where to read on."""
    said = " ".join(error.format_message().split())
    ctx = getattr(error, "ctx", None)
    return f"{said} See `{ctx.command_path} --help`." if ctx else said


def _take_any_sign() -> None:
    """A sign that the terminal's encoding lacks is spelled out, never an error."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _nobody_reads() -> int:
    """Whoever read the output has gone: leave quietly, nothing is flushed to them at the end."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 1
