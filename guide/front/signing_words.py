"""What is said where people are named and sign on: first use, a witness, a deviation."""

from __future__ import annotations

from collections.abc import Sequence

from guide.plain import N_
from guide.present.labels import ROLE
from guide.present.tongue import say
from guide.present.visible import visible

PERSON = N_("Your name:")
PIN = N_("Your PIN or passphrase:")
LATHE = N_("Which lathe is it? The name it has in this shop:")
NEW_PIN = N_("A PIN or passphrase of your own, at least six characters:")
AGAIN = N_("The same again:")
NOT_ALIKE = N_("The two PINs are not the same. Type both again.")
WHO_WORKS = N_("Who works here?")
FIRST_USE = N_(
    "Where people sign on, the record shows who did what. The first person is a supervisor,"
    " who adds the others. Nobody can look up a forgotten PIN: have a second supervisor."
    " From a copy of the journal file a short PIN is soon found by trying, a long passphrase"
    " is not."
)
WAY = N_("How is it to be here?")
WAYS = {
    "on": N_("we sign on, each with a PIN"),
    "off": N_("I work alone, nobody signs on: every page says NOT SIGNED"),
}
"""How people may work here."""
SECOND_NAME = N_("The second person's name:")
SECOND_PIN = N_("That person's PIN or passphrase:")
WHO_ALLOWS = N_("Who allows it?")
WHY_NOT = N_("Why is it not done as written?")
DEVIATION = N_(
    "Nothing that this step does counts as done, and whatever needs it stays shut. A gate"
    " is never passed this way. A machinist or a supervisor allows it; to allow it to"
    " oneself takes a supervisor."
)
DEVIATED = N_("Recorded. What follows needs this done: the walk stays here.")
NOT_WITNESSED = N_("It was not witnessed, so nothing was entered.")
NOBODY_ELSE = N_(
    "Nobody else who may do that is on record. A supervisor adds people: start page, People."
)
SIGNED = N_(
    "Somebody other than {person}, {role} or above, looks for themselves that this is so, and"
    " signs beside:"
)
NAMED = N_(
    "Somebody other than {person}, {role} or above, looks for themselves that this is so, and"
    " is named beside:"
)


def of_witness(role: str, by: str, signed: bool) -> str:
    """Who is to stand beside what `by` did, and what that person does."""
    return say(SIGNED if signed else NAMED, role=say(ROLE[role]), person=visible(by))


def wrong_before(tries: Sequence[tuple[str, int, str]]) -> str:
    """For whoever has just signed on: how many wrong PINs were tried before, and when the last."""
    one = N_("Before this sign-on a wrong PIN was tried for {name}, on {when}.")
    more = N_("Before this sign-on {n} wrong PINs were tried for {name}, the last on {when}.")
    told = [
        say(one if n == 1 else more, name=visible(name), n=n, when=at_clock(at, "%Y-%m-%d %H:%M"))
        for name, n, at in tries
    ]
    then = N_("If that was somebody else, tell a supervisor and change the PIN.")
    return " ".join((*told, say(then))) if told else ""


def at_clock(at: str, form: str = "%H:%M") -> str:
    """A stored moment by the local clock, only the time of day unless another form is given."""
    from datetime import datetime

    return datetime.fromisoformat(at).astimezone().strftime(form)
