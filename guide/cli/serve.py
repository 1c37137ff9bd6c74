"""`spindleside serve`: the same screens on a page, for a tablet at the lathe."""

from __future__ import annotations

import sys
from importlib.util import find_spec
from typing import TYPE_CHECKING

import click

from guide.cli.output import say as put
from guide.cli.places import journal_option, settings
from guide.plain import N_, BadInput

if TYPE_CHECKING:
    from guide.serve.link import Link
    from guide.settings import Settings

NEEDED = {"aiohttp": "aiohttp", "textual_serve": "textual-serve"}
"""Libraries that only this command needs, and what they are installed by."""
LIGHT_ON_DARK, AS_IT_WAS = "\x1b[97;40m", "\x1b[0m"
"""A camera wants the code light on dark as it is drawn, whatever the terminal's own colours are."""
OPENS = N_("Open this link in a browser, or point the tablet's camera at the square code:")
ACTS = N_("Whoever has the link can act, until this run ends. Ctrl+C ends it.")
HERE = N_("Only this machine can open it; --address lets others.")
PLAIN = N_(
    "Nothing on the way is encrypted, PINs included: use a network that you trust, or serve only"
    " this machine."
)


@click.command()
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="The port; else a free one.")
@click.option("--address", metavar="A", default="127.0.0.1", show_default=True,
              help="An address of this machine that others can reach.")  # fmt: skip
@journal_option
def serve(port: int, address: str, journal: str | None) -> None:
    """Put the same screens on a page, for a tablet at the lathe.

    Only this machine can open the page unless you name an address. Then whoever has the link can
    act, and nothing is encrypted on the way, PINs included. The link's secret is new for each run.

    \b
    Example:
      spindleside serve
      spindleside serve --address 192.168.1.20 --port 8600
    """
    _libraries_are_there()
    from guide.serve.link import one_address
    from guide.serve.serving import serve as serve_it

    here = settings(journal)
    serve_it(here, one_address(address), port, lambda link: _tell(link, here))


def _libraries_are_there() -> None:
    """Refuse before anything opens."""
    missing = [name for module, name in NEEDED.items() if find_spec(module) is None]
    if missing:
        raise BadInput(
            N_("This command needs more libraries: {missing}."),
            N_("`pip install {missing}` brings them."),
            missing=" ".join(missing),
        )


def _tell(link: Link, here: Settings) -> None:
    """The link, its square code, and what it means to hand it on."""
    from guide.present.words import say as said
    from guide.serve.link import square_code

    reach = HERE if link.address.is_loopback else PLAIN
    code = square_code(link.url)
    if sys.stdout.isatty():
        code = [f"{LIGHT_ON_DARK}{line}{AS_IT_WAS}" for line in code]
    put(said(OPENS, here.language), "", f"  {link.url}", "", *code, "")
    put(*(said(each, here.language) for each in (ACTS, reach)))
    sys.stdout.flush()
