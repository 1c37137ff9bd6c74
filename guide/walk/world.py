"""Machine state and what an action does to it, read from the reviewed table."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache

from guide.plain import N_, NotAllowed
from guide.procedure.condition import Condition, Term, condition
from guide.walk import table

World = tuple[str, ...]
"""One value for each variable, in the order of the table; every one starts `unknown`."""
Facts = Mapping[str, str]
"""Closed facts by name."""
Test = Callable[[str], bool]
"""Answers a branch test by its name."""
Look = Callable[[World, Facts, Test], bool]
"""A condition made ready to be asked often."""


def _rows(text: str) -> dict[str, tuple[str, ...]]:
    """Lines of a name and its values."""
    return {line.split()[0]: tuple(line.split()[1:]) for line in text.strip().splitlines()}


VARIABLES = _rows(table.VARIABLES)
TABLE_FACTS = _rows(table.FACTS)
INDEX = {name: place for place, name in enumerate(VARIABLES)}
UNKNOWN: World = ("unknown",) * len(VARIABLES)


def value(world: World, variable: str) -> str:
    """What one variable is."""
    return world[INDEX[variable]]


def changed(world: World, **values: str) -> World:
    """The world with some variables set; `_` in a keyword stands for `-`."""
    return with_values(world, {name.replace("_", "-"): each for name, each in values.items()})


def with_values(world: World, values: Mapping[str, str]) -> World:
    """The world with some variables set by name."""
    new = list(world)
    for name, each in values.items():
        new[INDEX[name]] = each
    return tuple(new)


def as_dict(world: World) -> dict[str, str]:
    """The world by variable name."""
    return dict(zip(VARIABLES, world, strict=True))


def no_test(name: str) -> bool:
    """Stands where a condition may not name a branch test."""
    raise KeyError(name)


@cache
def ready(wanted: Condition) -> Look:
    """A condition as one function of world, facts and branch tests."""
    either = [[_ready_term(term) for term in all_of] for all_of in wanted.either]
    if len(either) == 1 and len(either[0]) == 1:
        return either[0][0]
    return _either_holds(either)


def _either_holds(either: list[list[Look]]) -> Look:
    """Whether all terms of one of the alternatives hold; plain loops, as it is asked so often."""

    def look(world: World, facts: Facts, test: Test) -> bool:
        for all_of in either:
            for term in all_of:
                if not term(world, facts, test):
                    break
            else:
                return True
        return False

    return look


def _ready_term(term: Term) -> Look:
    """One term; a variable's name wins over a fact's."""
    wanted, name, truth = term.values, term.name, not term.negated
    if not wanted:
        return lambda world, facts, test: test(name) is truth
    if name in INDEX:
        place = INDEX[name]
        if truth:
            return lambda world, facts, test: world[place] in wanted
        return lambda world, facts, test: world[place] not in wanted | {"unknown"}
    return lambda world, facts, test: (facts.get(name, "unknown") in wanted) is truth


def _conditions(text: str) -> tuple[Condition, ...]:
    """One condition a line."""
    return tuple(condition(line) for line in text.splitlines() if line)


NEVER = _conditions(table.NEVER)
POWER = _conditions(table.POWER)
MADE_SAFE = _conditions(table.MADE_SAFE)
FINISHED = _conditions(table.FINISHED)


@dataclass(frozen=True, slots=True)
class Action:
    """What one action starts from, needs, and makes true."""

    name: str
    possible: tuple[Condition, ...]
    needs: tuple[Condition, ...]
    then: tuple[tuple[str, str, Condition | None], ...]
    voids: tuple[str, ...]

    @property
    def gate(self) -> str:
        """What the fresh gate it needs is for, or nothing."""
        return next(
            (str(min(t.values)) for each in self.needs for t in each.terms if t.name == "gate"), ""
        )


def _read_actions(text: str) -> dict[str, Action]:
    """The table's blocks."""
    blocks: dict[str, list[tuple[str, str]]] = {}
    for line in text.strip().splitlines():
        if not line.startswith(" "):
            lines = blocks.setdefault(line.strip(), [])
            continue
        word, _, rest = line.strip().partition(" ")
        lines.append((word, rest.strip()))
    return {name: _action(name, lines) for name, lines in blocks.items()}


def _action(name: str, lines: list[tuple[str, str]]) -> Action:
    """One block."""
    needs: list[Condition] = []
    for word, rest in lines:
        if word == "needs":
            needs += POWER if rest == "all of POWER" else (condition(rest),)
    return Action(
        name,
        tuple(condition(rest) for word, rest in lines if word == "possible"),
        tuple(needs),
        tuple(_effect(rest) for word, rest in lines if word == "then"),
        tuple(each for word, rest in lines if word == "voids" for each in rest.split()),
    )


def _effect(text: str) -> tuple[str, str, Condition | None]:
    """`variable=value`, perhaps with `if` and a condition."""
    setting, _, only_if = text.partition(" if ")
    variable, _, new = setting.partition("=")
    return variable, new, condition(only_if) if only_if else None


ACTIONS = _read_actions(table.ACTIONS)
VOIDED = {"result": ("valid", "void"), "reads": ("fresh", "void"), "series": ("open", "closed")}


@dataclass(frozen=True, slots=True)
class _Ready:
    """An action with its conditions made ready."""

    action: Action
    asks: tuple[tuple[Look, Condition], ...]
    sets: tuple[tuple[int, str, Look | None], ...]
    voids: tuple[tuple[int, str, str], ...]
    work: bool


def _make_ready(action: Action) -> _Ready:
    """Compile one action; nothing is looked up by name afterwards."""
    return _Ready(
        action,
        tuple((ready(c), c) for c in (RULES[action.name], *action.possible, *action.needs)),
        tuple((INDEX[v], new, ready(c) if c else None) for v, new, c in action.then),
        tuple((INDEX[v], *VOIDED[v]) for v in action.voids),
        action.name not in table.NOT_WORK,
    )


def _rule(name: str) -> Condition:
    """When the rules for all let an action be done, by power and by the spindle standing still."""
    still, standing = "spindle=unknown/free/held", "spindle=free/held"
    either = [f"power=isolated and {still}"]
    if name in table.WHILE_AS_FOUND:
        either.append(f"power=unknown/as-found and {still}")
    if name in table.REMOVING:
        either.append(f"power=as-found and {standing}")
    if name in table.WHILE_OFF:
        either.append(f"power=off and {still}")
    if name in table.WHILE_RESTORED:
        either.append(f"power=restored and {still}")
    if name in table.WHILE_TURNING:
        either.append("spindle=turning")
    return condition(" or ".join(either))


RULES = {name: _rule(name) for name in ACTIONS}
"""For each action, when the rules for all allow it."""
_READY = {name: _make_ready(action) for name, action in ACTIONS.items()}
_SWING, _BYSTANDERS, _GATE = INDEX["swing"], INDEX["bystanders"], INDEX["gate"]


def unmet(action: str, world: World, facts: Facts) -> tuple[Condition, ...]:
    """What stands against an action here: empty when it may be done."""
    return tuple([c for look, c in _READY[action].asks if not look(world, facts, no_test)])


def may(action: str, world: World, facts: Facts) -> bool:
    """Whether an action may be done here."""
    return all(look(world, facts, no_test) for look, _ in _READY[action].asks)


def after(action: str, world: World, facts: Facts) -> World:
    """The world after an action that may be done; any action spends a fresh gate."""
    made = _READY[action]
    new = list(world)
    if made.work:
        new[_SWING], new[_BYSTANDERS] = "not", "unknown"
    for place, each, only_if in made.sets:
        if only_if is None or only_if(world, facts, no_test):
            new[place] = each
    for place, was, becomes in made.voids:
        if new[place] == was:
            new[place] = becomes
    new[_GATE] = "none"
    return tuple(new)


def do(action: str, world: World, facts: Facts) -> World:
    """The world after an action; raises `NotAllowed` naming what stands against it."""
    against = unmet(action, world, facts)
    if against:
        raise NotAllowed(
            N_("“{action}” may not be done now: it needs {needs}."),
            N_("Go back to the step that makes that true."),
            action=action,
            needs="; ".join(each.text for each in against),
        )
    return after(action, world, facts)


def all_hold(wanted: tuple[Condition, ...], world: World, facts: Facts) -> bool:
    """Whether every condition holds."""
    return all(ready(each)(world, facts, no_test) for each in wanted)


def made_safe(world: World, facts: Facts) -> bool:
    """Whether the lathe may be left as it is."""
    return all_hold(MADE_SAFE, world, facts)


def finished(world: World, facts: Facts) -> bool:
    """Whether the lathe may be handed over as it is."""
    return all_hold(FINISHED, world, facts)
