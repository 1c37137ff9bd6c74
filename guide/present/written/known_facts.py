"""The facts that the program takes by their name, and what each decides; what a reading takes."""

from __future__ import annotations

from guide.plain import N_

KNOWN_FACTS = {
    "lathe": N_("the lathe; it has one open setup at most"),
    "nose": N_("how a chuck fastens, which decides what holds it: long, camlock, bolted, threaded"),
    "on-nose": N_(
        "what a look is expected to find: nothing, this-plate, this-chuck (a body on a plate) or"
        " one-piece; where neither it nor chuck-kind is asked, nothing is on the nose"
    ),
    "chuck-kind": N_(
        "adjustable or independent; only where it is asked can jaws be pulled up for work, and"
        " nothing else that they grip goes under power"
    ),
    "guard-fitted": N_("yes or no; a guard that is there is shut before the power comes back"),
    "support-turns": N_("yes or no; whether a chuck may be turned while a support carries it"),
    "screw-count": N_("3, 4 or 6; the positions of a turn begin from it, and it is 4 if not asked"),
    "unit": N_("in or mm; what every reading is told in"),
    "graduation": N_("what one division is worth; without it a reading has no verdict"),
    "tolerance": N_("what every reading is judged by that has no limit of its own"),
    "NAME-limit": N_(
        "what the readings kept as NAME are judged by, and those kept as NAME-left too"
    ),
    "rule": N_("guarded or simple; guarded where it is not asked"),
    "indicator-name": N_("which indicator; one on a wire or with a calibration is found by it"),
    "lowest-speed": N_("with marked-speed what the test may-run-slow compares"),
}
"""Each with what it may be, or what it is for. Any other fact is asked, recorded and looked at by
conditions, and decides nothing else."""

TAKEN = {
    "play": N_("a push and a pull"),
    "turn": N_("a turn, position by position, and perhaps one watched"),
    "watched": N_("the lowest and the highest of a turn that is watched"),
    "pair": N_("one value at one screw"),
    "two-stations": N_("a turn at each of two stations"),
    "face": N_("a turn on a face, with the spindle pressed back"),
    "along": N_("a near and a far value along a bar"),
}
"""Each kind of reading."""
