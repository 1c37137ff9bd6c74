"""The parts of lathe and chuck, and what is done to them."""

from __future__ import annotations

from guide.plain import N_
from guide.present.trade.word import Word

PARTS = (
    Word(N_("spindle nose"), r"spindle noses?|noses?",
         N_("The front end of the spindle, on which chucks and plates are mounted.")),
    Word(N_("cam-lock"), r"cam-?locks?|cams?",
         N_("Pins in the plate are drawn in by cams round the nose. Each has to be tight, with its"
            " line between its two marks, or the chuck can come off."), hurts=True),
    Word(N_("cam marks"),
         r"cam marks|(?:between|past|outside) (?:its|their)(?: two)? marks|line (?:still )?between",
         N_("Two marks at each cam: tight, its line stands between them. Past them it holds by"
            " chance, and the chuck can come off."), hurts=True),
    Word(N_("long taper"), r"long tapers?|key drives?|keyways?",
         N_("A nose with a long taper that centres the plate and a key that drives it. The draw nut"
            " holds it: slack, the chuck can come off."), hurts=True),
    Word(N_("draw nut"), r"draw nuts?|ring nuts?",
         N_("The large ring nut of a long-taper nose, which draws the plate onto the taper and"
            " pushes it off again.")),
    Word(N_("threaded nose"), r"threaded noses?|threaded|screws on",
         N_("The plate is screwed against a shoulder. Braking or running in reverse can unscrew the"
            " chuck, and it comes off."), hurts=True),
    Word(N_("shoulder"), r"shoulders?",
         N_("The step behind a thread or taper against which a part comes to rest. Fingers stay out"
            " of the gap: it crushes."), hurts=True),
    Word(N_("register"), r"registers?",
         N_("The turned place by which one part centres on another: the plate on the nose, the body"
            " on the plate.")),
    Word(N_("pilot"), r"pilots?",
         N_("A short turned end that leads one part into another before screws or bolts hold"
            " it. It does not hold the part: that can drop."), hurts=True),
    Word(N_("boss"), r"boss(?:es)?",
         N_("The raised round of the plate on which the adjusting screws bear.")),
    Word(N_("backplate"),
         r"back ?plates?|(?<!lathe's )(?<!maker's )(?<!name on its )(?<!name )plates?(?!, stamped)",
         N_("The plate between nose and chuck body: it fits the nose, and the body is bolted to"
            " it.")),
    Word(N_("clearance"), r"clearances?",
         N_("The room between two parts, across. A body can be shifted by half of it each way.")),
    Word(N_("adjusting screw"), r"adjusting screws?",
         N_("One of the radial screws round the rim that shift the whole chuck body across the"
            " plate, so that it runs true.")),
    Word(N_("mounting bolt"), r"mounting bolts?|bolts?",
         N_("The bolts that hold the body to the plate: snug while it is shifted, at the maker's"
            " torque before it turns under power, or the body comes off."), hurts=True),
    Word(N_("jaws"), r"jaws?",
         N_("The parts that grip. Out past the rim they hit the bed or a hand, and can be thrown"
            " out."), hurts=True),
    Word(N_("jaw marks"), r"jaw marks|inside (?:their |the |its )?marks",
         N_("How far out a jaw may stand. Past them too few teeth hold it, and it is thrown out."),
         hurts=True),
    Word(N_("bell mouth"), r"bell[- ]?mouth(?:s|ed)?",
         N_("Jaws worn wider at the front than behind: they grip at the back alone. The bar"
            " wobbles, and work can be pulled out and thrown."), hurts=True),
    Word(N_("scroll"), r"scrolls?",
         N_("The spiral that moves all jaws of a chuck together. It is truest at the diameter at"
            " which it was set.")),
    Word(N_("pinion"), r"pinions?",
         N_("A square socket for the chuck key that turns the scroll. Use the marked one every"
            " time: each centres a little differently.")),
    Word(N_("chuck key"),
         r"(?:chuck|screw) keys?|keys? (?:\w+ )?(?:out|off)|keys? left in"
         r"|keys? in(?=[,.:;]| (?:the |a )?(?:screw|chuck|pinion))",
         N_("The key that turns jaws or screws. Left in, it is thrown or strikes a hand when the"
            " spindle turns: let go of it only when it is out."), hurts=True),
    Word(N_("burr"), r"burrs?",
         N_("A raised edge that a knock left. It holds two faces apart, and is sharp enough to cut"
            " a finger."), hurts=True),
    Word(N_("witness mark"),
         r"witness marks?|marks? (?:in line|nose to plate|were used|that agree)"
         r"|numbers and marks",
         N_("Lines, dots or numbers that tell how parts went together, so that they go together in"
            " the same way again.")),
    Word(N_("swing over the bed"), r"swing over|swing-over-bed",
         N_("The largest diameter that turns clear over the bed. What is larger strikes it."),
         hurts=True),
    Word(N_("the swing"), r"(?:the|out of|in the|its) swing|swing (?:empty|of)",
         N_("The room that chuck, jaws and work sweep as they turn. A hand or a head in it is"
            " struck."), hurts=True),
    Word(N_("the plane of the chuck"),
         r"(?:the|its|chuck's|that|in the) plane|plane (?:of|in which)",
         N_("The slice of the shop in which the chuck turns. Whatever comes loose is thrown out in"
            " it: nobody stands there."), hurts=True),
)  # fmt: skip
