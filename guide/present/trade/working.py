"""What is done: snugging, correcting, tightening, isolating, lifting."""

from __future__ import annotations

from guide.plain import N_
from guide.present.trade.word import ISOLATION, OWN, Word

WORKING = (
    Word(N_("snug"), r"snug(?:ged|ging)?",
         N_("Just tight enough that the body lies on the plate all round and cannot rock or drop,"
            " and loose enough that a screw still shifts it. Never run it so: it comes off."),
         hurts=True),
    Word(N_("nip"), r"nip(?:s|ped|ping)?",
         N_("Turn a screw or bolt just past touching, all of them alike, so that none can work"
            " loose and fly out."), hurts=True),
    Word(N_("bring to"), r"bring (?:the dial |the needle )?to",
         N_("The value at which the dial has to stop while a screw is turned: there this pair is"
            " centred.")),
    Word(N_("half the difference"), r"half-difference|half (?:their|the) difference",
         N_("Two readings half a turn apart: halfway between them is where the dial has to come.")),
    Word(N_("cross order"), r"cross order|across and across|in a cross|crosswise",
         N_("One bolt, then the one across, so that the body is pulled flat and not to one side."
            " Three bolts have no across: go round in small stages.")),
    Word(N_("check pass"), r"check pass(?:es)?|once more at full torque",
         N_("One more round at full torque until no bolt moves any more.")),
    Word(N_("isolate"), r"isolat(?:e|es|ed|ing|ion|or|ors)",
         N_("Cut the power where it cannot come back, or the lathe starts with your hand in it: the"
            " isolator locked off with your own lock, or the plug in your own hand. An emergency"
            " stop is none."), ISOLATION, True),
    Word(N_("own lock (lockout)"), r"(?:his or her |my |your |own )+locks?|locked? off|lock-?outs?",
         N_("A padlock of your own on the isolator whose key you carry. Only you take it off;"
            " without it somebody can start the lathe with your hand in the chuck."),
         ISOLATION, True),
    Word(N_("discharge time"), r"discharge times?|to discharge|drain time",
         N_("How long the drive of a lathe holds a charge after the power is cut. Before that it"
            " can shock and kill; the maker gives the time."), ISOLATION, True),
    Word(N_("guard"), r"guards?",
         N_("The cover over the chuck: shut before the spindle starts, or what is thrown reaches"
            " you."), hurts=True),
    Word(N_("support"), r"supports?|supported",
         N_("What carries the chuck so that both hands can leave it. Hands alone are none: a chuck"
            " that drops crushes."), OWN, True),
    Word(N_("cradle"), r"cradles?",
         N_("Blocks cut to the chuck's round, standing on a board over the bed, that carry it at"
            " the height of the spindle. Fingers stay out from between: it crushes."), hurts=True),
    Word(N_("sling"), r"slings?",
         N_("A strap for lifting. The wider its legs stand apart, the harder each is pulled. Nobody"
            " stands under what hangs: it can drop."), hurts=True),
    Word(N_("handling bar"), r"handling bars?",
         N_("A bar gripped in the jaws to carry the chuck by. It bends where the chuck is too heavy"
            " for it, and what it carries can drop."), hurts=True),
    Word(N_("made safe"), r"made safe",
         N_("Left so that nothing hangs, nothing can start, and nothing can drop: then it may be"
            " left alone."), OWN, True),
    Word(N_("making sure"), r"making sure|made sure",
         N_("The stop at which the whole machine is looked at again, line by line, because"
            " somebody may have changed or started it meanwhile."), OWN, True),
)  # fmt: skip
