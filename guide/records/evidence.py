"""What can be held against a journal: by the chain of its digests, and by the walk itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guide.journal.event import Event
from guide.journal.store import Store
from guide.journal.verify import findings
from guide.plain import N_, Refusal
from guide.present.visible import visible
from guide.present.words import catalogue, refused, say
from guide.procedure.load import read
from guide.walk.fold import Fold

UNSIGNED = N_(
    "The chains are not signed: whoever holds the journal file can work them out again. Compare"
    " each digest with one that was printed or copied at the time."
)


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong with a journal."""

    fault: str
    """changed, missing, added, reordered, damaged, or refused: the walk does not allow it."""
    setup: str
    """Blank where the file as a whole is meant."""
    sequence: int
    kind: str
    step: str
    says: str
    """One sentence that names the event, safe to show."""


def faults(store: Store, setup: str | None = None, language: str = "en") -> Iterator[Fault]:
    """All that is wrong with one setup or the whole journal, each setup's lowest event first.

    A setup whose events stand as they were written is walked again, to its first event that the
    walk does not allow.
    """
    broken = set()
    for each in findings(store, setup):
        broken.add(each.setup)
        says = visible(each.in_words(catalogue(language).gettext))
        yield Fault(each.fault, each.setup, each.sequence, each.kind, each.step, says)
    for name in store.names() if setup is None else (setup,):
        if name not in broken:
            yield from _walked_again(store, name, language)


def _walked_again(store: Store, name: str, language: str) -> Iterator[Fault]:
    """The first event that the walk does not allow where it stands."""
    events = store.events(name)
    at = events[0]
    try:
        text = store.text(str(at.data.get("procedure_text")))
        fold = Fold(read(text, str(at.data.get("file"))))
        state = fold.opened(at)
        for at in events[1:]:
            state = fold.after(state, at)
    except Refusal as refusal:
        yield _not_allowed(at, refused(refusal, language), language)
    except (ArithmeticError, AttributeError, LookupError, TypeError, ValueError):
        yield _not_allowed(at, say(N_("its data cannot be used."), language), language)


def _not_allowed(event: Event, why: str, language: str) -> Fault:
    """An event that the walk refuses, in words."""
    says = say(
        N_("Event {sequence} of setup {setup} ({kind}, step {step}) is not allowed there: {why}"),
        language,
        sequence=event.sequence,
        setup=event.setup,
        kind=event.kind,
        step=event.step or "–",
        why=why,
    )
    return Fault("refused", event.setup, event.sequence, event.kind, event.step, visible(says))
