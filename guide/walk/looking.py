"""Making sure: what is asked by looking, what may be answered, and what the answers void."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guide.plain import N_, BadInput
from guide.walk.world import (
    VARIABLES,
    Facts,
    World,
    as_dict,
    value,
    with_values,
)

NOT_ASKED = ("swing", "reads", "series", "result", "gate")
"""What looking cannot show: it follows from the rest, or has to be done again."""

ASKED = tuple(name for name in VARIABLES if name not in NOT_ASKED)

UNSEEN = {
    "seat": ("locked", "caught"),
    "bolts": ("tight", "snug"),
    "screws": ("nipped", "touching"),
    "jaws": ("on-work", "on-bar"),
}
"""Values that only a wrench can tell apart: the stronger, and what is recorded without one."""

DECIDE_ANSWERS = ("guard-fitted", "on-nose", "chuck-kind")
"""The facts that what may be answered depends on."""

DISTURBED = ("seat", "body", "bolts", "screws")
MOVED = ("seat", "jaws", "indicator")


def answers(variable: str, world: World, facts: Facts) -> tuple[str, ...]:
    """What may be seen for a variable here; the whole table's values where nothing is known.

    A wrench goes on nothing while the power is as found, so the stronger values are not offered.
    """
    if variable == "guard":
        return ("none",) if facts.get("guard-fitted") == "no" else ("open", "shut")
    if variable == "power":
        on = "restored" if value(world, "power") == "restored" else "as-found"
        return (on, "off", "isolated")
    if variable in ("bolts", "screws"):
        return _fastener(variable, world, facts)
    if variable == "seat" and not wrench_allowed(world):
        return ("off", "on-nose", "caught")
    if variable == "jaws" and not (wrench_allowed(world) and "chuck-kind" in facts):
        return tuple(each for each in VARIABLES["jaws"] if each != "on-work")
    return VARIABLES[variable]


def wrench_allowed(world: World) -> bool:
    """Whether a wrench may be put on anything: never before the power is off."""
    return value(world, "power") in ("off", "isolated")


def _fastener(variable: str, world: World, facts: Facts) -> tuple[str, ...]:
    """A chuck in one piece has neither bolts nor screws of this kind.

    Independent jaws need no screws; whether bolts hold that chuck to a plate is seen by looking.
    """
    in_jaws = facts.get("chuck-kind") == "independent"
    if facts.get("on-nose") == "one-piece" or (in_jaws and variable == "screws"):
        return ("none",)
    some = tuple(each for each in VARIABLES[variable] if each != "none" or in_jaws)
    return some if wrench_allowed(world) else tuple(each for each in some if not _strong(each))


def _strong(each: str) -> bool:
    """Whether only a wrench could tell."""
    return each in ("tight", "nipped", "locked")


def seen(world: World, found: Mapping[str, str], facts: Facts) -> World:
    """The world after making sure: every asked variable is what was seen.

    Raises `BadInput` naming a variable that was left out or a value that it cannot have.
    """
    found = found if isinstance(found, Mapping) else {}
    for name in ASKED:
        if found.get(name) not in answers(name, _powered(world, found), facts):
            raise BadInput(
                N_("{variable} was not answered with something that can be seen here."),
                N_("Answer one of: {answers}."),
                variable=name,
                answers=", ".join(answers(name, _powered(world, found), facts)),
            )
    return look_again(world, {name: found[name] for name in ASKED})


def _powered(world: World, found: Mapping[str, str]) -> World:
    """The world with the power as answered, which decides what a wrench may be put on."""
    power = found.get("power", "unknown")
    return with_values(world, {"power": power}) if power in VARIABLES["power"] else world


def look_again(world: World, found: Mapping[str, str]) -> World:
    """What is seen becomes the state; a change voids what the action would have voided."""
    before = as_dict(world)
    new = as_dict(settle(with_values(world, dict(found))))
    voided = {"swing": "not", "gate": "none"}
    voided["reads"] = "void" if before["reads"] == "fresh" else before["reads"]
    let_go = before["jaws"] == "on-work" != new["jaws"]
    if let_go or any(before[each] not in (new[each], "unknown") for each in DISTURBED):
        voided["result"] = "void" if before["result"] == "valid" else before["result"]
    if any(before[each] != new[each] for each in MOVED) or new["indicator"] == "off":
        voided["series"] = "closed" if before["series"] == "open" else before["series"]
    if new["indicator"] == "set" and before["indicator"] != "set":
        voided["series"] = "open"
    for each in ("reads", "series", "result"):
        if voided.get(each, before[each]) == "unknown":
            voided[each] = "none"
    return with_values(world, {**new, **voided})


def settle(world: World) -> World:
    """What one answer says about the others: a body without bolts is carried as a body, …"""
    now = as_dict(world)
    if now["body"] == "apart":
        now["bolts"] = "none" if now["bolts"] == "none" else "out"
        now["screws"] = "none" if now["screws"] == "none" else "free"
        now["carried"] = "body" if now["carried"] == "chuck" else now["carried"]
    elif now["bolts"] == "out" and now["carried"] == "chuck":
        now["carried"] = "body"
    elif now["bolts"] != "out" and now["carried"] in ("body", "plate"):
        now["carried"] = "chuck"
    elif now["carried"] == "plate":
        now["carried"] = "body"
    return with_values(world, now)


def changes(world: World, facts: Facts) -> Iterator[World]:
    """The truth and every single change that making sure might find."""
    now = as_dict(world)
    truth = {name: now[name] for name in ASKED}
    yield look_again(world, truth)
    for name in ASKED:
        for each in answers(name, world, facts):
            if each != now[name]:
                yield look_again(world, {**truth, name: each})


def strongest(world: World, facts: Facts) -> World:
    """The world in which everything that a wrench can prove here is proven."""
    now = as_dict(world)
    proven = {
        name: strong
        for name, (strong, weak) in UNSEEN.items()
        if now[name] == weak and strong in answers(name, world, facts)
    }
    return with_values(world, proven)
