"""Where one procedure leads into another on the same lathe: a recheck that did not accept."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import islice

from guide.procedure.model import Procedure
from guide.walk.remembered import LOOKED_BACK, answers_of, lathe_of, offer, real_setups, same_name
from guide.walk.setup import Journal
from guide.walk.state import FINISHED, State

TRUING = "adjustable-chuck"
NOT_ACCEPTED = "sign-off-out"
"""The step at which a recheck hands a chuck over as not accepted: truing begins where it ended."""
ANEW = frozenset({"lathe", "turns-freely", "kept-on", "body-runout", "marks", "recheck-date"})
"""What is felt, found out or decided each time: it is never offered, and is asked with no answer
standing there."""


def not_accepted(state: State) -> bool:
    """Whether a walk finished by handing a chuck over as not accepted."""
    return state.place == FINISHED and state.entries[-1].place == NOT_ACCEPTED


def goes_on_to(state: State) -> str:
    """The procedure that a finished walk leads into; blank where it leads into none."""
    return TRUING if not_accepted(state) and not unjudged(state.facts) else ""


def unjudged(facts: Mapping[str, str]) -> bool:
    """Whether nobody competent has looked since a crash: truing runs a chuck, so it waits."""
    return facts.get("why-now") == "crash" and facts.get("competent-look") == "nobody"


def carried_over(journal: Journal, procedure: Procedure, lathe: str) -> dict[str, str]:
    """What truing is offered where the lathe's last real setup was a recheck that did not accept.

    That recheck's answers, and what earlier setups told of the same chuck; else nothing.
    """
    here = (each.setup for each in real_setups(journal) if same_name(lathe_of(each), lathe))
    setups = tuple(islice(here, LOOKED_BACK))
    if procedure.name != TRUING or not setups or not _handed_over_out(journal, setups[0]):
        return {}
    found: dict[str, str] = {}
    answers = [answers_of(journal, each) for each in setups]
    for told in () if unjudged(answers[0]) else answers:
        if told.get("chuck") == found.get("chuck", told.get("chuck")):
            offer(found, told, procedure.facts.keys() - ANEW, procedure)
    return found


def _handed_over_out(journal: Journal, setup: str) -> bool:
    """Whether a setup finished by handing a chuck over as not accepted."""
    last = journal.events(setup)[-1]
    return last.step == NOT_ACCEPTED and last.data.get("ends") == FINISHED
