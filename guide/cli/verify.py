"""`spindleside verify`: whether the journal still stands as it was written."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import click

from guide.cli.completing import setups
from guide.cli.output import emit
from guide.cli.places import journal_option, json_option, reading, settings
from guide.cli.progress import Progress
from guide.plain import N_, BadInput

if TYPE_CHECKING:
    from guide.journal.link import Link
    from guide.journal.store import Store
    from guide.records.evidence import Fault

MOST_LISTED = 20
"""Setups up to which the last digest of each is listed."""
SHORTEST_HEAD = 16
HEXADECIMAL = frozenset("0123456789abcdef")


@click.command()
@click.argument("setup", required=False, shell_complete=setups)
@click.option("--head", metavar="DIGEST", help="A digest that a record or a label prints.")
@click.option("--figures/--no-figures", default=True, help="Work every figure out again (default).")
@journal_option
@json_option
@click.pass_context
def verify(
    ctx: click.Context,
    setup: str | None,
    head: str | None,
    figures: bool,
    journal: str | None,
    as_json: bool,
) -> None:
    """Check the journal, or one SETUP: every event as it was written, signed by who may, allowed by
    the walk, and every figure as its readings give it.

    Names the first event that was changed, taken out, added or moved, then the others. With --head
    it also tells whether the journal still holds everything up to a digest that was printed on a
    record or a label: a setup taken out whole or an end cut off is found by that. It only reads.

    \b
    Example:
      spindleside verify
      spindleside verify --head 5b0e2f7a41c96d38
    """
    here = settings(journal)
    with reading(here) as store:
        check = _Check(store, setup, _digest(head), figures, here.language)
        emit(check.answer() if as_json else {}, as_json, check.lines())
    ctx.exit(1 if check.found else 0)


def _digest(head: str | None) -> str:
    """The start of a digest as typed: spaces and capitals do not matter."""
    typed = "".join((head or "").split()).lower()
    if head is not None and not (
        SHORTEST_HEAD <= len(typed) <= 64 and HEXADECIMAL.issuperset(typed)
    ):
        raise BadInput(
            N_("“{head}” is no digest."),
            N_("Type at least its first {least} signs, 0 to 9 and a to f."),
            head=ascii(head),
            least=SHORTEST_HEAD,
        )
    return typed


class _Check:
    """One check: what it finds is told as it is found."""

    def __init__(
        self, store: Store, setup: str | None, head: str, figures: bool, language: str
    ) -> None:
        self.store, self.setup, self.head = store, setup, head
        self.figures, self.language = figures, language
        self.found = 0
        names = store.names()
        if setup is not None and setup not in names:
            raise BadInput(
                N_("There is no setup called {setup}."),
                N_("`spindleside records` lists them."),
                setup=ascii(setup),
            )
        self.names = names if setup is None else (setup,)

    def answer(self) -> dict[str, Any]:
        """What was found as JSON keys."""
        from guide.present.words import say
        from guide.records.evidence import UNSIGNED

        found = [asdict(each) for each in self.faults()]
        setups = [{"setup": n, "events": c, "head": h} for n, c, h in self._heads()]
        return {
            "sound": not found,
            "findings": found,
            "setups": setups,
            "journal": _link(self.store.head()),
            "figures_not_checked": list(self._not_reckoned()),
            "advice_not_checked": list(self._partly_reckoned()),
            "note": say(UNSIGNED, self.language),
        }

    def lines(self) -> Iterator[str]:
        """The first fault, the others, and the digests to compare."""
        from guide.present.visible import visible
        from guide.present.words import say
        from guide.records.evidence import UNSIGNED

        for each in self.faults():
            yield each.says
        told = {"setups": len(self.names), "events": self._events(), "faults": self.found}
        yield say(
            N_("Setups: {setups}, events: {events}, faults: {faults}."), self.language, **told
        )
        if left := self._not_reckoned():
            line = N_("Figures of {setups} were worked out in another way and are not checked.")
            yield visible(say(line, self.language, setups=", ".join(left)))
        if left := self._partly_reckoned():
            line = N_(
                "{setups}: opened under an earlier reckoning. Advice and corrections that would"
                " come to something else today are not worked out again; every other figure is."
            )
            yield visible(say(line, self.language, setups=", ".join(left)))
        yield from self._digests()
        yield say(UNSIGNED, self.language)

    def faults(self) -> Iterator[Fault]:
        """All that is wrong, counted as it goes by."""
        from guide.records.evidence import faults, head_faults

        progress = Progress(self._events(), self.language)
        told = faults(self.store, self.setup, self.language, figures=self.figures,
                      done=lambda name: progress.add(self.store.last(name)[0]))  # fmt: skip
        for each in told:
            self.found += 1
            progress.clear()
            yield each
        progress.clear()
        if self.head:
            for each in head_faults(self.store, self.head, self.language, self.setup is not None):
                self.found += 1
                yield each

    def _not_reckoned(self) -> tuple[str, ...]:
        """The setups asked about whose figures are not worked out again."""
        from guide.records.evidence import not_reckoned

        return self._asked(not_reckoned)

    def _partly_reckoned(self) -> tuple[str, ...]:
        """The setups asked about whose advice alone is not worked out again."""
        from guide.records.evidence import partly_reckoned

        return self._asked(partly_reckoned)

    def _asked(self, left_out: Callable[[Store], tuple[str, ...]]) -> tuple[str, ...]:
        """Of what is left out, the setups asked about."""
        asked = frozenset(self.names)
        return tuple(filter(asked.__contains__, left_out(self.store) if self.figures else ()))

    def _events(self) -> int:
        """How many events the setups have together."""
        return sum(self.store.last(name)[0] for name in self.names)

    def _heads(self) -> Iterator[tuple[str, int, str]]:
        """Each setup, its number of events, and the digest of the last one."""
        return ((name, *self.store.last(name)) for name in self.names)

    def _digests(self) -> Iterator[str]:
        """What to compare with a digest that was printed."""
        from guide.present.visible import visible
        from guide.present.words import say

        if len(self.names) <= MOST_LISTED:
            line = N_("{setup}: {events} events, last digest {head}")
            for name, count, head in self._heads():
                told = {"setup": name, "events": count, "head": head}
                yield visible(say(line, self.language, **told))
        last = self.store.head()
        if last is not None:
            line = N_("The whole journal: {events} events, head {head}")
            yield say(line, self.language, events=last.number, head=last.head)
        if self.head and (place := self.store.place_of(self.head)):
            line = N_("That digest is event {number} of all: event {sequence} of {setup}.")
            told = {"setup": place.setup, "sequence": place.sequence, "number": place.number}
            yield visible(say(line, self.language, **told))


def _link(link: Link | None) -> dict[str, object] | None:
    """The head of the whole journal as JSON keys."""
    return None if link is None else {"events": link.number, "head": link.head}
