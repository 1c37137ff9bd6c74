"""Short words for the closed sets of a record."""

from __future__ import annotations

from guide.plain import N_

MODE = {
    "practice": N_("PRACTICE, not a real lathe"),
    "rehearsal": N_("REHEARSAL, not a real lathe"),
}
"""The mark of a setup that was never at a lathe."""
NOT_A_TERMINAL = N_("NOT TYPED AT A TERMINAL")
"""The mark of a setup whose input was neither a terminal nor the program's own session."""

NOT_SIGNED = N_("NOT SIGNED: sign-on was off")
"""The mark of a setup whose events nobody signed."""
CLOCK_SET_BACK = N_("the clock had been set back")
"""The note of an event that is dated before the one before it."""

SERVES_AS = {
    "nose-play": N_("play at the bare nose"),
    "nose-runout": N_("runout of the bare nose"),
    "plate-play": N_("play on the plate"),
    "register-runout": N_("runout of the plate's register"),
    "face-runout": N_("runout of the plate's face"),
    "as-found": N_("as found"),
    "as-mounted": N_("as mounted"),
    "round": N_("after a round of correcting"),
    "second-screw": N_("at one screw"),
    "after-torque": N_("after the final torque"),
    "finer": N_("with the finer indicator"),
    "reversed": N_("bar turned half round in the jaws"),
    "gripped-again": N_("gripped again"),
    "bar-play": N_("play at the bar"),
    "as-left": N_("as left"),
    "nose-face": N_("runout of the spindle's face"),
    "axial-slip": N_("axial slip of the spindle"),
    "bore-near": N_("bar in the taper bore, near the nose"),
    "bore-far": N_("bar in the taper bore, far out"),
    "radial-play": N_("play across the spindle, by lever"),
    "axial-play": N_("play along the spindle, by lever"),
    "centre-runout": N_("runout of the headstock's centre"),
    "tail-height": N_("tailstock in height"),
    "tail-side": N_("tailstock sideways"),
    "tail-height-left": N_("tailstock in height, as left"),
    "tail-side-left": N_("tailstock sideways, as left"),
    "body-play": N_("play at the chuck's body"),
    "body-runout": N_("runout of the chuck's rim"),
    "body-face": N_("runout of the chuck's face"),
    "work-face": N_("runout of the work's face"),
    "work-face-left": N_("runout of the work's face, as left"),
    "bell-near": N_("what the bar gives just in front of the jaws"),
    "bell-far": N_("what the bar gives far from the jaws"),
    "repeats-small-1": N_("smallest bar, first grip"),
    "repeats-small-2": N_("smallest bar, second grip"),
    "repeats-small-3": N_("smallest bar, third grip"),
    "repeats-middle-1": N_("middle bar, first grip"),
    "repeats-middle-2": N_("middle bar, second grip"),
    "repeats-middle-3": N_("middle bar, third grip"),
    "repeats-large-1": N_("largest bar, first grip"),
    "repeats-large-2": N_("largest bar, second grip"),
    "repeats-large-3": N_("largest bar, third grip"),
}
"""What a set of readings is kept as."""

TIGHTENING = {
    "ease": N_("bolts eased one stage"),
    "snug": N_("bolts snug"),
    "torque": N_("bolts to torque"),
    "touch": N_("screws touching"),
    "nip": N_("screws nipped evenly"),
    "check": N_("bolts to torque, round again"),
}
"""What a tightening did."""

DECISION = {
    "accept": N_("accepted"),
    "another-round": N_("another round"),
    "another-turn": N_("another turn to read"),
    "stop": N_("stopped"),
}
"""What a person decided at a verdict."""

VERDICT = {
    "within": N_("within tolerance"),
    "outside": N_("outside tolerance"),
    "undecided": N_("undecided: what was read does not decide it"),
}
"""The verdicts in words."""
VERDICT_WORD = {"within": N_("WITHIN"), "outside": N_("OUTSIDE"), "undecided": N_("UNDECIDED")}
"""The same in one word, to be read from some steps away."""

RULE = {"guarded": N_("guarded acceptance"), "simple": N_("simple acceptance")}
"""The decision rules."""

PLACE = {
    "making-sure": N_("making sure"),
    "paused": N_("paused"),
    "making-safe": N_("being made safe"),
    "made-safe": N_("made safe"),
    "finished": N_("finished"),
    "abandoned": N_("abandoned"),
}
"""The places of a walk that are not steps."""

ROLE = {
    "apprentice": N_("apprentice"),
    "machinist": N_("machinist"),
    "supervisor": N_("supervisor"),
}
"""The roles of persons."""
