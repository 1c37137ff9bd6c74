"""What is said where a result is decided on and kept."""

from __future__ import annotations

from guide.plain import N_
from guide.present.trade.word import BALANCE, DOUBT, LIFT, OWN, THREAD, TRADE, Word

DECIDING = (
    Word(N_("tolerance"), r"tolerances?",
         N_("The largest runout that is allowed, by you or by the drawing."), TRADE),
    Word(N_("uncertainty (U, k = 2)"), r"(?:expanded )?uncertainty|U =|k = 2",
         N_("How far the true value may be from what was read. U at k = 2 is passed about one time"
            " in twenty."), DOUBT),
    Word(N_("guarded acceptance"), r"guarded(?: acceptance)?|guard bands?",
         N_("Accept only where the runout and a margin for its uncertainty lie within the"
            " tolerance."), DOUBT),
    Word(N_("simple acceptance"), r"simple acceptance",
         N_("Accept where the runout as read lies within the tolerance. Just at the limit it is"
            " wrong as often as right."), DOUBT),
    Word(N_("undecided"), r"undecided",
         N_("Too near the tolerance to say within or outside with what was read: read more, or read"
            " better."), DOUBT),
    Word(N_("deviation"), r"deviations?|not done as written",
         N_("A task that could not be done as it is written, with who allowed it. It makes nothing"
            " true, and a gate is never passed by one."), OWN),
    Word(N_("witness (a person)"), r"witness(?:es|ed)?",
         N_("A second person who looks for themselves that something is so, and signs or is named"
            " beside it."), OWN),
    Word(N_("recheck"), r"recheck(?:s|ed|ing)?",
         N_("Reading the chuck again as found: on its date, or at once after a crash, a remount, a"
            " touched bolt or a change of jaws."), OWN),
    Word(N_("head digest"), r"head digest|digests?",
         N_("A short line that changes with any change of the journal. Kept elsewhere it shows"
            " whether anything before it was changed or cut off."), OWN),
    Word(N_("balance grade"), r"(?:balance )?grade G|balance grades?|grade of balance",
         N_("How fast the middle of the mass of what turns may run round the axis, in mm/s. A body"
            " out of balance shakes the lathe and can throw work."), BALANCE, True),
    Word(N_("lifting index"), r"lifting ind(?:ex|ices)",
         N_("The load divided by what the lifting equation recommends at most. Above one the back"
            " is at risk; below one is no permission."), LIFT, True),
    Word(N_("nut factor K"), r"nut factors?",
         N_("One figure for all the friction of a bolt: oil or dirt changes it, and the pull of the"
            " bolt with it.")),
    Word(N_("stress area"), r"stress areas?",
         N_("The area of a thread that carries: less than that of the plain shank. A bolt pulled"
            " beyond its class breaks."), THREAD, True),
    Word(N_("engagement"), r"engage(?:d|ment)",
         N_("How much thread has hold of thread. Too little strips, and lets go what it holds."),
         TRADE, True),
)  # fmt: skip
