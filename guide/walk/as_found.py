"""What a lathe is like before anyone has touched it, by the facts that were told."""

from __future__ import annotations

from guide.walk.looking import ASKED, look_again, strongest
from guide.walk.world import UNKNOWN, Facts, World, as_dict, value, with_values

COMMON = {
    "power": "as-found",
    "controls": "other",
    "spindle": "free",
    "carried": "nothing",
    "lifting-gear": "clear",
    "chuck-key": "out",
    "screw-key": "out",
    "spanner": "out",
    "small-things": "about",
    "jaws": "closed",
    "indicator": "off",
    "bystanders": "near",
    "dressed": "other",
}
BY_NOSE = {
    "nothing": {"seat": "off"},
    "this-plate": {"seat": "caught", "body": "apart", "bolts": "out", "screws": "free"},
    "this-chuck": {"seat": "caught", "body": "on-plate", "bolts": "snug", "screws": "touching"},
    "one-piece": {"seat": "caught", "body": "on-plate", "bolts": "none", "screws": "none"},
}
BY_CHUCK = {"adjustable": "this-chuck", "independent": "one-piece"}
"""What hangs on the nose where work is centred in it and nobody is asked about the nose."""
LOOKED_AT = ("on-nose", "chuck-kind", "guard-fitted", "plate")
"""The only facts that decide what a look is expected to find."""
APART = {"body": "apart", "bolts": "out", "screws": "free"}
BOLTED = {"body": "on-plate", "bolts": "snug", "screws": "touching"}


def world_as_found(facts: Facts) -> World:
    """The usual world before isolating, recorded with the weaker of what cannot be seen."""
    on_nose = facts.get("on-nose") or BY_CHUCK.get(facts.get("chuck-kind", ""), "nothing")
    found = {**COMMON, "guard": "none" if facts.get("guard-fitted") == "no" else "shut"}
    found |= BY_NOSE.get(on_nose, BY_NOSE["one-piece"])
    if on_nose == "nothing":
        found |= BOLTED if facts.get("plate") in ("bolted", "assembled") else APART
    return look_again(UNKNOWN, found)


def expected_at_look(world: World, facts: Facts) -> World:
    """What a look is expected to find: the lathe as found, or what a wrench then proves.

    What nobody has looked at yet, the power cut before anything else, is as on a lathe as found.
    """
    if value(world, "power") in ("unknown", "as-found"):
        return world_as_found(facts)
    found = as_dict(world_as_found(facts))
    known = {n: each if each != "unknown" else found[n] for n, each in as_dict(world).items()}
    proven = as_dict(strongest(with_values(world, known), facts))
    return look_again(world, {name: proven[name] for name in ASKED})
