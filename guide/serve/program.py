"""The program of one page, in a process of its own: `python -m guide.serve.program DIGEST`."""

from __future__ import annotations

import sys

from guide.plain import Refusal
from guide.serve.handing_over import taken
from guide.settings import from_environment


def run(arguments: list[str]) -> int:
    """Take what is handed over, then run the screens; 2 for whoever hands nothing over."""
    try:
        told = taken(sys.stdin.fileno(), arguments[0] if arguments else "")
    except Refusal as refusal:
        print(f"spindleside: {refusal}", file=sys.stderr)
        return 2
    from guide.screens.served import run_served

    settings = from_environment(home=told.home)
    return run_served(settings, told.setup, (told.columns, told.rows))


if __name__ == "__main__":
    sys.exit(run(sys.argv[1:]))
