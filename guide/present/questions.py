"""Words for the machine state and its actions: asked at making sure, told at making safe."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from guide.plain import N_
from guide.walk.looking import wrench_allowed
from guide.walk.making_safe import Wanted
from guide.walk.world import World, value

ASKS = {
    "power": N_("The power to the lathe"),
    "controls": N_("Speed lever and switch"),
    "spindle": N_("The spindle"),
    "seat": N_("What is on the nose"),
    "body": N_("Chuck body and plate"),
    "bolts": N_("The mounting bolts, plate to body"),
    "screws": N_("The adjusting screws"),
    "carried": N_("What the support carries now"),
    "lifting-gear": N_("Lifting gear: bar, sling, cradle, board"),
    "chuck-key": N_("The chuck key"),
    "screw-key": N_("The key of the adjusting screws"),
    "spanner": N_("Spanner on nut, cams or bolts"),
    "small-things": N_("Rags, tools and stops in the swing"),
    "jaws": N_("The jaws"),
    "indicator": N_("The indicator"),
    "guard": N_("The chuck guard"),
    "bystanders": N_("Other people"),
    "dressed": N_("How you are dressed"),
    "swing": N_("A full turn by hand"),
    "reads": N_("The reading at the screw"),
    "series": N_("The series of readings"),
    "result": N_("The result"),
    "gate": N_("The gate"),
}
"""Each variable as it is asked about, by looking."""

ANSWERS: Mapping[str, Mapping[str, str]] = {
    "power": {
        "as-found": N_("as it was found; nobody has isolated it"),
        "off": N_("isolated, not proven yet"),
        "isolated": N_("isolated and proven: own lock on, or the plug in own keeping"),
        "restored": N_("restored"),
    },
    "controls": {
        "other": N_("anything else"),
        "neutral": N_("neutral and stop"),
        "lowest-speed": N_("lowest speed, automatic restart off"),
    },
    "spindle": {
        "free": N_("stands, free to turn"),
        "held": N_("stands, held by low gear or a strap"),
        "turning": N_("turning"),
    },
    "seat": {
        "off": N_("nothing on the nose"),
        "on-nose": N_("pushed on, nothing holds it yet"),
        "caught": N_("caught: two cams, or nut or thread well started"),
        "locked": N_("locked: checked with a wrench, it did not move"),
    },
    "body": {"apart": N_("apart"), "on-plate": N_("joined")},
    "bolts": {
        "none": N_("it has none"),
        "out": N_("out"),
        "caught": N_("two in, well started"),
        "snug": N_("in, not known to be tight"),
        "tight": N_("tight: checked with a wrench, none moved"),
    },
    "screws": {
        "none": N_("it has none"),
        "free": N_("backed off"),
        "touching": N_("touching, not known to be nipped"),
        "nipped": N_("nipped: checked with a key, none moved"),
    },
    "carried": {
        "nothing": N_("nothing"),
        "plate": N_("the plate"),
        "body": N_("the chuck body"),
        "chuck": N_("the whole chuck"),
    },
    "lifting-gear": {
        "rigged": N_("hooked on or under the load"),
        "clear": N_("lies here, touches nothing"),
        "away": N_("away"),
    },
    "chuck-key": {"in": N_("in the chuck"), "out": N_("out")},
    "screw-key": {"in": N_("in a screw"), "out": N_("out")},
    "spanner": {"in": N_("on"), "out": N_("off")},
    "small-things": {"about": N_("lying about"), "cleared": N_("cleared away")},
    "jaws": {
        "loose": N_("open or loose"),
        "on-bar": N_("gripping a bar or work"),
        "on-work": N_("gripping for work: each tried with the key, none moved"),
        "closed": N_("closed inside their marks"),
    },
    "indicator": {"off": N_("off the lathe"), "set": N_("set up")},
    "guard": {"open": N_("open"), "shut": N_("shut"), "none": N_("not fitted")},
    "bystanders": {"near": N_("near"), "clear": N_("clear of the lathe")},
    "dressed": {
        "other": N_("as for neither of these"),
        "for-lifting": N_("gloves, safety shoes: for lifting"),
        "for-turning": N_("no gloves, nothing loose, eyes covered: for turning"),
    },
    "swing": {"checked": N_("checked"), "not": N_("not checked")},
    "reads": {"none": N_("none"), "fresh": N_("fresh"), "void": N_("void")},
    "series": {"none": N_("none"), "open": N_("open"), "closed": N_("closed")},
    "result": {"none": N_("none"), "valid": N_("stands"), "void": N_("void")},
    "gate": {
        "none": N_("none is fresh"),
        "taking-up": N_("fresh for taking up"),
        "releasing": N_("fresh for releasing"),
        "power": N_("fresh for power"),
        "running": N_("fresh for running"),
    },
}
"""Each value as it is seen."""
UNKNOWN = N_("not known")

ACTIONS = {
    "look": N_("look at the whole machine and say what is seen"),
    "set controls other": N_("set lever and switch as told"),
    "set controls neutral": N_("put the speed lever in neutral and the switch to stop"),
    "set controls lowest-speed": N_("set the lowest speed; automatic restart off"),
    "stop": N_("stop the spindle and see it stand still"),
    "isolate": N_("isolate: plug in your own hand, or your own lock on the isolator"),
    "try to start": N_("try to start it, then put lever and switch back to neutral and stop"),
    "see isolated": N_("see that it is isolated: plug in hand, or contacts seen open"),
    "hold spindle": N_("hold the spindle with low gear or a strap, never with a key"),
    "free spindle": N_("let the spindle go free"),
    "rig lifting-gear": N_("rig the lifting gear to the load"),
    "take up plate": N_("take up the plate"),
    "take up body": N_("take up the chuck body, carried by its support"),
    "take up chuck": N_("take up the chuck, carried by its support"),
    "set down": N_("set the load down where it stays"),
    "release": N_("let the nose bear the load; the support comes away"),
    "put on nose": N_("put it on the nose, hands clear of the gap"),
    "catch": N_("catch it: two cams, or nut or thread well started"),
    "lock": N_("lock it on the nose by the maker's manual"),
    "unlock": N_("unlock it while the support carries it"),
    "take off nose": N_("draw it off the nose, carried"),
    "join": N_("join body and plate at their marks"),
    "part": N_("part body and plate"),
    "bolts catch": N_("start two mounting bolts well, across from each other"),
    "bolts snug": N_("bring the mounting bolts snug"),
    "bolts ease": N_("ease the mounting bolts one stage, never slack"),
    "bolts slacken": N_("slacken the mounting bolts"),
    "bolts tighten": N_("tighten the mounting bolts in their order"),
    "take bolts out": N_("take the mounting bolts out"),
    "screws touch": N_("bring the adjusting screws to touch"),
    "screws nip": N_("nip the adjusting screws evenly"),
    "screws turn": N_("turn the adjusting screws"),
    "fit chuck-key": N_("put the chuck key in, hand on it"),
    "remove chuck-key": N_("take the chuck key out and lay it away"),
    "fit screw-key": N_("put the screw key in"),
    "remove screw-key": N_("take the screw key out and lay it away"),
    "fit spanner": N_("put the spanner on"),
    "remove spanner": N_("take the spanner off and lay it away"),
    "grip bar": N_("grip the bar"),
    "release bar": N_("let the bar go"),
    "jaws shift": N_("ease one jaw a hair and drive the one across in; the others hold"),
    "jaws tighten": N_("pull the jaws up evenly for work"),
    "close jaws": N_("close the jaws inside their marks"),
    "set indicator": N_("set the indicator up"),
    "remove indicator": N_("take the indicator away"),
    "read": N_("read the dial"),
    "turn by hand": N_("turn the spindle by hand, a full turn"),
    "clear away": N_("clear gear, tools and rags away from the swing"),
    "open guard": N_("open the chuck guard"),
    "shut guard": N_("shut the chuck guard"),
    "dress for lifting": N_("dress for lifting: gloves, safety shoes"),
    "dress for turning": N_("dress for turning: no gloves, nothing loose, eyes covered"),
    "bystanders clear": N_("send everyone else clear of the lathe"),
    "restore power": N_("restore the power"),
    "run slow": N_("run at the lowest speed, out of the chuck's plane"),
}
"""Each action of the table, as an instruction."""


@dataclass(frozen=True, slots=True)
class Confirming:
    """One line of a gate: what is confirmed, the hazard, how to look."""

    say: str
    hazard: str
    look: str


DRESS = Confirming(
    N_("I wear safety shoes and gloves that fit, and nothing that can catch."),
    N_("A load that slips crushes fingers and feet."),
    N_("Look down at yourself."),
)
BYSTANDERS = Confirming(
    N_("Everyone else is clear of the lathe and knows what I am about to do."),
    N_("Someone else's hand may be where the load or the chuck goes."),
    N_("Look all round, and say it aloud."),
)
READY = {
    "taking-up": Confirming(
        N_("Keys, spanner and indicator are off, and the support is under the load."),
        N_("The load drops when nothing carries it, and throws what is left in it."),
        N_("Touch each place; the support carries before anything is undone."),
    ),
    "": Confirming(
        N_("Nothing hangs; no key, spanner or indicator is on the lathe."),
        N_("If it does start, what is left on it is thrown."),
        N_("Look at nose, chuck, screws and tool post."),
    ),
}
BORNE = (
    Confirming(
        N_("What stays on the nose is held: by cams, nut, thread or bolts."),
        N_("A chuck that nothing holds falls off the nose."),
        N_("See each fastener; pull by hand with the support still there."),
    ),
    Confirming(
        N_("Hands and feet are out from under it."),
        N_("It can drop when the support goes."),
        N_("Stand to the side, and look where your feet are."),
    ),
)
SETTINGS = {"dress for lifting": DRESS, "bystanders clear": BYSTANDERS}


def asks(variable: str) -> str:
    """What is looked at for a variable."""
    return ASKS[variable]


def answers_to(variable: str, each: str) -> str:
    """One value in words."""
    return UNKNOWN if each == "unknown" else ANSWERS[variable][each]


def instruction(action: str) -> str:
    """What a person does for an action of the table."""
    return ACTIONS[action]


def before_safe(wanted: Wanted) -> tuple[Confirming, ...]:
    """The lines of the gate before an action towards made safe."""
    if wanted.opens == "releasing":
        return BORNE[: len(wanted.checks)]
    return tuple(SETTINGS.get(each, READY.get(wanted.opens, READY[""])) for each in wanted.checks)


def wrench_rule(world: World) -> str:
    """Whether tight and locked may be answered now, and how."""
    if wrench_allowed(world):
        return N_("Tight, nipped and locked only if a wrench was put on it and it did not move.")
    return N_("The power is not isolated: put no wrench on anything, only look.")


def hangs_where(world: World) -> tuple[tuple[str, str], ...]:
    """What the next person must know of a lathe that was left: variable and value."""
    told = ("power", "spindle", "seat", "body", "bolts", "carried", "lifting-gear")
    keys = ("chuck-key", "screw-key", "spanner", "indicator")
    always = [(name, value(world, name)) for name in told]
    return (*always, *((name, value(world, name)) for name in keys if value(world, name) != "out"))
