"""What is said at the dial."""

from __future__ import annotations

from guide.plain import N_
from guide.present.trade.word import OWN, RUNS_OUT, TRADE, Word

MEASURING = (
    Word(N_("runout (TIR)"), r"run-?out|TIR|total indicator reading",
         N_("The highest less the lowest that a dial shows over one whole turn. A centre that is"
            " off by some amount shows twice that amount."), RUNS_OUT),
    Word(N_("judged runout"), r"judged(?: run-?out)?",
         N_("The runout that is held against the tolerance: what the centre being off makes of it,"
            " and what the surface is out of round beyond the noise."), OWN),
    Word(N_("fitted TIR"), r"fitted TIR",
         N_("Worked out from all the readings of a turn together, so that one bad reading weighs"
            " less than in the highest less the lowest."), OWN),
    Word(N_("eccentricity"), r"eccentric(?:ity)?|centre (?:is|being) off|off centre",
         N_("How far the middle of the bar stands from the axis it turns on: half the runout, where"
            " the bar is round."), RUNS_OUT),
    Word(N_("high spot"), r"high spots?", N_("The place where the bar comes nearest to the dial.")),
    Word(N_("form error"), r"form errors?|its form|lobes?|\w+-lobed|lobed|out of round|not round",
         N_("How far the surface itself is from round. No screw cures it, and at four positions"
            " three lobes look like a bar that is off centre."), RUNS_OUT),
    Word(N_("peak to valley"), r"peak to valley",
         N_("From the lowest to the highest of what is meant, such as of what the surface is out of"
            " round."), RUNS_OUT),
    Word(N_("tilt (wobble)"), r"tilt(?:s|ed)?|wobbl(?:e|es|ing)",
         N_("The bar points away from the axis, so that the runout changes along it. Look for dirt"
            " or a burr between the faces; a radial screw does not cure it."), RUNS_OUT),
    Word(N_("play"), r"play",
         N_("How far the spindle or the bar gives when it is pushed and pulled by hand. What is"
            " read can be no better than that.")),
    Word(N_("indicator (dial)"), r"(?:dial |test )?indicators?|dials?",
         N_("The instrument that shows how far its plunger or lever is pushed in. Its needle goes"
            " up where the surface comes nearer.")),
    Word(N_("lever indicator"), r"lever indicators?|lever type|contact angle",
         N_("A test indicator with a lever in place of a plunger. Laid steep to the surface it"
            " shows too much: keep the lever nearly along it.")),
    Word(N_("plunger"), r"plungers?",
         N_("The stem of the dial that touches the surface. It has to point at the axis, or the"
            " reading is wrong. A hole or a jaw that comes past breaks it.")),
    Word(N_("preload of the plunger"), r"preload(?:ed)?",
         N_("The plunger is pushed in a little before zero is set, so that it keeps touching all"
            " the way round.")),
    Word(N_("graduation"), r"graduations?|divisions?",
         N_("What one division of the dial is worth, as printed on its face.")),
    Word(N_("thou, tenth"), r"thous?|tenths?",
         N_("A thou is one thousandth of an inch, 0.0254 mm. A tenth is a tenth of a thou,"
            " 0.0001 in.")),
    Word(N_("zero"), r"(?<!above )(?<!below )zero",
         N_("Where the dial was set to read nothing. Read it again after a turn: if it has moved,"
            " the readings do not fit together.")),
    Word(N_("closing reading"), r"closing (?:readings?|zero)",
         N_("The first place read once more after the whole turn. If it does not come back,"
            " something moved: read the turn again.")),
    Word(N_("watched sweep"), r"watched (?:sweep|turn)|watched over a turn|lowest and highest",
         N_("The highest and the lowest seen while the spindle is turned slowly once round: they"
            " catch what lies between the positions that were read.")),
    Word(N_("hysteresis"), r"hysteresis|retrace|stick-slip",
         N_("The needle stops at one value coming up and at another going down. Come to every"
            " place from the same side.")),
    Word(N_("station"), r"stations?",
         N_("Where along the bar the dial stands, measured from the front face of the chuck."),
         OWN),
    Word(N_("test bar"), r"test bars?|ground bars?",
         N_("A round, straight, ground bar that is gripped to be read. What it is out itself cannot"
            " be told from the chuck, unless it is turned half round in the jaws and read"
            " again.")),
    Word(N_("as found, as mounted, as left"), r"as (?:found|mounted|left)",
         N_("Before anything was touched; the first readings after mounting; the last ones, after"
            " which nothing was touched."), TRADE),
)  # fmt: skip
