"""What can be held against a journal: by its chains, by signatures, and by the walk itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from guide.journal import chain
from guide.journal.event import Event
from guide.journal.finding import Finding, Noted
from guide.journal.standing import EQUIPMENT, PEOPLE, STANDING
from guide.journal.store import Store
from guide.journal.verify import of_links, of_the_whole
from guide.plain import N_, Refusal
from guide.present.visible import visible
from guide.present.words import catalogue, refused, say
from guide.procedure.load import read
from guide.records.authority import Registry, of_equipment, registry_of, unauthorised
from guide.walk.completed import EARLIER, RECKONING, completed, ending, otherwise
from guide.walk.fold import Fold, fold_of
from guide.walk.second import ALLOWED, WITNESS
from guide.walk.state import State

UNSIGNED = N_(
    "Events that are not signed can be worked out again by whoever holds the journal file, and so"
    " can signed ones by whoever knows a PIN. Compare the digests with ones that were printed or"
    " copied at the time."
)
BESIDES_FIGURES = (WITNESS, ALLOWED, "ends", "world", "outcome", "role")
"""What an event holds besides its entries and the figures that come of them."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong with a journal."""

    fault: str
    """changed, missing, added, reordered, damaged, unsigned, forged; refused: the walk does not
    allow it; reckoned: a figure is not what its entries come to."""
    setup: str
    """Blank where the file as a whole is meant."""
    sequence: int
    kind: str
    step: str
    says: str
    """One sentence that names the event, safe to show."""


def faults(
    store: Store,
    setup: str | None = None,
    language: str = "en",
    *,
    figures: bool = True,
    done: Callable[[str], None] = lambda _: None,
) -> Iterator[Fault]:
    """All that is wrong with one setup or the whole journal, each setup's lowest event first.

    One setup is held in memory at a time. A setup whose events stand as they were written is walked
    again, to its first event that the walk does not allow; with `figures` everything that was
    worked out is worked out again. `done` is told each chain that was looked through.
    """
    registry, amiss = registry_of(store)
    texts = _Texts(store)
    for name in store.chains() if setup is None else (PEOPLE, setup):
        of_chain = _of_chain(texts, name, registry, language, figures)
        if name == PEOPLE:
            of_people = (*of_chain, *(_fault(*each, language) for each in amiss))
            yield from sorted(of_people, key=lambda fault: fault.sequence)
            yield from _unsealed(store, registry, language)
        else:
            yield from of_chain
        done(name)
    if setup is None:
        yield from (_found(each, language) for each in of_the_whole(store))


def head_faults(store: Store, head: str, language: str, alone: bool) -> Iterator[Fault]:
    """What is wrong with a digest that was kept outside: no link of the journal has it.

    `alone` where the chain over all events was not checked already, on which the answer rests.
    """
    if alone:
        yield from (_found(each, language) for each in of_links(store))
    if store.place_of(head) is None:
        yield Fault("missing", "", 0, "", "", say(NO_SUCH_HEAD, language, head=head))


def not_reckoned(store: Store) -> tuple[str, ...]:
    """The setups of which figures are not worked out again: another way of it stands in them."""
    known = (RECKONING, *EARLIER)
    return tuple(
        each.setup for each in store.setups() if each.opening.get("reckoning") not in known
    )


def partly_reckoned(store: Store) -> tuple[str, ...]:
    """The setups of an earlier reckoning, of which only what has changed since is left out."""
    return tuple(each.setup for each in store.setups() if each.opening.get("reckoning") in EARLIER)


def _of_chain(
    texts: _Texts, name: str, registry: Registry, language: str, figures: bool
) -> Iterator[Fault]:
    """All that is wrong with one chain."""
    store = texts.store
    noted = store.noted(name)
    events, whole = chain.sound(store.rows(name), noted)
    of_setup = events and name not in STANDING
    held: Iterable[Fault] = ()
    if of_setup:
        held = _of_setup(texts, events, noted, registry, language, figures)
    elif name == EQUIPMENT:
        amiss = of_equipment(events, noted, registry)
        held = (_fault(*each, language) for each in amiss)
    if whole:
        yield from held
        yield from _of_list(store, events, language) if of_setup else ()
        return
    found = (_found(each, language) for each in chain.findings(store.rows(name), noted, name))
    yield from sorted((*held, *found), key=lambda fault: fault.sequence)


def _of_list(store: Store, events: Sequence[Event], language: str) -> Iterator[Fault]:
    """A setup that the derived list shows otherwise than its events."""
    if not store.is_listed(events[0], events[-1]):
        yield _fault(events[-1], "damaged", NOT_LISTED, {}, language)


def _unsealed(store: Store, registry: Registry, language: str) -> Iterator[Fault]:
    """Everybody who may act and has no sealed key any more."""
    kept = {name for name, _ in store.seals()}
    for person in registry.rosters[-1].active if registry.rosters else ():
        last = person.keys[-1]
        if last.seal not in kept:
            says = visible(say(NO_SEAL, language, person=person.name))
            yield Fault("missing", PEOPLE, last.since, "", "", says)


def _of_setup(
    texts: _Texts,
    events: Sequence[Event],
    noted: Mapping[int, Noted],
    registry: Registry,
    language: str,
    figures: bool,
) -> Iterator[Fault]:
    """All that is wrong with events that stand as they were written, the first of a setup on."""
    for each in unauthorised(events, noted, registry):
        yield _fault(*each, language)
    yield from _walked_again(texts, events, language, figures)


def _walked_again(
    texts: _Texts, events: Sequence[Event], language: str, figures: bool
) -> Iterator[Fault]:
    """The first event that the walk does not allow, and every figure that is not what it says."""
    at = events[0]
    left_out = otherwise(at.data.get("reckoning")) if figures else None
    try:
        fold = texts.fold(str(at.data.get("procedure_text")), str(at.data.get("file")))
        state = fold.opened(at)
        for at in events[1:]:
            before, state = state, fold.after(state, at)
            if left_out is not None and not left_out & at.data.keys():
                yield from _reckoned(fold, before, at, state, language)
    except Refusal as refusal:
        yield _fault(at, "refused", NOT_ALLOWED, {"why": refused(refusal, language)}, language)
    except (ArithmeticError, AttributeError, LookupError, TypeError, ValueError):
        why = say(N_("its data cannot be used."), language)
        yield _fault(at, "refused", NOT_ALLOWED, {"why": why}, language)


class _Texts:
    """The folds of the procedure texts of a journal: the same for every setup that walked one."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.folds: dict[tuple[str, str], Fold] = {}

    def fold(self, digest: str, file: str) -> Fold:
        """The fold of the text kept by a digest; a Refusal where it is lost or cannot be read."""
        if (digest, file) not in self.folds:
            self.folds[digest, file] = fold_of(read(self.store.text(digest), file))
        return self.folds[digest, file]


def _reckoned(
    fold: Fold, before: State, event: Event, after: State, language: str
) -> Iterator[Fault]:
    """What the tool added to an event, worked out from the entries again."""
    entered = {n: v for n, v in event.data.items() if n not in BESIDES_FIGURES}
    again = completed(fold.procedure, before, event.kind, entered) | ending(after)
    kept = {n: v for n, v in event.data.items() if n not in (WITNESS, ALLOWED, "role")}
    if not _alike(again, kept):
        wrong = [name for name in {**kept, **again} if not _alike(again.get(name), kept.get(name))]
        yield _fault(event, "reckoned", NOT_RECKONED, {"names": ", ".join(sorted(wrong))}, language)


def _alike(one: object, other: object) -> bool:
    """Whether two values are the same, lists and tuples alike."""
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(_alike(one[n], other[n]) for n in one)
    if isinstance(one, (list, tuple)) and isinstance(other, (list, tuple)):
        return len(one) == len(other) and all(map(_alike, one, other))
    return one == other and isinstance(one, bool) == isinstance(other, bool)


NO_SUCH_HEAD = N_(
    "No event of this journal has the digest {head}: its end was cut off, a setup was taken out, or"
    " it was worked out anew."
)
NO_SEAL = N_("The sealed key of {person} is missing, who cannot sign on without a new one.")
NOT_ALLOWED = N_("it is not allowed there: {why}")
NOT_LISTED = N_(
    "the list of setups does not say so. The events stand; `spindleside records relist` makes the"
    " list anew."
)
NOT_RECKONED = N_("what it says was worked out does not come of its entries: {names}.")
AMISS = N_("Event {sequence} of setup {setup} ({kind}, step {step}): {what}")


def _found(each: Finding, language: str) -> Fault:
    """A finding of the chain, in words."""
    says = visible(each.in_words(catalogue(language).said))
    return Fault(each.fault, each.setup, each.sequence, each.kind, each.step, says)


def _fault(
    event: Event, fault: str, sentence: str, values: Mapping[str, object], language: str
) -> Fault:
    """What is amiss with an event, in words."""
    what = say(sentence, language, **dict(values))
    says = say(
        AMISS,
        language,
        sequence=event.sequence,
        setup=event.setup,
        kind=event.kind,
        step=event.step or "–",
        what=what,
    )
    return Fault(fault, event.setup, event.sequence, event.kind, event.step, visible(says))
