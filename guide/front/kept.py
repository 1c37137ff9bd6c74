"""Equipment on a page of questions: offered to be chosen, filled in to be confirmed, never said."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from guide.equipment.belongs import BELONGS, DUE, ERROR_LIMIT, INDICATOR, KINDS, NAMED_BY
from guide.equipment.equipment import Equipment
from guide.equipment.register import Register, Thing
from guide.journal.store import Store
from guide.plain import Refusal
from guide.present.visible import visible
from guide.walk.state import State

MOST = 9
"""So many are offered, by a key each; any other is found by typing its name."""
MARK = "kept-"
"""What the name of a row of equipment begins with: it is no answer."""


def register_for(store: Store, state: State) -> Register:
    """The equipment for a page of a real setup; none for practice, or where it is damaged."""
    if state.opening.get("mode") != "real":
        return Register()
    try:
        return Equipment(store).register()
    except Refusal:
        return Register()


def offered(register: Register, name: str) -> tuple[tuple[str, str], ...]:
    """What may be chosen for a question, as values and words; a setup's lathe is settled."""
    kinds = [kind for kind in KINDS if NAMED_BY[kind] == name and name != "lathe"]
    things = [each for kind in kinds for each in register.of(kind)]
    return tuple((f"{each.kind}:{each.name}", visible(each.name)) for each in things[:MOST])


def chosen(register: Register, value: str) -> Thing | None:
    """The thing of a row's value."""
    kind, _, name = value.partition(":")
    return register.named(kind, name)


def named(register: Register, told: Mapping[str, str], asked: Iterable[str]) -> Iterator[Thing]:
    """The things that answers name and to which a question of this page belongs."""
    wanted = set(asked)
    for kind in KINDS:
        thing = register.named(kind, told.get(NAMED_BY[kind], "")) if kind != "bar" else None
        if thing and wanted & set(BELONGS[kind]):
            yield thing


def answers_of(thing: Thing) -> dict[str, str]:
    """What is known of a thing, and its name where a procedure asks for that."""
    by_name = {} if thing.kind == "bar" else {NAMED_BY[thing.kind]: thing.name}
    return by_name | dict(thing.facts)


def error_limit(register: Register, told: Mapping[str, str]) -> str:
    """The largest error that the indicator named here may have; blank where nobody keeps it."""
    thing = register.named(INDICATOR, told.get(NAMED_BY[INDICATOR], ""))
    return thing.facts.get(ERROR_LIMIT, "") if thing else ""


def overdue(register: Register, told: Mapping[str, str], today: str) -> str:
    """The day on which the calibration of the indicator named here ended; blank while it has not.

    As the page says it, or where it does not ask, as it is kept.
    """
    name = told.get(NAMED_BY[INDICATOR], "")
    thing = register.named(INDICATOR, name)
    due = told.get(DUE, "") or (thing.facts.get(DUE, "") if thing else "")
    is_day = len(due) == len(today) and due[:4].isdecimal()
    return due if name and is_day and due < today else ""


def beside(register: Register, told: Mapping[str, str], today: str) -> dict[str, object]:
    """What is recorded beside the answers of a page: a calibration that ended, an error limit."""
    day = overdue(register, told, today)
    more: dict[str, object] = {"overdue": {"indicator-name": day}} if day else {}
    if limit := error_limit(register, told):
        more["error_limit"] = limit
    return more
