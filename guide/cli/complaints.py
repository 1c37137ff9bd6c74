"""All of standard error: a refusal as one plain sentence, and its exit code."""

from __future__ import annotations

import sys

from guide.plain import CheckFailed, NotAllowed, Refusal


def complain(trouble: Refusal | str, code: int | None = None) -> int:
    """Print the sentence on standard error and give the exit code it maps to.

    Whatever was typed comes back on one line and steers no terminal.
    """
    from guide.present.visible import visible

    print(f"spindleside: {visible(_said(trouble))}", file=sys.stderr)
    return exit_code(trouble) if code is None else code


def _said(trouble: Refusal | str) -> str:
    """The sentence in the language of the environment."""
    from guide.present.words import refused
    from guide.settings import from_environment

    return trouble if isinstance(trouble, str) else refused(trouble, from_environment().language)


def exit_code(trouble: Refusal | str) -> int:
    """1 when a check failed or the walk refused, 2 for input that cannot be used."""
    return 1 if isinstance(trouble, (CheckFailed, NotAllowed)) else 2
