"""PINs asked at the terminal, unseen; where nobody sits at one, a line of standard input each."""

from __future__ import annotations

import sys

import click

from guide.plain import N_, BadInput


def asked(sentence: str) -> str:
    """One PIN."""
    if sys.stdin.isatty():
        return str(click.prompt(sentence, hide_input=True, err=True))
    line = sys.stdin.readline()
    if not line:
        raise BadInput(
            N_("A PIN is wanted and standard input has ended."), N_("Give one line for each PIN.")
        )
    return line.rstrip("\r\n")


def asked_twice(sentence: str, again: str) -> str:
    """A PIN that is new: typed twice and the same."""
    pin = asked(sentence)
    if asked(again) != pin:
        raise BadInput(N_("The two PINs are not the same."), N_("Nothing was changed; try again."))
    return pin
