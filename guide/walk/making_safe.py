"""The way from any machine state to one that may be left: one action at a time.

A fixed order of judgement (common practice, no source): stop it, cut the power, take out what
could be thrown, bring the load to rest, take the spanner out, prove the isolation. That it always
arrives is shown once, in the tests, over every state the table can reach.
"""

from __future__ import annotations

from dataclasses import dataclass

from guide.procedure.model import Procedure
from guide.walk.world import ACTIONS, Facts, World, changed, do, made_safe, may, value


def next_to_safe(world: World, facts: Facts, *, tries: bool = True) -> str | None:
    """The next action towards made safe, or None when it is made safe.

    Where a procedure never `tries` to start, as after a crash, neither does the way to safety.
    """
    if made_safe(world, facts):
        return None
    return (
        _stop_and_cut(world)
        or _take_out(world)
        or _proven_first(world, facts, _bring_to_rest(world, facts), tries)
        or ("remove spanner" if value(world, "spanner") == "in" else None)
        or _prove(world, facts, tries)
    )


def tries_to_start(procedure: Procedure) -> bool:
    """Whether a step of a procedure proves the isolation by trying to start."""
    return any(each.action == "try to start" for step in procedure.steps for each in step.does)


def gate_before(action: str) -> str:
    """What a gate has to be acknowledged for just before this action, or nothing."""
    return ACTIONS[action].gate


def _stop_and_cut(world: World) -> str | None:
    """Standing, switched off, lever and switch back."""
    if value(world, "spindle") == "turning":
        return "stop"
    if value(world, "power") in ("as-found", "restored", "unknown"):
        return "isolate"
    return "set controls neutral" if value(world, "controls") == "other" else None


def _take_out(world: World) -> str | None:
    """Keys and indicator, whatever the load does."""
    if value(world, "chuck-key") == "in" and not _closing_jaws(world):
        return "remove chuck-key"
    if value(world, "screw-key") == "in":
        return "remove screw-key"
    return "remove indicator" if value(world, "indicator") == "set" else None


def _closing_jaws(world: World) -> bool:
    """Whether the chuck key is in because loose jaws are being closed before a lift."""
    return value(world, "jaws") == "loose" and _hangs_by_nothing(world)


def _hangs_by_nothing(world: World) -> bool:
    """A chuck on the nose that nothing carries and that is not locked."""
    return (
        value(world, "carried") == "nothing"
        and value(world, "seat") in ("on-nose", "caught")
        and value(world, "body") == "on-plate"
    )


def _proven_first(world: World, facts: Facts, wanted: str | None, tries: bool) -> str | None:
    """An action that waits for proven isolation lets that proof go first."""
    if wanted and value(world, "power") == "off" and not may_but_for_gate(wanted, world, facts):
        return _prove(world, facts, tries)
    return wanted


def may_but_for_gate(action: str, world: World, facts: Facts) -> bool:
    """Whether an action may be done once the gate it needs is fresh."""
    purpose = gate_before(action)
    return may(action, changed(world, gate=purpose) if purpose else world, facts)


def _prove(world: World, facts: Facts, tries: bool) -> str | None:
    """Try to start where that is allowed, else see it."""
    if value(world, "power") != "off":
        return None
    if tries and may("try to start", changed(world, bystanders="clear"), facts):
        return "try to start"
    return "see isolated"


def _bring_to_rest(world: World, facts: Facts) -> str | None:
    """What the load needs next, by what carries it."""
    carried, seat = value(world, "carried"), value(world, "seat")
    if carried == "nothing":
        return _unsupported(world, facts)
    if seat == "off":
        return "set down"
    if carried == "body":
        return "set down" if value(world, "body") == "apart" else "bolts catch"
    if seat == "on-nose":
        if facts.get("nose") == "threaded" and value(world, "spindle") == "held":
            return "free spindle"
        return "catch"
    if carried == "plate":
        return "release"
    return _fasten(world, facts) or (
        "remove spanner" if value(world, "spanner") == "in" else "release"
    )


def _fasten(world: World, facts: Facts) -> str | None:
    """Lock the seat and snug the bolts of what is on the nose."""
    on_plate, bolts = value(world, "body") == "on-plate", value(world, "bolts")
    if value(world, "seat") == "caught":
        if facts.get("nose") != "threaded" and value(world, "spanner") == "out":
            return "fit spanner"
        if facts.get("nose") == "long" and value(world, "spindle") == "free":
            return "hold spindle"
        return "lock"
    if on_plate and bolts == "out":
        return "bolts catch"
    if on_plate and bolts == "caught":
        return "fit spanner" if value(world, "spanner") == "out" else "bolts snug"
    return None


def _unsupported(world: World, facts: Facts) -> str | None:
    """Nothing carries it: fasten it where it is, or take it up first."""
    if value(world, "seat") == "off":
        return None
    if value(world, "body") == "apart" and value(world, "seat") == "caught":
        return _fasten(world, facts)
    if value(world, "seat") == "locked":
        return _fasten(world, facts)
    return _take_up(world)


def _take_up(world: World) -> str | None:
    """Support what stands on the nose uncaught, or caught with the body on."""
    if value(world, "spanner") == "in":
        return "remove spanner"
    if value(world, "body") == "apart":
        return "take up plate" if value(world, "dressed") == "for-lifting" else "dress for lifting"
    if value(world, "bolts") == "out":
        return "bolts catch"
    if value(world, "lifting-gear") != "rigged":
        return "rig lifting-gear"
    if value(world, "jaws") == "loose":
        return "close jaws" if value(world, "chuck-key") == "in" else "fit chuck-key"
    if value(world, "chuck-key") == "in":
        return "remove chuck-key"
    return "take up chuck" if value(world, "dressed") == "for-lifting" else "dress for lifting"


@dataclass(frozen=True, slots=True)
class Wanted:
    """The next thing on the way to made safe: an action, or the gate before it."""

    action: str
    trigger: str
    """`done` for the action, `acknowledge` for its gate."""
    checks: tuple[str, ...] = ()
    """What the gate's checks set, blank for a check that only confirms."""
    opens: str = ""

    def through(self, world: World, facts: Facts) -> World:
        """The world behind the gate."""
        for setting in self.checks:
            world = do(setting, world, facts) if setting else world
        return changed(world, gate=self.opens) if self.opens else world


BEFORE_TRYING = ("bystanders clear", "")
BEFORE_LIFTING = ("dress for lifting", "bystanders clear", "")
BEFORE_RELEASING = ("", "")


def wanted_to_safe(world: World, facts: Facts, *, tries: bool = True) -> Wanted:
    """The next action or gate; the gate goes first where it is not fresh."""
    action = next_to_safe(world, facts, tries=tries)
    if action is None:
        raise ValueError("made safe already")
    purpose = gate_before(action)
    if action == "dress for lifting" or (purpose == "taking-up" != value(world, "gate")):
        lifted = "take up plate" if value(world, "body") == "apart" else "take up chuck"
        return Wanted(lifted, "acknowledge", BEFORE_LIFTING, "taking-up")
    if purpose and purpose != value(world, "gate"):
        return Wanted(action, "acknowledge", BEFORE_RELEASING, purpose)
    if action == "try to start" and value(world, "bystanders") != "clear":
        return Wanted(action, "acknowledge", BEFORE_TRYING)
    return Wanted(action, "done")
